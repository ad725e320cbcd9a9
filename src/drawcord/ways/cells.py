"""A box cut at the sides of what is taken from it: which of the cells are free, and so which runs are clear.

A stretch along an axis is clear if a free cell lies beside every part of it. So it may follow the sides of what is
taken, but never squeezes between two things that touch each other, or between one and the wall it stands against.
"""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from itertools import permutations

import numpy as np

from drawcord.coach.box import Box, Point
from drawcord.ways.elbows import Bools, Grid, Ints, counted

Place = tuple[int, int, int]
"""Where a point lies along each axis: the number of its line twice, or the sum of those of the lines beside it."""


class Cells:
    """The cells between the lines through the sides of a box and of what is taken from it.

    A box that is flat along an axis has two lines on the spot there, so that it has a cell to be free or taken.
    """

    def __init__(self, box: Box, taken: Sequence[Sequence[tuple[int, int]]]) -> None:
        """`taken`: of each part within the box its span along each axis [mm]."""
        self._lines: list[list[int]] = []
        for axis in range(3):
            low, high = box.span(axis)
            line = sorted({low, high, *(side for part in taken for side in part[axis])})
            self._lines.append(line if low < high else line * 2)
        self._free = np.ones([len(line) - 1 for line in self._lines], dtype=bool)
        for part in taken:
            cells = []
            for line, (low, high) in zip(self._lines, part, strict=True):
                first = line.index(low)
                cells.append(slice(first, max(line.index(high), first + 1)))
            self._free[tuple(cells)] = False
        clear = _clear(self._free)
        self._usable = _beside(clear[0], 0)
        self._behind = [counted(~along, axis) for axis, along in enumerate(clear)]

    def place(self, point: Point) -> Place:
        """The place of a point of the box [mm]."""
        x, y, z = (
            2 * after - (line[after] != at)
            for line, at in zip(self._lines, point, strict=True)
            for after in (bisect_left(line, at),)
        )
        return x, y, z

    def usable(self, place: Place) -> bool:
        """Whether a free cell lies beside a place."""
        return bool(self._usable[place])

    def clear(self, start: Place, end: Place, order: Iterable[int]) -> bool:
        """Whether the run between two usable places that travels each of these axes in turn is clear."""
        here = list(start)
        for axis in order:
            first, last = here.copy(), here.copy()
            low, high = sorted((here[axis], end[axis]))
            first[axis], last[axis] = low // 2, (high + 1) // 2
            if self._behind[axis][tuple(first)] != self._behind[axis][tuple(last)]:
                return False
            here[axis] = end[axis]
        return True

    def apart(self, places: Ints) -> tuple[Ints, Ints]:
        """Of n usable places the pairs that none of the six runs joins that travel each axis once."""
        one, two = np.triu_indices(len(places), 1)
        for order in permutations(range(3)):
            here, end = list(places[one].T), places[two].T
            clear = np.ones(len(one), dtype=bool)
            for axis in order:
                first, last = here.copy(), here.copy()
                first[axis] = np.minimum(here[axis], end[axis]) // 2
                last[axis] = (np.maximum(here[axis], end[axis]) + 1) // 2
                clear &= self._behind[axis][tuple(first)] == self._behind[axis][tuple(last)]
                here[axis] = end[axis]
            one, two = one[~clear], two[~clear]
        return one, two

    def grid(self, points: Ints) -> Grid:
        """The grid of these lines and of those through some points [mm], shape (n, 3)."""
        lines, cells = [], []
        for line, at in zip(self._lines, points.T, strict=True):
            finer = np.array(sorted({*line, *at.tolist()}) if line[0] < line[-1] else line)
            lines.append(finer)
            cells.append(np.minimum(np.searchsorted(line, finer[:-1], "right"), len(line) - 1) - 1)
        x, y, z = _clear(self._free[np.ix_(*cells)])
        return Grid(lines, (x[:, ::2, ::2], y[::2, :, ::2], z[::2, ::2]))


def _clear(free: Bools) -> tuple[Bools, Bools, Bools]:
    """Which stretches from line to line are clear along each axis, seen from any place across it."""
    x, y = _beside(free, 0), _beside(free, 1)
    return _beside(y, 2), _beside(x, 2), _beside(x, 1)


def _beside(free: Bools, axis: int) -> Bools:
    """Whether a free cell lies beside a place, for each place along an axis."""
    shape = list(free.shape)
    shape[axis] = 2 * shape[axis] + 1
    found = np.zeros(shape, dtype=bool)
    for first in range(3):  # the line before a cell, between its lines, the line behind it
        there = [slice(None)] * 3
        there[axis] = slice(first, first + 2 * free.shape[axis] - 1, 2)
        found[tuple(there)] |= free
    return found
