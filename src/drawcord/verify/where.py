"""Where a cable may be: in the room that a space leaves, on the roof, on fixed walls, and through what it may pass."""

from functools import lru_cache
from itertools import pairwise, product

import numpy as np
import shapely

from drawcord.verify.boxes import FACES, HOLLOW, Box, Face, Point, boxes, common, grown, instead, meets, nested, within
from drawcord.verify.vehicle import Space, Vehicle

HAIR = 0.25  # [mm] beside a line, to see on which side of it there is room
BACKED, PROUD = 80, 30  # [mm] a wall lies no further behind a room's side; raceway stands this far out of it
UPRIGHT = (FACES["forward"], FACES["aft"], FACES["left"], FACES["right"])


def moved(point: Point, axis: int, to: float) -> Point:
    """A point with another coordinate along an axis."""
    x, y, z = (round(to) if side == axis else at for side, at in enumerate(point))
    return x, y, z


def pieces(p: Point, q: Point, some: Box) -> list[tuple[int, list[Box]]]:
    """The pieces into which boxes cut a line along an axis: that axis, and the points beside the middle of each."""
    axis = next((axis for axis in range(3) if p[axis] != q[axis]), 3)
    off = [np.array(d) for d in product(*([0] if side == axis else [-HAIR, HAIR] for side in range(3)))]
    if axis == 3:
        return [(axis, [np.array(p) + d for d in off])]
    low, high = sorted((p[axis], q[axis]))
    cuts = np.unique([low, high, *some[:, axis].clip(low, high).ravel()])
    middles = [np.where(np.arange(3) == axis, at, p) for at in (cuts[1:] + cuts[:-1]) / 2]
    return [(axis, [middle + d for d in off]) for middle in middles]


def in_space(space: Space, p: Point, q: Point) -> bool:
    """Whether the line from p to q has room beside it all along, in the space and outside all that is taken of it."""
    cut = pieces(p, q, space.taken)
    return all(any(within(space.box, at) and not within(space.taken, at) for at in spots) for _, spots in cut)


def on_roof(vehicle: Vehicle, shape: shapely.Geometry) -> bool:
    """Whether a line or an area, seen from above, keeps off the edge of the roof and clear of what stands there.

    Cable slips through no seam between two things that touch. Along a slanting edge steps are whole millimetres.
    """
    deck, solid = _roof(vehicle)
    return bool(deck.covers(shape)) and not solid.intersects(shape)


@lru_cache(8)
def _roof(vehicle: Vehicle) -> tuple[shapely.Geometry, shapely.Geometry]:
    """The roof less its edge, and what stands on it with its clearance, a hair smaller."""
    slants = any(x != u and y != v for (x, y), (u, v) in pairwise([*vehicle.outline, vehicle.outline[0]]))
    edge = vehicle.kept("roof edge") - (1 if slants else 0.01)
    solid = shapely.union_all([shapely.box(*box[:2].T.ravel()) for box in vehicle.on_roof])
    deck = shapely.Polygon(vehicle.outline).buffer(-edge, join_style="mitre")
    return deck, solid.buffer(-0.01, join_style="mitre")


def on_walls(vehicle: Vehicle, room: Space, p: Point, q: Point) -> bool:
    """Whether raceway may run from p to q in a room: on the shell or a fixed wall, with nothing in front of it."""
    others = [space for space in vehicle.spaces.values() if space.kind not in ("roof", "room")]
    fixed = [(space.box, UPRIGHT if space.kind in HOLLOW else space.plain) for space in others if not space.moving]
    fixed += [(box, UPRIGHT) for box in vehicle.partitions]
    in_front = np.concatenate((boxes(s.box for s in others), vehicle.partitions, vehicle.sweeps, vehicle.hazards))
    walls = {face: boxes(box for box, faces in fixed if face in faces) for face in UPRIGHT}

    def carries(at: Box, face: Face) -> bool:
        """Whether the wall that looks like a face has room for raceway at a point."""
        axis, end = face
        spot, sign, side = at[axis], 1 if end else -1, room.box[axis, 1 - end]

        def there(some: Box, near: float, far: float) -> Box:
            """Those of some boxes over the point that reach into what lies from near to far in front of it."""
            low, high = sorted((spot + sign * near, spot + sign * far))
            over = ((some[..., 0] < at) & (at < some[..., 1]) | (np.arange(3) == axis)).all(-1)
            return np.asarray(some[over & (some[:, axis, 0] < high) & (low < some[:, axis, 1])])

        if spot == side:
            outside = sign * (side - vehicle.frame[axis][1 - end])
            backed = outside <= vehicle.wall + BACKED or len(there(walls[face], -BACKED, -1))
        else:
            looks = there(walls[face], -1, 0)[:, axis, end] == spot
            backed = room.box[axis, 0] < spot < room.box[axis, 1] and looks.any()
        free = not len(there(in_front, 0, PROUD)) and not len(there(vehicle.openings, -BACKED - 1, PROUD + 1))
        return bool(backed) and free

    def fits(axis: int, spot: Box) -> bool:
        on = [(np.where(np.arange(3) == face[0], p, spot), face) for face in UPRIGHT if face[0] != axis]
        return within(grown(room.box, HAIR / 2), spot) and any(carries(at, face) for at, face in on)

    everything = np.concatenate((in_front, vehicle.openings))
    return all(any(fits(axis, spot) for spot in spots) for axis, spots in pieces(p, q, everything))


