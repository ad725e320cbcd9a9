"""Where a cable may enter through the roof into a space below."""

from collections.abc import Sequence
from typing import Literal, NamedTuple

import numpy as np
import shapely
from shapely import affinity

from drawcord.ways.deck import Spot
from drawcord.ways.roof import RoofRuns

# Regions are this much too large [mm], so that an exact fit leaves one. At sides in whole millimetres it
# lets no whole-millimetre point in.
_SLACK = 0.4
_NEAR = 3  # how far from a wanted place a whole-millimetre point is looked for [mm]


class EntryRegion(NamedTuple):
    """Where the middle of an entry may be; if nowhere, what failed.

    "bore": the space is too small to hit for sure. "flange": nowhere over the space, as far as the bore
    may land there, does the flange fit.
    """

    region: shapely.Geometry
    failed: Literal["", "bore", "flange"]


def entry_region(
    space_footprint: shapely.Geometry, roof: RoofRuns, bore: int, flange: int, measuring_error: int
) -> EntryRegion:
    """Where an entry's bore lands inside a space and its flange fits on the roof.

    The bore (diameter, [mm]) lands inside the footprint by half its size plus the measuring error [mm]. The
    flange (diameter or side, square to the roof, [mm]) lies in the roof's area, clear of its obstacles. An
    exact fit is a fit.
    """
    # Half sizes are rounded up, so that the region's corners are whole millimetres where the sketch's are.
    lands = _inset(space_footprint, (bore + 1) // 2 + measuring_error)
    if lands.is_empty:
        return EntryRegion(lands, "bore")
    half = (flange + 1) // 2
    x0, x1, y0, y1 = np.array(roof.obstacles, dtype=float).reshape(-1, 4).T
    by = half - _SLACK
    kept_off = shapely.union_all(shapely.box(x0 - by, y0 - by, x1 + by, y1 + by))
    region = lands.intersection(_square_inset(roof.area, half)).difference(kept_off)
    return EntryRegion(region, "flange" if region.is_empty else "")


def entry_points(region: shapely.Geometry, towards: Sequence[Spot], most: int = 6) -> list[Spot]:
    """A few points to try, in whole millimetres and inside the region; the first `most` of these.

    For each point of `towards` the nearest of the region; then the nearest to each corner of its bounds;
    then one well inside. A part of the region too thin to hold a whole-millimetre point gives none.
    """
    if region.is_empty:
        return []
    x0, y0, x1, y1 = region.bounds
    wanted = shapely.points([*towards, (x0, y0), (x0, y1), (x1, y0), (x1, y1)])
    nearest = shapely.get_coordinates(shapely.shortest_line(region, wanted))[::2]
    places = np.concatenate((nearest, shapely.get_coordinates(region.representative_point())))
    found = [spot for place in places if (spot := _whole(region, place))]
    return list(dict.fromkeys(found))[:most]


def _inset(area: shapely.Geometry, by: int) -> shapely.Geometry:
    """What lies at least so far inside an area [mm]."""
    return area.buffer(_SLACK - by, join_style="mitre")


def _square_inset(area: shapely.Geometry, half: int) -> shapely.Geometry:
    """Where a square of twice this size [mm], parallel to the axes, lies inside an area.

    Each of its corners lies inside, which matters beside slanted edges, and so does all within `half`.
    """
    fits = _inset(area, half)
    for dx in (-half, half):
        for dy in (-half, half):
            fits = fits.intersection(affinity.translate(area.buffer(_SLACK, join_style="mitre"), dx, dy))
    return fits


def _whole(region: shapely.Geometry, place: np.ndarray) -> Spot | None:
    """The whole-millimetre point of the region next to a place, if there is one close by."""
    steps = np.arange(-_NEAR, _NEAR + 1)
    x, y = (axis.ravel() for axis in np.meshgrid(*(np.rint(place)[:, None] + steps), indexing="ij"))
    inside = shapely.intersects_xy(region, x, y)
    apart = np.hypot(x - place[0], y - place[1])
    best = min(zip(apart[inside], x[inside], y[inside], strict=True), default=None)
    return None if best is None else (int(best[1]), int(best[2]))
