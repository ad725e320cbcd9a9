"""What the searches under a weighting go by."""

from collections.abc import Sequence

import numpy as np

from drawcord.routes.least import FAR, least_in_order
from drawcord.routes.net import Net, Vector
from drawcord.routes.packing import Packing
from drawcord.routes.steps import Steps


class Guide:
    """Bounds in order of weight, then vector, that are met exactly unless a space is in the way.

    `bound`: packed, of the start; None if no way leads to the goal.
    `out`: the steps out of a state; an addition of 0 follows a best way.
    """

    def __init__(self, net: Net, weights: Sequence[int]) -> None:
        """Raises ValueError on negative or absurd weights."""
        cost = np.column_stack([net.weigh(weights), net.cost])
        least = least_in_order(net.tail, net.head, cost, len(net.space), net.goal)
        # The ways behind the bounds enter no state twice, but maybe a space; a path lies before them.
        most = cost.max(axis=0, initial=0) * len(net.space)
        self._fields = Packing((2 * most).tolist())
        self.out = Steps(net, cost, least, self._fields).out
        self.bound = None if least[net.start, 0] == FAR else self._fields.pack(least[net.start].tolist())

    def vector(self, bound: int) -> Vector:
        """Cost in every criterion of a path with this bound."""
        return self._fields.unpack(bound)[1:]