def bored(vehicle: Vehicle, a: str, b: str, near: Point, far: Point, axis: int, half: int, *, new: bool) -> bool:
    """Whether a bore along an axis, so wide to each side, goes from face to face of two spaces and meets nothing."""
    one, two = vehicle.spaces[a], vehicle.spaces[b]
    shared, off = common(one.box, two.box), np.where(np.arange(3) == axis, 0, half)
    for inner, outer in ((one, two), (two, one)):
        if nested(inner.kind, inner.box, outer.box):
            faces = [end for end in (0, 1) if inner.box[axis, end] == near[axis] and (axis, end) != inner.front]
            if near != far or not faces or not outer.box[axis, 0] < near[axis] < outer.box[axis, 1]:
                return False
            break
    else:
        usual = vehicle.level("floor thickness", 0, 0) if axis == 2 else vehicle.kept("contact")
        most = vehicle.touching.get(frozenset((a, b)), usual)
        end = int(one.box[axis, 0] < two.box[axis, 0])
        faces = [one.box[axis, end], two.box[axis, 1 - end]]
        gap = (faces[1] - faces[0]) * (1 if end else -1)
        if [near[axis], far[axis]] != faces or not 0 <= gap <= most:
            return False
        if (axis, end) == one.front or (axis, 1 - end) == two.front:
            return False
    bore = grown(np.sort(np.array((near, far), float).T), off)
    across = np.arange(3) != axis
    if not ((shared[:, 0] <= bore[:, 0]) & (bore[:, 1] <= shared[:, 1]))[across].all():
        return False
    behind = [box for box in (*one.taken, *two.taken) if not any((box == s.box).all() for s in (one, two))]
    third = [s.box for name, s in vehicle.spaces.items() if name not in (a, b) and s.kind not in ("room", "roof")]
    deep = grown(bore, ~across)
    return not (meets(boxes(behind), deep) or (new and meets(vehicle.no_bore, deep)) or meets(boxes(third), bore))


def entered(vehicle: Vehicle, below: Space, near: Point, far: Point, hole: int) -> bool:
    """Whether a new entry through the roof lands in a space for sure, its flange flat on the clear roof."""
    top, sure = below.box[2, 1], (hole + 1) // 2 + vehicle.kept("measuring error")
    lands = np.array([(at - sure, at + sure) for at in near[:2]] + [(top - 1, top)])
    reaches = top >= vehicle.level("ceiling", *below.box[0]) - vehicle.kept("contact") and moved(near, 2, top) == far
    inside = (common(lands, below.box) == lands).all() and not meets(below.taken, lands)
    clear = not meets(vehicle.no_bore, instead(lands, 2, top - 1, 1e6))
    flange = shapely.Point(near[:2]).buffer((vehicle.kept("flange") + 1) // 2, cap_style="square")
    return bool(reaches and inside and clear and on_roof(vehicle, flange))


def led_in(vehicle: Vehicle, name: str, at: Box | None, near: Point, far: Point) -> bool:
    """Whether a cable may come in through a roof opening that is there: by its cap, or in the middle of its place."""
    below, cap = vehicle.spaces[name], vehicle.caps.get(name)
    if cap is not None:
        beside = any(near[axis] in cap[axis] and cap[1 - axis].sum() // 2 == near[1 - axis] for axis in (0, 1))
    else:
        beside = at is not None and all(near[axis] == at[axis].sum() // 2 for axis in (0, 1))
    hot = any(within(instead(box, 2, -1e6, 1e6), np.array(near)) for box in vehicle.hazards if box[2, 1] > vehicle.roof)
    return beside and not hot and far[2] == below.box[2, 1] and in_space(below, moved(far, 2, far[2] - 1), far)
