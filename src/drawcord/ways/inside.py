"""Runs within one space, clipped along its axes, around whatever takes up part of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise, permutations

import numpy as np

from drawcord.coach.box import Box, Point
from drawcord.ways.cells import Cells
from drawcord.ways.elbows import FAR, Crossing, Grid, Ints, corners

AT_ONCE = 4  # starts that share a grid: fewer would be more grids, more would be finer ones


@dataclass(frozen=True)
class Inside:
    """Runs in the square metric inside a box, clear of the boxes that are taken out of it.

    The box may be flat, as a stretch of wall is; then whatever reaches its plane is taken from it.
    """

    box: Box
    taken: tuple[Box, ...] = ()

    def lengths(self, points: Sequence[Point]) -> list[list[int | None]]:
        """Least square length [mm] from each point to each, symmetric; None where there is no way.

        A point outside the box or within what is taken reaches nothing, not even itself.
        """
        held = [index for index, point in enumerate(points) if self.box.holds(point)]
        table = np.full((len(points), len(points)), FAR, dtype=np.int64)
        if held:
            table[np.ix_(held, held)] = self._among(np.array([points[index] for index in held]))
        return [[None if length >= FAR else length for length in row] for row in table.tolist()]

    def path(self, p: Point, q: Point) -> tuple[Point, ...]:
        """The corners of a least run from p to q, both included; empty where there is none.

        Of the least runs it is one with fewest bends, of those one with the greatest length in walls of
        the box (twice along an edge, which lies in two), of those the first by coordinates from the end
        that comes first. From q to p it is the same run backwards.
        """
        if not (self.box.holds(p) and self.box.holds(q)):
            return ()
        if q < p:
            return self.path(q, p)[::-1]
        axes = [axis for axis in range(3) if p[axis] != q[axis]]
        runs = [(_elbows(p, q, order), order) for order in permutations(axes)]
        runs.sort(key=lambda one: (-self._walled(one[0]), one[0]))
        if not self._parts:
            return runs[0][0]
        start, end = self._cells.place(p), self._cells.place(q)
        if not (self._cells.usable(start) and self._cells.usable(end)):
            return ()
        for run, order in runs:
            if self._cells.clear(start, end, order):
                return run
        ends = np.array([p, q])
        grid = self._cells.grid(ends)
        first, last = [(x, y, z) for x, y, z in grid.at(ends).tolist()]
        walls = [[int(at in self.box.span(axis)) for at in line.tolist()] for axis, line in enumerate(grid.lines)]
        return corners([_place(grid, crossing) for crossing in grid.run(first, last, walls)])

    @cached_property
    def _parts(self) -> list[list[tuple[int, int]]]:
        """What is taken, cut to the box: the span of each part along each axis."""
        parts = []
        for other in self.taken:
            spans = [
                (max(low, from_), min(high, to))
                for (low, high), (from_, to) in ((self.box.span(axis), other.span(axis)) for axis in range(3))
            ]
            if all(
                low < high or low == high == self.box.span(axis)[0] == self.box.span(axis)[1]
                for axis, (low, high) in enumerate(spans)
            ):
                parts.append(spans)
        return parts

    def _among(self, points: Ints) -> Ints:
        """Least lengths between points held by the box, FAR where there is no way, shape (n, n)."""
        lengths: Ints = np.abs(points[:, None] - points[None]).sum(axis=2)
        if not self._parts:
            return lengths
        places = [self._cells.place(point) for point in points.tolist()]
        usable = np.array([self._cells.usable(place) for place in places])
        lengths[~usable], lengths[:, ~usable] = FAR, FAR
        clear = np.flatnonzero(usable)
        one, two = (clear[of] for of in self._cells.apart(np.array(places)[clear]))
        # The rest from as few starts as cover all such pairs.
        ends, starts = np.flatnonzero(np.bincount(np.concatenate((one, two)))), list[int]()
        while len(one):
            starts.append(int(np.bincount(np.concatenate((one, two))).argmax()))
            left = (one != starts[-1]) & (two != starts[-1])
            one, two = one[left], two[left]
        for first in range(0, len(starts), AT_ONCE):
            few = np.array(starts[first : first + AT_ONCE])
            found = self._around(points[few], points[ends])
            lengths[np.ix_(few, ends)], lengths[np.ix_(ends, few)] = found, found.T
        return lengths

    def _around(self, starts: Ints, ends: Ints) -> Ints:
        """Least lengths from usable points to others, FAR where there is no way.

        Found on the lines of the parts and the starts alone: between two of them all is alike, so that the
        last of a run to an end may lead from a corner of its cell.
        """
        grid = self._cells.grid(starts)
        return grid.beyond(grid.lengths(grid.at(starts)), ends)

    @cached_property
    def _cells(self) -> Cells:
        return Cells(self.box, self._parts)

    def _walled(self, run: tuple[Point, ...]) -> int:
        """The length of a run in walls [mm]."""
        (x0, x1, y0, y1, z0, z1), total = self.box, 0
        for (x, y, z), (to_x, to_y, to_z) in pairwise(run):
            at_x, at_y, at_z = x in (x0, x1), y in (y0, y1), z in (z0, z1)
            total += abs(to_x - x) * (at_y + at_z) + abs(to_y - y) * (at_x + at_z) + abs(to_z - z) * (at_x + at_y)
        return total


def _elbows(p: Point, q: Point, order: Sequence[int]) -> tuple[Point, ...]:
    """The run from p to q along each axis on which they differ, in the order given."""
    run, here = [p], list(p)
    for axis in order:
        here[axis] = q[axis]
        run.append((here[0], here[1], here[2]))
    return tuple(run)


def _place(grid: Grid, crossing: Crossing) -> Point:
    """Where a crossing is [mm]."""
    x, y, z = (int(line[index]) for line, index in zip(grid.lines, crossing, strict=True))
    return x, y, z
