"""Where each hole is, as a tape finds it, and where to drill it from."""

from collections.abc import Iterable

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.routes.route import Hole
from drawcord.sheets.lengths import bore, length
from drawcord.sheets.tables import Rows, headed


def holes_table(coach: Coach, holes: Iterable[Hole], units: str | None = None) -> Rows:
    """One row a hole.

    Along from the front of the vehicle; across from the nearer wall's inside, or from the roof's edge for a roof
    hole; each face up from the floor there; and from the two nearest faces of a space that it opens into.
    """
    header = [
        "hole",
        "from",
        "to",
        headed("diameter", units),
        headed("from front", units),
        headed("across", units),
        "across from",
        headed("above floor, near face", units),
        headed("above floor, far face", units),
        headed("from the faces of", units),
        "drill from",
        "standing",
    ]
    return [header, *(_row(coach, hole, units) for hole in holes)]


def short(rows: Rows) -> Rows:
    """The table as a sheet has room for: what belongs together in one column, a height for each face if they differ."""
    merged = []
    for hole, start, end, wide, front, across, edge, up, far, faces, drill, _ in rows:
        heights = up if up == far else f"{up} > {far}"
        merged.append([hole, f"{start} > {end}", wide, front, f"{across} from {edge}", heights, faces, drill])
    across, height = rows[0][5], rows[0][7].replace(", near face", "")
    return [[*merged[0][:4], across, height, *merged[0][6:]], *merged[1:]]


def _row(coach: Coach, hole: Hole, units: str | None) -> list[str]:
    x, y, _ = hole.near
    edge, across = from_edge(coach, y, on_roof=hole.kind == "roof")
    return [
        hole.id,
        *hole.between,
        bore(hole.diameter, units),
        length(x - coach.bounds[0], units),
        length(across, units),
        edge,
        *(length(z - coach.levels.at("floor", x, x), units) for _, _, z in (hole.near, hole.far)),
        from_edges(coach, hole, int(hole.between[0] == "roof"), units),
        drill_from(coach, hole),
        hole.standing,
    ]


def from_edge(coach: Coach, y: int, *, on_roof: bool) -> tuple[str, int]:
    """The nearer side and how far it is [mm]: the roof's edge on the roof, else the inside of the wall."""
    _, _, y0, y1 = coach.bounds
    inset = 0 if on_roof else coach.rig.shell.wall
    left, right = y - y0 - inset, y1 - inset - y
    on_left = left <= right
    side = "street" if on_left == coach.street_is_left else "curb"
    return f"{side} {'roof edge' if on_roof else 'wall inside'}", min(left, right)


def drill_from(coach: Coach, hole: Hole) -> str:
    """The space from which to drill: the one that opens soonest; of equals, and if neither opens, the less hidden."""

    def trouble(name: str) -> tuple[bool, int, bool]:
        space = coach.spaces[name]
        opening = [opening.seconds for opening in coach.openings.values() if opening.into == name]
        stood_in = space.kind in ("roof", "room")
        return not (opening or stood_in), 0 if stood_in else min(opening, default=0), space.hidden

    return min(hole.between, key=trouble)


def from_edges(coach: Coach, hole: Hole, face: int, units: str | None) -> str:
    """Where a face (0: near, 1: far) lies, from two edges: of the roof, or of the space that it opens into."""
    name, point = hole.between[face], (hole.near, hole.far)[face]
    if coach.spaces[name].kind == "roof":
        edge, across = from_edge(coach, point[1], on_roof=True)
        return f"{name}: {length(point[0] - coach.bounds[0], units)} front, {length(across, units)} {edge}"
    box = coach.spaces[name].box
    deep = [abs(far - near) for far, near in zip(hole.far, hole.near, strict=True)]
    ends = [(coach.spaces[end].box, at) for end, at in zip(hole.between, (hole.near, hole.far), strict=True)]
    # Where nothing parts the two, it is bored through a face on which it lies: the other may be open there.
    bored = max(range(3), key=lambda axis: (deep[axis], sum(at[axis] in one.span(axis) for one, at in ends)))
    left, right = ("street", "curb") if coach.street_is_left else ("curb", "street")
    words = (("forward", "aft"), (left, right), ("lower", "upper"))
    faces = [_nearer(point, axis, box.span(axis), words[axis]) for axis in range(3) if axis != bored]
    return f"{name}: " + ", ".join(f"{length(far, units)} {face}" for far, face in faces)


def _nearer(point: Point, axis: int, span: tuple[int, int], words: tuple[str, str]) -> tuple[int, str]:
    low, high = point[axis] - span[0], span[1] - point[axis]
    return (low, words[0]) if low <= high else (high, words[1])
