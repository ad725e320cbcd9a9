"""The joint plan of small coaches against looking at every combination of every route, and its rules one by one."""

from itertools import combinations, pairwise, product
from math import dist, prod

import pytest
from random_nets import all_paths

import sketch
from drawcord.coach.build import build
from drawcord.files.tables import conductors
from drawcord.plan.bundle import NARROW, bore, free, room
from drawcord.plan.joint import jointly
from drawcord.routes.compare import compare
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria
from drawcord.routes.weighing import score, weights
from drawcord.ways.links import crossing_seconds, micronats
from drawcord.ways.ways import explore
from random_coaches import random_coach

CONDUCTORS = conductors()
SIZES, SEEDS = (4, 5), 160
MOST_PLANS = 700  # of a coach with more only two cables are planned, or it is left out: the oracle looks at all


def ways_of(spaces: int, seed: int, plug: int = 20):
    """A random coach with a third cable, of the antenna kind, from the roof to the router."""
    rig, job = random_coach(spaces, seed)
    cables = {name: cable.model_copy(update={"largest_plug": plug}) for name, cable in job.cables.items()}
    job = job.model_copy(update={"cables": cables})
    down = job.cables["link"].model_copy(update={"start": "junction.pv", "end": "router.data", "carries": "coax"})
    job = job.model_copy(update={"cables": {**job.cables, "down": down}})
    return explore(build(rig, job, sketch.shop()))


def routed(ways):
    """The orders of the cables that have a way, and not too many, with what the comparison says."""
    found = []
    for name in sorted(ways.coach.job.cables):
        order = Order(ways, name, CONDUCTORS)
        ends = (order.cable.start, order.cable.end)
        barred = any(ways.coach.spaces[ways.coach.terminals[end].space].barred for end in ends)
        if not barred and few_ways(Netted(order).net) and (answer := compare(order)).candidates:
            found.append((order, answer))
    return found


class Plans:
    """Every way of each cable on the graph, and what a combination of them weighs, from nothing but its stations."""

    def __init__(self, orders):
        self.orders = orders
        self.ways, self.coach = orders[0].ways, orders[0].coach
        self.by = Criteria(*weights(self.coach))
        self.each = []
        for order in orders:
            netted = Netted(order)
            base = netted.base
            paths = all_paths(netted.net)
            whole = [Criteria(*map(sum, zip(base, path.vector, strict=True))) for path in paths]
            told = [(netted.stations(path.states), netted.net.order(path.states)) for path in paths]
            named = [(stations, [netted.spaces[number] for number in spaces]) for stations, spaces in told]
            self.each.append([(one, *way) for one, way in zip(whole, named, strict=True)])

    def count(self):
        return prod(map(len, self.each))

    def spot(self, station):
        """What two stations have in common where they are one place."""
        found = self.ways.stations[station]
        return found.passage, tuple(found.mouths[space] for space in sorted(found.mouths)), found.largest

    def runs(self, number, way):
        """The millimetres of raceway that a way lies in."""
        order = self.orders[number]
        _, stations, spaces = way
        ends = [self.coach.terminals[end].point for end in (order.cable.start, order.cable.end)]
        stops = [ends[0]]
        for station, (here, there) in zip(stations, pairwise(spaces), strict=True):
            mouths = self.ways.stations[station].mouths
            stops += [mouths[here], mouths[there]]
        stops.append(ends[1])
        found = set()
        for space, p, q in zip(spaces, stops[::2], stops[1::2], strict=True):
            if self.coach.spaces[space].kind == "room":
                for a, b in pairwise(self.ways.path(space, p, q)):
                    axis = next((axis for axis in (0, 1, 2) if a[axis] != b[axis]), 0)
                    along = range(min(a[axis], b[axis]), max(a[axis], b[axis]))
                    found.update(product([space], [axis], [a[:axis] + a[axis + 1 :]], along))
        return found

    def weight(self, plan, lain):
        """What a plan weighs, or nothing where it breaks a rule."""
        by, cables = self.by, [order.cable for order in self.orders]
        crossed, entered = {}, {}
        for number, (_, stations, spaces) in enumerate(plan):
            for station in stations:
                crossed.setdefault(self.spot(station), []).append(number)
            for space in spaces:
                entered.setdefault(space, []).append(number)
        through = {}
        for number, (_, stations, _) in enumerate(plan):
            for station in stations:
                through.setdefault(self.ways.stations[station].passage, []).append(number)
        kinds = ["data or coax" if cable.carries in ("data", "coax") else cable.carries for cable in cables]
        total = sum(score(whole, by) for whole, _, _ in plan)
        for (name, _, largest), numbers in crossed.items():
            passage = self.ways.passages[name]
            if len({kinds[number] for number in numbers}) > 1:
                return None
            if passage.hole:
                if len(numbers) > 1 and bore([cables[n] for n in numbers]) + 2 > largest:
                    return None
                made = crossing_seconds(passage, self.coach) - self.coach.shop.labour.opening
                hole = by.roof_holes if passage.hole == "roof" else by.inner_holes
                total -= (len(numbers) - 1) * (hole + by.seconds * made)
        for one, other in combinations(crossed, 2):
            if one[0] == other[0] and self.ways.passages[one[0]].hole:
                apart = min(dist(p, q) for p, q in zip(one[1], other[1], strict=True))
                if 2 * apart < sum(bore([cables[n] for n in crossed[here]]) + 2 for here in (one, other)):
                    return None  # the holes run into each other
        for name, numbers in through.items():
            passage = self.ways.passages[name]
            mixed = len({kinds[number] for number in numbers}) > 1
            sized = passage.opening == "exists" and passage.size
            if sized and (mixed or bore([cables[number] for number in numbers]) > passage.size):
                return None
            total -= (len(numbers) - 1) * by.doubt * micronats(passage.chance)
        for name, numbers in entered.items():
            space, entering = self.coach.spaces[name], self.ways.links.entering[name]
            mixed = len({kinds[number] for number in numbers}) > 1
            tight = space.kind in NARROW and len(numbers) > 1
            if tight and (mixed or room([cables[number] for number in numbers]) > free(space)):
                return None
            total -= (len(numbers) - 1) * (by.seconds * entering.seconds + by.doubt * entering.doubt)
        if sum(map(bool, lain)) < 2:
            return total
        for one, other in combinations(range(len(plan)), 2):
            if kinds[one] != kinds[other] and lain[one] & lain[other]:
                return None
        return total - by.in_sight * (sum(map(len, lain)) - len(set().union(*lain)))

    def least(self, *, hidden):
        """The least weight of all plans; `hidden`: cables that must stay out of sight."""
        ways = [
            [(way, self.runs(n, way)) for way in some if not (n in hidden and way[0].in_sight)]
            for n, some in enumerate(self.each)
        ]
        found = (self.weight([way for way, _ in plan], [lain for _, lain in plan]) for plan in product(*ways))
        return min((weight for weight in found if weight is not None), default=None)


