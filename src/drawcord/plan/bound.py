"""Arcs that no best plan uses: what a cable pays on its least way through them, things shared as well as can be.

Let each cable pay a *price* for using a thing, and give back what the cables of a plan may pay for it beyond what it
costs: no more than its dearest company does. Then the least ways of the cables, less what is given back, add up to no
more than any plan weighs. So a plan through an arc weighs at least that sum with the least way through the arc in
place of that cable's least way.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drawcord.plan.problem import Commodity, Mask, Problem
from drawcord.routes.least import Array, least


@dataclass(frozen=True, eq=False)
class Prices:
    """What each cable pays for each thing, shape (cables, things), and what is given back."""

    each: Array
    back: int

    def of(self, cable: int, things: int) -> Array:
        """What a cable pays for each thing; nothing for those that came after these prices, which cost nothing."""
        return np.append(self.each[cable], np.zeros(things - self.each.shape[1], np.int64))


class Ways:
    """The least ways of one cable under its prices."""

    def __init__(self, commodity: Commodity, prices: Array) -> None:
        self.commodity, net = commodity, commodity.net
        self.cost = commodity.costs(prices)
        self.onward = least(net.tail, net.head, self.cost, len(net.space), net.goal)
        self.fixed = int(commodity.base + prices[list(commodity.always)].sum())
        self.least = int(self.onward[net.start]) + self.fixed

    def used(self, things: int) -> Mask:
        """The things that one least way uses, `things` in all."""
        commodity, net = self.commodity, self.commodity.net
        first = np.searchsorted(net.tail, np.arange(len(net.space) + 1))
        state, arcs = net.start, list[int]()
        while state != net.goal and len(arcs) <= net.spaces:  # arcs for nothing may lead round in circles
            out = slice(first[state], first[state + 1])
            arcs.append(int(first[state] + np.argmin(self.cost[out] + self.onward[net.head[out]])))
            state = int(net.head[arcs[-1]])
        found = np.zeros(things, np.bool_)
        found[sorted(commodity.uses(arcs))] = True
        return found

    def through(self) -> Array:
        """For each arc how much more the least way through it costs than the least way."""
        net = self.commodity.net
        by_head = np.lexsort((net.tail, net.head))
        so_far = least(net.head[by_head], net.tail[by_head], self.cost[by_head], len(net.space), net.start)
        more: Array = so_far[net.tail] + self.cost + self.onward[net.head] - self.onward[net.start]
        return more


def reduced(problem: Problem, prices: Prices, most: int) -> Problem:
    """The problem without the arcs that no plan of weight `most` or less uses."""
    found = ways(problem, prices)
    slack = most - bound(found, prices)
    return problem.kept([way.through() <= slack for way in found])


def bound(found: Sequence[Ways], prices: Prices) -> int:
    """What no plan weighs less than, by the ways of its cables under these prices."""
    return sum(way.least for way in found) - prices.back


def ways(problem: Problem, prices: Prices) -> list[Ways]:
    """Those of each cable."""
    things = len(problem.cost)
    return [Ways(commodity, prices.of(cable, things)) for cable, commodity in enumerate(problem.commodities)]
