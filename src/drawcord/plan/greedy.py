"""A plan to start from: cables one after the other, what is there already for nothing, then each once more.

A cable alone seldom sees that a dear way pays once two share it. So two are also moved at a time: the first looks
for its way as if half of everything were paid for, the second joins it, and the first looks again.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import permutations

import numpy as np

from drawcord.plan.bound import Prices
from drawcord.plan.problem import Problem
from drawcord.routes.different import different
from drawcord.routes.least import Array
from drawcord.routes.net import States

ROUNDS = 12  # of moving cables
LABELS = 200_000  # partial ways of a cable that are looked at

Routes = dict[int, States]


def greedy(
    problem: Problem, start: Sequence[States] | None = None, prices: Prices | None = None, *, pairs: bool = False
) -> tuple[States, ...] | None:
    """A legal plan, or None where none was found so.

    The cable that is heaviest alone comes first, of equals the first by number. Where one finds no way
    between the others it is moved to the front. Then cables are moved in that order, with `pairs` two at a
    time as well, as long as the plan gets lighter. `start` is a legal plan to go on from. Without one, each
    cable may be placed at what the `prices` ask of it for each thing.
    """
    count = len(problem.commodities)
    alone = [_route(problem, number, {}) for number in range(count)]
    order = sorted(range(count), key=lambda number: (-alone[number][0], number))
    routes = dict(enumerate(start)) if start else _placed(problem, order, prices)
    if not routes:
        return None
    for _ in range(ROUNDS):
        before = routes
        for number in order:
            routes = _lighter(problem, routes, _moved(problem, routes, number))
        if pairs and routes == before:
            for pair in permutations(order, 2):
                routes = _lighter(problem, routes, _both_moved(problem, routes, *pair))
        if routes == before:
            break
    return _listed(routes)


def _lighter(problem: Problem, routes: Routes, other: Routes | None) -> Routes:
    if other and problem.weight(_listed(other)) < problem.weight(_listed(routes)):
        return other
    return routes


def _listed(routes: Routes) -> tuple[States, ...]:
    return tuple(routes[number] for number in range(len(routes)))


def _moved(problem: Problem, routes: Routes, number: int, *, share: int = 1) -> Routes | None:
    """The routes with a cable put where it is lightest between the others."""
    others = {other: states for other, states in routes.items() if other != number}
    states = _route(problem, number, others, share=share)[1]
    return {**others, number: states} if states else None


def _both_moved(problem: Problem, routes: Routes, one: int, two: int) -> Routes | None:
    others = {other: states for other, states in routes.items() if other not in (one, two)}
    for number, share in ((one, 2), (two, 1), (one, 1)):
        moved = _moved(problem, others, number, share=share)
        if moved is None:
            return None
        others = moved
    return others


def _placed(problem: Problem, order: Sequence[int], prices: Prices | None) -> Routes | None:
    """Each cable in turn; the one that finds no way goes first in the next try."""
    order = list(order)
    for _ in order:
        routes: Routes = {}
        for number in order:
            states = _route(problem, number, routes, asked=prices.of(number, len(problem.cost)) if prices else None)[1]
            if states is None:
                order.remove(number)
                order.insert(0, number)
                break
            routes[number] = states
        if len(routes) == len(order):
            return routes
    return None


def _route(
    problem: Problem, number: int, others: Routes, *, share: int = 1, asked: Array | None = None
) -> tuple[int, States | None]:
    """What the lightest way of a cable adds between others whose routes are fixed, and its states if there is one.

    Of what is not there yet it pays one part in `share`; or for each thing what it is `asked`.
    """
    commodity = problem.commodities[number]
    used: dict[int, set[int]] = {}
    for other, states in others.items():
        theirs = problem.commodities[other]
        for thing in theirs.uses(theirs.arcs(states)):
            used.setdefault(thing, set()).add(other)
    cost = problem.cost // share if asked is None else asked
    if asked is None:
        cost[sorted(used)] = 0
    closed = np.zeros(len(cost), np.bool_)
    barring = problem.barred_beside[number]
    for thing in barring.keys() & used.keys():
        closed[thing] = any(used[thing] >= others for others in barring[thing])
    if closed[list(commodity.always)].any():
        return 0, None
    shut = np.zeros(len(commodity.own), np.bool_)
    shut[commodity.arc[closed[commodity.thing]]] = True
    left = commodity.with_own(commodity.costs(cost)).kept(~shut)
    net = replace(left.net, cost=np.column_stack((left.own, left.spent)))
    weights, most = (1, *(0 for _ in left.most)), (None, *left.most)
    paths = different(net, weights, frozenset(), 1, LABELS, most).paths
    return (paths[0].vector[0] + commodity.base, paths[0].states) if paths else (0, None)

