"""Elbowed runs along the lines of a coordinate grid: least length, then fewest bends, then most wall.

Where everything is axis-parallel, some least square run lies on the lines through the sides of the
obstacles and through its two ends, so a grid of those lines is exact. Roof and spaces share this search.
"""

from collections.abc import Sequence
from itertools import combinations, product
from operator import mul, sub
from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

Crossing = tuple[int, int, int]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]
P = TypeVar("P", bound=tuple[int, ...])

FAR = 1 << 30
"""Farther than any run [mm]: no way."""


class _Onward(NamedTuple):
    """The best way on from a crossing; less is better."""

    bends: int
    walled: int  # length in walls to come, negative
    there: Crossing  # the next crossing
    axis: int  # along which it is reached

    def after(self, came: int) -> "_Onward":
        """The same for a run that came along an axis; 3: it starts here."""
        return self if came in (self.axis, 3) else self._replace(bends=self.bends + 1)


class Grid:
    """Lines across the three axes [mm], and which stretches between neighbouring crossings are clear.

    `lines` are the ascending coordinates of nx, ny and nz lines; `clear[0]` has the shape (nx - 1, ny, nz)
    and says which stretches along x are clear, `clear[1]` and `clear[2]` the same along y and z.
    """

    def __init__(self, lines: Sequence[Ints], clear: Sequence[Bools]) -> None:
        self.lines = tuple(lines)
        # Where each crossing lies along each axis [mm], FAR further on behind each blockage.
        self._along = tuple(
            _across(line, axis) + FAR * counted(~along, axis)
            for axis, (line, along) in enumerate(zip(lines, clear, strict=True))
        )

    def at(self, points: Ints) -> Ints:
        """The crossings of points [mm], shape (n, 3), that lie on lines across every axis."""
        columns = [np.searchsorted(line, points[:, axis]) for axis, line in enumerate(self.lines)]
        return np.stack(columns, axis=1)

    def lengths(self, starts: Ints) -> Ints:
        """Least length [mm] from each of n crossings to every crossing, shape (n, nx, ny, nz)."""
        far = np.full((len(starts), *map(len, self.lines)), FAR, dtype=np.int64)
        far[(np.arange(len(starts)), *starts.T)] = 0
        # There and back along each axis, until nothing gets shorter.
        shorter = True
        while shorter:
            before = far
            for axis, along in enumerate(self._along, 1):
                backwards = (slice(None),) * axis + (slice(None, None, -1),)
                there = np.minimum.accumulate(far - along, axis) + along
                back = np.minimum.accumulate((far + along)[backwards], axis)[backwards] - along
                far = np.minimum(there, back)
            shorter = not np.array_equal(far, before)
        return far

    def beyond(self, far: Ints, points: Ints) -> Ints:
        """Least length [mm] to n points by the corners of the cells they lie in, `far` from each of some starts."""
        sides = []
        for axis, line in enumerate(self.lines):
            after = np.searchsorted(line, points[:, axis])
            before = after - (line[after] != points[:, axis])
            sides.append([(side, np.abs(points[:, axis] - line[side])) for side in (before, after)])
        found = [far[:, x, y, z] + to_x + to_y + to_z for (x, to_x), (y, to_y), (z, to_z) in product(*sides)]
        least: Ints = np.min(found, axis=0)
        return least

    def run(self, start: Crossing, goal: Crossing, walls: Sequence[Sequence[int]]) -> list[Crossing]:
        """The crossings of the best run from start to goal; empty where there is none.

        `walls[axis]` counts for each line across the axis the walls it lies in. Of the least runs the one
        with fewest bends, of those the one with most length in walls (twice along an edge, which lies in
        two), of those the first by its crossings.
        """
        from_start, from_goal = self.lengths(np.array([start, goal]))
        if from_start[goal] >= FAR:
            return []
        on = np.argwhere(from_start + from_goal == from_start[goal])  # all that lies on some least run
        crossings: list[Crossing] = [(x, y, z) for x, y, z in on.tolist()]
        length = dict(zip(crossings, from_start[tuple(on.T)].tolist(), strict=True))
        onward = {goal: [_Onward(0, 0, goal, 3)] * 4}  # from each crossing, by the axis of arrival
        for here in sorted(crossings, key=lambda crossing: (-length[crossing], crossing)):
            options = []
            for axis in range(3):
                at = self._along[axis]
                along = sum(walls[other][here[other]] for other in range(3) if other != axis)
                for step in (-1, 1):
                    x, y, z = (index + step * (axis == other) for other, index in enumerate(here))
                    there = (x, y, z)
                    if there in onward:
                        width = int(abs(at[there] - at[here]))
                        if 0 < width == length[there] - length[here]:
                            best = onward[there][axis]
                            options.append(_Onward(best.bends, best.walled - width * along, there, axis))
            if options:
                onward[here] = [min(option.after(came) for option in options) for came in range(4)]
        run, came = [start], 3
        while run[-1] != goal:
            best = onward[run[-1]][came]
            run.append(best.there)
            came = best.axis
        return run


def _across(line: Ints, axis: int) -> Ints:
    """A line's coordinates along an axis of three."""
    return line.reshape([-1 if axis == other else 1 for other in range(3)])


def counted(blocked: Bools, axis: int) -> Ints:
    """How many blocked stretches lie before each crossing along an axis."""
    shape = list(blocked.shape)
    shape[axis] += 1
    found = np.zeros(shape, dtype=np.int64)
    behind = [slice(None)] * 3
    behind[axis] = slice(1, None)
    np.cumsum(blocked, axis, out=found[tuple(behind)])
    return found


def corners(run: Sequence[P]) -> tuple[P, ...]:
    """A run without the points that are repeated or lie straight between their neighbours."""
    kept: list[P] = []
    for point in run:
        if kept and point == kept[-1]:
            continue
        if len(kept) > 1 and _straight(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    return tuple(kept)


def _straight(a: tuple[int, ...], b: tuple[int, ...], c: tuple[int, ...]) -> bool:
    """Whether b lies between a and c, on the line from the one to the other."""
    before, after = list(map(sub, b, a)), list(map(sub, c, b))
    if sum(map(mul, before, after)) <= 0:
        return False
    return all(u * w == v * t for (u, t), (v, w) in combinations(zip(before, after, strict=True), 2))
