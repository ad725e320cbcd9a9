"""The chosen route's cable in a view, with the numbers of its legs."""

import math
from collections.abc import Sequence
from itertools import pairwise

from matplotlib.axes import Axes

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.routes.route import Leg, Route
from drawcord.sheets.drawing import draw_line
from drawcord.sheets.lanes import Stretch, set_apart
from drawcord.sheets.marks import Mark, Symbol, draw_symbol
from drawcord.sheets.panel import Panel
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import CABLE, CABLE_WIDTH, SEEN_THROUGH
from drawcord.sheets.tags import LEG_TAG, put_tag
from drawcord.sheets.views import owns, shell_of

APART = 1.2  # mm of paper between stretches that run together
UPRIGHT = Symbol("o", 3.6, "white", 1.1)
CLOSE = 1.6  # mm of paper within which a ring would fill a mark
SHORT = 150  # [mm] of cable seen end on, such as the thickness of a roof, that needs no mark of its own


def draw_cable(panel: Panel, coach: Coach, route: Route, marks: Sequence[Mark]) -> Axes:
    """Draw the cable: solid where it is at home in this view, ghosted where it is seen through.

    On plans a ring stands where it runs straight up or down, unless one of `marks` stands there. Every leg is
    numbered where it is at home.
    """
    taken = [panel.view.flat(mark.at) for mark in marks]
    stretches = [
        Stretch(number, panel.view.flat(start), panel.view.flat(end), owns(coach, panel.view, start, end))
        for number, leg in enumerate(route.legs, start=1)
        for start, end in pairwise(leg.points)
        if panel.view.flat(start) != panel.view.flat(end)
    ]
    shell = shell_of(panel.view, coach)
    drawn = list(zip(stretches, set_apart(stretches, APART * panel.scale, shell), strict=True))
    for stretch, points in drawn:
        _draw(panel, stretch, points)
    for number, leg in enumerate(route.legs, start=1):
        for point in _end_on(panel, coach, leg):
            if all(math.dist(panel.view.flat(point), other) > CLOSE * panel.scale for other in taken):
                draw_symbol(panel, panel.view.flat(point), UPRIGHT, f"leg-{number}-upright")
    for number, leg in enumerate(route.legs, start=1):
        own = [points for stretch, points in drawn if stretch.leg == number and stretch.own]
        wishes = _along([[panel.at(point) for point in points] for points in own])
        middles = [panel.at(middle) for middle in _middles(own)]
        anchors = [*middles, *(panel.at(panel.view.flat(point)) for point in _end_on(panel, coach, leg))]
        if anchors:
            put_tag(panel.page, panel.board, str(number), LEG_TAG, wishes, anchors[0])
    return panel.ax


def _draw(panel: Panel, stretch: Stretch, points: list[Flat]) -> None:
    xs, ys = zip(*points, strict=True)
    ax, cap = panel.ax, "round"
    if stretch.own:
        draw_line(ax, xs, ys, color="white", linewidth=CABLE_WIDTH + 1.6, zorder=9, solid_capstyle=cap)
    line = draw_line(ax, xs, ys, color=CABLE, zorder=10, solid_capstyle=cap)
    line.set_linestyle("-" if stretch.own else SEEN_THROUGH)
    line.set_linewidth(CABLE_WIDTH if stretch.own else 0.8)
    line.set_gid(f"{panel.view.name}-leg-{stretch.leg}")
    for start, end in pairwise(points):
        panel.board.avoid_line(panel.at(start), panel.at(end), 4.0 if stretch.own else 1.0)


def _end_on(panel: Panel, coach: Coach, leg: Leg) -> list[Point]:
    """Where a leg runs towards the reader of a view that it is at home in."""
    found = []
    for start, end in pairwise(leg.points):
        run = max(abs(a - b) for a, b in zip(start, end, strict=True))
        end_on = panel.view.flat(start) == panel.view.flat(end)
        if end_on and run > SHORT and owns(coach, panel.view, start, end):
            found.append(start)
    return found


def _middles(pieces: list[list[Flat]]) -> list[Flat]:
    """The middles of the straights of a leg, that of the longest first."""
    straights = [pair for points in pieces for pair in pairwise(points)]
    straights.sort(key=lambda pair: -abs(pair[0][0] - pair[1][0]) - abs(pair[0][1] - pair[1][1]))
    return [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in straights]


def _along(pieces: list[list[Flat]]) -> list[Flat]:
    """Points on the cable at which its number can sit, the middle of the longest straight first."""
    straights = [pair for points in pieces for pair in pairwise(points)]
    straights.sort(key=lambda pair: -abs(pair[0][0] - pair[1][0]) - abs(pair[0][1] - pair[1][1]))
    return [
        (a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1]))
        for part in (0.5, 0.3, 0.7, 0.15, 0.85)
        for a, b in straights
        if abs(a[0] - b[0]) + abs(a[1] - b[1]) > 3.5
    ]
