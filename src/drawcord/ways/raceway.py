"""Cable in surface raceway: least runs along the walls of a living area.

The usable surface consists of flat boxes that meet in upright lines, on one wall as round a corner. In the
square metric a flat box is crossed in any order of its directions at the same length. So all that counts
is where a run crosses from box to box, and one that moves no further than each line makes it is a least
one: where it last crossed, and after what length, is enough to know its length to any point of the box.
"""

from bisect import bisect_left
from collections.abc import Sequence
from functools import cache
from heapq import heappop, heappush
from typing import NamedTuple

from drawcord.coach.box import Box, Point
from drawcord.ways.elbows import corners
from drawcord.ways.usable import common, plane, usable


class _Line(NamedTuple):
    """An upright line from z0 to z1 [mm] in which a flat box meets another, `beyond`, given by its index."""

    x: int
    y: int
    z0: int
    z1: int
    beyond: int


class _Arrival(NamedTuple):
    """A point at which a flat box is reached, and the length of the run to it [mm]."""

    length: int
    x: int
    y: int
    z: int

    def to(self, point: Point) -> int:
        """The length of the run when it goes on to a point of the same flat box [mm]."""
        x, y, z = point
        return self.length + abs(x - self.x) + abs(y - self.y) + abs(z - self.z)


_NO_AXIS = 3  # of a run that starts here


