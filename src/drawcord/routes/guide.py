"""What the searches under a weighting go by."""

from collections.abc import Iterator, Sequence
from copy import copy
from functools import partial

import numpy as np

from drawcord.routes.least import FAR, least_in_order, least_near
from drawcord.routes.net import Lost, Net, Vector
from drawcord.routes.packing import Packing, joined
from drawcord.routes.steps import steps_of

TIMES = (2.5, None)  # the least weight: how far to look for paths before looking further


class Guide:
    """Bounds in order of weight, then vector, that are met exactly unless a space is in the way.

    They are worked out for those states alone that paths of no more than `times` the least weight come by.

    `bound`: packed, of the start; None if no way leads to the goal.
    `beyond`: packed; of what is bounded by this or more the guide does not know all.
    `whole`: whether there is nothing beyond.
    `steps`: an addition of 0 follows a best way.
    """

    def __init__(self, net: Net, weights: Sequence[int], times: float | None) -> None:
        """Raises ValueError on negative or absurd weights."""
        weight = net.weigh(weights)
        near, most = least_near(net.tail, net.head, weight, net.into, (net.start, net.goal), times)
        self.whole = most == FAR - 1
        past = np.zeros_like(near)
        if not self.whole:
            past, _ = least_near(net.head, net.tail, weight, net.out_of, (net.goal, net.start), times)
        known = np.flatnonzero(past + near <= most)
        arcs = net.out_of.at(known)
        arcs = arcs[past[net.tail[arcs]] + weight[arcs] + near[net.head[arcs]] <= most]
        tail, head = net.tail[arcs], net.head[arcs]
        best = near[tail] == weight[arcs] + near[head]
        cost = np.column_stack([weight[arcs], net.cost.take(arcs, axis=0)])
        # The ways behind the bounds enter no state twice, but maybe a space; a path lies before them.
        self._fields = Packing((2 * len(known) * cost.max(axis=0, initial=0)).tolist())
        words, shifts = self._fields.words(cost)
        least = least_in_order(tail[best], head[best], words.compress(best, axis=0), len(net.space), net.goal)
        self.steps = steps_of(net, arcs, words + least.take(head, axis=0) - least.take(tail, axis=0), shifts)
        self.bound = None if near[net.start] == FAR else joined(least[net.start].tolist(), shifts)
        self.beyond = most + 1 << self._fields.shift[0]

    def without(self, lost: Lost) -> "Guide":
        """The same for a net without the states that are lost; what was a best way may be none."""
        guide = copy(self)
        guide.steps = self.steps.without(lost)
        return guide

    def vector(self, bound: int) -> Vector:
        """Cost in every criterion of a path with this bound."""
        return self._fields.unpack(bound)[1:]


def guides(net: Net, weights: Sequence[int]) -> Iterator[Guide]:
    """Guides for a search, each knowing more than the one before; the last is whole.

    The first paths of a cable seldom weigh much more than the lightest, and what is further off takes time to bound.
    """
    whole = ("guide", tuple(weights), None) in net.worked_out
    for times in TIMES[1:] if whole else TIMES:
        # The same for the same net, since one search of it mostly follows another.
        guide = net.once(("guide", tuple(weights), times), partial(Guide, net, weights, times))
        yield guide
        if guide.whole:
            return
