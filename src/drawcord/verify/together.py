"""What the chosen routes do together: the holes, raceway and sections that they share, and what must stay apart."""

import math
from collections.abc import Iterable, Mapping
from itertools import combinations, pairwise
from typing import Any

import numpy as np
import shapely

from drawcord.verify.boxes import Box, boxes, common
from drawcord.verify.read import Data, mm, thick
from drawcord.verify.route import Route
from drawcord.verify.sizing import APART
from drawcord.verify.vehicle import Space, Vehicle

NARROW = ("chase", "vent stack", "appliance vent")  # spaces of a stated section
Routes = Mapping[str, Route]


def users(some: Iterable[tuple[Any, str]]) -> dict[Any, list[str]]:
    """By place, in the order in which they first come, the cables that come there."""
    found: dict[Any, set[str]] = {}
    for place, name in some:
        found.setdefault(place, set()).add(name)
    return {place: sorted(names) for place, names in found.items()}


def stretches(routes: Routes) -> dict[Any, list[str]]:
    """By piece of raceway, from where to where along a line of a room, the cables that lie in it."""
    found = []
    for name, route in routes.items():
        for room, p, q in route.raceway:
            axis = next(axis for axis in range(3) if p[axis] != q[axis])
            line = room, axis, p[:axis] + p[axis + 1 :]
            found.append((line, min(p[axis], q[axis]), max(p[axis], q[axis]), name))
    cuts = {line: sorted({at for other, *ends, _ in found if other == line for at in ends}) for line, *_ in found}
    return users(
        ((line, a, b), name)
        for line, low, high, name in found
        for a, b in pairwise(cuts[line])
        if low <= a and b <= high
    )


def strands(route: Route) -> list[int]:
    """The diameters of what lies side by side of a cable: its cores, or its one sheath [mm]."""
    wide = thick(route.cable["outside diameter"], route.unit)
    return [wide] * (int(route.cable["cores"]) if route.cable["class"] in APART else 1)


def drawn_in(routes: list[Route]) -> list[list[int]]:
    """For each cable as the last one drawn in: its plug, and the diameters of all that lies there already [mm]."""
    return [[last.plug, *(d for other in routes if other is not last for d in strands(other))] for last in routes]


def bore(routes: list[Route]) -> int:
    """The round opening that passes cables: as wide as all side by side, or half filled [mm]."""
    return max(min(sum(row), math.ceil(math.sqrt(2 * sum(d * d for d in row)))) for row in drawn_in(routes))


def free(space: Space) -> int:
    """The section that a narrow space leaves where least is left of it, across its longest side [mm²]."""
    sizes = np.diff(space.box)[:, 0]
    along = max(range(3), key=lambda axis: (sizes[axis], axis))
    taken = boxes(clip for box in space.taken if ((clip := common(box, space.box))[:, 0] < clip[:, 1]).all())

    def flat(box: Box) -> shapely.Geometry:
        return shapely.box(*np.delete(box, along, axis=0).T.ravel())

    left = []
    for at in np.unique([*space.box[along], *taken[:, along].ravel()])[:-1]:
        here = [flat(box) for box in taken if box[along, 0] <= at < box[along, 1]]
        left.append(round(flat(space.box).difference(shapely.union_all(here)).area))
    return min((area for area in left if area), default=0)


def terms(vehicle: Vehicle, one: Route, two: Route) -> tuple[str, list[str]]:
    """The row of the sharing table for two cables, and what it does not grant them."""
    kinds = ["data or coax" if r.cable["class"] in ("data", "coax") else r.cable["class"] for r in (one, two)]
    rows = vehicle.shop["sharing"]["pairs"]
    pair = next(name for name in (" with ".join(kinds), " with ".join(kinds[::-1])) if name in rows)
    return pair, [key for key in ("together", "box", "raceway", "cross") if rows[pair][key] != "true"]


def broken(vehicle: Vehicle, routes: Routes) -> list[str]:
    """Which rules of the sharing table and of the room that there is some routes break, in sentences."""
    found: list[str] = []
    passages = users((way, name) for name, route in routes.items() for way, _, _ in route.crossed)
    holes = users((place, name) for name, route in routes.items() for _, place, _ in route.crossed)
    spaces = users((space, name) for name, route in routes.items() for space in route.names)
    roofs = {place for route in routes.values() for _, place, _ in route.crossed if "roof" in dict(place)}
    places = [(names, "a place to cross", ["together", *["box"] * (place in roofs)]) for place, names in holes.items()]
    places += [(names, "raceway", ["raceway"]) for names in stretches(routes).values()]
    for way, names in passages.items():
        if (size := _size(vehicle, way)) and len(names) > 1:
            places.append((names, way, ["together"]))
            if (needed := bore([routes[name] for name in names])) > size:
                found.append(f"{' and '.join(names)} need {needed} mm at {way}, which passes {size} mm")
    for space, names in spaces.items():
        narrow = vehicle.spaces[space].kind in NARROW
        places.append((names, space, ["cross", *["together"] * narrow]))
        if narrow and len(names) > 1:
            needed = max(sum(d * d for d in row) for row in drawn_in([routes[name] for name in names]))
            if needed > (left := free(vehicle.spaces[space])):
                found.append(f"{' and '.join(names)} need {needed} mm² in {space}, which has {left} mm² free")
    for names, what, wanted in places:
        for one, two in combinations(names, 2):
            pair, barred = terms(vehicle, routes[one], routes[two])
            if not set(barred).isdisjoint(wanted):
                found.append(f"{one} and {two} may not share {what}: {pair} in the sharing table")
    return found


