"""Setting coincident stretches of drawn routes apart, so that each can be followed. No drawing here."""

from collections.abc import Sequence
from itertools import islice
from typing import NamedTuple

from drawcord.sheets.segments import Flat


class Stretch(NamedTuple):
    """A straight stretch in a view; `leg` is its number in the route, `own` whether the view is its home."""

    leg: int
    start: Flat
    end: Flat
    own: bool

    @property
    def along(self) -> int | None:
        """The axis it runs along: 0 level, 1 upright, None slanting."""
        return next((axis for axis in (0, 1) if self.start[1 - axis] == self.end[1 - axis]), None)


def set_apart(stretches: list[Stretch], gap: float, shell: tuple[Flat, Flat] | None = None) -> list[list[Flat]]:
    """The points to draw for each stretch of one route; see `set_all_apart`."""
    (drawn,) = set_all_apart([stretches], gap, shell)
    return drawn


def set_all_apart(
    routes: Sequence[Sequence[Stretch]], gap: float, shell: tuple[Flat, Flat] | None = None
) -> list[list[list[Flat]]]:
    """The points to draw for each stretch, such that level or upright ones that run together lie `gap` apart.

    The first come keeps the true place, the next takes the nearest free lane beside it, one between the least and
    the greatest corner of the `shell` before any other; corners stay closed.
    """
    shifts = iter(_shifts([stretch for route in routes for stretch in route], gap, shell))
    return [_drawn(route, list(islice(shifts, len(route)))) for route in routes]


def _drawn(stretches: Sequence[Stretch], shifts: list[Flat]) -> list[list[Flat]]:
    drawn: list[list[Flat]] = []
    for index, stretch in enumerate(stretches):
        before, after = (shifts[i] if 0 <= i < len(shifts) else (0.0, 0.0) for i in (index - 1, index + 1))
        start = _corner(stretch, stretch.start, shifts[index], before)
        end = _corner(stretch, stretch.end, shifts[index], after)
        step = [drawn[-1][-1]] if drawn and drawn[-1][-1] != start else []
        drawn.append([*step, start, end])
    return drawn


def _shifts(stretches: Sequence[Stretch], gap: float, shell: tuple[Flat, Flat] | None) -> list[Flat]:
    shifts: list[Flat] = []
    placed: list[tuple[int, float, float, float]] = []  # axis, drawn across, from, to
    for stretch in stretches:
        axis = stretch.along
        if axis is None:
            shifts.append((0.0, 0.0))
            continue
        low, high = sorted((stretch.start[axis], stretch.end[axis]))
        true = stretch.start[1 - axis]
        beside = [
            across for other, across, first, last in placed if other == axis and min(high, last) - max(low, first) > gap
        ]
        most = 2 * len(beside)  # lanes on one side of which at least one is free: each stretch fills two at most
        lanes = sorted(range(-most, most + 1), key=lambda lane: (abs(lane), -lane))
        free = [lane for lane in lanes if all(abs(true + lane * gap - across) > 0.9 * gap for across in beside)]
        inside = [lane for lane in free if shell and shell[0][1 - axis] <= true + lane * gap <= shell[1][1 - axis]]
        lane = (inside or free)[0]
        placed.append((axis, true + lane * gap, low, high))
        shifts.append((0.0, lane * gap) if axis == 0 else (lane * gap, 0.0))
    return shifts


def _corner(stretch: Stretch, point: Flat, own: Flat, other: Flat) -> Flat:
    """An end of a stretch: its own shift across it, its neighbour's along it."""
    x = other[0] if stretch.along == 0 else own[0]
    y = other[1] if stretch.along == 1 else own[1]
    if stretch.along is None:
        x, y = other
    return point[0] + x, point[1] + y
