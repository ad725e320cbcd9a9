"""Whether a bore in the place of a planned hole keeps clear of what no hole may meet, however wide it is."""

import shapely

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.ways.contact import avoided, free
from drawcord.ways.through_roof import footprint

SLACK = 0.5  # mm: boxes are whole millimetres, half a bore is not


def keeps_clear(coach: Coach, between: tuple[str, str], faces: tuple[Point, Point], bore: float) -> bool:
    """Whether a bore of this diameter [mm], its middle at these points on the faces of both spaces, meets nothing.

    Through the roof it has to land inside the space below, the measuring error included.
    """
    half = bore / 2 - SLACK
    if "roof" in between:
        below = coach.spaces[between[between[0] == "roof"]]
        (x, y, _), by = faces[0], half + coach.shop.clearances.measuring_error
        area = footprint(below, avoided(coach)).buffer(SLACK, join_style="mitre")
        return bool(area.covers(shapely.box(x - by, y - by, x + by, y + by)))
    a, b = (coach.spaces[name] for name in sorted(between))
    at = faces[coach.spaces[between[0]].kind == "room"]  # raceway leads from the hole to the wall within a room

    def fits(axis: int, low: int, high: int, through: int) -> bool:
        by = 0 if axis == through else half
        return low <= at[axis] - by and at[axis] + by <= high

    parts = free(a, b, coach, avoided(coach))
    return any(all(fits(side, *part.span(side), axis) for side in (0, 1, 2)) for axis, part in parts)
