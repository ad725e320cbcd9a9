"""Axis-parallel boxes as arrays, and what lies in what."""

from collections.abc import Iterable

import numpy as np
from numpy.typing import ArrayLike, NDArray

Box = NDArray[np.float64]  # along, across, up, each from where to where [mm]: shape (3, 2), of several (n, 3, 2)
Point = tuple[int, int, int]
Face = tuple[int, int]  # an axis, and 0 for the side at its start or 1 for the one at its end

FACES: dict[str, Face] = {"forward": (0, 0), "aft": (0, 1), "left": (1, 0), "right": (1, 1)}
FACES |= {"down": (2, 0), "up": (2, 1)}
HOLLOW = ("chase", "vent stack", "appliance vent", "panel wall", "void")  # hidden, and may run through others


def boxes(some: Iterable[Box]) -> Box:
    """Several boxes as one array, shape (n, 3, 2)."""
    return np.array([*some], float).reshape(-1, 3, 2)


def meeting(some: Box, box: Box) -> NDArray[np.bool_]:
    """With which of some a box shares a volume."""
    return np.asarray((np.maximum(some[..., 0], box[:, 0]) < np.minimum(some[..., 1], box[:, 1])).all(-1))


def meets(some: Box, box: Box) -> bool:
    """Whether a box shares a volume with any of some."""
    return bool(meeting(some, box).any())


def common(one: Box, two: Box) -> Box:
    """What two boxes share; its spans run backwards where they are apart."""
    return np.stack((np.maximum(one[:, 0], two[:, 0]), np.minimum(one[:, 1], two[:, 1])), axis=1)


def grown(some: Box, by: ArrayLike) -> Box:
    """Boxes made so much larger on every side, or on both sides along each axis."""
    return some + np.outer(np.broadcast_to(by, 3), (-1, 1))


def instead(box: Box, axis: int, low: float, high: float) -> Box:
    """A box with another span along an axis."""
    return np.where((np.arange(3) == axis)[:, None], (low, high), box)


def nested(kind: str, inner: Box, outer: Box) -> bool:
    """Whether a space of a kind lies in another, or runs through it as a stack does."""
    within = (common(inner, outer) == inner).all(axis=1).sum()
    return meets(inner, outer) and bool(within >= (2 if kind in HOLLOW else 3) and (inner != outer).any())


def prism(at: Iterable[float], wide: int, box: Box) -> Box:
    """The square prism of this width around a point of the plan, as high as a box."""
    starts = (round(middle) - wide // 2 for middle in at)
    return np.array([*((start, start + wide) for start in starts), box[2]])


def within(some: Box, point: ArrayLike) -> bool:
    """Whether a point lies inside any of some boxes, not on their sides."""
    at = np.asarray(point)
    return bool(((some[..., 0] < at) & (at < some[..., 1])).all(-1).any())
