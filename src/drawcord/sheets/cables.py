"""All cables of a job in a view: side by side where they run together, each in its own line with its letter."""

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from matplotlib.axes import Axes

from drawcord.coach.coach import Coach
from drawcord.routes.route import Route
from drawcord.sheets.cable import APART, CLOSE, SHORT, UPRIGHT
from drawcord.sheets.drawing import draw_line
from drawcord.sheets.lanes import Stretch, set_all_apart
from drawcord.sheets.marks import draw_symbol
from drawcord.sheets.panel import Panel
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import POINT, Look
from drawcord.sheets.tags import LEG_TAG, put_tag
from drawcord.sheets.traces import Trace
from drawcord.sheets.views import owns, shell_of

EVERY = 40.0  # mm of paper from letter to letter along a line
RACEWAY = Look("#ffe9a8", "", "#7a6200")
LEAST = 8.0  # mm of paper of a straight that gets a letter of its own


class Laid(NamedTuple):
    """A stretch that a view is at home to, and the points of the view through which it is drawn."""

    stretch: Stretch
    points: list[Flat]

    def at(self, true: Flat) -> Flat | None:
        """Where a point of the stretch is drawn; None if it does not lie on it."""
        start, end = self.stretch.start, self.stretch.end
        whole = math.dist(start, end)
        if math.dist(start, true) + math.dist(true, end) > whole + 1:
            return None
        if true in (start, end):
            return self.points[-2 if true == start else -1]
        first, last = self.points[-2:]
        if (axis := self.stretch.along) is not None:
            low, high = sorted((first[axis], last[axis]))
            here = min(max(true[axis], low), high)
            return (here, first[1]) if axis == 0 else (first[0], here)
        share = math.dist(start, true) / whole
        return first[0] + share * (last[0] - first[0]), first[1] + share * (last[1] - first[1])


Cables = dict[str, list[Laid]]


def lay(panel: Panel, coach: Coach, routes: Mapping[str, Route]) -> Cables:
    """Where each cable is drawn in a view, as far as the view is at home to it."""
    runs = [(name, run) for name, route in routes.items() for run in _runs(panel, coach, route)]
    drawn = set_all_apart([run for _, run in runs], APART * panel.scale, shell_of(panel.view, coach))
    laid: Cables = {name: [] for name in routes}
    for (name, run), lines in zip(runs, drawn, strict=True):
        laid[name] += [Laid(stretch, points) for stretch, points in zip(run, lines, strict=True)]
    return laid


def _runs(panel: Panel, coach: Coach, route: Route) -> Iterator[list[Stretch]]:
    """The stretches at home in the view, those that follow each other together."""
    run: list[Stretch] = []
    for number, leg in enumerate(route.legs, start=1):
        for start, end in pairwise(leg.points):
            flat = panel.view.flat(start), panel.view.flat(end)
            if flat[0] == flat[1]:
                continue
            if owns(coach, panel.view, start, end):
                run.append(Stretch(number, *flat, own=True))
            elif run:
                yield run
                run = []
    if run:
        yield run


def place(panel: Panel, laid: Cables, names: Sequence[str], true: Flat) -> Flat:
    """Where a point that lies on these cables is drawn: amid their lines, else where it is."""
    found = [next((spot for one in laid[name] if (spot := one.at(true))), None) for name in names]
    spots = [spot for spot in found if spot and math.dist(spot, true) < 20 * APART * panel.scale]
    if not spots:
        return true
    return sum(x for x, _ in spots) / len(spots), sum(y for _, y in spots) / len(spots)


