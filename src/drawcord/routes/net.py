"""The graph as the searches see it: crossings for states, arcs in plain arrays of integers.

A *state* is a crossing: a station together with the space just entered there. An *arc* is the travel
inside the space of its tail plus the next crossing, so that two arcs in one space cannot follow each
other and a hole's cost sits on one arc. A *path* runs from the start to the goal and enters a space at
most once; the start's own space counts as entered.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from drawcord.routes.least import least

Array = NDArray[np.int64]
Vector = tuple[int, ...]


class Path(NamedTuple):
    """A route as the searches see it: its cost in every criterion, and its states from start to goal."""

    vector: Vector
    states: tuple[int, ...]


@dataclass(frozen=True, eq=False)
class Net:
    """States and arcs; built by `Net.of`.

    `space`: index of the space each state has entered, from 0 without gaps; the goal's is -1.
    `tail`, `head`: states of each arc, sorted by tail, then head.
    `cost`: one row an arc, one column a criterion, non-negative integers.
    `revisit`: bit set of the spaces in which a run may cost more, in any criterion, than a way out and
    back in: those with parts taken out, the roof, the room, those in sight, and those slower to work in
    than a detour. In all other spaces there must be an arc from each entry to each exit that costs no
    more than any walk between them (triangle inequality); all arcs are searched either way, but there
    the searches may forget where a path has been. With a bit missing efficient routes can be missed,
    with one too many the search is only slower.
    """

    space: tuple[int, ...]
    tail: Array
    head: Array
    cost: Array
    start: int
    goal: int
    revisit: int

    @classmethod
    def of(
        cls,
        space: Sequence[int],
        tail: ArrayLike,
        head: ArrayLike,
        cost: ArrayLike,
        *,
        start: int,
        goal: int,
        revisit: int,
    ) -> "Net":
        """Sort the arcs; leave out those that enter the start's space, which no path can use.

        Raises ValueError on arcs that no graph of crossings has: out of the goal, between states of one
        space, twice between the same states (give the second its own head), or of negative cost.
        """
        tails, heads = np.asarray(tail, np.int64).ravel(), np.asarray(head, np.int64).ravel()
        costs = np.asarray(cost, np.int64).reshape(len(tails), -1)
        spaces = np.asarray(space, np.int64)
        if (np.flatnonzero(spaces < 0) != [goal]).any() or spaces[goal] != -1:
            raise ValueError("the goal, and it alone, has the space -1")
        if (spaces[tails] == spaces[heads]).any() or (costs < 0).any():
            raise ValueError("an arc leads to another space and costs nothing negative")
        if (tails == goal).any():
            raise ValueError("no arc leads out of the goal")
        kept = np.lexsort((heads, tails))
        kept = kept[spaces[heads[kept]] != spaces[start]]
        tails, heads, costs = tails[kept], heads[kept], costs[kept]
        if ((np.diff(tails) == 0) & (np.diff(heads) == 0)).any():
            raise ValueError("at most one arc leads from one state to another")
        return cls(tuple(spaces.tolist()), tails, heads, costs, start, goal, revisit)

    @cached_property
    def first(self) -> Array:
        """Arcs of state s are those from first[s] up to, not including, first[s + 1]."""
        return np.searchsorted(self.tail, np.arange(len(self.space) + 1))

    @cached_property
    def spaces(self) -> int:
        """Number of spaces, and so the most arcs a path can have."""
        return max(self.space) + 1

    @cached_property
    def least(self) -> Array:
        """Least cost from each state to the goal, each criterion for itself; `FAR` without a way."""
        return np.stack([self.least_of(column) for column in self.cost.T], axis=1)

    def least_of(self, cost: Array) -> Array:
        """Least sum of `cost` (one number an arc) from each state to the goal; `FAR` without a way."""
        return least(self.tail, self.head, cost, len(self.space), self.goal)

    def vector(self, states: Sequence[int]) -> Vector:
        """Cost of the walk through `states`. Raises KeyError where no arc leads from one to the next."""
        total = np.zeros(self.cost.shape[1], np.int64)
        for tail, head in zip(states, states[1:], strict=False):
            low, high = self.first[tail], self.first[tail + 1]
            arc = low + np.searchsorted(self.head[low:high], head)
            if arc == high or self.head[arc] != head:
                raise KeyError((tail, head))
            total += self.cost[arc]
        return tuple(total.tolist())

    def order(self, states: Sequence[int]) -> tuple[int, ...]:
        """The order of spaces that a path through `states` runs in."""
        return tuple(self.space[state] for state in states if state != self.goal)
