"""Where a cable passes between a living area and what it touches: raceway on the wall, the hole beside the corner."""

from collections.abc import Iterator

from drawcord.coach.box import Box
from drawcord.coach.coach import Space
from drawcord.ways.contact import LEAST, inset, narrow, on_faces
from drawcord.ways.passage import Gate
from drawcord.ways.raceway import Raceway


def wall_gates(a: Space, b: Space, part: Box, axis: int, rooms: dict[str, Raceway], off: int) -> Iterator[Gate]:
    """Gates between `a` and `b`, at least one of them a room, within a clear part of the slab between them.

    Where the face itself carries raceway the mouth lies on it, `off` [mm] from its sides. Where it only meets
    a wall that does, the raceway ends at the corner and the hole lies `off` aside of it, in the face. Between
    two rooms with nothing between them raceway just runs on along the wall.
    """
    faces = on_faces(a, b, part, axis)
    patches = [part]
    for room, face in zip((a, b), faces, strict=True):
        if room.kind == "room":
            patches = [
                _spanning(patch, part, axis)
                for surface in patches
                for patch in rooms[room.id].patches(_spanning(surface, face, axis))
            ]
    two_rooms = a.kind == b.kind == "room"
    for patch in patches:
        flat = [side for side in (0, 1, 2) if side != axis and patch.span(side)[0] == patch.span(side)[1]]
        if two_rooms and faces[0] == faces[1]:
            yield Gate(*on_faces(a, b, patch, axis), axis, narrow(part, axis))
        elif not flat and narrow(patch, axis) >= LEAST:
            yield Gate(*on_faces(a, b, inset(patch, axis, off), axis), axis, narrow(patch, axis))
        elif len(flat) == 1 and not two_rooms and narrow(part, axis) >= LEAST:
            line = inset(patch, axis, off)
            on_wall = on_faces(a, b, line, axis)
            in_face = on_faces(a, b, _aside(line, part, flat[0], off), axis)
            pair = (on_wall[0], in_face[1]) if a.kind == "room" else (in_face[0], on_wall[1])
            yield Gate(*pair, axis, narrow(part, axis))


def _spanning(patch: Box, like: Box, axis: int) -> Box:
    """A patch with the span of another box along the axis."""
    bounds = list(patch)
    bounds[2 * axis], bounds[2 * axis + 1] = like.span(axis)
    return Box(*bounds)


def _aside(line: Box, part: Box, side: int, off: int) -> Box:
    """A line along a wall moved into the face beside it, away from the wall and no further than the middle."""
    (lo, hi), at = part.span(side), line.span(side)[0]
    to = min(at + off, (lo + hi) // 2) if 2 * at <= lo + hi else max(at - off, (lo + hi + 1) // 2)
    bounds = list(line)
    bounds[2 * side] = bounds[2 * side + 1] = to
    return Box(*bounds)
