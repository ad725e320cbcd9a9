"""Least costs to the goal, for all states at once."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.int64]

FAR = 1 << 60  # more than any path costs, and twice as much still fits


def least(tail: Array, head: Array, cost: Array, states: int, goal: int) -> Array:
    """Least cost from each state to the goal; `FAR` where there is no way.

    Bellman's equation, repeated until nothing changes: as many sweeps as the best paths have arcs, each
    a few passes over whole arrays. These nets have few arcs a path and many a state; there it beats a
    heap in Python. Arcs are sorted by tail; costs are non-negative.
    """
    best = np.full(states, FAR, np.int64)
    best[goal] = 0
    if not len(tail):
        return best
    begin = np.flatnonzero(np.diff(tail, prepend=-1))
    owner = tail[begin]
    while True:
        better = np.minimum(np.minimum.reduceat(cost + best[head], begin), best[owner])
        if np.array_equal(better, best[owner]):
            return best
        best[owner] = better


def least_in_order(tail: Array, head: Array, cost: Array, states: int, goal: int) -> Array:
    """The lexicographically smallest row of costs of all ways from each state to the goal.

    Column by column, each over the arcs that the columns before it leave tight.
    """
    columns = []
    for column in range(cost.shape[1]):
        here = cost[:, column]
        best = least(tail, head, here, states, goal)
        columns.append(best)
        tight = here + best[head] == best[tail]
        tail, head, cost = tail[tight], head[tight], cost.compress(tight, axis=0)
    return np.stack(columns, axis=1)


@dataclass(frozen=True, eq=False)
class Grouped:
    """Arcs by one of their ends: those of state i are `arc[first[i]:first[i + 1]]`, in their own order."""

    arc: Array
    first: Array

    @classmethod
    def by(cls, end: Array, states: int) -> "Grouped":
        """Arcs by the `end` of each."""
        arc = np.argsort(end, kind="stable")
        return cls(arc, np.searchsorted(end[arc], np.arange(states + 1)))

    def at(self, states: Array) -> Array:
        """The arcs at these states, one state after the other."""
        begin = self.first[states]
        count = self.first[states + 1] - begin
        ends = np.cumsum(count)
        places: Array = np.repeat(begin - ends + count, count) + np.arange(count.sum())
        return self.arc[places]


def least_near(
    tail: Array, head: Array, cost: Array, into: Grouped, ends: tuple[int, int], times: float | None
) -> tuple[Array, int]:
    """Least cost to the goal from each state that paths of at most `times` the least come by, else `FAR`.

    And what such paths cost at most: anything below `FAR` where every state turned out to be near, or `times`
    is None. `ends`: start and goal. Bellman's equation again, but outwards from the goal: each sweep takes the
    arcs `into` those states alone that the sweep before brought nearer, and none that lead past the most.
    So what is near is found soon.
    """
    start, goal = ends
    best = np.full(len(into.first) - 1, FAR, np.int64)
    best[goal] = 0
    nearer, most, cut = np.array([goal]), FAR - 1, False
    while len(nearer):
        arcs = into.at(nearer)
        tails, through = tail[arcs], cost[arcs] + best[head[arcs]]
        better = through < best[tails]
        if (through[better] > most).any():
            better &= through <= most
            cut = True
        tails = tails[better]
        np.minimum.at(best, tails, through[better])
        changed = np.zeros(len(best), np.bool_)
        changed[tails] = True
        nearer = np.flatnonzero(changed)
        if times is not None and best[start] < FAR:
            most = int(best[start] * times)
    past = (best > most) & (best < FAR)
    if not cut and not past.any():
        return best, FAR - 1
    best[past] = FAR
    return best, most
