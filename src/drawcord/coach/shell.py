"""The outside of the rig: its outline and its levels."""

import math
from collections.abc import Callable, Collection

from shapely.geometry import Polygon
from shapely.validation import explain_validity

from drawcord.coach.box import Box
from drawcord.coach.levels import Levels, Step
from drawcord.coach.resolve import Frame, Unplaced, along
from drawcord.coach.rig import Rig, Shell
from drawcord.words.faults import Problem
from drawcord.words.units import LONGEST, format_length, format_lengths

Outline = tuple[tuple[int, int], ...]
STAND_IN: Outline = ((0, 0), (10_000, 0), (10_000, 2_500), (0, 2_500))


def outline(shell: Shell, problems: list[Problem]) -> Outline:
    """The plan outline [mm], from `outline` or from length and width; a stand-in where it cannot be used."""
    if shell.outline is None:
        if shell.length is None or shell.width is None:
            sentence = "the shell gives neither `outline` nor both `length` and `width`: give one or the other"
            problems.append(Problem(("shell",), sentence, file="rig"))
            return STAND_IN
        return ((0, 0), (shell.length, 0), (shell.length, shell.width), (0, shell.width))
    for key in ("length", "width"):
        if getattr(shell, key) is not None:
            sentence = f"the shell gives both `outline` and `{key}`: keep `outline` alone"
            problems.append(Problem(("shell", key), sentence, file="rig"))
    corners = tuple(shell.outline)
    polygon = Polygon(corners) if len(corners) > 2 else Polygon()
    if polygon.is_empty or not polygon.is_valid or polygon.area == 0:
        why = "has fewer than three corners" if len(corners) < 3 else _crossing(polygon)
        problems.append(Problem(("shell", "outline"), f"the outline {why}: list its corners once round", file="rig"))
        if polygon.envelope.area == 0:
            return STAND_IN
        x0, y0, x1, y1 = (round(bound) for bound in polygon.bounds)
        return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return corners


def _crossing(polygon: Polygon) -> str:
    if polygon.is_valid:
        return "encloses nothing"
    reason = explain_validity(polygon)
    spot = reason[reason.find("[") + 1 : reason.find("]")].split()
    try:
        x, y = (round(float(part)) for part in spot)
    except ValueError:
        return "crosses itself"
    return f"crosses itself {x} mm from the front and {y} mm from the left side"


def levels(rig: Rig, corners: Outline, style: str, problems: list[Problem]) -> Levels:
    """The heights of floors, ceilings, bays, ground and roof [mm above the main floor].

    Where one is wrong something stands in for it, so that what is measured from it is not blamed too. `style`
    is the unit that sentences show lengths in.
    """
    shell = rig.shell
    roof, ground, bay = shell.roof, shell.ground, shell.bay

    def wrong(key: str, sentence: str) -> None:
        problems.append(Problem(("shell", key), sentence, file="rig"))

    def at(height: int) -> str:
        return format_length(height, style)

    if roof <= shell.ceiling:
        wrong("roof", f"the roof at {at(roof)} is not above the ceiling at {at(shell.ceiling)}")
        roof = LONGEST[0]
    if ground >= -shell.floor_thickness:
        wrong("ground", f"the ground at {at(ground)} is not below the floor: heights below it are negative")
        ground = -LONGEST[0]
    if bay is not None and not ground <= bay < -shell.floor_thickness:
        wrong("bay", f"the bays' floor at {at(bay)} is not between the ground at {at(shell.ground)} and the floor")
        bay = None
    bare = Levels(ground, ground if bay is None else bay, shell.floor_thickness, shell.ceiling, roof, ())
    frame = frame_of(rig, corners, bare, no_space)
    steps = []
    for number, step in enumerate(shell.steps):
        path = ("shell", "steps", number)
        try:
            x0, x1 = along(step, frame, path)
        except Unplaced as error:
            problems.extend(Problem(p.path, p.sentence, file="rig") for p in error.problems)
            continue
        if x0 < frame.bounds[0] or x1 > frame.bounds[1]:
            reach = format_lengths((x0, x1), style, " to ")
            sentence = f"the step reaches outside the shell, {reach} from the front: {size_of(corners, style)}"
            problems.append(Problem(path, sentence, file="rig"))
        ceiling = shell.ceiling if step.ceiling is None else step.ceiling
        if not step.floor < ceiling < roof:
            between = f"its floor at {at(step.floor)} and the roof at {at(roof)}"
            sentence = f"between {between} a ceiling at {at(ceiling)} does not fit"
            problems.append(Problem(path, sentence, file="rig"))
        steps.append(Step(x0, x1, step.floor, ceiling))
    return bare._replace(steps=tuple(sorted(steps)))


def size_of(corners: Outline, style: str) -> str:
    """The shell's length and width in words."""
    long, wide = (format_length(max(side) - min(side), style) for side in zip(*corners, strict=True))
    return f"the shell is {long} long and {wide} wide"


def no_space(name: str) -> Box:
    """Stands in where no space can be measured from."""
    raise KeyError(name)


def frame_of(
    rig: Rig,
    corners: Outline,
    heights: Levels,
    find: Callable[[str], Box],
    names: Collection[str] = (),
    *,
    roof: bool = False,
) -> Frame:
    """What places are measured against; on the roof, sides are measured from the roof's edge."""
    xs, ys = zip(*corners, strict=True)
    inset = 0 if roof else rig.shell.wall
    return Frame((min(xs), max(xs), min(ys), max(ys)), inset, rig.traffic_keeps == "right", heights, find, names)


def inside(corners: Outline, box: Box) -> bool:
    """Whether the plan of a box lies inside the outline; rectangles are settled without building a polygon."""
    xs, ys = zip(*corners, strict=True)
    if not (min(xs) <= box.x0 and box.x1 <= max(xs) and min(ys) <= box.y0 and box.y1 <= max(ys)):
        return False
    area = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))) / 2
    if math.isclose(area, (max(xs) - min(xs)) * (max(ys) - min(ys))):
        return True
    plan = Polygon([(box.x0, box.y0), (box.x1, box.y0), (box.x1, box.y1), (box.x0, box.y1)])
    return bool(Polygon(corners).buffer(0.5).covers(plan))
