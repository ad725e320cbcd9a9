"""Which stretches of a cable a hand can reach through the openings of the space it runs in."""

import math
from collections.abc import Sequence

from drawcord.coach.box import Box, Point


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
