"""The roof as a deck to lay cable on: its area, its obstacles, and what is clear of them."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import permutations

import numpy as np
import shapely

from drawcord.ways.elbows import Bools, Ints

Spot = tuple[int, int]
Footprint = tuple[int, int, int, int]

HAIR = 1e-6
"""What the rounding of floats may cost [mm]; a point in whole millimetres misses no line so closely."""


@dataclass(frozen=True)
class Deck:
    """A roof's `outline` [mm], the `edge` kept from it [mm], and its obstacles as x0, x1, y0, y1 [mm]."""

    outline: Sequence[Spot]
    obstacles: Sequence[Footprint]
    edge: int

    @cached_property
    def area(self) -> shapely.Geometry:
        """The outline less its edge, obstacles included; its corners are rounded to whole millimetres."""
        within = shapely.Polygon(self.outline).buffer(-self.edge, join_style="mitre")
        return shapely.set_precision(shapely.set_precision(within, 1), 0)

    @cached_property
    def bounds(self) -> Ints:
        """The corners of the area, shape (n, 2)."""
        return _distinct(np.rint(shapely.get_coordinates(self.area)).astype(np.int64))

    @cached_property
    def solids(self) -> Ints:
        """The obstacles, and a sliver across each seam where two of them touch, shape (n, 4)."""
        solids = {(x0, x1, y0, y1) for x0, x1, y0, y1 in self.obstacles if x0 < x1 and y0 < y1}
        solids |= set(_seams(solids))
        solids |= set(_seams(solids))  # where seams meet, at a point inside three obstacles or more
        return np.array(sorted(solids), dtype=np.int64).reshape(-1, 4)

    @cached_property
    def corners(self) -> Ints:
        """Where a least run may bend, shape (n, 2), by coordinates."""
        found = self.solids[:, [[0, 2], [0, 3], [1, 2], [1, 3]]].reshape(-1, 2)
        if not self._convex:
            found = np.concatenate((found, self.bounds))
        found = _distinct(found)
        return found[self.usable(found)]

    def usable(self, spots: Ints) -> Bools:
        """Which of n points lie in the area and in no obstacle's interior; exact."""
        x, y = spots[:, 0, None], spots[:, 1, None]
        x0, x1, y0, y1 = self.solids.T
        covered = ((x0 < x) & (x < x1) & (y0 < y) & (y < y1)).any(axis=1)
        usable: Bools = shapely.intersects_xy(self._larger, spots[:, 0], spots[:, 1]) & ~covered
        return usable

    def clear(self, starts: Ints, ends: Ints) -> Bools:
        """Which of n straight stretches, their ends being usable, meet no interior and stay in the area."""
        ax, ay, bx, by = (column[:, None] for column in (*starts.T, *ends.T))
        x0, x1, y0, y1 = self.solids.T
        dx, dy = bx - ax, by - ay
        # A stretch misses an open rectangle if they are apart along x, along y or across the stretch.
        offset = np.abs(dx * (y0 + y1 - 2 * ay) - dy * (x0 + x1 - 2 * ax))
        meets = (
            (np.maximum(ax, bx) > x0)
            & (np.minimum(ax, bx) < x1)
            & (np.maximum(ay, by) > y0)
            & (np.minimum(ay, by) < y1)
            & (offset < np.abs(dx) * (y1 - y0) + np.abs(dy) * (x1 - x0))
        )
        clear: Bools = ~meets.any(axis=1)
        if not self._convex:
            lines = shapely.linestrings(np.stack((starts[clear], ends[clear]), axis=1))
            clear[clear] = shapely.covers(self._larger, lines)
        return clear

    @cached_property
    def _larger(self) -> shapely.Geometry:
        """The area a hair larger, prepared for tests."""
        larger = self.area.buffer(HAIR, join_style="mitre")
        shapely.prepare(larger)
        return larger

    @cached_property
    def _convex(self) -> bool:
        return bool(self.area.equals(self.area.convex_hull))


def _distinct(spots: Ints) -> Ints:
    """Points without repetition, sorted; `np.unique` would load masked arrays first, which takes longer."""
    return np.array(sorted(set(map(tuple, spots.tolist()))), dtype=np.int64).reshape(-1, 2)


def _seams(solids: Iterable[Footprint]) -> Iterator[Footprint]:
    """A sliver across each side that two rectangles share, within both."""
    for (ax0, ax1, ay0, ay1), (bx0, bx1, by0, by1) in permutations(solids, 2):
        x0, x1, y0, y1 = max(ax0, bx0), min(ax1, bx1), max(ay0, by0), min(ay1, by1)
        if x0 == x1 == ax1 and y0 < y1:
            yield x0 - 1, x0 + 1, y0, y1
        if y0 == y1 == ay1 and x0 < x1:
            yield x0, x1, y0 - 1, y0 + 1
