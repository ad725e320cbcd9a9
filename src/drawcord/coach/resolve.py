"""From places as a tape measures them to boxes and points."""

from collections.abc import Callable, Collection
from typing import NamedTuple

from drawcord.coach.box import Box, Point
from drawcord.coach.levels import Levels
from drawcord.coach.place import Along, Place, Reach, Spot
from drawcord.words.faults import Problem
from drawcord.words.nearest import nearest
from drawcord.words.quantity import Height, Rise


class Frame(NamedTuple):
    """What places are measured against: the shell's bounds and levels, and the boxes already placed.

    `inset` [mm] is how far the face that sides are measured from lies inside the outline: the wall's
    thickness indoors, zero on the roof. `find` returns the box of a space or raises KeyError; `names` are
    those it knows.
    """

    bounds: tuple[int, int, int, int]
    inset: int
    street_is_left: bool
    levels: Levels
    find: Callable[[str], Box]
    names: Collection[str] = ()


class Unplaced(Exception):
    """A place that cannot be worked out; carries one problem a cause, none for a cause recorded already."""

    def __init__(self, *problems: Problem) -> None:
        super().__init__("; ".join(problem.sentence for problem in problems))
        self.problems = problems


def _one(place: Along | Spot, names: tuple[str, ...], what: str, path: tuple[str | int, ...]) -> str:
    given = [name for name in names if getattr(place, name) is not None]
    keys = [name.replace("_", " ") for name in given]
    if len(given) == 1:
        return given[0]
    wanted = ", ".join(f"`{name.replace('_', ' ')}`" for name in names)
    if not given:
        raise Unplaced(Problem(path, f"{_name(path)} does not say {what}: give one of {wanted}"))
    raise Unplaced(Problem((*path, keys[1]), f"{_name(path)} says {what} twice, {keys[0]} and {keys[1]}: keep one"))


def _name(path: tuple[str | int, ...]) -> str:
    return ".".join(str(part) for part in path) or "the place"


def _found(frame: Frame, name: str, path: tuple[str | int, ...]) -> Box:
    try:
        return frame.find(name)
    except KeyError:
        sentence = f"{_name(path)}: there is no space called {name} to measure from{nearest(name, frame.names)}"
        raise Unplaced(Problem(path, sentence)) from None


def along(place: Along, frame: Frame, path: tuple[str | int, ...]) -> tuple[int, int]:
    """From where to where [mm] a place reaches along the vehicle. Raises Unplaced."""
    front, rear = frame.bounds[0], frame.bounds[1]
    key = _one(place, ("from_front", "from_rear", "after", "before", "between"), "where it is along", path)
    if place.long is not None and key not in ("after", "before"):
        says = f"{_name(path)} says how long it is twice, {key.replace('_', ' ')} and long: keep one"
        raise Unplaced(Problem((*path, "long"), says))
    if place.from_front is not None:
        return front + place.from_front[0], front + place.from_front[1]
    if place.from_rear is not None:
        return rear - place.from_rear[1], rear - place.from_rear[0]
    if place.between is not None:
        first, second = (_found(frame, name, (*path, "between")) for name in place.between)
        lo, hi = min(first.x1, second.x1), max(first.x0, second.x0)
        if hi <= lo:
            raise Unplaced(
                Problem(
                    (*path, "between"),
                    f"{_name(path)}: nothing is left between {' and '.join(place.between)}",
                )
            )
        return lo, hi
    if place.long is None:
        raise Unplaced(Problem((*path, key), f"{_name(path)} says `{key}` but not how `long`: add `long: 400 mm`"))
    if place.after is not None:
        start = _found(frame, place.after, (*path, "after")).x1
        return start, start + place.long
    end = _found(frame, place.before or "", (*path, "before")).x0
    return end - place.long, end


def _is_left(side: str, frame: Frame) -> bool:
    return side in ("left", "street" if frame.street_is_left else "curb")


def _across(place: Place, frame: Frame, path: tuple[str | int, ...]) -> tuple[int, int]:
    left, right = frame.bounds[2] + frame.inset, frame.bounds[3] - frame.inset
    sides = ("street", "curb", "left", "right")
    given = [side for side in sides if getattr(place, side) is not None]
    if place.centre is not None and not given:
        middle = (left + right) // 2
        return middle - place.centre // 2, middle - place.centre // 2 + place.centre
    if not given and place.centre is None:
        return left, right
    side = _one(place, (*sides, "centre"), "where it is across", path)
    reach: Reach = getattr(place, side)
    near, far = reach.near, reach.far
    if reach.to:
        other = _found(frame, reach.to, (*path, side))
        far = other.y0 - left if _is_left(side, frame) else right - other.y1
        if far <= near:
            raise Unplaced(Problem((*path, side), f"{_name(path)}: {reach.to} leaves no room on the {side} side"))
    return (left + near, left + far) if _is_left(side, frame) else (right - far, right - near)


