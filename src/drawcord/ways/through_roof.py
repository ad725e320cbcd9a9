"""The mouths of passages through the roof: new entries, and roof caps that are there already."""

from collections.abc import Iterable, Iterator

import shapely

from drawcord.coach.box import Box, Point
from drawcord.coach.coach import Coach, Space
from drawcord.ways.entries import entry_points, entry_region
from drawcord.ways.passage import Gate
from drawcord.ways.raceway import Raceway
from drawcord.ways.roof import RoofRuns

BORE = 25  # mm: taken for a coach without cables
MOST = 8  # entries offered a space
STUB = 300  # mm: raceway on a ceiling goes no further than this to a wall


def reaches_roof(space: Space, coach: Coach) -> bool:
    """Whether a space ends at the ceiling or above it, so that an entry leads straight into it."""
    ceiling = coach.levels.at("ceiling", space.box.x0, space.box.x1)
    return space.kind != "roof" and space.box.z1 >= ceiling - coach.shop.clearances.contact


def bore(coach: Coach) -> int:
    """The largest hole that any cable of the job needs [mm]."""
    plugs = [cable.largest_plug for cable in coach.job.cables.values()] if coach.job else [BORE]
    return max(plugs) + coach.shop.clearances.plug


def footprint(space: Space, avoid: Iterable[Box] = ()) -> shapely.Geometry:
    """The plan of what is usable at the top of a space, and below none of what a bore has to avoid."""
    box = space.box
    top = box._replace(z0=max(box.z0, box.z1 - 1))
    above = [part._replace(z0=top.z0, z1=top.z1) for part in avoid if part.z1 > top.z0]
    parts = top.minus((*space.taken, *above))
    return shapely.union_all([shapely.box(p.x0, p.y0, p.x1, p.y1) for p in parts])


def new_entries(
    space: Space, coach: Coach, roof: RoofRuns, rooms: dict[str, Raceway], avoid: Iterable[Box]
) -> Iterator[Gate]:
    """Places (from the roof into the space) of entries that could be cut over a space, clear of what they avoid.

    In a room the cable goes on along the ceiling to the nearest wall that takes raceway, if that is near.
    """
    if not reaches_roof(space, coach):
        return
    if space.kind == "room" and not (coach.job and "roof into room" in coach.job.owner.consents):
        return
    clear = coach.shop.clearances
    area, hole = footprint(space, avoid), bore(coach)
    roomy, _ = entry_region(area, roof, hole, clear.flange, max(clear.measuring_error, clear.working_room - hole // 2))
    region = entry_region(area, roof, hole, clear.flange, clear.measuring_error).region if roomy.is_empty else roomy
    towards = [t.point[:2] for t in coach.terminals.values() if t.space in ("roof", space.id)]
    for x, y in entry_points(region, towards[: MOST - 4], MOST):
        below = (x, y, space.box.z1)
        if space.kind == "room":
            if not rooms[space.id].free:
                return
            below = min((_nearest(wall, below) for wall in rooms[space.id].free), key=lambda p: (_apart(p, below), p))
            if _apart(below, (x, y, space.box.z1)) > STUB:
                continue
        yield Gate(_point((x, y, roof.z)), _point(below), 2, hole)


def existing_entries(space: Space, at: Box | None, coach: Coach) -> Iterator[Gate]:
    """Gates of an opening in the roof over a space that is there already.

    Where the space has a cap on the roof, a cable comes in at one of the cap's sides, those that `at` touches
    if it touches any; the roof's mouth lies on the edge of the cap's clearance, where the run over the roof
    ends. Without a cap it goes down in the middle of `at`, which lies over the space. Below it enters what is
    usable there. None lies within the clearance of something hot or dangerous.
    """
    area = footprint(space)
    if area.is_empty or not reaches_roof(space, coach):
        return
    cap = coach.obstacles.get(space.id)
    sides: list[tuple[int, int]] = []
    if cap:
        keep = cap.keep
        x, y = (cap.box.x0 + cap.box.x1) // 2, (cap.box.y0 + cap.box.y1) // 2
        sides = [(keep.x0, y), (keep.x1, y), (x, keep.y0), (x, keep.y1)]
        touched = [side for side in sides if at and at.x0 <= side[0] <= at.x1 and at.y0 <= side[1] <= at.y1]
        sides = touched or sides
    elif at and area.intersects(shapely.box(at.x0, at.y0, at.x1, at.y1)):
        sides = [((at.x0 + at.x1) // 2, (at.y0 + at.y1) // 2)]
    near_heat = [hazard.keep for hazard in coach.hazards.values() if hazard.keep.z1 > coach.levels.roof]
    for side in sides:
        if any(keep.x0 < side[0] < keep.x1 and keep.y0 < side[1] < keep.y1 for keep in near_heat):
            continue
        inner = shapely.shortest_line(area, shapely.Point(side)).coords[0]
        below = (round(inner[0]), round(inner[1]), space.box.z1)
        yield Gate(_point((*side, coach.levels.roof)), _point(below), 2, cap.box.x1 - cap.box.x0 if cap else 0)


def _nearest(box: Box, point: Point) -> Point:
    """The point of a box nearest to another."""
    x, y, z = (min(max(value, box.span(axis)[0]), box.span(axis)[1]) for axis, value in enumerate(point))
    return x, y, z


def _apart(p: Point, q: Point) -> int:
    return sum(abs(u - v) for u, v in zip(p, q, strict=True))


def _point(point: Point) -> Box:
    x, y, z = point
    return Box(x, x, y, y, z, z)
