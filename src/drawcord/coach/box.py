"""Axis-parallel boxes in whole millimetres: the solids of which a coach is made."""

from collections.abc import Iterable
from math import prod
from typing import NamedTuple, Self

Point = tuple[int, int, int]


class Box(NamedTuple):
    """A closed box with x0 <= x1, y0 <= y1, z0 <= z1 [mm]; it may be flat, as a stretch of wall is."""

    x0: int
    x1: int
    y0: int
    y1: int
    z0: int
    z1: int

    def span(self, axis: int) -> tuple[int, int]:
        """Where the box begins and ends along an axis: 0 is x, 1 is y, 2 is z."""
        return self[2 * axis], self[2 * axis + 1]

    @property
    def volume(self) -> int:
        """Volume [mm³]; 0 if the box is flat."""
        return (self.x1 - self.x0) * (self.y1 - self.y0) * (self.z1 - self.z0)

    def grow(self, dx: int, dy: int | None = None, dz: int | None = None) -> "Box":
        """The box with every side moved outwards by dx, dy, dz [mm]; left out, dy and dz are dx.

        Negative distances shrink it; sides that would pass each other stop at the middle.
        """
        sides: list[int] = []
        for axis, by in enumerate((dx, dx if dy is None else dy, dx if dz is None else dz)):
            low, high = self.span(axis)
            sides += (low - by, high + by) if low - by <= high + by else ((low + high) // 2,) * 2
        return Box(*sides)

    def shift(self, dx: int, dy: int, dz: int) -> "Box":
        """The box moved by dx, dy, dz [mm]."""
        return Box(self.x0 + dx, self.x1 + dx, self.y0 + dy, self.y1 + dy, self.z0 + dz, self.z1 + dz)

    def hull(self, other: Self) -> "Box":
        """The least box that contains both."""
        return Box(*((min, max)[side % 2](pair) for side, pair in enumerate(zip(self, other, strict=True))))

    def overlap(self, other: Self) -> "Box | None":
        """The box in which both overlap; None where they share no volume."""
        a0, a1, b0, b1, c0, c1 = self
        d0, d1, e0, e1, f0, f1 = other
        if a0 >= d1 or d0 >= a1 or b0 >= e1 or e0 >= b1 or c0 >= f1 or f0 >= c1:
            return None
        common = Box(max(a0, d0), min(a1, d1), max(b0, e0), min(b1, e1), max(c0, f0), min(c1, f1))
        return common if common.volume else None

    def touches(self, other: Self) -> bool:
        """Whether the two share a point (of a face, an edge or a corner) but no volume."""
        meets = all(
            self[low] <= other[low + 1] and other[low] <= self[low + 1]  # the closed spans meet
            for low in (0, 2, 4)
        )
        return meets and self.overlap(other) is None

    def contains(self, other: Self) -> bool:
        """Whether the other lies wholly inside this box or on its sides."""
        return self.hull(other) == self

    def holds(self, point: Point) -> bool:
        """Whether a point lies inside the box or on its sides."""
        x, y, z = point
        return self.x0 <= x <= self.x1 and self.y0 <= y <= self.y1 and self.z0 <= z <= self.z1

    def nearly_holds(self, point: Point, by: int) -> bool:
        """Whether a point lies in the box with every side moved outwards by so much [mm], or on these."""
        x0, x1, y0, y1, z0, z1 = self
        x, y, z = point
        return x0 - by <= x <= x1 + by and y0 - by <= y <= y1 + by and z0 - by <= z <= z1 + by

    def meets_segment(self, p: Point, q: Point) -> bool:
        """Whether the straight line from p to q enters the box's open interior; exact."""
        ways = [end - start for start, end in zip(p, q, strict=True)]
        # The line is inside for parameters between `enter` and `leave`, counted in whole parts of `whole`.
        whole = prod(abs(way) for way in ways if way)
        enter, leave = 0, whole
        for axis, (start, way) in enumerate(zip(p, ways, strict=True)):
            low, high = self.span(axis)
            if way:
                first, last = sorted(((low - start) * (whole // way), (high - start) * (whole // way)))
                enter, leave = max(enter, first), min(leave, last)
            elif not low < start < high:
                return False
        return enter < leave

    def minus(self, others: Iterable[Self]) -> "tuple[Box, ...]":
        """What is left without the others, as disjoint boxes, sorted; their order does not matter.

        Guillotine cuts along the others' sides: first one that cuts through as few of them as can be,
        then the one that leaves the largest piece free of them.
        """
        parts = sorted({part for other in others if (part := self.overlap(other))})
        if not parts:
            return (self,)
        if self in parts:
            return ()

        def worth(cut: tuple[int, int]) -> tuple[int, int, int, int]:
            axis, at = cut
            spans = [part.span(axis) for part in parts]
            through = sum(low < at < high for low, high in spans)
            clean = [
                half.volume
                for half, free in zip(
                    self._cut(axis, at),
                    (all(low >= at for low, _ in spans), all(high <= at for _, high in spans)),
                    strict=True,
                )
                if free
            ]
            return through, -max(clean, default=0), axis, at

        cuts = {
            (axis, at)
            for part in parts
            for axis in range(3)
            for at in part.span(axis)
            if self.span(axis)[0] < at < self.span(axis)[1]
        }
        before, after = self._cut(*min(cuts, key=worth))
        return tuple(sorted((*before.minus(parts), *after.minus(parts))))

    def _cut(self, axis: int, at: int) -> "tuple[Box, Box]":
        """The two halves on either side of a plane across an axis."""
        before, after = list(self), list(self)
        before[2 * axis + 1] = after[2 * axis] = at
        return Box(*before), Box(*after)


def between(one: Box, other: Box) -> Box:
    """What two boxes share along the axes on which they overlap, and the gap between them along the others."""
    sides: list[int] = []
    for axis in range(3):
        (a0, a1), (b0, b1) = one.span(axis), other.span(axis)
        sides += sorted((max(a0, b0), min(a1, b1)))
    return Box(*sides)