def _size(vehicle: Vehicle, passage: str) -> int:
    entry = vehicle.entries["passages"].get(passage, {})
    return mm(entry.get("size", "0 mm"), entry.get("units", "")) if entry.get("opening") == "exists" else 0


def check(said: Data, vehicle: Vehicle, routes: Routes, alone: Routes) -> tuple[Data, list[str]]:
    """What the plan should say of the chosen routes together, against the winners alone; and the rules it breaks."""
    found = broken(vehicle, routes)
    bored = [(_place(hole), hole, name) for name, route in routes.items() for hole in route.right["holes"]]
    through = users((place, name) for place, _, name in bored)
    first = {place: hole for place, hole, _ in reversed(bored)}
    holes = [
        {key: first[place][key] for key in ("kind", "between", "near_mm", "far_mm")}
        | {"id": f"T{number}", "cables": names, "diameter_mm": bore([routes[n] for n in names]) + vehicle.kept("plug")}
        for number, (place, names) in enumerate(through.items(), start=1)
    ]
    wide = {place: hole["diameter_mm"] for place, hole in zip(through, holes, strict=True)}
    for place, hole, name in bored:
        if hole["diameter_mm"] != wide[place]:
            found.append(f"{name}: {hole['id']} takes {', '.join(through[place])}, {wide[place]} mm")
    spaces = users(sorted((space, name) for name, route in routes.items() for space in route.names))
    passages = users(sorted((way, name) for name, route in routes.items() for way, _, _ in route.crossed))
    raceway: dict[tuple[str, tuple[str, ...]], int] = {}
    lain = stretches(routes)
    for ((room, *_), low, high), names in lain.items():
        raceway[room, tuple(names)] = raceway.get((room, tuple(names)), 0) + high - low
    narrow = {name: space for name, space in vehicle.spaces.items() if space.kind in NARROW}
    bundles = [(name, names, free(narrow[name])) for name, names in spaces.items() if name in narrow]
    sized = [(way, names, _size(vehicle, way)) for way, names in passages.items()]
    bundles += [(way, names, math.floor(math.pi * size**2 / 4)) for way, names, size in sized if size]
    apart = [
        {"where": where, "cables": [one, two]}
        for where, names in (*spaces.items(), *passages.items())
        for one, two in combinations(names, 2)
        if terms(vehicle, routes[one], routes[two])[1]
    ]
    for row in said["apart"]:
        one, two = (routes[name] for name in row["cables"])
        if not row["rule"].startswith(terms(vehicle, one, two)[0]):
            found.append(f"{one.name} and {two.name} come under {terms(vehicle, one, two)[0]}, not {row['rule']}")
    making = users(((place, spent), name) for name, route in routes.items() for _, place, spent in route.crossed)
    opening = users(((space, spent), name) for name, r in routes.items() for space, spent in r.opened.items())
    seconds = sum(route.seconds for route in routes.values())
    seconds -= sum((len(names) - 1) * spent for (_, spent), names in (*making.items(), *opening.items()))
    winners = [route for name, route in alone.items() if name in routes]
    kinds = [hole["kind"] for route in winners for hole in route.right["holes"]]
    mine = [hole["kind"] for hole in holes]
    weight, least = said["weight_m"], said["least_possible_m"]
    if not 0 <= least <= weight or (said["proved"] and weight != least) or type(said["proved"]) is not bool:
        found.append(f"a plan that weighs {weight} m is not proved by {least} m")
    if said["alone"]["legal"] and (said["alone"]["faults"] or broken(vehicle, alone)):
        found.append(f"each alone would not be legal: {'; '.join(broken(vehicle, alone)) or said['alone']['faults']}")
    return {
        "holes": holes,
        "gap_percent": round(100 * (weight - least) / weight, 4) if weight else 0.0,
        "raceway": [
            {"space": room, "length_mm": along, "cables": [*names]} for (room, names), along in sorted(raceway.items())
        ],
        "bundles": [
            {
                "where": where,
                "cables": names,
                "filled_mm2": sum(d * d for name in names for d in strands(routes[name])),
                "free_mm2": left,
            }
            for where, names, left in bundles
            if len(names) > 1
        ],
        "apart": apart,
        "saved": {
            "roof_holes": kinds.count("roof") - mine.count("roof"),
            "inner_holes": kinds.count("inner") - mine.count("inner"),
            "minutes": round((sum(route.seconds for route in winners) - seconds) / 60, 1),
            "raceway_mm": sum(route.in_sight for route in winners) - sum(raceway.values()),
        },
        "alone": {"legal": not said["alone"]["faults"]},
    }, found


def _place(hole: Data) -> frozenset[tuple[str, tuple[int, ...]]]:
    """Where a hole is, from whichever side it was come to."""
    a, b = hole["between"]
    return frozenset({(a, tuple(hole["near_mm"])), (b, tuple(hole["far_mm"]))})
