"""The joint problem in whole numbers: a flow for each cable, and a thing paid for as soon as one cable uses it.

A column, 0 or 1, for each arc of each cable, one for each thing that several may use and that costs something;
a cable's use of a thing is no more than the thing's column. Bans are rows, and so are a cable's limits and the rule
that it enters a space once.
"""

from collections.abc import Iterable, Sequence
from functools import cache
from itertools import combinations
from typing import Any, NamedTuple

import numpy as np

from drawcord.plan.meeting import Group
from drawcord.plan.problem import Commodity, Floats, Problem
from drawcord.routes.least import Array
from drawcord.routes.net import States

UNIT = 1000  # thousandths of a millimetre of cable that make a unit here: numbers that floats keep apart


class Row(NamedTuple):
    """Columns and their coefficients, and both limits of their sum."""

    columns: Array
    values: Floats
    low: float
    high: float


class Program:
    """The rows and columns of a problem. `first`: of each cable the first column; its arcs follow one another."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        counts = [len(commodity.own) for commodity in problem.commodities]
        self.first = np.cumsum([0, *counts]).tolist()
        users = np.zeros(len(problem.cost), np.int64)
        for commodity in problem.commodities:
            users[commodity.used] += 1
        # What only one cable can use is part of what that pays by itself.
        single = np.where(users > 1, 0, problem.cost)
        shared = np.flatnonzero((problem.cost > 0) & (users > 1))
        self.column = {thing: at for at, thing in enumerate(shared.tolist(), start=self.first[-1])}
        own = [commodity.costs(single) for commodity in problem.commodities]
        self.cost = np.concatenate([*own, problem.cost[shared]])
        self.offset = sum(c.base + int(single[list(c.always)].sum()) for c in problem.commodities)
        self.rows = list(self._rows())

    def values(self, routes: Sequence[States]) -> Floats:
        """A plan as values of the columns."""
        values = np.zeros(len(self.cost))
        for commodity, begin, states in zip(self.problem.commodities, self.first, routes, strict=False):
            arcs = commodity.arcs(states)
            values[np.array(arcs) + begin] = 1.0
            values[[self.column[thing] for thing in commodity.uses(arcs) if thing in self.column]] = 1.0
        return values

    def routes(self, values: Floats) -> tuple[States, ...]:
        """The plan that whole values of the columns stand for."""
        parts = zip(self.problem.commodities, self.first, self.first[1:], strict=False)
        return tuple(_followed(commodity, values[begin:end] > 0.5) for commodity, begin, end in parts)

    def _rows(self) -> Iterable[Row]:
        using: dict[int, dict[int, Array]] = {}  # by thing and cable, the columns that use it
        for cable, (commodity, begin) in enumerate(zip(self.problem.commodities, self.first, strict=False)):
            yield from _flow(commodity, begin)
            yield from _once(commodity, begin)
            for spent, most in zip(commodity.spent.T, commodity.most, strict=True):
                columns = np.flatnonzero(spent)
                yield Row(columns + begin, spent[columns].astype(np.float64), -np.inf, float(most))
            for thing in commodity.always:
                using.setdefault(thing, {})[cable] = np.zeros(0, np.int64)
            for thing, pairs in grouped(commodity.thing):
                using.setdefault(thing, {})[cable] = commodity.arc[pairs] + begin
        together = cliques(self.problem)
        for thing, present in sorted(using.items()):
            for group, most in _joined_by(together.get(thing, []), sorted(present)):
                if thing in self.column or len(group) > most:
                    yield self._tie(thing, group, most, [present[cable] for cable in group])

    def _tie(self, thing: int, group: Group, most: int, using: Sequence[Array]) -> Row:
        """No more of these cables use a thing than may, and none before it is paid for."""
        columns = np.concatenate(using)
        settled = sum(thing in self.problem.commodities[cable].always for cable in group)
        if thing not in self.column or most > 1:
            return Row(columns, np.ones(len(columns)), -np.inf, most - settled)
        values = np.append(np.ones(len(columns)), -1.0)
        return Row(np.append(columns, self.column[thing]), values, -np.inf, -settled)


def _flow(commodity: Commodity, begin: int) -> Iterable[Row]:
    """What enters a state leaves it, and one unit leaves the start."""
    net = commodity.net
    columns = np.tile(np.arange(len(net.tail)) + begin, 2)
    signs = np.repeat((-1.0, 1.0), len(net.tail))
    if net.start not in net.tail:  # no way at all, and no row below would say so
        yield Row(columns[:0], signs[:0], -1.0, -1.0)
    for state, where in grouped(np.concatenate((net.tail, net.head))):
        balance = -float(state == net.start)
        if state != net.goal:
            yield Row(columns[where], signs[where], balance, balance)


def _once(commodity: Commodity, begin: int) -> Iterable[Row]:
    """A space is entered once at most."""
    for space, where in grouped(np.array(commodity.net.space)[commodity.net.head]):
        if space >= 0 and len(set(commodity.net.head[where].tolist())) > 1:
            yield Row(where + begin, np.ones(len(where)), -np.inf, 1.0)


def grouped(keys: Array) -> Iterable[tuple[int, Array]]:
    """Each key with the places where it stands, in order of keys."""
    if not len(keys):
        return iter(())
    order = np.argsort(keys, kind="stable")
    values, begins = np.unique(keys[order], return_index=True)
    return zip(values.tolist(), np.split(order, begins[1:]), strict=True)


def cliques(problem: Problem) -> dict[int, list[tuple[Group, int]]]:
    """The bans by thing, as cables and how many of them may use it: pairs joined where each may not meet each."""
    by_thing: dict[int, list[Group]] = {}
    for thing, group in problem.bans:
        by_thing.setdefault(thing, []).append(group)
    return {thing: _joined(tuple(groups)) for thing, groups in sorted(by_thing.items())}


@cache
def _joined(groups: tuple[Group, ...]) -> list[tuple[Group, int]]:
    pairs = {group for group in groups if len(group) == 2}
    found = [(group, len(group) - 1) for group in groups if len(group) > 2]
    left = sorted(pairs)
    while left:
        clique = list(left[0])
        for other in sorted({cable for pair in pairs for cable in pair}):
            if other not in clique and all(tuple(sorted((other, one))) in pairs for one in clique):
                clique.append(other)
        covered = set(combinations(sorted(clique), 2))
        left = [pair for pair in left if pair not in covered]
        found.append((tuple(sorted(clique)), 1))
    return found


def _joined_by(bans: Sequence[tuple[Group, int]], present: Sequence[int]) -> list[tuple[Group, int]]:
    """The bans among the cables that are present, and each cable that no ban of one among many names by itself."""
    found = {(tuple(cable for cable in group if cable in present), most) for group, most in bans}
    named = {cable for group, most in found if most == 1 for cable in group}
    return sorted([*(ban for ban in found if ban[0]), *(((cable,), 1) for cable in present if cable not in named)])


def _followed(commodity: Commodity, taken: "np.ndarray[Any, np.dtype[np.bool_]]") -> States:
    """The states along the arcs taken, from start to goal; circles beside them cost nothing and are left."""
    net = commodity.net
    onward = dict(zip(net.tail[taken].tolist(), net.head[taken].tolist(), strict=True))
    states = [net.start]
    while states[-1] != net.goal:
        states.append(onward[states[-1]])
    return tuple(states)
