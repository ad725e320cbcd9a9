"""Where each hole is, as a tape finds it."""

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.routes.route import Hole, Route
from drawcord.sheets.tables import Rows, headed, length


def holes_table(coach: Coach, route: Route, units: str | None = None) -> Rows:
    """One row a hole.

    Along from the front of the vehicle; across from the nearer wall's inside, or from the roof's edge for a
    roof hole; up from the floor there; and from the two nearest faces of a space that it opens into.
    """
    header = [
        "hole",
        "from",
        "to",
        headed("diameter", units),
        headed("from front", units),
        headed("from side", units),
        "side",
        headed("above floor", units),
        "from its faces",
        "standing",
    ]
    return [header, *(_row(coach, number, hole, units) for number, hole in enumerate(route.holes, start=1))]


def short(rows: Rows) -> Rows:
    """The table as a sheet has room for: both spaces in one column, the distance across with its side."""
    merged = [
        [hole, f"{start} > {end}", wide, front, f"{across} {side}", up, faces]
        for hole, start, end, wide, front, across, side, up, faces, _ in rows
    ]
    merged[0][4] = rows[0][5]
    return merged


def _row(coach: Coach, number: int, hole: Hole, units: str | None) -> list[str]:
    x, y, z = hole.near
    side, across = from_side(coach, y, on_roof=hole.kind == "roof")
    return [
        f"H{number}",
        *hole.between,
        length(hole.diameter, units),
        length(x - coach.bounds[0], units),
        length(across, units),
        side,
        length(z - coach.levels.at("floor", x, x), units),
        _within(coach, hole, units),
        hole.standing,
    ]


def from_side(coach: Coach, y: int, *, on_roof: bool) -> tuple[str, int]:
    """The nearer side and how far it is [mm]: the roof's edge on the roof, else the inside of the wall."""
    _, _, y0, y1 = coach.bounds
    inset = 0 if on_roof else coach.rig.shell.wall
    left, right = y - y0 - inset, y1 - inset - y
    on_left = left <= right
    return "street" if on_left == coach.street_is_left else "curb", min(left, right)


def _within(coach: Coach, hole: Hole, units: str | None) -> str:
    """Distances to the nearer faces, across the bore, of the space it leaves, or enters from the roof."""
    left_roof = hole.between[0] == "roof"
    name, point = hole.between[left_roof], (hole.near, hole.far)[left_roof]
    box = coach.spaces[name].box
    deep = [abs(far - near) for far, near in zip(hole.far, hole.near, strict=True)]
    bore = max(range(3), key=lambda axis: (deep[axis], point[axis] in box.span(axis)))
    left, right = ("street", "curb") if coach.street_is_left else ("curb", "street")
    words = (("forward", "aft"), (left, right), ("lower", "upper"))
    faces = [_nearer(point, axis, box.span(axis), words[axis]) for axis in range(3) if axis != bore]
    return ", ".join(f"{length(far, units)} {face}" for far, face in faces)


def _nearer(point: Point, axis: int, span: tuple[int, int], words: tuple[str, str]) -> tuple[int, str]:
    low, high = point[axis] - span[0], span[1] - point[axis]
    return (low, words[0]) if low <= high else (high, words[1])
