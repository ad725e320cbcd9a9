"""Random cables that share unproven places, and what follows of one outcome, worked out the slow way."""

from collections.abc import Mapping
from itertools import product
from random import Random

from drawcord.plan.alternatives import Alternative, Alternatives, Unproven
from drawcord.plan.looking import Step

Outcome = Mapping[str, bool]  # whether each place is clear


def some_cables(seed: int, places: int, cables: int, routes: int):
    """Cables of up to so many routes each, and the places; some routes meet none, some tie in weight."""
    rng = Random(seed)  # noqa: S311 - any will do
    ids = [f"p{number:02}" for number in range(places)]
    unproven = {
        name: Unproven(name, rng.choice((0.2, 0.5, 0.6, 0.9)), rng.randint(0, 4) * 100, rng.randint(1, 6), name)
        for name in ids
    }
    made = []
    for number in range(cables):
        cable, found = f"c{number}", []
        for _ in range(rng.randint(0 if cables > 1 else 1, routes)):
            done, meets = 0, []
            for name in rng.sample(ids, rng.randint(0, min(places, 4))):
                done += rng.randint(0, 40)
                meets.append((name, done))
            cut = rng.randint(1, 9) * 1000
            weight, work = rng.randint(1, 8) * 100, done + rng.randint(1, 30)
            found.append(Alternative(cable, (), weight, work, tuple(meets), (cut - 100, cut, cut + 200)))
        found.sort(key=lambda one: one.weight)
        made.append(Alternatives(cable, tuple(found)))
    return made, unproven


def outcomes_of(unproven):
    """Every outcome with its chance."""
    names = sorted(unproven)
    for clear in product((True, False), repeat=len(names)):
        chance = 1.0
        for name, is_clear in zip(names, clear, strict=True):
            chance *= unproven[name].chance if is_clear else 1 - unproven[name].chance
        yield dict(zip(names, clear, strict=True)), chance


def worked(cables, unproven, known: dict[str, bool], outcome: Outcome, *, sure: bool = False):
    """The time of work if this is how things are and one goes to work knowing so much, and each cable's route."""
    known, seconds, chosen = dict(known), 0, []
    for cable in cables:
        route = None
        while (route := lightest(cable, unproven, known, sure=sure)) is not None:
            met = next(((name, done) for name, done in route.meets if not _learn(known, outcome, name)), None)
            if met is None:
                seconds += route.seconds
                break
            seconds += met[1]
        chosen.append(route)
    return seconds, tuple(chosen)


def lightest(cable, unproven, known, *, sure: bool = False):
    """The route to choose while so much is known."""
    open_ = [route for route in cable.routes if all(known.get(name, True) for name, _ in route.meets)]
    doubt = {name: 0 if sure else place.weight for name, place in unproven.items()}
    return min(
        open_,
        key=lambda route: route.weight + sum(doubt[name] for name, _ in route.meets if name not in known),
        default=None,
    )


def followed(step: Step, outcome: Outcome):
    """The time of looking by a card, and what is known in the end, if this is how things are."""
    known, seconds = {}, 0
    while step.look:
        known[step.look.id] = outcome[step.look.id]
        seconds += step.look.seconds
        step = step.clear if outcome[step.look.id] else step.blocked
    return seconds, known


def _learn(known, outcome, name) -> bool:
    known[name] = outcome[name]
    return outcome[name]
