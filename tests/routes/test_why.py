"""Why not that way: every reason held against enumeration on small random coaches, everything made anew."""

from collections import Counter
from dataclasses import dataclass, replace
from random import Random

import pytest
from wishes import MOST_PATHS, all_paths, asked, order_of

import sketch
from drawcord.coach.job import Found
from drawcord.coach.rig import Passage
from drawcord.routes.bars import chart
from drawcord.routes.compare import compare
from drawcord.routes.measure import measure
from drawcord.routes.netting import Netted
from drawcord.routes.offer import rank
from drawcord.routes.order import Order
from drawcord.routes.weighing import weights
from drawcord.routes.why import Why, why
from drawcord.routes.wished import Wish

SEEDS = 14  # for each size, with two cables and four forms of route each; more have been run by hand


@dataclass(frozen=True)
class Case:
    """A question with its answer, and every path of the coach."""

    order: Order
    wish: Wish
    answer: Why
    netted: Netted
    paths: list[tuple[int, ...]]

    @property
    def of_form(self):
        """The paths of the form asked about."""
        spaces, net = self.netted.spaces, self.netted.net
        return [path for path in self.paths if self.wish.holds([spaces[place] for place in net.order(path)])]

    def measured(self, path):
        return measure(self.order, self.netted.stations(path))


@pytest.mark.parametrize("spaces", [5, 7, 9])
def test_reasons_against_enumeration(spaces):
    """Each verdict is what all paths of the coach say, and what it claims to change does change it."""
    kinds = Counter()
    for seed in range(SEEDS):
        for rig, job, order, wishes in asked(spaces, seed):
            netted = Netted(order)
            paths = all_paths(netted)
            for wish in wishes:
                answer = why(order, wish)
                kinds[answer.verdict] += 1
                if len(paths) < MOST_PATHS:
                    CHECKS[answer.verdict](Case(order, wish, answer, netted, paths))
                for change, holds in ((answer.change, wins), (answer.opens, is_open)):
                    if change:
                        kinds["changes"] += 1
                        check_change(rig, job, order, wish, change, holds, answer.best)
                if answer.verdict == "efficient" and answer.sway.weights:
                    kinds["weights"] += 1
                    check_weights(rig, job, order, wish, answer)
    assert set(kinds) >= {"wins", "beaten", "broken", "efficient", "changes", "weights"}


def check_wins(case):
    """The comparison's own winner is of the form."""
    winner = compare(case.order).candidates[0].route
    assert case.wish.holds(winner.spaces)
    assert case.answer.best == winner


def check_equal(case):
    """Neither is better."""
    assert not case.wish.holds(case.answer.rival.spaces)
    assert case.answer.best.criteria == case.answer.rival.criteria


def check_beaten(case):
    """What beats it is a route of the coach, and nowhere worse."""
    check_best(case)
    rival = case.answer.rival
    assert rival.stations in {case.netted.stations(path) for path in case.paths}
    again = measure(case.order, rival.stations)
    assert again.criteria == rival.criteria
    assert again.reachable
    assert better(again.criteria, case.answer.best.criteria)


def check_efficient(case):
    """No path of the graph beats it there; where there are no weights, the limits are what they are said to be."""
    check_best(case)
    assert not case.wish.holds(compare(case.order).candidates[0].route.spaces)
    own = next(path for path in case.paths if case.netted.stations(path) == case.answer.best.stations)
    vector = case.netted.net.vector(own)
    ahead = [path for path in case.paths if better(case.netted.net.vector(path), vector)]
    assert not any(case.measured(path).reachable for path in ahead)
    if not case.answer.sway.weights:
        check_limits(case)


def check_limits(case):
    """No weights drawn at random make it lightest; within the limits nothing ranks before it, and fewer let it in."""
    best, by = case.answer.best, weights(case.order.coach)
    able = [route for path in case.paths if (route := case.measured(path)).reachable]
    routes = [route for route in able if route.agreed or not best.agreed]  # what could win at all
    rng = Random(0)  # noqa: S311 - any weights will do
    for _ in range(200):
        drawn = [rng.random() ** 4 / (1 + most) for most in best.criteria]
        assert any(weighed(route.criteria, drawn) <= weighed(best.criteria, drawn) for route in routes if route != best)
    places = [best.criteria._fields.index(name) for name in case.answer.limits]

    def ahead(kept):
        within = [route for route in routes if all(route.criteria[at] <= best.criteria[at] for at in kept)]
        willing = [replace(route, agreed=True) for route in within]
        return [route for route in willing if rank(route, by) < rank(replace(best, agreed=True), by)]

    assert not ahead(places)
    assert all(ahead([other for other in places if other != place]) for place in places)


def check_broken(case):
    """No path of the coach is of this form with joints in reach, and what is named is barred there or out of reach."""
    assert not any(case.measured(path).reachable for path in case.of_form)
    assert case.answer.breaches
    bars = {bar.place for steps in chart(case.order).steps.values() for step in steps for bar in step.bars}
    for breach in case.answer.breaches:
        assert breach.place in bars or case.of_form or any(words in breach.sentence for words in UNMET)


