"""Holes of one passage that would run into each other, and the problem without them.

Stations lie apart unless some lie level with a cable's own ends. So few pairs of holes ever come too close, and a
pair is barred only once a plan has it.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations, product

import numpy as np

from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable
from drawcord.plan.bundle import bore
from drawcord.plan.meeting import Group, Spot, spot
from drawcord.plan.posing import Posing
from drawcord.plan.problem import Commodity, Problem
from drawcord.routes.net import States

Places = Mapping[int, Spot]  # where each of some cables crosses


def spaced(posing: Posing, problem: Problem, routes: Sequence[States]) -> Problem:
    """The problem in which these cables may not all cross where their holes meet; itself if none of a plan's do."""
    for places in _meeting(posing, problem, routes):
        problem = _barred(posing, problem, places)
    return problem


def _meeting(posing: Posing, problem: Problem, routes: Sequence[States]) -> Iterator[Places]:
    """The cables whose holes run into each other, two alone where their own holes do so already."""
    users: dict[Spot, list[int]] = {}
    for number, stations in enumerate(posing.stations(problem, routes).values()):
        for station in stations:
            here = spot(posing.ways, station)
            if posing.ways.passages[here[0]].hole:
                users.setdefault(here, []).append(number)
    for one, two in combinations(sorted(users), 2):
        apart = gap(one, two)
        if one[0] != two[0] or apart >= _reach(posing, users[one]) + _reach(posing, users[two]):
            continue
        each = product(users[one], users[two])
        pairs = [{i: one, j: two} for i, j in each if apart < _reach(posing, [i]) + _reach(posing, [j])]
        if pairs:
            yield from pairs
        else:
            yield {**dict.fromkeys(users[one], one), **dict.fromkeys(users[two], two)}


def gap(one: Spot, two: Spot) -> float:
    """How far the middles of two holes of a passage lie apart, on the face where they are nearer [mm]."""
    return min(math.dist(p, q) for p, q in zip(one[1], two[1], strict=True))


def reach(cables: Sequence[Cable], coach: Coach) -> float:
    """How far the hole of some cables reaches from its middle [mm]."""
    return (bore(cables) + coach.shop.clearances.plug) / 2


def _reach(posing: Posing, group: Sequence[int]) -> float:
    return reach([posing.orders[n].cable for n in group], posing.coach)


def _barred(posing: Posing, problem: Problem, places: Places) -> Problem:
    """A thing that costs nothing, which each cable uses where it crosses at its place, and not all may use."""
    thing, group = len(problem.cost), tuple(sorted(places))
    commodities = list(problem.commodities)
    for number, place in places.items():
        commodities[number] = _marked(posing, commodities[number], place, thing)
    bans: tuple[tuple[int, Group], ...] = (*problem.bans, (thing, group))
    return replace(problem, commodities=tuple(commodities), cost=np.append(problem.cost, 0), bans=bans)


def _marked(posing: Posing, commodity: Commodity, place: Spot, thing: int) -> Commodity:
    heads = commodity.origin[commodity.net.head].tolist()
    stations = (posing.mouths[mouth].station for mouth in heads)
    arcs = [n for n, station in enumerate(stations) if station and spot(posing.ways, station) == place]
    arc = np.append(commodity.arc, np.array(arcs, np.int64))
    order = np.argsort(arc, kind="stable")
    return replace(commodity, arc=arc[order], thing=np.append(commodity.thing, np.full(len(arcs), thing))[order])
