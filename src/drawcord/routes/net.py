"""The graph as the searches see it: crossings for states, arcs in plain arrays of integers.

A *state* is a crossing: a station together with the space just entered there. An *arc* is the travel
inside the space of its tail plus the next crossing, so that two arcs in one space cannot follow each
other and a hole's cost sits on one arc. A *path* runs from the start to the goal and enters a space at
most once; the start's own space counts as entered. Nothing here knows geometry: no search relies on a
triangle inequality, so a way out of a space and back in may well be cheaper than staying inside.
"""

from collections.abc import Callable, Hashable, Iterable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from typing import Any, NamedTuple, TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

from drawcord.routes.least import FAR, Array, Grouped, least

Vector = tuple[int, ...]  # a number for each criterion
States = tuple[int, ...]
Some = TypeVar("Some")


class Path(NamedTuple):
    """A route as the searches see it: its cost in every criterion, and its states from start to goal."""

    vector: Vector
    states: States


@dataclass(frozen=True)
class Found:
    """Paths in the order that the search states; `complete` unless its bound on labels cut it short."""

    paths: tuple[Path, ...]
    complete: bool


class Lost(NamedTuple):
    """States that no way leads by any more, and those from which an arc led to one of them."""

    gone: frozenset[int]
    before: frozenset[int]