UNMET = (
    "do not touch",
    "no entry",
    "only at an edge",
    "have no face",
    "share no side",
    "more than once",
    "dead end",
    "touches no other",
    "no chain",
    "the owner has not agreed",
)
CHECKS = {
    "wins": check_wins,
    "equal": check_equal,
    "beaten": check_beaten,
    "efficient": check_efficient,
    "broken": check_broken,
}


def check_best(case):
    """The best of the form is of the form, and weighs no more than the lightest path of the form, pulled tight."""
    best, net = case.answer.best, case.netted.net
    assert case.wish.holds(best.spaces)
    by = weights(case.order.coach)
    lightest = min(case.of_form, key=lambda path: (weighed(net.vector(path), by), net.vector(path), path))
    route = case.measured(lightest)
    assert not route.reachable or rank(best, by) <= rank(route, by)


def check_change(rig, job, order, wish, change, holds, best):
    """Making the change does what is claimed; nothing that asks for less effort, nor a millimetre less, does it."""
    assert holds(made(rig, job, order, change, change.amount), wish)
    if change.amount > 1 and change.effort in (2, 6):
        assert not holds(made(rig, job, order, change, change.amount - 1), wish)
    places = {*best.spaces, *best.passages} if best else {*wish.spaces, *wish.through}
    if change.effort > 0:
        known = {**order.coach.spaces, **order.ways.passages}
        for name in sorted(places & set(known)):
            if known[name].standing == "unproven":
                found = [*job.differences.found, Found(what=name, standing="proven")]
                proven = job.model_copy(update={"differences": job.differences.model_copy(update={"found": found})})
                assert not holds(order_of(rig, proven, order.name), wish)
    if change.effort > 1 and any(name in order.ways.rooms for name in places):
        for consent in ("raceway in sight", "roof into room"):
            owner = job.owner.model_copy(update={"consents": [*job.owner.consents, consent]})
            assert not holds(order_of(rig, job.model_copy(update={"owner": owner}), order.name), wish)


def made(rig, job, order, change, amount):
    """The change made by hand, from what it names."""
    differences, owner, cable = job.differences, job.owner, job.cables[order.name]
    update = {}
    if change.effort == 0 or (change.effort == 3 and "after all" in change.sentence):
        found = [*differences.found, Found(what=change.place, standing="proven")]
        update = {"differences": differences.model_copy(update={"found": found})}
    elif change.effort == 1:
        wanted = "roof into room" if "straight into" in change.sentence else "raceway in sight"
        update = {"owner": owner.model_copy(update={"consents": [*owner.consents, wanted]})}
    elif change.effort == 2:
        piece = "piece" in change.sentence
        key, value = (
            ("longest_piece", cable.longest_piece + amount) if piece else ("largest_plug", cable.largest_plug - amount)
        )
        update = {"cables": {**job.cables, order.name: cable.model_copy(update={key: value})}}
    elif change.effort in (3, 4):
        passage = order.ways.passages.get(change.place)
        written = rig.passages.get(change.place)
        between = list(written.between) if written else [passage.a, passage.b]
        entry = {"between": between, "opening": "exists", "standing": "proven"}
        if change.amount:
            entry["size"] = f"{cable.largest_plug} mm"
        name = change.place if written else "made-by-hand"
        passages = {**differences.passages, name: sketch.model(Passage, entry)}
        update = {"differences": differences.model_copy(update={"passages": passages})}
    elif change.effort == 5:
        spaces = {**differences.spaces, change.place: rig.spaces[change.place].model_copy(update={"filled": []})}
        update = {"differences": differences.model_copy(update={"spaces": spaces})}
    else:
        section = "hazards" if change.place in rig.hazards else "roof_obstacles"
        things = order.coach.hazards if section == "hazards" else order.coach.obstacles
        thing = things[change.place]
        kept = thing.box.x0 - thing.keep.x0 - amount
        entry = getattr(rig, section)[change.place].model_copy(update={"clearance": kept})
        update = {"differences": differences.model_copy(update={section: {change.place: entry}})}
    return order_of(rig, job.model_copy(update=update), order.name)


def check_weights(rig, job, order, wish, answer):
    """With the weights in the job, as a person would write them, a comparison of everything anew has it win."""
    consents = [*job.owner.consents, *(["raceway in sight"] if answer.consent else [])]
    owner = job.owner.model_copy(update={"weights": answer.sway.weights, "consents": consents})
    again = order_of(rig, job.model_copy(update={"owner": owner}), order.name)
    assert wish.holds(compare(again).candidates[0].route.spaces)


def wins(order, wish):
    candidates = compare(order).candidates
    return bool(candidates) and wish.holds(candidates[0].route.spaces)


def is_open(order, wish):
    return why(order, wish).best is not None


def better(one, other):
    return one != other and all(a <= b for a, b in zip(one, other, strict=True))


def weighed(vector, by):
    return sum(weight * cost for weight, cost in zip(by, vector, strict=True))
