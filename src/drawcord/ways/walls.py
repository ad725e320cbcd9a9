"""The faces of a living area that raceway may run on."""

from collections.abc import Iterator

from drawcord.coach.box import Box
from drawcord.coach.coach import Coach, Space
from drawcord.coach.faces import AFT, FORWARD, LEFT, RIGHT, Direction

PROUD = 30  # mm: raceway stands this far out from the wall; what is nearer is in its way
BACKED = 80  # mm: a wall lies no further behind the side of a room than this
WALLS = ("panel wall", "chase", "void", "vent stack", "appliance vent")  # spaces whose sides are fixed walls
UPRIGHT: tuple[Direction, ...] = (FORWARD, AFT, LEFT, RIGHT)


def faces(room: Space, coach: Coach) -> tuple[Box, ...]:
    """The flat boxes on the walls of a room that raceway may run on, sorted.

    They are the shell's walls, fixed partitions, the sides of hollow walls, chases and stacks, and cabinet
    ends marked plain; without what stands against them, doors, windows, moving parts with their sweep, and
    the clearance of hot or dangerous things.
    """
    in_the_way = [
        *(space.box for space in coach.spaces.values() if space.kind not in ("roof", "room")),
        *coach.partitions.values(),
        *(part.sweep for part in coach.moving_parts.values()),
        *(hazard.keep for hazard in coach.hazards.values()),
    ]
    holes = [*coach.doors.values(), *coach.windows.values()]
    found: list[Box] = []
    for face, outward in _candidates(room, coach):
        front = _thick(face, outward, 1, PROUD)
        both = _thick(face, outward, -BACKED, PROUD)
        blocked = [both_axis(box, both, outward.axis) for box in in_the_way if box.overlap(front)]
        blocked += [both_axis(box, both, outward.axis) for box in holes if box.grow(1).overlap(both)]
        at = face.span(outward.axis)[0]
        found.extend(both_axis(part, Box(*face), outward.axis, at) for part in both.minus(blocked))
    return tuple(sorted(set(found)))


def both_axis(box: Box, like: Box, axis: int, at: int | None = None) -> Box:
    """The box stretched along one axis to span what `like` spans, or flattened at one place."""
    bounds = list(box)
    lo, hi = like.span(axis) if at is None else (at, at)
    bounds[2 * axis], bounds[2 * axis + 1] = lo, hi
    return Box(*bounds)


def _thick(face: Box, outward: Direction, near: int, far: int) -> Box:
    """A flat box given depth, from `near` to `far` [mm] in front of it."""
    at = face.span(outward.axis)[0]
    ends = sorted((at + outward.sign * near, at + outward.sign * far))
    bounds = list(face)
    bounds[2 * outward.axis], bounds[2 * outward.axis + 1] = ends
    return Box(*bounds)


def _candidates(room: Space, coach: Coach) -> Iterator[tuple[Box, Direction]]:
    """Faces with the direction they look in, before anything that stands in front of them is taken away."""
    left, right = coach.bounds[2] + coach.rig.shell.wall, coach.bounds[3] - coach.rig.shell.wall
    front, rear = coach.bounds[0] + coach.rig.shell.wall, coach.bounds[1] - coach.rig.shell.wall
    fixed = [
        space for space in coach.spaces.values() if space.kind not in ("roof", "room") and not space.moving
    ]
    for side in UPRIGHT:
        looking = Direction(side.axis, -side.sign)
        face = side.face(room.box)
        at = face.span(side.axis)[0]
        shell = {FORWARD: front, AFT: rear, LEFT: left, RIGHT: right}[side]
        if (at - shell) * side.sign >= -BACKED:
            yield face, looking
            continue
        behind = _thick(face, looking, -BACKED, -1)
        backing = [
            *coach.partitions.values(),
            *(s.box for s in fixed if s.kind in WALLS or looking in s.plain),
        ]
        for box in sorted(set(backing)):
            if common := box.overlap(behind):
                yield both_axis(common, face, side.axis, at), looking
    solids = [(box, UPRIGHT) for box in coach.partitions.values()]
    solids += [
        (s.box, UPRIGHT if s.kind in WALLS else tuple(d for d in s.plain if d in UPRIGHT)) for s in fixed
    ]
    for solid, sides in solids:
        for side in sides:
            face = side.face(solid)
            at = face.span(side.axis)[0]
            lo, hi = room.box.span(side.axis)
            common = Box(*((max, min)[i % 2](face[i], room.box[i]) for i in range(6)))
            if lo < at < hi and all(common[2 * i] < common[2 * i + 1] for i in range(3) if i != side.axis):
                yield common, side
