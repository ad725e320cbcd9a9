"""Least costs to the goal, for all states at once."""

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
        tail, head, cost = tail[tight], head[tight], cost[tight]
    return np.stack(columns, axis=1)
