"""What each arc adds to the bound of a partial path."""

from collections.abc import Sequence

import numpy as np

from drawcord.routes.least import FAR, Array
from drawcord.routes.net import Net
from drawcord.routes.packing import Packing

Step = tuple[int, int, int]


class Steps:
    """The arcs out of each state as (head, bit of the space entered or 0 at the goal, packed addition).

    The bound of a partial path is its cost so far plus the least from its state to the goal; an arc adds
    cost[arc] + least[head] - least[tail] to it. A state's steps are packed when first asked for, since
    most states never are.
    """

    def __init__(self, net: Net, arcs: Array, words: Array, shifts: Sequence[int]) -> None:
        """The usable arcs, in order, and for each of them the words of what it adds."""
        self._words, self._shifts = words, shifts
        self._tail, self._head, self._bits = net.tail[arcs], net.head[arcs], net.bits
        self._known: dict[int, list[Step]] = {}

    @classmethod
    def within(cls, net: Net, cost: Array, least: Array, fields: Packing, most: Array) -> "Steps":
        """All arcs but those into dead ends, and those that add more than `most` in any column."""
        added = cost + least[net.head] - least[net.tail]
        kept = least[net.head, 0] < FAR
        for column, limit in zip(added.T, most, strict=True):
            kept &= column <= limit
        arcs = np.flatnonzero(kept)
        return cls(net, arcs, *fields.words(added[arcs]))

    def out(self, state: int) -> list[Step]:
        """The steps out of `state`, in order of heads."""
        if state not in self._known:
            first, end = self._tail.searchsorted((state, state + 1)).tolist()
            heads, words = self._head[first:end].tolist(), self._words[first:end].T.tolist()
            shifted = ([word << by for word in column] for column, by in zip(words, self._shifts, strict=True))
            bits = [self._bits[head] for head in heads]
            self._known[state] = list(zip(heads, bits, map(sum, zip(*shifted, strict=True)), strict=True))
        return self._known[state]
