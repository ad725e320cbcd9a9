"""The views a coach is drawn in: a plan for each level and an elevation for each side. No drawing here.

All views share x, with the front on the left; plans put y upwards, elevations z. Both elevations look from
the left side to the right side of the vehicle, for only so do they line up with the plans.
"""

from collections.abc import Iterable
from typing import NamedTuple

from drawcord.coach.box import Box, Point
from drawcord.coach.coach import Coach, Space

COUNTER = 1000  # [mm above the floor] where the overhead plan begins, if there is one
LEVELS = ("below", "cabin", "overhead", "roof")
ENOUGH = 150  # [mm] of a box within a view for it to be drawn there, or half of a thinner one


class View(NamedTuple):
    """One view: its name, its title, the axis drawn upwards (1 is y, 2 is z) and what it spans on it [mm].

    `split` says that the cabin is drawn in two plans, below and above the counter.
    """

    name: str
    title: str
    up: int
    low: int
    high: int
    split: bool

    def flat(self, point: Point) -> tuple[int, int]:
        """A point as it lies in this view."""
        return point[0], point[self.up]


def span_x(coach: Coach) -> tuple[int, int]:
    """What every view spans along the vehicle [mm]."""
    return _span(_everything(coach), 0)


def views(coach: Coach, used: frozenset[str] | None = None) -> tuple[View, ...]:
    """Every view of a coach, in the order in which they stand on the page.

    Where one cabin space stands over another, what hangs above the counter gets a plan of its own; for a
    route through the spaces `used` only if one of them hangs there. Bays under the floor get their own too.
    """
    left, right = ("street", "curb") if coach.street_is_left else ("curb", "street")
    split = bool(_hanging(coach) & used) if used is not None else _stacked(coach)
    body = _span([coach.spaces["roof"].box], 1)
    wide = _span([coach.spaces["roof"].box, *_extents(coach)], 1)
    low, high = _span(_everything(coach), 2)
    low = min(low, -coach.levels.floor_thickness)
    shown = [View("roof", "ROOF from above", 1, *body, split)]
    if split:
        shown.append(View("overhead", "CABIN ABOVE THE COUNTER from above", 1, *body, split))
    cabin = "CABIN UP TO THE COUNTER from above" if split else "CABIN from above"
    shown.append(View("cabin", cabin, 1, *wide, split))
    if any(_low(coach, space.box) < 0 for space in _inside(coach)):
        shown.append(View("below", "UNDER THE FLOOR from above", 1, *body, split))
    shown.append(View(right, f"{right.upper()} SIDE as seen from the aisle", 2, low, high, split))
    shown.append(View(left, f"{left.upper()} SIDE as seen from outside", 2, low, high, split))
    return tuple(shown)


def shell_of(view: View, coach: Coach) -> tuple[tuple[int, int], tuple[int, int]]:
    """The least and the greatest corner of what a view shows of the vehicle's body, its underside left open."""
    x0, x1, y0, y1 = coach.bounds
    return ((x0, y0), (x1, y1)) if view.up == 1 else ((x0, view.low), (x1, coach.levels.roof))


def shows(coach: Coach, view: View, box: Box) -> bool:
    """Whether enough of a box lies in what a view shows."""
    far = 10**6
    if view.up == 2:
        _, _, y0, y1 = coach.bounds
        middle, on_left = (y0 + y1) // 2, (view.name == "street") == coach.street_is_left
        window, own = ((-far, middle) if on_left else (middle, far)), box.span(1)
    else:
        floor, ceiling = (coach.levels.at(word, box.x0, box.x1) for word in ("floor", "ceiling"))
        counter = floor + COUNTER
        bands = {
            "roof": (ceiling, far),
            "overhead": (counter, ceiling),
            "cabin": (floor, counter if view.split else ceiling),
            "below": (-far, floor),
        }
        window, own = bands[view.name], box.span(2)
    if own[0] == own[1]:
        return window[0] <= own[0] <= window[1]
    common = min(window[1], own[1]) - max(window[0], own[0])
    return common >= min(ENOUGH, (own[1] - own[0]) / 2)


