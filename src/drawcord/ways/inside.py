"""Runs within one space, clipped along its axes, around whatever takes up part of it.

A run may follow the sides of what is taken, but never squeezes between two things that touch each other,
or between one and the wall it stands against: it stays in the closure of the room that is left.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise, permutations

import numpy as np

from drawcord.coach.box import Box, Point
from drawcord.ways.elbows import FAR, Bools, Crossing, Grid, Ints, corners

CELLS = 20_000_000  # of grids held at once, 4 bytes each


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
        runs = [_elbows(p, q, order) for order in permutations(axis for axis in range(3) if p[axis] != q[axis])]
        if self._parts:
            runs = [run for run in runs if all(self._clear(*stretch) for stretch in pairwise(run))]
            if (p == q or not runs) and not (self._clear(p, p) and self._clear(q, q)):
                return ()
            if not runs:
                ends = np.array([p, q])
                grid = self._grid(ends)
                start, goal = [(x, y, z) for x, y, z in grid.at(ends).tolist()]
                walls = [[self._walls(axis, at) for at in line] for axis, line in enumerate(grid.lines)]
                return corners([_place(grid, crossing) for crossing in grid.run(start, goal, walls)])
        return min(runs, key=lambda run: (-self._walled(run), run))

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
        grid = self._grid(points)
        at = grid.at(points)
        usable = np.array([self._clear(point, point) for point in points.tolist()])
        lengths[~usable], lengths[:, ~usable] = FAR, FAR
        round_ = usable[:, None] & usable[None] & ~grid.elbowed(at)
        if not round_.any():
            return lengths
        # The rest from as few ends as cover all such pairs, on the lines of these points alone.
        ends = np.flatnonzero(round_.any(axis=1))
        grid = self._grid(points[ends])
        at, open_ = grid.at(points[ends]), round_[np.ix_(ends, ends)]
        starts = []
        while open_.any():
            starts.append(int(open_.sum(axis=1).argmax()))
            open_[starts[-1]], open_[:, starts[-1]] = False, False
        # A few at a time, since each takes the whole grid.
        each = max(1, CELLS // math.prod(len(line) for line in grid.lines))
        for first in range(0, len(starts), each):
            few = starts[first : first + each]
            found = grid.lengths(at[few])[:, at[:, 0], at[:, 1], at[:, 2]]
            lengths[np.ix_(ends[few], ends)] = found
            lengths[np.ix_(ends, ends[few])] = found.T
        return lengths

    def _grid(self, points: Ints) -> Grid:
        """The grid of lines through the parts' sides and some points."""
        lines, free = self._cut(points)
        # A stretch is clear if one of the cells around it is free.
        x, y = _beside(free, 0), _beside(free, 1)
        return Grid([np.array(line) for line in lines], (_beside(y, 2), _beside(x, 2), _beside(x, 1)))

    def _clear(self, p: Sequence[int], q: Sequence[int]) -> bool:
        """Whether a free cell lies beside every part of a stretch along one axis, or beside a point."""
        lines, free = self._cells
        beside = []
        for line, ends in zip(lines, zip(p, q, strict=True), strict=True):
            low, high = sorted(ends)
            first, last = bisect_right(line, low) - 1, bisect_left(line, high)
            if low == high:
                first, last = max(bisect_left(line, low) - 1, 0), min(bisect_right(line, low), len(line) - 1)
            beside.append(slice(first, last))
        across = tuple(axis for axis in range(3) if p[axis] == q[axis])
        block = free[tuple(beside)]
        return bool(block.all() or block.any(axis=across).all())

    @cached_property
    def _cells(self) -> tuple[list[list[int]], Bools]:
        """The box cut at the parts' sides alone."""
        return self._cut(np.zeros((0, 3), np.int64))

    def _cut(self, points: Ints) -> tuple[list[list[int]], Bools]:
        """The lines through the parts' sides and some points, and which of the cells between them are free."""
        lines = []
        for axis, of_points in enumerate(points.T.tolist()):
            low, high = self.box.span(axis)
            line = sorted({low, high, *of_points, *(side for part in self._parts for side in part[axis])})
            # A flat box gets two lines on the spot, so that it has a cell to be free or taken.
            lines.append(line if low < high else line * 2)
        free = np.ones([len(line) - 1 for line in lines], dtype=bool)
        for part in self._parts:
            cells = []
            for line, (low, high) in zip(lines, part, strict=True):
                first = line.index(low)
                cells.append(slice(first, max(line.index(high), first + 1)))
            free[tuple(cells)] = False
        return lines, free

    def _walls(self, axis: int, at: int) -> int:
        """How many walls across an axis a coordinate lies in, 0 or 1."""
        return int(at in self.box.span(axis))

    def _walled(self, run: tuple[Point, ...]) -> int:
        """The length of a run in walls [mm]."""
        total = 0
        for here, there in pairwise(run):
            axis = next(axis for axis in range(3) if here[axis] != there[axis])
            along = sum(self._walls(other, here[other]) for other in range(3) if other != axis)
            total += along * abs(there[axis] - here[axis])
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


def _beside(free: Bools, axis: int) -> Bools:
    """Whether what lies before or behind a line across an axis is free, for each line."""
    shape = list(free.shape)
    shape[axis] += 1
    found = np.zeros(shape, dtype=bool)
    before, behind = [slice(None)] * 3, [slice(None)] * 3
    before[axis], behind[axis] = slice(None, -1), slice(1, None)
    found[tuple(before)] = free
    found[tuple(behind)] |= free
    return found
