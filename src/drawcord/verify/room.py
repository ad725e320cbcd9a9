"""Room on the way: to turn a cable, to draw it through what nobody reaches into, and between holes."""

import math
from collections.abc import Mapping
from itertools import combinations, pairwise

import numpy as np

from drawcord.verify.read import Data, mm, thick
from drawcord.verify.route import Route
from drawcord.verify.vehicle import Space

DRAWN = ("chase", "vent stack", "panel wall", "void")  # kinds of spaces that cable is drawn through unseen


def across(count: int, wide: float) -> float:
    """How wide so many equal cables are in a round bundle: a ring of them, from the seventh on around one."""
    return wide * (1 + 1 / math.sin(math.pi / (count - (count > 6)))) if count > 1 else wide * count


def cramped(route: Route, kind: Data, *, apart: bool) -> list[str]:
    """Where a route has no room for its cable as a type, each core in a sheath of its own if they lie apart."""
    cable = route.vehicle.job["cables"][route.name]
    wide = max(thick(cable["outside diameter"], route.unit), thick(kind["outside diameter"], kind["units"]))
    bend = max(mm(cable["smallest bend"], route.unit), mm(kind["smallest bend"], kind["units"]))
    plug, others = max(mm(cable["largest plug"], route.unit), wide), across(int(cable["cores"]) - 1, wide) * apart
    found = []
    for name, line in zip(route.names, route.lines, strict=True):
        space = route.vehicle.spaces[name]
        inside = [at for at in np.array(line, float) if ((space.box[:, 0] <= at) & (at <= space.box[:, 1])).all()]
        if space.kind in ("roof", "room"):
            continue
        if _depth(space, inside) < bend + wide:
            found.append(f"{name} has no room for a bend of {bend} mm")
        if space.kind in DRAWN and not all(_passes(plug, others, *_clear(space, *run)) for run in pairwise(inside)):
            found.append(f"{name} has no room to draw a plug of {plug} mm through")
    return found


def _depth(space: Space, inside: list[np.ndarray]) -> float:
    """How deep a space is where a cable turns behind a face, the least of both ends; of an edge the deeper face."""
    sizes = np.diff(space.box)[:, 0]
    least = math.inf
    for at in (inside[0], inside[-1]):
        on = (space.box == at[:, None]).any(axis=1)  # by axis: whether it is on a face across it
        turns = [any((p != q)[np.arange(3) != axis].any() for p, q in pairwise(inside)) for axis in range(3)]
        depths = sizes[on & np.array(turns)]
        least = min(least, max(depths, default=math.inf))
    return least


def _clear(space: Space, p: np.ndarray, q: np.ndarray) -> list[float]:
    """How wide it is around a straight run, along either axis across it."""
    along = int(np.argmax(p != q))
    low, high = np.minimum(p, q), np.maximum(p, q)
    free = []
    for axis, beside in ((a, 3 - along - a) for a in range(3) if a != along):
        spots = [at for at in (p[beside] - 1, p[beside] + 1) if space.box[beside, 0] < at < space.box[beside, 1]]
        near = [
            box
            for box in space.taken
            if box[along, 0] < high[along] and low[along] < box[along, 1]
            if all(box[beside, 0] <= at <= box[beside, 1] for at in spots)
        ]
        before = [box[axis, 1] for box in near if box[axis, 1] <= low[axis]]
        behind = [box[axis, 0] for box in near if box[axis, 0] >= high[axis]]
        free.append(min([space.box[axis, 1], *behind]) - max([space.box[axis, 0], *before]))
    return free


def _passes(one: float, other: float, wide: float, deep: float) -> bool:
    """Whether two round things have room beside each other in a rectangle, in the corners of a diagonal."""
    middle = (one + other) / 2
    return max(one, other) <= min(wide, deep) and math.hypot(wide - middle, deep - middle) >= middle


def overlapping(routes: Mapping[str, Route]) -> list[str]:
    """Pairs of holes, other than one that two cables share, that run into each other, in sentences."""
    found = []
    bores = [(name, *bore) for name, route in routes.items() for bore in route.bores]
    for (name, one, *ends, axis, wide), (other, two, *others, across_, wider) in combinations(bores, 2):
        a, b = (np.sort(np.array(some, float), axis=0) for some in (ends, others))
        gap = np.maximum(0, np.maximum(a[0], b[0]) - np.minimum(a[1], b[1]))
        if axis == across_ and gap[axis] == 0 and (a != b).any() and np.linalg.norm(gap) < (wide + wider) / 2:
            found.append(f"{one} of {name} and {two} of {other} run into each other")
    return found
