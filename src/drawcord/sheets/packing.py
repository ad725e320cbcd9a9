"""Round things laid into a bore or a rectangle without overlap, for a picture.

The thickest comes first, each to the lowest spot, and of these the leftmost, where it touches two others or walls; if
one finds none, other orders are tried. What is not found may be possible all the same. Lengths in mm; the origin is
the middle of a bore, the lower left of a rectangle.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations, islice, permutations
from typing import NamedTuple, Protocol

from drawcord.sheets.segments import Flat

HAIR = 1e-7  # mm by which sums may miss
ORDERS = 120  # tried, the thickest first


class Round(NamedTuple):
    """A round thing where it lies."""

    centre: Flat
    diameter: float

    def clear_of(self, other: "Round") -> bool:
        """Whether the two do not overlap."""
        return math.dist(self.centre, other.centre) >= (self.diameter + other.diameter) / 2 - HAIR


class Room(Protocol):
    """What things are laid into."""

    def holds(self, one: Round) -> bool:
        """Whether a thing lies within it."""

    def corners(self, radius: float) -> Iterator[Flat]:
        """Where a thing of this radius rests against the room alone."""

    def along(self, radius: float, ring: Flat, far: float) -> Iterator[Flat]:
        """Where it rests against the room, its centre `far` from the point `ring`."""


class Bore(NamedTuple):
    """A round opening."""

    diameter: float

    def holds(self, one: Round) -> bool:
        """See Room."""
        return math.hypot(*one.centre) <= (self.diameter - one.diameter) / 2 + HAIR

    def corners(self, radius: float) -> Iterator[Flat]:
        """See Room."""
        yield 0.0, radius - self.diameter / 2

    def along(self, radius: float, ring: Flat, far: float) -> Iterator[Flat]:
        """See Room."""
        yield from _crossings((0.0, 0.0), self.diameter / 2 - radius, ring, far)


class Cut(NamedTuple):
    """A rectangle, and the rectangles in it that are taken, as x0, x1, y0, y1."""

    width: float
    height: float
    taken: tuple[tuple[float, float, float, float], ...] = ()

    def holds(self, one: Round) -> bool:
        """See Room."""
        (x, y), radius = one.centre, one.diameter / 2 - HAIR
        if not (radius <= x <= self.width - radius and radius <= y <= self.height - radius):
            return False
        return all(
            math.dist((x, y), (min(max(x, x0), x1), min(max(y, y0), y1))) >= radius for x0, x1, y0, y1 in self.taken
        )

    def corners(self, radius: float) -> Iterator[Flat]:
        """See Room."""
        xs, ys = self._walls(radius)
        yield from ((x, y) for x in xs for y in ys)

    def along(self, radius: float, ring: Flat, far: float) -> Iterator[Flat]:
        """See Room."""
        xs, ys = self._walls(radius)
        for x in xs:
            if abs(x - ring[0]) <= far:
                up = math.sqrt(far**2 - (x - ring[0]) ** 2)
                yield from ((x, ring[1] - up), (x, ring[1] + up))
        for y in ys:
            if abs(y - ring[1]) <= far:
                side = math.sqrt(far**2 - (y - ring[1]) ** 2)
                yield from ((ring[0] - side, y), (ring[0] + side, y))

    def _walls(self, radius: float) -> tuple[list[float], list[float]]:
        """Where the centre may be for a thing that leans against something, across and up."""
        xs = [radius, self.width - radius, *(x for part in self.taken for x in (part[0] - radius, part[1] + radius))]
        ys = [radius, self.height - radius, *(y for part in self.taken for y in (part[2] - radius, part[3] + radius))]
        return xs, ys


def pack(diameters: Sequence[float], room: Room) -> list[Round] | None:
    """Where things of these diameters lie in a room, in the order given; None if no packing was found."""
    thick = sorted(range(len(diameters)), key=lambda n: (-diameters[n], n))
    for order in islice(permutations(thick), ORDERS):
        laid: dict[int, Round] = {}
        for number in order:
            spot = _lowest(diameters[number], room, list(laid.values()))
            if spot is None:
                break
            laid[number] = spot
        else:
            return [laid[number] for number in range(len(diameters))]
    return None


def _lowest(diameter: float, room: Room, laid: Sequence[Round]) -> Round | None:
    spots = [
        spot
        for centre in _spots(diameter / 2, room, laid)
        if room.holds(spot := Round(centre, diameter)) and all(spot.clear_of(other) for other in laid)
    ]
    return min(spots, key=lambda spot: (round(spot.centre[1], 6), round(spot.centre[0], 6)), default=None)


def _spots(radius: float, room: Room, laid: Sequence[Round]) -> Iterator[Flat]:
    yield from room.corners(radius)
    for one in laid:
        yield from room.along(radius, one.centre, one.diameter / 2 + radius)
    for one, other in combinations(laid, 2):
        yield from _crossings(one.centre, one.diameter / 2 + radius, other.centre, other.diameter / 2 + radius)


def _crossings(one: Flat, r: float, other: Flat, s: float) -> Iterator[Flat]:
    """Where two rings meet; rings that miss each other by a hair touch."""
    far = math.dist(one, other)
    if r < 0 or far < HAIR:
        return
    along = (far**2 + r**2 - s**2) / (2 * far)
    up = r**2 - along**2
    if up < -HAIR * max(1.0, r):
        return
    side = math.sqrt(max(0.0, up))
    ux, uy = (other[0] - one[0]) / far, (other[1] - one[1]) / far
    x, y = one[0] + along * ux, one[1] + along * uy
    yield from ((x - side * uy, y + side * ux), (x + side * uy, y - side * ux))
