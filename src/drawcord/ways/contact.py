"""Where two spaces touch: shared faces within a wall's thickness, and the sides of one nested in another."""

from collections.abc import Iterable, Iterator

from drawcord.coach.box import Box, between
from drawcord.coach.coach import Coach, Space
from drawcord.coach.faces import EVERY, Direction
from drawcord.coach.nesting import nested

BORE_KEEPS_OFF = ("framing", "tank", "duct", "water line", "gas line", "wiring")
DOOR = 10  # mm kept between a hole and a door or window
LEAST = 30  # mm: no hole is bored into a strip of wall narrower than this


def _across(box: Box, axis: int, lo: int, hi: int) -> Box:
    """The box with its span along the axis replaced."""
    bounds = list(box)
    bounds[2 * axis], bounds[2 * axis + 1] = lo, hi
    return Box(*bounds)


def slabs(a: Space, b: Space, coach: Coach) -> Iterator[tuple[int, Box]]:
    """The boxes that lie between touching faces of two spaces, each with its axis.

    `a`'s face is one side of it and `b`'s the other. A nested space gives a flat slab for each side face.
    """
    for inner, outer in ((a, b), (b, a)):
        if nested(inner.kind, inner.box, outer.box):
            for side in EVERY:
                face = side.face(inner.box)
                at = face.span(side.axis)[0]
                lo, hi = outer.box.span(side.axis)
                within = _common(face, outer.box)
                if lo < at < hi and within and side != inner.front:
                    yield side.axis, within
            return
    gaps = [_gap(a.box, b.box, axis) for axis in (0, 1, 2)]
    for axis, gap in enumerate(gaps):
        if (
            gap < 0
            or gap > _tolerance(a, b, coach, axis)
            or any(g >= 0 for o, g in enumerate(gaps) if o != axis)
        ):
            continue
        towards = Direction(axis, 1 if a.box.span(axis)[0] < b.box.span(axis)[0] else -1)
        if towards == a.front or Direction(axis, -towards.sign) == b.front:
            continue  # a face with a door is no wall
        yield axis, between(a.box, b.box)


def _gap(a: Box, b: Box, axis: int) -> int:
    """How far apart two boxes are along an axis [mm]; negative where they overlap."""
    (a0, a1), (b0, b1) = a.span(axis), b.span(axis)
    return max(a0, b0) - min(a1, b1)


def _tolerance(a: Space, b: Space, coach: Coach, axis: int) -> int:
    stated = coach.touching.get((a.id, b.id))
    if stated is not None:
        return stated
    return coach.levels.floor_thickness if axis == 2 else coach.shop.clearances.contact


def _common(face: Box, box: Box) -> Box | None:
    """The part of a flat box that lies in another box, or None."""
    parts = [max(face[i], box[i]) if i % 2 == 0 else min(face[i], box[i]) for i in range(6)]
    return Box(*parts) if all(parts[2 * i] <= parts[2 * i + 1] for i in range(3)) else None


def clear(a: Space, b: Space, slab: Box, axis: int, avoid: Iterable[Box]) -> list[Box]:
    """The parts of a slab through which a hole can be bored, each as wide as anything that passes.

    Taken away are whatever `avoid` lists (third spaces in the gap, doors, windows, framing and lines that a
    hole must not meet) and what is taken of either space just behind its face. [mm]
    """
    lo, hi = slab.span(axis)
    probe = _across(slab, axis, lo - 1, hi + 1)
    behind = [*a.taken, *b.taken]
    common = a.box.overlap(b.box)
    if common in behind:
        behind.remove(common)  # a nested space is itself taken from the one around it
    blocked = [_across(box, axis, lo - 1, hi + 1) for box in (*avoid, *behind) if box.overlap(probe)]
    return [_across(part, axis, lo, hi) for part in probe.minus(blocked)]


def avoided(coach: Coach) -> list[Box]:
    """What no hole may meet."""
    return [
        *(thing.keep for thing in coach.obstructions.values() if thing.kind in BORE_KEEPS_OFF),
        *(hazard.keep for hazard in coach.hazards.values()),
        *(box.grow(DOOR) for box in (*coach.doors.values(), *coach.windows.values())),
        *(part.sweep for part in coach.moving_parts.values()),
    ]


def free(a: Space, b: Space, coach: Coach, avoid: Iterable[Box]) -> Iterator[tuple[int, Box]]:
    """The clear parts of all slabs between two spaces, other spaces in the gap avoided as well; each with its axis."""
    for axis, slab in slabs(a, b, coach):
        third = [
            space.box
            for space in coach.spaces.values()
            if space.id not in (a.id, b.id) and space.kind not in ("room", "roof") and space.box.overlap(slab)
        ]
        for part in clear(a, b, slab, axis, (*avoid, *third)):
            yield axis, part


def mouths(a: Space, b: Space, part: Box, axis: int, off: int) -> tuple[Box, Box] | None:
    """A clear part of a slab as two mouths, on `a`'s face and on `b`'s; None if too narrow for any hole.

    Both keep `off` [mm] from the sides of the part, or to the middle of what is narrower.
    """
    if narrow(part, axis) < LEAST:
        return None
    return on_faces(a, b, inset(part, axis, off), axis)


def narrow(part: Box, axis: int) -> int:
    """The smaller size of a part across an axis [mm]: no larger hole fits."""
    return min(part.span(side)[1] - part.span(side)[0] for side in (0, 1, 2) if side != axis)


def inset(part: Box, axis: int, off: int) -> Box:
    """A part drawn in by `off` [mm] from its sides across an axis, or to its middle where it is narrower."""
    by = [0 if side == axis else -min(off, (part.span(side)[1] - part.span(side)[0]) // 2) for side in (0, 1, 2)]
    return part.grow(*by)


def on_faces(a: Space, b: Space, part: Box, axis: int) -> tuple[Box, Box]:
    """A part of a slab laid on `a`'s face and on `b`'s."""
    lo, hi = part.span(axis)
    a_at, b_at = (lo, hi) if sum(a.box.span(axis)) <= sum(b.box.span(axis)) else (hi, lo)
    return _across(part, axis, a_at, a_at), _across(part, axis, b_at, b_at)
