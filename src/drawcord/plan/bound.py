"""Arcs that no best plan uses: what a cable pays on its least way through them, things shared as well as can be.

Let each cable pay a *price* for using a thing, such that no thing's prices add up to more than it costs. Then the
least ways of the cables add up to no more than any plan weighs. A ban is priced too: where at most m of some
cables may use a thing, each of them pays more, and m times as much is taken off again. So a plan through an arc
weighs at least that sum with the least way through the arc in place of that cable's least way.

The best prices are the duals of the linear program. It starts with arcs that look good under rough prices and
takes in others where its prices show a lighter way; what is left out at the end is priced all the same.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drawcord.plan.problem import Commodity, Floats, Mask, Problem
from drawcord.plan.program import Program
from drawcord.plan.solver import duals
from drawcord.routes.least import FAR, Array, least
from drawcord.routes.net import States

STEPS = 12  # of moving rough prices
ROUNDS = 40  # of taking arcs in
FEW = 300  # arcs of a cable to begin with, and to take in at once


@dataclass(frozen=True, eq=False)
class Prices:
    """What each cable pays for each thing, shape (cables, things), and what bans give back."""

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
    ways = _ways(problem, prices)
    slack = most - sum(way.least for way in ways) + prices.back
    return problem.kept([way.through() <= slack for way in ways])


def bound(problem: Problem, prices: Prices) -> int:
    """What no plan weighs less than."""
    return sum(ways.least for ways in _ways(problem, prices)) - prices.back


def rough(problem: Problem) -> Prices:
    """Prices that begin equal among all who may use a thing and move to those whose least ways do; bans get none."""
    users = np.zeros((len(problem.commodities), len(problem.cost)), np.int64)
    for row, commodity in zip(users, problem.commodities, strict=True):
        row[commodity.used] = 1
    each = best = users * (problem.cost // np.maximum(users.sum(axis=0), 1))
    most = -1
    for _ in range(STEPS):
        ways = _ways(problem, Prices(each, 0))
        if (total := sum(way.least for way in ways)) > most:
            most, best = total, each
        used = np.stack([way.used(len(problem.cost)) for way in ways])
        among = used.sum(axis=0)
        kept = np.where(used | (among == 0), each, each // 2)
        each = kept + used * ((problem.cost - kept.sum(axis=0)) // np.maximum(among, 1))
    return Prices(best, 0)


def _ways(problem: Problem, prices: Prices) -> list[Ways]:
    things = len(problem.cost)
    return [Ways(commodity, prices.of(cable, things)) for cable, commodity in enumerate(problem.commodities)]


def fine(problem: Problem, start: Sequence[States], most: int, near: int, guide: Prices | None = None) -> Prices:
    """The prices of the linear program, or near it. `start`: a legal plan, whose arcs are among the first.

    It is near enough where going on could close no more than one part in `near` of what is left up to `most`, which
    that plan weighs. `guide`: prices of this problem with more arcs, or of its first things, to choose the first
    arcs by.
    """
    best = prices = rough(problem)
    reached = bound(problem, prices)
    looked = prices.each.copy()
    if guide:
        known = guide.each.shape[1]
        looked[:, :known] = guide.each[:, :known]
    some = [_first(way.through(), FEW) for way in _ways(problem, Prices(looked, 0))]
    for commodity, mask, states in zip(problem.commodities, some, start, strict=True):
        mask[commodity.arcs(states)] = True
    for _ in range(ROUNDS):
        program = Program(problem.kept(some), whole=False)
        saved = duals(program)
        if saved is None:
            break
        met = _priced(problem, program, saved, prices)
        most_here = sum(way.least for way in _ways(program.problem, met)) - met.back
        for tried in (_halfway(best, met), met):
            ways = _ways(problem, tried)
            if (total := sum(way.least for way in ways) - tried.back) > reached:
                best, reached = tried, total
            if near * (most_here - reached) <= most - reached:
                return best
            if _taken_in(some, ways, _ways(program.problem, tried)):
                break
    return best


def _halfway(one: Prices, other: Prices) -> Prices:
    """Prices between two, which hold as well: those of a few arcs leap about, and take in arcs that do not pay."""
    return Prices((one.each + other.each) // 2, -(-(one.back + other.back) // 2))


def _taken_in(some: list[Mask], ways: Sequence[Ways], here: Sequence[Ways]) -> bool:
    """Whether ways of all arcs show cables lighter ways than those `here`; then their best arcs come to `some`."""
    lighter = False
    for number, (way, known) in enumerate(zip(ways, here, strict=True)):
        more = way.through()
        more[some[number]] = FAR
        if (more < known.least - way.least).any():
            some[number], lighter = some[number] | _first(more, FEW), True
    return lighter


def _first(amounts: Array, count: int) -> Mask:
    """The smallest amounts, at least `count` of them if there are as many."""
    if len(amounts) <= count:
        return np.ones(len(amounts), np.bool_)
    mask: Mask = amounts <= np.partition(amounts, count)[count]
    return mask


def _priced(problem: Problem, program: Program, saved: Floats, rough_prices: Prices) -> Prices:
    """Prices from the duals of a program of some arcs; rough ones for things that these do not use."""
    each, back = rough_prices.each.copy(), 0
    for cable, commodity in enumerate(program.problem.commodities):
        alone = commodity.used[program.single[commodity.used] > 0]
        each[:, alone] = 0
        each[cable, alone] = program.single[alone]
    each[:, list(program.column)] = 0
    paid = np.zeros(len(problem.cost), np.int64)
    for row, amount in zip(program.rows, saved.tolist(), strict=True):
        price = max(0, int(amount))
        if row.thing < 0 or not price:
            continue
        each[list(row.cables), row.thing] += price
        if row.pays:
            paid[row.thing] += price
        else:
            settled = sum(row.thing in problem.commodities[cable].always for cable in row.cables)
            back += price * (int(row.high) + settled)
    # Where everybody uses a thing, its rows may ask more than it costs: more than one is never paid for.
    shared = list(program.column)
    return Prices(each, back + int(np.maximum(paid - problem.cost, 0)[shared].sum()))
