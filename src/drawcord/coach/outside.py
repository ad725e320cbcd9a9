"""Whether everything lies where the vehicle is: a slip of the pen must not take a flue or a tank out of the sketch."""

from collections.abc import Iterator, Mapping

from drawcord.coach.box import Box
from drawcord.coach.coach import Coach, Moving
from drawcord.coach.laying import Laying
from drawcord.coach.moving import rides
from drawcord.coach.place import Along, Reach
from drawcord.coach.rig import MovingPart, RoofObstacle
from drawcord.coach.shell import inside, size_of
from drawcord.words.units import format_length, format_lengths

ABOVE = 1000  # mm: nothing that stands on a roof and goes under bridges is higher
BEYOND = 2000  # mm: how far what belongs to the vehicle stands out: a tongue with its jack, a step, a tailpipe
TRIM = 100  # mm: how far what lies in a wall, or a part that is drawn in, stands out


def spaces(laying: Laying, moved: Mapping[str, Moving]) -> None:
    """Record every space that lies outside the shell, once, and take it back; what rides on a slide may.

    A space that is measured from one of them is taken back without a word: it moves once the other is right.
    """
    sweeps = {name: part.sweep for name, part in moved.items()}
    wrong = {name: reasons for name in laying.boxes if (reasons := list(_out_of_shell(laying, name, sweeps)))}
    for name, reasons in wrong.items():
        if not measured_from(laying.written[name]) & wrong.keys():
            laying.layered.add(name, f"{name} reaches {', and '.join(reasons)}: measure it again")
    for name in wrong:
        laying.lose(name)


def measured_from(place: Along) -> set[str]:
    """The ids of the spaces that a place is measured from."""
    given = (getattr(place, name) for name in type(place).model_fields)
    across = {value.to for value in given if isinstance(value, Reach) and value.to}
    return across | {name for name in (place.after, place.before, *(place.between or ())) if name}


def _out_of_shell(laying: Laying, name: str, sweeps: dict[str, Box]) -> Iterator[str]:
    box, kind = laying.boxes[name], laying.written[name].kind
    rider = kind != "room" and rides(box, sweeps)
    if not rider and not inside(laying.corners, box):
        yield f"outside the shell in plan, {_plan(box, laying.units)} ({size_of(laying.corners, laying.units)})"
    if box.z0 < laying.levels.ground or box.z1 > laying.levels.roof:
        yield _heights(laying, box, 0)


def things(coach: Coach, laying: Laying) -> None:
    """Record everything else that lies outside the shell, or reaches farther out of it than such a thing does."""
    section = laying.layered.section("roof_obstacles", RoofObstacle)
    for name, box in ((name, coach.obstacles[name].box) for name, _ in section if name in coach.obstacles):
        where = f"outside the roof, {_plan(box, laying.units)} ({size_of(coach.outline, laying.units)})"
        _tell(laying, name, box, "" if inside(coach.outline, box) else where)
    loose = {name: thing.box for name, thing in (*coach.hazards.items(), *coach.obstructions.items())}
    loose |= {name: passage.at for name, passage in coach.declared.items() if passage.at}
    fixed = {**coach.doors, **coach.windows, **coach.partitions, **_drawn_in(coach, laying)}
    for boxes, beyond in ((loose, BEYOND), (fixed, TRIM)):
        for name, box in boxes.items():
            _tell(laying, name, box, _far_out(coach, laying, box, beyond))


def _tell(laying: Laying, name: str, box: Box, plan: str) -> None:
    reasons = [plan] if plan else []
    if box.z0 < laying.levels.ground or box.z1 > laying.levels.roof + ABOVE:
        reasons.append(_heights(laying, box, ABOVE))
    if reasons:
        laying.layered.add(name, f"{name} reaches {', and '.join(reasons)}: measure it again")


def _drawn_in(coach: Coach, laying: Laying) -> dict[str, Box]:
    """The moving parts where they lie within the shell, be they drawn in or out; else where they are drawn."""
    found = {}
    for name, written in laying.layered.section("moving_parts", MovingPart):
        part = coach.moving_parts.get(name)
        if part and not measured_from(written) & laying.lost:
            drawn, moved = (_far_out(coach, laying, box, TRIM) for box in (part.drawn, part.moved))
            found[name] = part.moved if drawn and not moved else part.drawn
    return found


def _far_out(coach: Coach, laying: Laying, box: Box, beyond: int) -> str:
    """Along which side a box misses the shell or stands out of it by more than `beyond` [mm]; empty if it does not."""
    x0, x1, y0, y1 = coach.bounds
    shell = size_of(coach.outline, laying.units)
    for axis, (low, high), side in ((0, (x0, x1), "the front"), (1, (y0, y1), "the left side")):
        first, last = box.span(axis)
        if first > high or last < low or first < low - beyond or last > high + beyond:
            reach = format_lengths((first - low, last - low), laying.units, " to ")
            return f"outside the shell, {reach} from {side} ({shell})"
    return ""


def _plan(box: Box, units: str) -> str:
    along, across = (format_lengths(box.span(axis), units, " to ") for axis in (0, 1))
    return f"{along} from the front and {across} from the left side"


def _heights(laying: Laying, box: Box, above: int) -> str:
    reach = format_lengths((box.z0, box.z1), laying.units, " to ")
    roof = f"{format_length(above, laying.units)} above the roof" if above else "roof"
    bounds = format_lengths((laying.levels.ground, laying.levels.roof + above), laying.units, " to ")
    return f"from {reach} in height, outside ground to {roof}, {bounds}"
