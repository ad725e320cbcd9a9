"""What each arc adds to the bound of a partial path."""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from drawcord.routes.least import FAR, Array
from drawcord.routes.net import Net
from drawcord.routes.packing import Packing

Step = tuple[int, int, int]


class Steps:
    """The arcs out of each state as (head, bit of the space entered or 0 at the goal, packed addition).

    The bound of a partial path is its cost so far plus the least from its state to the goal; an arc adds
    cost[arc] + least[head] - least[tail] to it. A state's steps are worked out when first asked for, since
    most states never are.
    """

    def __init__(self, bits: Sequence[int], heads: Callable[[int], tuple[Array, Array]], shifts: Sequence[int]) -> None:
        """`heads`: of a state those that its usable arcs lead to, in order, and the words of what each arc adds."""
        self._bits, self._heads, self._shifts = bits, heads, shifts
        self._known: dict[int, list[Step]] = {}

    @classmethod
    def of(cls, net: Net, arcs: Array, words: Array, shifts: Sequence[int]) -> "Steps":
        """The usable arcs, in order, and for each of them the words of what it adds."""
        tail, head = net.tail[arcs], net.head[arcs]

        def heads(state: int) -> tuple[Array, Array]:
            first, end = tail.searchsorted((state, state + 1))
            return head[first:end], words[first:end]

        return cls(net.bits, heads, shifts)

    @classmethod
    def within(cls, net: Net, counted: Array, bounds: Array, fields: Packing, most: Array) -> "Steps":
        """All arcs but those into dead ends, and those that add more than `most` in any column.

        `counted`: each column a weighting of the criteria; `bounds` has a column for each of them.
        """
        shifts = fields.words(bounds[:0])[1]

        def heads(state: int) -> tuple[Array, Array]:
            first, end = net.tail.searchsorted((state, state + 1))
            head = net.head[first:end]
            added = net.cost[first:end] @ counted + bounds[head] - bounds[state]
            kept = (bounds[head, 0] < FAR) & (added <= most).all(axis=1)
            return head[kept], fields.words(added[kept])[0]

        return cls(net.bits, heads, shifts)

    def without(self, gone: NDArray[np.bool_]) -> "Steps":
        """The same without the arcs to the states `gone`."""

        def heads(state: int) -> tuple[Array, Array]:
            head, words = self._heads(state)
            kept = ~gone[head]
            return head[kept], words[kept]

        return Steps(self._bits, heads, self._shifts)

    def out(self, state: int) -> list[Step]:
        """The steps out of `state`, in order of heads."""
        if state not in self._known:
            heads, words = self._heads(state)
            columns = zip(words.T.tolist(), self._shifts, strict=True)
            shifted = ([word << by for word in column] for column, by in columns)
            steps = zip(heads.tolist(), map(sum, zip(*shifted, strict=True)), strict=True)
            self._known[state] = [(head, self._bits[head], added) for head, added in steps]
        return self._known[state]
