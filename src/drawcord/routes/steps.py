"""What each arc adds to the bound of a partial path."""

from operator import lshift

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

    def __init__(self, net: Net, cost: Array, least: Array, fields: Packing, most: Array | None = None) -> None:
        """Arcs into dead ends are left out, as are those that add more than `most` in any column."""
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
        known = self._known[state]
        if known is None:
            arcs = slice(self._first[state], self._first[state + 1])
            bit, shifts = self._bit, self._shifts
            known = self._known[state] = [
                (head, bit[head], sum(map(lshift, words, shifts)))
                for head, words in zip(self._head[arcs].tolist(), self._words[arcs].tolist(), strict=True)
            ]
        return known
