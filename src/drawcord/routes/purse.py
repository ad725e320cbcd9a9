"""What partial paths have spent of the criteria that have a limit, and how far they have run out of a hand's reach."""

from collections.abc import Sequence

import numpy as np

from drawcord.routes.net import Net
from drawcord.routes.packing import Packing
from drawcord.routes.reach import Reach
from drawcord.routes.steps import all_steps

Limits = Sequence[int | None]  # the most in each criterion, None for any


class Purse:
    """The least that the completions of a partial path cost in the limited criteria, then its stretch out of reach.

    Packed, the stretch in the lowest bits. `first`: at the start; None if no path can keep to the limits.
    """

    def __init__(self, net: Net, limits: Limits, reach: Reach | None = None) -> None:
        """No limits at all are fine, and without `reach` nothing is asked of it."""
        held = [column for column, most in enumerate(limits) if most is not None]
        room = np.array([limits[column] for column in held], np.int64)
        ideal, dearest = (net.bounds[net.start, held], net.most[held] * net.spaces) if held else (room, room)
        longest = [reach.longest] if reach else []
        fields = Packing([*(2 * np.maximum(room, dearest)).tolist(), *longest])
        self.first = None if (ideal > room).any() else fields.pack(ideal.tolist())
        self._guard, self._most = fields.guard, fields.pack([*room.tolist(), *longest]) | fields.guard
        self._reach, self._stretch = reach, (1 << reach.longest.bit_length()) - 1 if reach else 0
        counted = np.eye(len(limits), dtype=np.int64)[:, held]
        self._steps = all_steps(net, counted, net.bounds[:, held], fields) if held else None
        self._known: dict[int, dict[int, int]] = {}

    def after(self, tail: int, head: int, spent: int) -> int | None:
        """What is spent behind `head` if it was `spent` at `tail`; None past a limit, or too far out of reach."""
        if self._steps:
            if tail not in self._known:
                self._known[tail] = {there: added for there, _, added in self._steps.out(tail)}
            added = self._known[tail].get(head)
            if added is None or self._most - spent - added & self._guard != self._guard:
                return None
            spent += added
        if self._reach:
            stretch = spent & self._stretch
            onward = self._reach.after(tail, head, stretch)
            return None if onward is None else spent + onward - stretch
        return spent

    def nowhere_above(self, one: int, other: int) -> bool:
        """Whether the one has spent no more of what has a limit than the other, and runs no further out of reach."""
        return (other | self._guard) - one & self._guard == self._guard
