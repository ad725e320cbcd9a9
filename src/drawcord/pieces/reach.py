"""Which stretches of a cable a hand can reach again through the openings of the space it runs in."""

import math
from collections.abc import Sequence

from drawcord.coach.box import Box, Point
from drawcord.coach.coach import Coach, Space


def within_reach(coach: Coach, space: str, p: Point, q: Point) -> list[tuple[str, int, int]]:
    """Where along the straight line from p to q in a space a joint may lie, as a hand reaches it again.

    Through what, from where and to where [mm]. On the roof no joint belongs (common practice, no source). A hidden
    space is closed for good once the cable is in, whatever leads into it, and joints stay accessible (NEC 2023 314.29;
    IEC 60364-5-52:2009 526.3; both from memory).
    """
    if coach.spaces[space].kind == "roof" or coach.spaces[space].hidden:
        return []
    # A leg's first stretch may lead through a wall as well, where no hand reaches it.
    enters, leaves = (_nearest(coach.spaces[space].box, point) for point in (p, q))
    if not _between(p, enters, q) or not _between(p, leaves, q) or (enters == leaves and p != q):
        return []
    begins = sum(abs(u - v) for u, v in zip(p, enters, strict=True))
    if coach.spaces[space].kind == "room":
        return [("raceway cover", begins, begins + sum(abs(u - v) for u, v in zip(enters, leaves, strict=True)))]
    found = []
    for opening in coach.openings_into(space):
        stretch = stretch_within_reach(enters, leaves, opening.box, coach.shop.clearances.arm)
        if stretch:
            found.append((opening.id, begins + stretch[0], begins + stretch[1]))
    return found


def no_hand(space: Space, what: str) -> str:
    """Why no hand gets again to what lies out of reach in a space, as the end of a sentence."""
    return f"and no {space.kind} may hide {what}" if space.hidden else "where no hand reaches it"


def stretch_within_reach(p: Point, q: Point, opening: Box, arm: int) -> tuple[int, int] | None:
    """From where to where along the axis-parallel line from p to q [mm from p] a hand reaches, or None.

    A hand reaches every point that is no further than `arm` [mm] from the opening.
    """
    axis = next((a for a in (0, 1, 2) if p[a] != q[a]), 0)
    aside = [max(opening.span(a)[0] - p[a], 0, p[a] - opening.span(a)[1]) for a in (0, 1, 2) if a != axis]
    left = arm * arm - sum(d * d for d in aside)
    if left < 0:
        return None
    along = math.isqrt(left)
    lo, hi = opening.span(axis)[0] - along, opening.span(axis)[1] + along
    start, length = p[axis], abs(q[axis] - p[axis])
    ends = (lo - start, hi - start) if q[axis] >= start else (start - hi, start - lo)
    near, far = max(0, ends[0]), min(length, ends[1])
    return (near, far) if near <= far else None


def merged(stretches: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Stretches in order, those that overlap or touch joined."""
    found: list[tuple[int, int]] = []
    for near, far in sorted(stretches):
        if found and near <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], far))
        else:
            found.append((near, far))
    return found


def _nearest(box: Box, point: Point) -> Point:
    """The point of a box nearest to another."""
    x, y, z = point
    return min(max(x, box.x0), box.x1), min(max(y, box.y0), box.y1), min(max(z, box.z0), box.z1)


def _between(p: Point, point: Point, q: Point) -> bool:
    """Whether a point lies on an axis-parallel line from p to q."""
    (x, y, z), (x0, y0, z0), (x1, y1, z1) = point, p, q
    return (x0 <= x <= x1 or x1 <= x <= x0) and (y0 <= y <= y1 or y1 <= y <= y0) and (z0 <= z <= z1 or z1 <= z <= z0)
