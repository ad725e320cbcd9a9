"""Tables of a route and of an answer, as rows of text with a header; CSV bytes and plain text from them.

With `units` (`mm`, `m` or `in`) lengths read as people say them; without, they are bare whole millimetres
under a header with the unit, as a spreadsheet wants them.
"""

import csv
from io import StringIO

from drawcord.coach.coach import Coach
from drawcord.routes.route import Answer, Route
from drawcord.words.units import format_length, format_minutes

Rows = list[list[str]]


def length(mm: int, units: str | None) -> str:
    """A length in a cell."""
    return format_length(mm, units) if units else str(mm)


def _headed(name: str, units: str | None) -> str:
    return name if units else f"{name} [mm]"


def legs_table(route: Route, units: str | None = None) -> Rows:
    """One row a leg: number, space, kind, how covered, length, in sight, standing."""
    header = ["leg", "space", "kind", "how covered", _headed("length", units), "in sight", "standing"]
    rows = [
        [
            str(number),
            leg.space,
            leg.kind,
            leg.cover,
            length(leg.length, units),
            "yes" if leg.in_sight else "no",
            leg.standing,
        ]
        for number, leg in enumerate(route.legs, start=1)
    ]
    return [header, *rows]


def holes_table(coach: Coach, route: Route, units: str | None = None) -> Rows:
    """One row a hole, with the distances a tape can take.

    Along from the front of the vehicle; across from the nearer wall's inside, or from the roof's edge for a
    roof hole; up from the floor there; and from the two nearest faces of the space it is bored from.
    """
    header = [
        "hole",
        "from",
        "to",
        _headed("diameter", units),
        _headed("from front", units),
        _headed("from side", units),
        _headed("above floor", units),
        "in that space",
        "standing",
    ]
    rows = []
    for number, hole in enumerate(route.holes, start=1):
        x, y, z = hole.near
        side, across = _from_side(coach, y, on_roof=hole.kind == "roof")
        floor = coach.levels.at("floor", x, x)
        rows.append(
            [
                f"H{number}",
                hole.between[0],
                hole.between[1],
                length(hole.diameter, units),
                length(x - coach.bounds[0], units),
                f"{length(across, units)} {side}",
                "on the roof" if hole.kind == "roof" else length(z - floor, units),
                _from_faces(coach, hole.between, hole.near, hole.far, units),
                hole.standing,
            ]
        )
    return [header, *rows]


def _from_side(coach: Coach, y: int, *, on_roof: bool) -> tuple[str, int]:
    """The nearer side and how far it is [mm]."""
    _, _, y0, y1 = coach.bounds
    inset = 0 if on_roof else coach.rig.shell.wall
    left, right = y - y0 - inset, y1 - inset - y
    near_left = left <= right
    name = "street" if near_left == coach.street_is_left else "curb"
    return name, left if near_left else right


def _from_faces(
    coach: Coach, between: tuple[str, str], near: tuple[int, int, int], far: tuple[int, int, int], units: str | None
) -> str:
    """Distances to the nearer face on each axis that the bore does not run along; of the far space on a roof."""
    name = between[1] if between[0] == "roof" else between[0]
    if name not in coach.spaces:
        return ""
    box, bore = coach.spaces[name].box, max(range(3), key=lambda axis: abs(far[axis] - near[axis]))
    left, right = ("street", "curb") if coach.street_is_left else ("curb", "street")
    words = (("forward", "aft"), (left, right), ("lower", "upper"))
    parts = []
    for axis in range(3):
        if axis == bore:
            continue
        low, high = box.span(axis)
        from_low, from_high = near[axis] - low, high - near[axis]
        nearer = from_low <= from_high
        parts.append(f"{length(min(from_low, from_high), units)} from its {words[axis][not nearer]} face")
    return f"{name}: {', '.join(parts)}"


def candidates_table(answer: Answer, units: str | None = None) -> Rows:
    """One row a candidate, with the figures that candidates are compared by."""
    header = [
        "candidate",
        "rank",
        _headed("length", units),
        _headed("in sight", units),
        "roof holes",
        "inner holes",
        "minutes",
        "unproven places",
        "chance clear",
        _headed("cut length low", units),
        _headed("cut length likely", units),
        _headed("cut length high", units),
        "joints",
        "drop",
        "best at",
        "spaces",
    ]
    return [header]
