"""Runs over the roof, straight or square, around obstacles already grown by their clearance.

One visibility graph serves both. A least run bends only at corners of obstacles and of the roof; pulling a
run taut never lengthens it in the square metric either, so the least square length is the least sum of
square lengths over the same clear, straight stretches.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil, isinf

import numpy as np
import shapely
from numpy.typing import NDArray

from drawcord.ways.deck import HAIR, Deck, Footprint, Spot
from drawcord.ways.elbows import Ints, corners
from drawcord.ways.stairs import elbow, elbowed

Lengths = NDArray[np.float64]


@dataclass(frozen=True)
class RoofRuns:
    """Where cables run over a roof.

    `outline` is the roof's polygon [mm] and `edge` what is kept from it [mm]; `obstacles` are x0, x1, y0, y1
    [mm] with their clearance added, and a run may follow their sides, but not the seam between two that
    touch. `z` is the roof's height [mm]. Square runs follow x and y only.
    """

    outline: Sequence[Spot]
    obstacles: Sequence[Footprint]
    edge: int
    z: int
    square: bool

    @property
    def area(self) -> shapely.Geometry:
        """The outline less its edge, obstacles included; its corners are rounded to whole millimetres."""
        return self._deck.area

    def lengths(self, points: Sequence[Spot]) -> list[list[int | None]]:
        """Least length [mm] from each point to each, symmetric; None where there is no way.

        Straight lengths are rounded up. A point within an obstacle or off the area reaches nothing, not
        even itself.
        """
        spots = np.array(points, dtype=np.int64).reshape(-1, 2)
        found, reach = self._stretches(spots, spots), self._stretches(spots, self._deck.corners)
        for row, first in enumerate(reach):
            around = (first[:, None] + self._between).min(axis=0, initial=np.inf)
            found[row] = np.minimum(found[row], (around + reach).min(axis=1, initial=np.inf))
        table = np.minimum(found, found.T).tolist()
        return [[None if isinf(length) else ceil(length) for length in row] for row in table]

    def path(self, p: Spot, q: Spot) -> tuple[Spot, ...]:
        """The corners of a least run from p to q, both included; empty where there is none.

        A square run has as few bends as can be if the roof's edges are square, else nearly so. Ties go to
        the first by coordinates from the end that comes first; from q to p it is the same run backwards.
        """
        if q < p:
            return self.path(q, p)[::-1]
        if self.square and (spot := elbow(self._deck, p, q)):
            return corners((p, spot, q))
        taut = self._taut(p, q)
        return elbowed(self._deck, taut) if self.square and taut else taut

    @cached_property
    def _deck(self) -> Deck:
        return Deck(self.outline, self.obstacles, self.edge)

    @cached_property
    def _between(self) -> Lengths:
        """Least length between any two corners, after Floyd and Warshall."""
        between = self._stretches(self._deck.corners, self._deck.corners)
        for via in range(len(between)):
            between = np.minimum(between, between[:, via, None] + between[via])
        return between

    def _stretches(self, starts: Ints, ends: Ints) -> Lengths:
        """Lengths of the clear straight stretches from starts to ends; infinite where there is none."""
        start, end = np.nonzero(np.outer(self._deck.usable(starts), self._deck.usable(ends)))
        clear = self._deck.clear(starts[start], ends[end])
        start, end = start[clear], end[clear]
        way = np.abs(ends[end] - starts[start])  # whole millimetres, so roots of squares come out exact
        lengths = np.full((len(starts), len(ends)), np.inf)
        lengths[start, end] = way.sum(axis=1) if self.square else np.sqrt((way**2).sum(axis=1))
        return lengths

    def _taut(self, p: Spot, q: Spot) -> tuple[Spot, ...]:
        """The corners of a least run of clear straight stretches from p to q; empty where there is none."""
        ends, goal = np.array([p, q]), np.array([q])
        if self._deck.usable(ends).all() and self._deck.clear(ends[:1], goal).all():
            return corners((p, q))
        stops = np.concatenate((goal, self._deck.corners))
        from_goal = self._stretches(goal, self._deck.corners)
        ahead = np.insert((self._between + from_goal).min(axis=1, initial=np.inf), 0, 0)  # from stops to q
        run, stop = [p], -1
        while stop != 0:
            legs = self._stretches(np.array(run[-1:]), stops)[0]
            total = legs + ahead
            if isinf(total.min()):
                return ()
            forward = (legs > 0) | (np.arange(len(stops)) == 0)
            stop = int(np.flatnonzero(forward & (total < total.min() + HAIR))[0])  # q if it will do
            run.append((int(stops[stop, 0]), int(stops[stop, 1])))
        return corners(run)
