"""Moving parts: the volume each sweeps, and what moves with it."""

from collections.abc import Callable
from dataclasses import replace

from drawcord.coach.box import Box
from drawcord.coach.coach import Moving, Space
from drawcord.coach.faces import Direction
from drawcord.coach.rig import MovingPart


def place(
    parts: dict[str, tuple[MovingPart, Box]], direction: Callable[[object], Direction], margin: int
) -> dict[str, Moving]:
    """Both positions of each part and its sweep: everything between them, grown by the margin [mm].

    Both positions are boxes and the travel is along an axis, so their common hull is the exact sweep.
    """
    placed = {}
    for name, (part, drawn) in parts.items():
        axis, sign = direction(part.towards)
        shift = [0, 0, 0]
        shift[axis] = sign * part.travel * (1 if part.drawn == "in" else -1)
        moved = drawn.shift(*shift)
        placed[name] = Moving(name, part.kind, drawn, moved, drawn.hull(moved).grow(margin), ())
    return placed


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
