"""What each arc adds to the bound of a path: the least that any completion of it costs."""

from operator import lshift

import numpy as np

from drawcord.routes.least import FAR
from drawcord.routes.net import Array, Net
from drawcord.routes.packing import Packing

Step = tuple[int, int, int]


class Steps:
    """The arcs out of a state as (head, bit of the space entered or 0 at the goal, packed addition).

    A path's bound is its cost so far plus the least from its state to the goal; going along an arc adds
    cost[arc] + least[head] - least[tail]. States are packed on first visit, for most are never visited.
    """

    def __init__(self, net: Net, cost: Array, least: Array, fields: Packing, most: Array | None = None) -> None:
        """`most`: arcs that add more than this in any column are left out, as are those to dead ends."""
        added = cost + least[net.head] - least[net.tail]
        usable = least[net.head, 0] < FAR
        if most is not None:
            usable &= (added <= most).all(axis=1)
        self._words, self._shifts = fields.words(added[usable])
        self._head = net.head[usable]
        self._first = np.searchsorted(net.tail[usable], np.arange(len(net.space) + 1)).tolist()
        self._bit = [1 << space if space >= 0 else 0 for space in net.space]
        self._known: list[list[Step] | None] = [None] * len(net.space)

    def out(self, state: int) -> list[Step]:
        """The steps out of `state`, in order of heads."""
        steps = self._known[state]
        if steps is None:
            arcs = slice(self._first[state], self._first[state + 1])
            bit, shifts = self._bit, self._shifts
            steps = self._known[state] = [
                (head, bit[head], sum(map(lshift, words, shifts)))
                for head, words in zip(self._head[arcs].tolist(), self._words[arcs].tolist(), strict=True)
            ]
        return steps