class Raceway:
    """The walls of a living area on which raceway can run.

    `faces` are flat upright boxes (x0 == x1 or y0 == y1). `taken` are boxes, solid or flat: what they touch
    or cover of a face is not usable, the edge of it is. So a solid takes its own sides: one whose side is
    among the faces must be drawn back from it. Parts that meet in a mere point are not joined there.
    """

    def __init__(self, faces: tuple[Box, ...], taken: tuple[Box, ...]) -> None:
        self.free: tuple[Box, ...] = tuple(usable(faces, taken))
        """The usable rectangles as flat boxes, disjoint but for their edges, sorted."""
        self._level: tuple[int, ...] = tuple(1 - plane(box).axis for box in self.free)
        """The level axis along which each of them runs."""
        self._heights: tuple[int, ...] = tuple(sorted({z for box in self.free for z in box.span(2)}))
        """Where their lower and upper edges lie."""
        self._from: dict[Point, list[list[_Arrival]]] = {}
        self._lines: list[list[_Line]] = [[] for _ in self.free]
        for index, box in enumerate(self.free):
            for other in range(index):
                shared = common(box, self.free[other])
                if shared and shared.z0 < shared.z1:
                    for here, beyond in ((index, other), (other, index)):
                        self._lines[here].append(_Line(shared.x0, shared.y0, shared.z0, shared.z1, beyond))
        self._at: list[dict[tuple[int, int], list[_Line]]] = [{} for _ in self.free]
        """The same lines by where they stand."""
        for index, lines in enumerate(self._lines):
            for line in lines:
                self._at[index].setdefault((line.x, line.y), []).append(line)

    def patches(self, face: Box) -> tuple[Box, ...]:
        """Where a flat face of a space meets usable surface, sorted: a few boxes, none within another.

        Rectangles where it lies on a wall, upright or level lines where it stands across one.
        """
        areas: list[Box] = []
        lines: list[Box] = []
        for box in self.free:
            shared = common(face, box)
            if shared and _extents(shared) == 2:
                areas.append(shared)
            elif shared and _extents(shared) == 1 and _extents(face.hull(box)) > _extents(face):
                lines.append(shared)
        found = usable(areas, ()) + _joined(lines)
        return tuple(sorted(part for part in found if not any(o.contains(part) for o in found if o != part)))

    def lengths(self, points: Sequence[Point]) -> list[list[int | None]]:
        """Least length [mm] along the walls from each point to each, symmetric; None where there is no way.

        A point off the usable surface reaches nothing, not even itself.
        """
        on = [self._on(point) for point in points]
        table: list[list[int | None]] = [[None] * len(points) for _ in points]
        for row, start in enumerate(points):
            arrivals = self._arrivals(start)
            for column, (x, y, z) in enumerate(points[: row + 1]):
                reached = [
                    length + abs(x - at_x) + abs(y - at_y) + abs(z - at_z)
                    for index in on[column]
                    for length, at_x, at_y, at_z in arrivals[index]
                ]
                table[row][column] = table[column][row] = min(reached, default=None)
        return table

    def path(self, p: Point, q: Point) -> tuple[Point, ...]:
        """The corners of a least run from p to q, both included; empty where there is none.

        Of the least runs it is one with fewest bends (a turn round the corner of a room is one), of those
        one with the least level length times depth below the highest usable line. Where two such runs
        part, seen from the end that comes first by coordinates, it goes on to the lesser coordinates; from
        q to p it is the same run backwards.
        """
        return corners(self._best_run(p, q)) if p <= q else self.path(q, p)[::-1]

    def _on(self, point: Point) -> list[int]:
        """The flat boxes that hold a point."""
        return [index for index, box in enumerate(self.free) if box.holds(point)]

    def _arrivals(self, start: Point) -> list[list[_Arrival]]:
        """For each flat box the arrivals from which the least length to any of its points follows.

        Remembered, since a job's many runs end at few mouths.
        """
        if start not in self._from:
            self._from[start] = self._arrived(start)
        return self._from[start]

    def _arrived(self, start: Point) -> list[list[_Arrival]]:
        found: list[list[_Arrival]] = [[] for _ in self.free]
        heap = [(0, *start, index) for index in self._on(start)]
        while heap:
            length, x, y, z, index = heappop(heap)
            if _reached(found[index], length, x, y, z):
                continue
            found[index].append(_Arrival(length, x, y, z))
            for at_x, at_y, z0, z1, beyond in self._lines[index]:
                at_z = min(max(z, z0), z1)
                further = length + abs(x - at_x) + abs(y - at_y) + abs(z - at_z)
                if not _reached(found[beyond], further, at_x, at_y, at_z):
                    heappush(heap, (further, at_x, at_y, at_z, beyond))
        return found

    def _best_run(self, p: Point, q: Point) -> tuple[Point, ...]:
        """The best of the least runs from p to q, step by step along the lines of a grid.

        The grid of the boxes' lower and upper edges, the lines in which they meet and the two ends is
        enough: any other stretch of a run can be shifted, at no loss, until it lies in one of these.
        """
        arrivals = self._arrivals(q)
        heights = sorted({p[2], q[2], *self._heights})

        @cache
        def grid(index: int, axis: int) -> list[int]:
            """The coordinates of the grid's lines across an axis that a flat box holds."""
            low, high = self.free[index].span(axis)
            lines = heights if axis == 2 else (p[axis], q[axis], *(line[axis] for line in self._lines[index]))
            return sorted({at for at in lines if low <= at <= high})

        @cache
        def left(index: int, point: Point) -> int:
            """The length left from a point of a flat box to q."""
            return min(arrival.to(point) for arrival in arrivals[index])

        # Bends, level length times depth and points, which order the runs; box and axis of the last step.
        heap: list[tuple[int, int, tuple[Point, ...], int, int]] = [
            (0, 0, (p,), index, _NO_AXIS) for index in self._on(p) if arrivals[index]
        ]
        done: set[tuple[Point, int, int]] = set()
        while heap:
            bends, depth, run, index, axis = heappop(heap)
            here = run[-1]
            if here == q:
                return run
            if (here, index, axis) in done:
                continue
            done.add((here, index, axis))
            for line in self._at[index].get(here[:2], ()):
                if line.z0 <= here[2] <= line.z1:
                    heappush(heap, (bends, depth, run, line.beyond, axis))
            to_go = left(index, here)
            for onward in (self._level[index], 2):
                lines, level = grid(index, onward), here[onward]
                at = bisect_left(lines, level)
                for place in (*lines[max(at - 1, 0) : at], *lines[at + 1 : at + 2]):
                    moved = list(here)
                    moved[onward] = place
                    x, y, z = moved
                    length = abs(place - level)
                    if left(index, (x, y, z)) + length == to_go:  # else no least run goes there
                        turns = axis not in (onward, _NO_AXIS)
                        sunk = length * (heights[-1] - z) if onward < 2 else 0
                        heappush(heap, (bends + turns, depth + sunk, (*run, (x, y, z)), index, onward))
        return ()


def _reached(arrivals: Sequence[_Arrival], length: int, x: int, y: int, z: int) -> bool:
    """Whether a point is reached at no more than a length from one of the arrivals in its flat box."""
    for arrived, at_x, at_y, at_z in arrivals:
        if arrived + abs(x - at_x) + abs(y - at_y) + abs(z - at_z) <= length:
            return True
    return False


def _extents(box: Box) -> int:
    """Along how many axes a box has an extent."""
    return sum(low < high for low, high in map(box.span, range(3)))


def _joined(lines: Sequence[Box]) -> list[Box]:
    """Lines, joined where they touch end to end."""
    joined: list[Box] = []
    for line in sorted(lines):
        before = next((b for b in joined if common(b, line) and _extents(b.hull(line)) == 1), None)
        if before:
            joined.remove(before)
        joined.append(before.hull(line) if before else line)
    return joined
