"""What is needed over all outcomes of twelve unproven places, against a search for each of the 2^12 outcomes.

    python tests/bench/bench_outcomes.py

On generated coaches (tests/random_coaches.py), the policy being "take the best that turns out clear". Twelve places
of the best routes are made unproven, all others proven. Both sides begin with the cable's net; what they say may
differ by 1e-9 at most. The peer is drawcord's own quickest search of one route, once an outcome. Processor time.
The goals: 20 times faster on 30 spaces, 5 times on 120.
"""

# ruff: noqa: T201 - a benchmark prints

import sys
import time
from dataclasses import replace
from itertools import product
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1]))

from standing import Line, standing

from drawcord.coach.build import build
from drawcord.coach.coach import Coach
from drawcord.coach.job import Found
from drawcord.files.load import load_shop
from drawcord.plan.alternatives import Alternative, Alternatives, unproven
from drawcord.plan.going import NO_WAY, Going
from drawcord.plan.knowing import Knowing
from drawcord.routes.different import lightest
from drawcord.routes.doubtful import doubtful
from drawcord.routes.net import Net
from drawcord.routes.net import Path as Way
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.weighing import weights
from drawcord.ways.ways import explore
from random_coaches import random_coach

PLACES, CABLE = 12, "link"
Chances = dict[int | None, float]  # by weight of the route in the end; None for no way


def knowing(coach: Coach, facts: dict[str, str]) -> Coach:
    """The coach with these standings and no other doubt."""
    job = coach.job
    found = [Found(what=name, standing=how) for name, how in sorted(facts.items())]
    differences = job.differences.model_copy(update={"found": found})
    owner = job.owner.model_copy(update={"consents": ["raceway in sight"]})
    return build(coach.rig, job.model_copy(update={"differences": differences, "owner": owner}), coach.shop)


def doubted(coach: Coach) -> Order:
    """The cable in a coach where twelve places of its best routes are unproven, and all else is proven."""
    order = Order(explore(knowing(coach, {})), CABLE, ())
    proven = {name: "proven" for name, space in order.coach.spaces.items() if space.standing == "unproven"}
    proven |= {name: "proven" for name, passage in order.ways.passages.items() if passage.standing == "unproven"}
    ends = {order.coach.terminals[end].space for end in (order.cable.start, order.cable.end)}
    chosen: list[str] = []
    while len(chosen) < PLACES:
        now = Order(explore(knowing(coach, proven | dict.fromkeys(chosen, "blocked"))), CABLE, ())
        netted = Netted(now)
        path = lightest(netted.net, by(now))
        assert path, "this coach has too few routes"
        mouths = [netted.mouths[state] for state in path.states]
        places = [name for mouth in mouths[1:] for name in (mouth.passage, mouth.space) if name]
        new = [name for name in dict.fromkeys(places) if name not in ends and name != "roof"]
        chosen += new[: min(2, PLACES - len(chosen))]  # two of each, so that routes share places
    return Order(explore(knowing(coach, proven | dict.fromkeys(chosen, "unproven"))), CABLE, ())


def by(order: Order) -> tuple[int, ...]:
    """The weights, doubt left out."""
    return (*weights(order.coach)[:-1], 0)


def weight(order: Order, path: Way) -> int:
    return sum(a * b for a, b in zip(by(order), path.vector, strict=True))


def met(order: Order, netted: Netted, path: Way) -> tuple[tuple[str, int], ...]:
    mouths = [netted.mouths[state] for state in path.states]
    names = [mouths[0].space, *(name for mouth in mouths[1:] for name in (mouth.passage, mouth.space) if name)]
    spaces, passages = order.coach.spaces, order.ways.passages
    return tuple((n, 0) for n in dict.fromkeys(names) if (spaces.get(n) or passages[n]).standing == "unproven")


def factored(order: Order, netted: Netted) -> Chances:
    """Ours."""
    found = doubtful(order, netted)
    assert found.complete
    routes = tuple(
        Alternative(CABLE, (), weight(order, path), 0, met(order, netted, path), (0, 0, 0)) for path in found.paths
    )
    knowing_ = Knowing([Alternatives(CABLE, routes)], unproven(order.coach, [order]), sure=True)
    chances: Chances = {}
    for (number,), chance in Going(knowing_).cases(knowing_.first()).items():
        key = None if number == NO_WAY else routes[number].weight
        chances[key] = chances.get(key, 0.0) + chance
    return chances


def enumerated(order: Order, netted: Netted) -> Chances:
    """Every outcome searched by itself, on a net without the arcs that are blocked."""
    net = netted.net
    places = unproven(order.coach, [order]).values()
    through = []
    for place in places:
        blocked = np.array([place.id in (mouth.space, mouth.passage) for mouth in netted.mouths])
        blocked[[net.start, net.goal]] = False
        through.append(~(blocked[net.head] | blocked[net.tail]))
    chances: Chances = {}
    for outcome in product((True, False), repeat=len(through)):
        chance, kept = 1.0, np.ones(len(net.tail), np.bool_)
        for clear, place, arcs in zip(outcome, places, through, strict=True):
            chance *= place.chance if clear else 1 - place.chance
            if not clear:
                kept &= arcs
        now: Net = replace(net, tail=net.tail[kept], head=net.head[kept], cost=net.cost[kept])
        path = lightest(now, by(order))
        key = None if path is None else weight(order, path)
        chances[key] = chances.get(key, 0.0) + chance
    return chances


def main() -> list[Line]:
    """Coaches whose routes go by so many places, found by trying."""
    shop, _ = load_shop()
    lines = []
    for spaces, goal, seeds in ((30, 20, (54, 76, 80)), (120, 5, (3,))):
        ratios: list[float] = []
        for seed in seeds:
            rig, job = random_coach(spaces, seed)
            order = doubted(build(rig, job, shop))
            netted = Netted(order)
            begin = time.process_time()
            ours = factored(order, netted)
            between = time.process_time()
            theirs = enumerated(order, netted)
            ended = time.process_time()
            assert ours.keys() == theirs.keys()
            worst = max(abs(ours[key] - theirs[key]) for key in theirs)
            assert worst < 1e-9
            ratios.append((ended - between) / (between - begin))
            print(
                f"generated, {spaces} spaces, seed {seed}: {PLACES} unproven places, {len(ours)} routes in the "
                f"end, no way {theirs.get(None, 0.0):.3f}, off by {worst:.0e}; factored in "
                f"{1e3 * (between - begin):.0f} ms, {ratios[-1]:.0f} times faster than {2**PLACES} searches",
                flush=True,
            )
        said = f"{spaces} spaces, times faster than searching all {2**PLACES} outcomes, least of {len(seeds)} coaches"
        lines.append(standing(said, min(ratios), goal, at_least=True))
    return lines


if __name__ == "__main__":
    main()