def few_enough(pairs):
    """As many of the cables as can be looked at in every combination, two at least, and all their plans."""
    for some in (pairs, pairs[:2], pairs[1:], pairs[::2]):
        if len(some) > 1 and (plans := Plans([order for order, _ in some])).count() <= MOST_PLANS:
            return some, plans
    return pairs, None


def few_ways(net) -> bool:
    """Whether walking all ways of a net is quick: partial ways are counted, at most so many."""
    onward = {}
    for tail, head in zip(net.tail.tolist(), net.head.tolist(), strict=True):
        onward.setdefault(tail, []).append(head)
    stack, count = [(net.start, frozenset([net.space[net.start]]))], 0
    while stack and count <= 2 * MOST_PLANS:
        state, entered = stack.pop()
        count += 1
        further = [head for head in onward.get(state, []) if net.space[head] not in entered]
        stack += [(head, entered | {net.space[head]}) for head in further]
    return not stack


@pytest.mark.parametrize(("spaces", "plug"), [*((spaces, 20) for spaces in SIZES), (5, 150)])
def test_every_combination_of_every_route(spaces, plug):
    """The model's plan weighs what the lightest of all combinations weighs, and both refuse the same jobs.

    With plugs of 150 mm holes soon run into each other, and seldom fit two cables.
    """
    looked = shared = 0
    for seed in range(SEEDS):
        ways = ways_of(spaces, seed, plug)
        pairs = routed(ways)
        pairs, plans = few_enough(pairs)
        if plans is None:
            continue
        joint = jointly(pairs, {}, lambda _: {})
        agreed = "raceway in sight" in ways.coach.job.owner.consents
        quiet = {n for n, (_, answer) in enumerate(pairs) if answer.candidates[0].route.agreed and not agreed}
        least = None
        for size in range(len(quiet) + 1):
            tried = [plans.least(hidden=quiet - set(shown)) for shown in combinations(sorted(quiet), size)]
            least = min((weight for weight in tried if weight is not None), default=None)
            if least is not None:
                break
        looked += 1
        assert joint.proved
        if least is None:
            assert joint.left_out
            continue
        assert not joint.left_out
        assert joint.weight == joint.bound == least, (spaces, seed)
        alone = sum(min(score(way[0], plans.by) for way in some) for some in plans.each)
        shared += least < alone
    assert looked > 8
    assert shared > 3 or plug > 20, "too few coaches in which cables share anything"


def test_one_cable_alone_weighs_what_the_comparison_says():
    """With nobody to share with, the joint plan is the lightest route of the graph."""
    for seed in range(20):
        for order, answer in routed(ways_of(7, seed)):
            joint = jointly([(order, answer)], {}, lambda _: {})
            netted = Netted(order)
            agreed = "raceway in sight" in order.coach.job.owner.consents or not answer.candidates[0].route.agreed
            paths = [p for p in all_paths(netted.net) if agreed or not Criteria(*p.vector).in_sight]
            whole = [Criteria(*map(sum, zip(netted.base, path.vector, strict=True))) for path in paths]
            assert joint.weight == min(score(one, weights(order.coach)) for one in whole)
