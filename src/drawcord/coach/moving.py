"""Moving parts: the volume each sweeps, and what moves with it."""

from dataclasses import replace

from drawcord.coach.box import Box
from drawcord.coach.coach import Moving, Space
from drawcord.coach.laying import Laying
from drawcord.coach.rig import MovingPart


def place(laying: Laying) -> dict[str, Moving]:
    """Both positions of each part and its sweep: everything between them, grown by the shop's margin.

    Both positions are boxes and the travel is along an axis, so their common hull is the exact sweep.
    """
    placed = {}
    for name, part in laying.layered.section("moving_parts", MovingPart):
        frame = laying.roof_frame if part.kind == "hatch" else laying.frame
        drawn = laying.box(name, part, frame)
        if drawn is None:
            continue
        axis, sign = laying.direction(part.towards)
        shift = [0, 0, 0]
        shift[axis] = sign * part.travel * (1 if part.drawn == "in" else -1)
        moved = drawn.shift(*shift)
        hull = drawn.hull(moved)
        if wrong := _wrong_way(part.kind, axis, sign, hull, laying.frame.bounds):
            laying.layered.add(name, f"{name} opens `{part.towards}`, but {wrong}", "towards")
        sweep = hull.grow(laying.shop.clearances.moving)
        placed[name] = Moving(name, part.kind, drawn, moved, sweep, ())
    return placed


def _wrong_way(kind: str, axis: int, sign: int, hull: Box, bounds: tuple[int, int, int, int]) -> str:
    """Why no such part opens in this direction, or nothing; `hull` holds both its positions, `bounds` the shell."""
    if kind == "lifting roof" and (axis, sign) != (2, 1):
        return "a lifting roof goes `up`"
    if kind != "slide-out":
        return ""
    if axis == 2:
        return "a slide-out goes level: give the side it comes out of"
    low, high = bounds[2 * axis : 2 * axis + 2]
    out = hull.span(axis)[1] > high if sign > 0 else hull.span(axis)[0] < low
    return "" if out else "that way it never leaves the shell: give the side it comes out of"


def rides(box: Box, sweeps: dict[str, Box]) -> str:
    """The moving part that a space rides on or lies in the way of: at least half of it is in the sweep."""
    for name, sweep in sweeps.items():
        common = box.overlap(sweep)
        if common and 2 * common.volume >= box.volume:
            return name
    return ""


def with_riders(moving: dict[str, Moving], spaces: dict[str, Space]) -> dict[str, Moving]:
    """The moving parts, each with the ids of the spaces that move with it."""
    return {
        name: replace(part, riders=tuple(s.id for s in spaces.values() if s.moving == name))
        for name, part in moving.items()
    }