@dataclass(frozen=True, eq=False)
class Net:
    """States and arcs; built by `Net.of`.

    `space`: index, from 0, of the space that each state has entered; the goal's is -1.
    `tail`, `head`: states of each arc, sorted by tail, then head.
    `cost`: one row an arc, one column a criterion, non-negative.
    """

    space: tuple[int, ...]
    tail: Array
    head: Array
    cost: Array
    start: int
    goal: int

    @classmethod
    def of(
        cls, space: Sequence[int], tail: ArrayLike, head: ArrayLike, cost: ArrayLike, *, start: int, goal: int
    ) -> "Net":
        """Sort the arcs; leave out those that no path can use, since it would enter the start's space again.

        Raises ValueError on arcs that no graph of crossings has: out of the goal, between states of one
        space, twice between the same states (give the second its own head), of negative or absurd cost.
        """
        spaces = np.asarray(space, np.int64)
        tails, heads, costs = (np.asarray(column, np.int64) for column in (tail, head, cost))
        if np.flatnonzero(spaces < 0).tolist() != [goal] or spaces[goal] != -1:
            raise ValueError("the goal, and it alone, has the space -1")
        if (tails == goal).any() or (spaces[tails] == spaces[heads]).any():
            raise ValueError("an arc leads into another space, and none out of the goal")
        if (costs < 0).any() or (costs >= FAR // len(space)).any():
            raise ValueError("a cost is negative, or too large to add up")
        order = np.lexsort((heads, tails))
        again = (spaces[heads] == spaces[start]) | (spaces[tails] == spaces[start]) & (tails != start)
        order = order[~again[order]]
        # `[]` takes several times as long for rows.
        tails, heads, costs = tails[order], heads[order], costs.take(order, axis=0)
        if ((np.diff(tails) == 0) & (np.diff(heads) == 0)).any():
            raise ValueError("at most one arc leads from one state to another")
        return cls(tuple(spaces.tolist()), tails, heads, costs, start, goal)

    @cached_property
    def spaces(self) -> int:
        """How many spaces there are, and so the most arcs that a path can have."""
        return max(self.space) + 1

    @cached_property
    def bits(self) -> tuple[int, ...]:
        """For each state the bit of the space it has entered; 0 for the goal."""
        return tuple(1 << space if space >= 0 else 0 for space in self.space)

    def least(self, criterion: int) -> Array:
        """Least cost from each state to the goal in one criterion; `FAR` without a way. Remembered.

        At the start the ideal, from which limits such as "1.5 times the least length" are made. The ways
        behind it may enter a space twice.
        """
        if criterion not in self._least:
            cost = np.ascontiguousarray(self.cost[:, criterion])
            self._least[criterion] = least(self.tail, self.head, cost, len(self.space), self.goal)
        return self._least[criterion]

    @cached_property
    def bounds(self) -> Array:
        """For each state and criterion no more than the least cost to the goal, and `FAR` only without a way.

        No arc undercuts them: they never grow by more than it costs. Those of `Net.of` are the least costs.
        """
        return np.stack([self.least(criterion) for criterion in range(self.cost.shape[1])], axis=1)

    @cached_property
    def most(self) -> Array:
        """No arc costs more than this, criterion by criterion."""
        most: Array = self.cost.max(axis=0, initial=0)
        return most

    def lost(self, gone: Iterable[int]) -> Lost:
        """What `without` asks for, where these states are gone."""
        gone = frozenset(gone)
        return Lost(gone, frozenset(self.tail[self._among(gone)[self.head]].tolist()))

    def without(self, lost: Lost) -> "Net":
        """The same net with no way by the states that are lost, and with all bounds that have been worked out.

        Where arcs only go, bounds stay bounds. A search by them finds the same as by new ones, with more labels.
        """
        gone = self._among(lost.gone)
        kept = ~(gone[self.tail] | gone[self.head])
        net = self.only(kept)
        worked_out = {what: known.without(lost) for what, known in self.worked_out.items()}
        bounds = {name: known for name, known in vars(self).items() if name in ("bounds", "most")}
        vars(net).update(bounds, worked_out=worked_out)
        return net

    def only(self, arcs: NDArray[np.bool_]) -> "Net":
        """The net of these arcs alone, of which nothing is known."""
        # `[]` takes several times as long for rows.
        return replace(self, tail=self.tail[arcs], head=self.head[arcs], cost=self.cost.compress(arcs, axis=0))

    def closed(self, spaces: int) -> "Net":
        """The net of all arcs out of and into none of these spaces, as a bit set; it is made once."""

        def made() -> "Net":
            out = np.array([not bit & spaces for bit in self.bits])
            return self.only(out[self.tail] & out[self.head])

        return self.once(("closed", spaces), made)

    def _among(self, states: AbstractSet[int]) -> NDArray[np.bool_]:
        """For each state whether it is one of these."""
        among = np.zeros(len(self.space), np.bool_)
        among[list(states)] = True
        return among

    def once(self, what: Hashable, work_out: Callable[[], Some]) -> Some:
        """What a search works out of this net, only once; it can itself be had `without` some states."""
        if what not in self.worked_out:
            self.worked_out[what] = work_out()
        known: Some = self.worked_out[what]
        return known

    @cached_property
    def worked_out(self) -> dict[Hashable, Any]:
        """All that, by what it is."""
        return {}

    @cached_property
    def _least(self) -> dict[int, Array]:
        return {}

    @cached_property
    def into(self) -> Grouped:
        """The arcs into each state."""
        return Grouped.by(self.head, len(self.space))

    @cached_property
    def out_of(self) -> Grouped:
        """The arcs out of each state."""
        return Grouped.by(self.tail, len(self.space))

    @cached_property
    def exits(self) -> list[int]:
        """For each space the bit set of those that arcs lead to; bit `spaces` stands for the goal."""
        space = np.array(self.space)
        leads = np.zeros((self.spaces, self.spaces + 1), np.bool_)
        leads[space[self.tail], space[self.head]] = True  # the goal's -1 is the last column
        return [int.from_bytes(row, "little") for row in np.packbits(leads, axis=1, bitorder="little")]

    def weigh(self, weights: Sequence[int]) -> Array:
        """Weighted sum of the criteria of each arc, remembered. Raises ValueError on negative or absurd weights."""
        by = tuple(weights)
        if by in self._weighed:
            return self._weighed[by]
        total = sum(weight * cost for weight, cost in zip(weights, self.most.tolist(), strict=True))
        if min(weights) < 0 or total >= FAR // len(self.space):
            raise ValueError(f"weights are negative, or too large to add up: {weights}")
        self._weighed[by] = self.cost @ np.asarray(weights, np.int64)
        return self._weighed[by]

    @cached_property
    def _weighed(self) -> dict[Vector, Array]:
        return {}

    def vector(self, states: Sequence[int]) -> Vector:
        """Cost of the walk through `states`. Raises KeyError where no arc leads from one to the next."""
        total = np.zeros(self.cost.shape[1], np.int64)
        for tail, head in pairwise(states):
            arc = np.flatnonzero((self.tail == tail) & (self.head == head))
            if not len(arc):
                raise KeyError((tail, head))
            total += self.cost[arc[0]]
        return tuple(total.tolist())

    def order(self, states: Sequence[int]) -> tuple[int, ...]:
        """The order of spaces in which a path through `states` runs."""
        return tuple(self.space[state] for state in states if state != self.goal)
