"""Random cables that share unproven places, and what follows of one outcome, worked out the slow way."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import product
from random import Random
from types import MappingProxyType

from drawcord.plan.alternatives import Alternative, Alternatives, Unproven
from drawcord.plan.looking import Step

Outcome = Mapping[str, bool]  # whether each place is clear


def some_bans(seed: int, cables, things: int):
    """What some of these cables may not all use, and the cables, with routes that use some of it."""
    rng = Random(seed)  # noqa: S311 - any will do
    names = [cable.cable for cable in cables]
    bans = sorted({
        (f"t{rng.randrange(things)}", tuple(sorted(rng.sample(names, min(len(names), rng.choice((2, 2, 3)))))))
        for _ in range(rng.randint(1, 4))
    })
    def using(route):
        return replace(route, spaces=tuple(f"t{n}" for n in range(things) if rng.random() < 0.5))

    using_some = [replace(cable, routes=tuple(using(route) for route in cable.routes)) for cable in cables]
    return using_some, bans


def with_plan(seed: int, cables, bans):
    """The same, one route of each planned, so that they may go together; None where none do."""
    rng = Random(seed)  # noqa: S311 - any will do
    plans = [routes for routes in product(*(cable.routes for cable in cables)) if _legal(cables, routes, bans)]
    if not plans:
        return None
    plan = rng.choice(plans)
    return [
        replace(cable, routes=tuple(replace(one, planned=one is wanted) for one in cable.routes))
        for cable, wanted in zip(cables, plan, strict=True)
    ]


def _legal(cables, routes, bans):
    taken = {cable.cable: route for cable, route in zip(cables, routes, strict=True)}
    return not any(all(taken[name] and thing in taken[name].spaces for name in names) for thing, names in bans)


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


def worked(cables, unproven, known: dict[str, bool], outcome: Outcome, bans=(), *, sure: bool = False):
    """The time of work if this is how things are and one goes to work knowing so much, and each cable's route.

    And how many routes were done, and had to be done again.
    """
    known, seconds, done, again = dict(known), 0, {}, 0
    while True:
        choice = best(cables, unproven, known, bans, done, sure=sure)
        stand = {name: route for name, route in done.items() if choice[name] is route}
        again, done = again + len(done) - len(stand), stand
        to_do = [cable.cable for cable in cables if choice[cable.cable] and cable.cable not in done]
        if not to_do:
            break
        route = choice[to_do[0]]
        met = next((spent for name, spent in route.meets if not _learn(known, outcome, name)), None)
        seconds += route.seconds if met is None else met
        if met is None:
            done[to_do[0]] = route
    for cable in cables:  # lost to the others, it counts as its slowest
        if choice[cable.cable] is None and _open(cable, known):
            seconds += max(route.seconds for route in cable.routes)
    return seconds, tuple(choice[cable.cable] for cable in cables), again


def best(cables, unproven, known, bans=(), done: Mapping[str, Alternative] = MappingProxyType({}), *, sure=False):
    """The choice of routes while so much is known: every one is tried. What is done stays, if as many have a way."""
    doubt = {name: 0 if sure else place.weight for name, place in unproven.items()}

    def weight(routes, known):
        unknown = {name for route in routes if route for name, _ in route.meets if name not in known}
        return sum(route.weight for route in routes if route) + sum(doubt[name] for name in unknown)

    def tried(stay, known):
        found = []
        offered = [
            [stay[cable.cable]] if cable.cable in stay else [*_open(cable, known), None] for cable in cables
        ]
        for routes in product(*offered):
            if _legal(cables, routes, bans):
                numbers = [
                    1e9 if route is None else _number(cable, route) for cable, route in zip(cables, routes, strict=True)
                ]
                found.append(((routes.count(None), weight(routes, known), numbers), routes))
        return min(found, key=lambda one: one[0])

    staying, free = tried(done, known), tried({}, known)
    best_ = staying[1] if staying[0][0] == free[0][0] else free[1]
    plan = tuple(route for cable in cables for route in cable.routes if route.planned)
    if plan and all(route in _open(cable, known) for cable, route in zip(cables, plan, strict=True)):
        stands = all(done.get(cable.cable) in (None, route) for cable, route in zip(cables, plan, strict=True))
        ahead = weight(plan, {}) - tried({}, {})[0][1]  # by so much the plan may weigh more, and still stand
        if stands and weight(plan, known) - ahead <= weight(best_, known):
            best_ = plan
    return {cable.cable: route for cable, route in zip(cables, best_, strict=True)}


def _number(cable, route):
    return next(number for number, one in enumerate(cable.routes) if one is route)


def _open(cable, known):
    return [route for route in cable.routes if all(known.get(name, True) for name, _ in route.meets)]


def lightest(cable, unproven, known, *, sure: bool = False):
    """The route to choose while so much is known."""
    return best([cable], unproven, known, sure=sure)[cable.cable]


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
