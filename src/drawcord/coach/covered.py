"""Terminals that no cable reaches, since they lie in what is kept clear or in what fills their space."""

from collections.abc import Iterator

from drawcord.coach.box import Box, Point
from drawcord.coach.coach import Coach, Space, Terminal, Thing
from drawcord.words.finding import Finding, Severity


def covered(coach: Coach) -> Iterator[Finding]:
    """One caution for each such terminal, which names what covers it."""
    for terminal in coach.terminals.values():
        space = coach.spaces[terminal.space]
        if reason := _on_roof(coach, terminal) if space.kind == "roof" else _inside(coach, space, terminal.point):
            sentence = f"{terminal.id} lies {reason}: no cable starts or ends there, so move it"
            yield Finding(Severity.CAUTION, terminal.id, sentence, "geometry")


def _on_roof(coach: Coach, terminal: Terminal) -> str:
    """As runs on the roof see it: from above, what stands on it, comes through it or moves above it."""
    roof = coach.levels.roof
    through = [thing for thing in coach.hazards.values() if thing.keep.z0 < roof < thing.keep.z1]
    for thing in (*coach.obstacles.values(), *through):
        if _within(terminal.point[:2], thing.keep):
            return _kept_clear(thing)
    for part in coach.moving_parts.values():
        if part.sweep.z0 <= roof < part.sweep.z1 and _within(terminal.point[:2], part.sweep):
            return f"in the way of {part.id}"
    return ""


def _inside(coach: Coach, space: Space, point: Point) -> str:
    if not any(_within(point, box) for box in space.taken):
        return ""
    for thing in coach.hazards.values():
        if _within(point, thing.keep):
            return _kept_clear(thing)
    for thing in coach.obstructions.values():
        if _within(point, thing.box):
            return f"in {thing.id} ({thing.kind})"
    for part in coach.moving_parts.values():
        if _within(point, part.sweep):
            return f"in the way of {part.id}"
    for other in coach.spaces.values():
        if other != space and _within(point, other.box) and other.box.overlap(space.box) in space.taken:
            return f"in {other.id}, which is a space of its own within {space.id}"
    return f"in what fills {space.id}"


def _kept_clear(thing: Thing) -> str:
    return f"within what is kept clear around {thing.id} ({thing.kind})"


def _within(point: tuple[int, ...], box: Box) -> bool:
    """Whether a point lies in the inside of a box; seen from above if it has no height."""
    return all(low < value < high for axis, value in enumerate(point) for low, high in (box.span(axis),))