def draw_cables(
    panel: Panel,
    coach: Coach,
    routes: Mapping[str, Route],
    looks: Mapping[str, Trace],
    laid: Cables,
    marked: list[Flat],
) -> Axes:
    """Draw the lines, a ring where one goes on elsewhere unless one of the `marked` points is there, and letters."""
    for name, stretches in laid.items():
        for one in stretches:
            if routes[name].legs[one.stretch.leg - 1].in_sight:
                _raceway(panel, name, one)
            _draw(panel, name, one, looks[name])
    for name, route in routes.items():
        for number, true in enumerate(_turns(panel, coach, route)):
            at = place(panel, laid, [name], true)
            if all(math.dist(at, other) > CLOSE * panel.scale for other in marked):
                draw_symbol(panel, at, UPRIGHT, f"cable-{name}-turn-{number}", looks[name].ink)
                marked.append(at)
    for name, stretches in laid.items():
        turns = [panel.at(place(panel, laid, [name], true)) for true in _turns(panel, coach, routes[name])]
        _letter(panel, looks[name], stretches, turns)
    return panel.ax


def _draw(panel: Panel, name: str, one: Laid, look: Trace) -> None:
    xs, ys = zip(*one.points, strict=True)
    ax = panel.ax
    draw_line(ax, xs, ys, color="white", linewidth=look.width + 1.4, zorder=9, solid_capstyle="round")
    line = draw_line(ax, xs, ys, color=look.ink, linewidth=look.width, linestyle=look.line, zorder=10)
    line.set_gid(f"{panel.view.name}-cable-{name}")
    if look.core:
        draw_line(ax, xs, ys, color="white", linewidth=look.core, zorder=10.1)
    for start, end in pairwise(one.points):
        panel.board.avoid_line(panel.at(start), panel.at(end), 4.0)


def _raceway(panel: Panel, name: str, one: Laid) -> None:
    """A band under the line; those of cables side by side grow into one."""
    xs, ys = zip(*one.points, strict=True)
    for ink, more, zorder in ((RACEWAY.ink, 1.0, 8.0), (RACEWAY.tint, 0.0, 8.1)):
        band = draw_line(panel.ax, xs, ys, color=ink, linewidth=APART / POINT + 1.6 + more, zorder=zorder)
        band.set_gid(f"{panel.view.name}-raceway-{name}")


def _turns(panel: Panel, coach: Coach, route: Route) -> list[Flat]:
    """Where the cable goes on in another view, or runs towards the reader of this one."""
    found: list[Flat] = []
    runs = [run for run in _runs(panel, coach, route) if run]
    ends = {runs[0][0].start, runs[-1][-1].end} & _tips(panel, route) if runs else set()
    for run in runs:
        found += [point for point in (run[0].start, run[-1].end) if point not in ends]
    for start, end in pairwise([point for leg in route.legs for point in leg.points]):
        far = max(abs(a - b) for a, b in zip(start, end, strict=True))
        if panel.view.flat(start) == panel.view.flat(end) and far > SHORT and owns(coach, panel.view, start, end):
            found.append(panel.view.flat(start))
    return list(dict.fromkeys(found))


def _tips(panel: Panel, route: Route) -> set[Flat]:
    """Both ends of the cable."""
    return {panel.view.flat(route.legs[0].points[0]), panel.view.flat(route.legs[-1].points[-1])}


def _letter(panel: Panel, look: Trace, stretches: Sequence[Laid], turns: Sequence[Flat]) -> None:
    """Write the letter of a cable along its line, at least once in every view in which there is some of it."""
    tag = LEG_TAG._replace(fill=look.ink)
    straights = [
        (panel.at(start), panel.at(end)) for one in stretches for start, end in pairwise(one.points) if start != end
    ]
    straights.sort(key=lambda pair: -math.dist(*pair))
    written = 0
    for start, end in straights:
        far = math.dist(start, end)
        count = max(1, round(far / EVERY)) if far >= LEAST else 0
        for number in range(count):
            parts = [(number + 0.5 + off) / count for off in (0, -0.15, 0.15, -0.3, 0.3)]
            wishes = [_along(start, end, part) for part in parts]
            written += put_tag(panel.page, panel.board, look.tag, tag, wishes)
    if not written and (anchors := [*(_along(*pair, 0.5) for pair in straights), *turns]):
        put_tag(panel.page, panel.board, look.tag, tag, [anchors[0]], anchors[0])


def _along(start: Flat, end: Flat, part: float) -> Flat:
    return start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1])
