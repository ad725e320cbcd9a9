"""What partial paths have spent of the criteria that have a limit."""

from collections.abc import Sequence

import numpy as np

from drawcord.routes.net import Net
from drawcord.routes.packing import Packing
from drawcord.routes.steps import Steps, all_steps

Limits = Sequence[int | None]  # the most in each criterion, None for any


class Purse:
    """The least that the completions of a partial path cost in the limited criteria, packed.

    `first`: at the start; None if no path can keep to the limits.
    """

    def __init__(self, net: Net, limits: Limits) -> None:
        """No limits at all are fine."""
        held = [column for column, most in enumerate(limits) if most is not None]
        room = np.array([limits[column] for column in held], np.int64)
        self.first: int | None = 0
        self._guard = 0
        self._steps: Steps | None = None
        if not held:
            return
        ideal = net.bounds[net.start, held]
        fields = Packing((2 * np.maximum(room, net.most[held] * net.spaces)).tolist())
        if (ideal > room).any():
            self.first = None
            return
        self.first, self._guard = fields.pack(ideal.tolist()), fields.guard
        counted = np.eye(len(limits), dtype=np.int64)[:, held]
        self._steps = all_steps(net, counted, net.bounds[:, held], fields)
        self._most = fields.pack(room.tolist()) | fields.guard
        self._known: dict[int, dict[int, int]] = {}

    def after(self, tail: int, head: int, spent: int) -> int | None:
        """What is spent behind `head` if it was `spent` at `tail`; None past a limit."""
        if self._steps is None:
            return spent
        if tail not in self._known:
            self._known[tail] = {there: added for there, _, added in self._steps.out(tail)}
        added = self._known[tail].get(head)
        if added is None or self._most - spent - added & self._guard != self._guard:
            return None
        return spent + added

    def nowhere_above(self, one: int, other: int) -> bool:
        """Whether the one has spent no more than the other in any limited criterion."""
        return (other | self._guard) - one & self._guard == self._guard
