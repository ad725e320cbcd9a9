"""Bounds in weight and in every criterion at once, packed, and what each arc adds to them."""

from collections.abc import Sequence
from copy import copy

import numpy as np

from drawcord.routes.least import least
from drawcord.routes.net import Lost, Net, Vector
from drawcord.routes.packing import Packing
from drawcord.routes.steps import all_steps


class Bounded:
    """Of a net under a weighting, which comes before the criteria.

    `ideal`: no path costs less than this. `most`: none costs more. `fields` hold twice as much.
    `steps`: what each arc adds to the packed bound of a partial path.
    """

    def __init__(self, net: Net, weights: Sequence[int]) -> None:
        """Raises ValueError on negative or absurd weights."""
        onward = least(net.tail, net.head, net.weigh(weights), len(net.space), net.goal)
        bounds = np.column_stack([onward, net.bounds])
        counted = np.column_stack([weights, np.eye(len(weights), dtype=np.int64)])
        self.ideal: Vector = tuple(bounds[net.start].tolist())
        self.most: Vector = tuple((net.most @ counted * net.spaces).tolist())
        self.fields = Packing([2 * most for most in self.most])
        self.steps = all_steps(net, counted, bounds, self.fields)

    def without(self, lost: Lost) -> "Bounded":
        """The same for a net without the states that are lost."""
        bounded = copy(self)
        bounded.steps = self.steps.without(lost)
        return bounded


def bounded(net: Net, weights: Sequence[int]) -> Bounded:
    """The same for the same net and weights. Raises ValueError on negative or absurd weights."""
    return net.once(("bounded", tuple(weights)), lambda: Bounded(net, weights))