def _heights(
    place: Place, frame: Frame, path: tuple[str | int, ...], x0: int, x1: int, rise: Rise | None
) -> tuple[int, int]:
    if place.up or place.from_floor or place.from_ceiling or rise is None:
        _one(place, ("up", "from_floor", "from_ceiling"), "where it is in height", path)
    if place.from_floor is not None:
        floor = frame.levels.at("floor", x0, x1)
        return floor + place.from_floor[0], floor + place.from_floor[1]
    if place.from_ceiling is not None:
        ceiling = frame.levels.at("ceiling", x0, x1)
        return ceiling - place.from_ceiling[1], ceiling - place.from_ceiling[0]
    low, high = place.up or rise  # type: ignore[misc]  # where neither is there, _one has raised
    return frame.levels.at(low.base, x0, x1) + low.offset, frame.levels.at(high.base, x0, x1) + high.offset


def resolve_box(place: Place, frame: Frame, path: tuple[str | int, ...], rise: Rise | None = None) -> Box:
    """The box [mm] of a place; `rise` is used where the place says nothing of heights.

    Raises Unplaced with every reason it cannot be worked out.
    """
    problems: list[Problem] = []
    spans: list[tuple[int, int]] = []
    for measure in (along, _across):
        try:
            spans.append(measure(place, frame, path))
        except Unplaced as error:
            problems.extend(error.problems)
    if len(spans) < 2:
        raise Unplaced(*problems)
    (x0, x1), (y0, y1) = spans
    z0, z1 = _heights(place, frame, path, x0, x1, rise)
    if z1 < z0:
        raise Unplaced(
            Problem(
                (*path, "up"),
                f"{_name(path)} ends {z0 - z1} mm below where it starts: give the lower height first",
            )
        )
    return Box(x0, x1, y0, y1, z0, z1)


def resolve_within(place: Place, frame: Frame, path: tuple[str | int, ...], whole: Box) -> Box:
    """The box [mm] of a place within another; where the place says nothing along an axis it is as large.

    Raises Unplaced, also where nothing of the place lies within.
    """
    alongside = any(getattr(place, name) is not None for name in Along.model_fields)
    beside = any(getattr(place, name) is not None for name in ("street", "curb", "left", "right", "centre"))
    x = along(place, frame, path) if alongside else whole.span(0)
    y = _across(place, frame, path) if beside else whole.span(1)
    z = _heights(place, frame, path, *x, (Height("main", whole.z0), Height("main", whole.z1)))
    spans = [
        (max(a[0], b[0]), min(a[1], b[1])) for a, b in zip((x, y, z), (whole.span(i) for i in range(3)), strict=True)
    ]
    if any(lo > hi for lo, hi in spans):
        raise Unplaced(Problem(path, f"{_name(path)} lies beside the face it should be in: measure it again"))
    return Box(*(value for span in spans for value in span))


def resolve_point(spot: Spot, frame: Frame, path: tuple[str | int, ...], height: Height | None = None) -> Point:
    """The point [mm] of a spot; `height` is used where the spot says none. Raises Unplaced."""
    problems: list[Problem] = []
    x = y = 0
    try:
        key = _one(spot, ("from_front", "from_rear"), "where it is along", path)
        value: int = getattr(spot, key)
        x = frame.bounds[0] + value if key == "from_front" else frame.bounds[1] - value
    except Unplaced as error:
        problems.extend(error.problems)
    try:
        side = _one(spot, ("street", "curb", "left", "right"), "where it is across", path)
        depth: int = getattr(spot, side)
        y = frame.bounds[2] + frame.inset + depth if _is_left(side, frame) else frame.bounds[3] - frame.inset - depth
    except Unplaced as error:
        problems.extend(error.problems)
    heights = ("up", "from_floor", "from_ceiling")
    if height is None or any(getattr(spot, name) is not None for name in heights):
        try:
            _one(spot, heights, "how high it is", path)
        except Unplaced as error:
            problems.extend(error.problems)
    if problems:
        raise Unplaced(*problems)
    if spot.from_floor is not None:
        return x, y, frame.levels.at("floor", x, x) + spot.from_floor
    if spot.from_ceiling is not None:
        return x, y, frame.levels.at("ceiling", x, x) - spot.from_ceiling
    up: Height = spot.up or height  # type: ignore[assignment]
    return x, y, frame.levels.at(up.base, x, x) + up.offset
