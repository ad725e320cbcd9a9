"""What each arc adds to the bound of a partial path."""

from collections.abc import Callable, Sequence
from operator import itemgetter

import numpy as np

from drawcord.routes.least import FAR, Array
from drawcord.routes.net import Lost, Net
from drawcord.routes.packing import Packing

Step = tuple[int, int, int]


class Steps:
    """The arcs out of each state as (head, bit of the space entered or 0 at the goal, packed addition).

    The bound of a partial path is its cost so far plus the least from its state to the goal; an arc adds
    cost[arc] + least[head] - least[tail] to it. A state's steps are worked out when first asked for, since
    most states never are.
    """

    def __init__(self, work_out: Callable[[int], list[Step]]) -> None:
        """`work_out`: the steps out of a state."""
        self._work_out = work_out
        self._known: dict[int, list[Step]] = {}

    def out(self, state: int) -> list[Step]:
        """The steps out of `state`."""
        if state not in self._known:
            self._known[state] = self._work_out(state)
        return self._known[state]

    def without(self, lost: Lost) -> "Steps":
        """The same without the steps to the states that are lost."""

        def work_out(state: int) -> list[Step]:
            out = self.out(state)
            return [step for step in out if step[0] not in lost.gone] if state in lost.before else out

        return Steps(work_out)


def all_steps(net: Net, counted: Array, bounds: Array, fields: Packing) -> Steps:
    """Those of all arcs but the ones into dead ends.

    `counted`: each column a weighting of the criteria; `bounds` has a column for each of them.
    """
    first, ending = net.out_of.first, bounds[:, 0] < FAR
    # Packing is linear, so that bounds and weightings are packed once and not what each arc adds; no sum is too large.
    by, _ = fields.words(counted)
    words, shifts = fields.words(bounds)

    def work_out(state: int) -> list[Step]:
        here = slice(first[state], first[state + 1])
        head = net.head[here]
        added = net.cost[here] @ by + words[head] - words[state]
        open_ = ending[head]
        return _steps(net, head[open_], added[open_], shifts)

    return Steps(work_out)


def steps_of(net: Net, arcs: Array, words: Array, shifts: Sequence[int]) -> Steps:
    """Those of some arcs, in order, with the words of what each adds; out of a state what adds least comes first."""
    head = net.head[arcs]
    first = net.tail[arcs].searchsorted(np.arange(len(net.space) + 1))

    def work_out(state: int) -> list[Step]:
        here = slice(first[state], first[state + 1])
        return sorted(_steps(net, head[here], words[here], shifts), key=itemgetter(2, 0))

    return Steps(work_out)


def _steps(net: Net, heads: Array, words: Array, shifts: Sequence[int]) -> list[Step]:
    columns = ([word << by for word in column] for column, by in zip(words.T.tolist(), shifts, strict=True))
    added = map(sum, zip(*columns, strict=True))
    return [(head, net.bits[head], more) for head, more in zip(heads.tolist(), added, strict=True)]