def hangs(coach: Coach, box: Box) -> bool:
    """Whether a box lies above the counter and under the ceiling."""
    return _low(coach, box) >= COUNTER - ENOUGH and box.z0 < coach.levels.at("ceiling", box.x0, box.x1)


def owns(coach: Coach, view: View, start: Point, end: Point) -> bool:
    """Whether a stretch of cable is at home in a view, and not only seen through from another."""
    if view.up == 2:
        return _side(coach, (start[1] + end[1]) / 2) == view.name
    low, high = sorted((start[2], end[2]))
    if start[:2] != end[:2] or low == high:
        return _level(coach, view, start[0], (low + high) / 2) == view.name
    first, last = (_level(coach, view, start[0], z) for z in (low + 1, high - 1))
    return LEVELS.index(first) <= LEVELS.index(view.name) <= LEVELS.index(last)  # upright: on all it passes


def _level(coach: Coach, view: View, x: int, z: float) -> str:
    if z > coach.levels.at("ceiling", x, x):
        return "roof"
    above = z - coach.levels.at("floor", x, x)
    if above < 0:
        return "below"
    return "overhead" if view.split and above >= COUNTER else "cabin"


def _side(coach: Coach, y: float) -> str:
    """The side of the vehicle on which y lies; the middle counts as the left."""
    _, _, y0, y1 = coach.bounds
    return "street" if (2 * y <= y0 + y1) == coach.street_is_left else "curb"


def _inside(coach: Coach) -> list[Space]:
    return [space for space in coach.spaces.values() if space.kind not in ("roof", "room")]


def _hanging(coach: Coach) -> frozenset[str]:
    return frozenset(space.id for space in _inside(coach) if hangs(coach, space.box))


def _stacked(coach: Coach) -> bool:
    """Whether a cabin space hangs over another that ends below it."""
    hanging = [coach.spaces[name].box for name in _hanging(coach)]
    standing = [space.box for space in _inside(coach) if 0 <= _low(coach, space.box) < COUNTER - ENOUGH]
    return any(_shares_plan(a, b) and b.z1 <= a.z0 + ENOUGH for a in hanging for b in standing)


def _low(coach: Coach, box: Box) -> int:
    return box.z0 - coach.levels.at("floor", box.x0, box.x1)


def _shares_plan(a: Box, b: Box) -> bool:
    return a.x0 < b.x1 and b.x0 < a.x1 and a.y0 < b.y1 and b.y0 < a.y1


def _extents(coach: Coach) -> list[Box]:
    return [box for part in coach.moving_parts.values() for box in (part.drawn, part.moved)]


def _everything(coach: Coach) -> list[Box]:
    things = (*coach.obstacles.values(), *coach.hazards.values(), *coach.obstructions.values())
    return [s.box for s in coach.spaces.values()] + [t.box for t in things] + _extents(coach)


def _span(boxes: Iterable[Box], axis: int) -> tuple[int, int]:
    spans = [box.span(axis) for box in boxes]
    return min(low for low, _ in spans), max(high for _, high in spans)


def drawing_order(coach: Coach, spaces: Iterable[Space], view: View) -> list[Space]:
    """Spaces in the order in which to draw them: the largest first, so that it hides no other.

    On an elevation, what reaches across the middle comes before all that belongs to one side.
    """

    def rank(space: Space) -> tuple[bool, int, str]:
        low, high = space.box.span(view.up)
        sides = (view._replace(name=name) for name in ("street", "curb"))
        one_sided = view.up == 1 or not all(shows(coach, side, space.box) for side in sides)
        return one_sided, -(space.box.x1 - space.box.x0) * (high - low), space.id

    return sorted(spaces, key=rank)
