"""The candidates of a cable as rows of small bars, a column for each figure, the choice framed and the best starred."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from drawcord.routes.route import Candidate
from drawcord.routes.weighing import clear
from drawcord.sheets import page as sheet
from drawcord.sheets.drawing import draw_line, draw_shape
from drawcord.sheets.flow import AFTER, HAIR, HEADING, continued
from drawcord.sheets.labels import Patch
from drawcord.sheets.lengths import length
from drawcord.sheets.style import CABLE, INK, RULE, SMALL
from drawcord.sheets.tables import DROP, figure_named
from drawcord.sheets.text import line_height, write

NAMES, BETWEEN, INDENT = 25.0, 1.6, 2.2  # mm: for the names of rows, between columns, from a star to its value
ROW, BAR, TOP = 6.4, 1.7, 0.5  # mm: a row, a bar in it, and what stays free over its value
ROOM = line_height(SMALL) + 1.0  # mm for the names of the columns
OTHER = "#d9d2c3"  # fill of the bars that were not chosen


class Measure(NamedTuple):
    """A column: its name, what it measures (None: there is no such figure), and how that is said."""

    name: str
    value: Callable[[Candidate], float | None]
    said: Callable[[Candidate, str], str]


def _drop(candidate: Candidate) -> float | None:
    found = figure_named(candidate.route, DROP[0])
    return found.value if found else None


MEASURES = (
    Measure("weighs", lambda c: c.score, lambda c, units: length(c.score // 1000, "in" if units == "in" else "m")),
    Measure("length", lambda c: c.route.criteria.length, lambda c, units: length(c.route.criteria.length, units)),
    Measure("in sight", lambda c: c.route.criteria.in_sight, lambda c, units: length(c.route.criteria.in_sight, units)),
    Measure("roof holes", lambda c: c.route.criteria.roof_holes, lambda c, _: str(c.route.criteria.roof_holes)),
    Measure("inner holes", lambda c: c.route.criteria.inner_holes, lambda c, _: str(c.route.criteria.inner_holes)),
    Measure("work", lambda c: c.route.criteria.seconds, lambda c, _: f"{c.route.criteria.seconds / 60:.0f} min"),
    Measure("doubt", lambda c: c.route.criteria.doubt, lambda c, _: f"{clear(c.route.criteria.doubt)} clear"),
    Measure("cut, a core", lambda c: c.route.cut_length[1], lambda c, units: length(c.route.cut_length[1], units)),
    Measure("joints", lambda c: len(c.route.joints), lambda c, _: str(len(c.route.joints))),
    Measure("drop", _drop, lambda c, _: "none" if _drop(c) is None else f"{_drop(c):.2f} V"),
)


@dataclass(frozen=True)
class CableBars:
    """The candidates `shown` of all that a cable has, under a title; the bars are to the scale of them all."""

    title: str
    candidates: tuple[Candidate, ...]
    chosen: str
    shown: tuple[Candidate, ...]


@dataclass(frozen=True)
class Bars:
    """The candidates of one cable after another, under columns that are named once on a sheet."""

    cables: tuple[CableBars, ...]
    units: str

    def pour(self, page: Axes, area: Patch, onward: str, least: int) -> tuple[float, "Bars | None"]:
        """See Block."""
        whole = sum(HEADING + len(cable.shown) * ROW + AFTER for cable in self.cables)
        low = area.y0 - HAIR
        if whole > area.y1 - ROOM - low:
            low += line_height(SMALL)  # for the line that says where it goes on
        wide = (area.x1 - area.x0 - NAMES) / len(MEASURES) - BETWEEN
        lefts = [area.x0 + NAMES + number * (wide + BETWEEN) for number in range(len(MEASURES))]
        for measure, left in zip(MEASURES, lefts, strict=True):
            write(page, left, area.y1, measure.name, size=SMALL, bold=True)
        y = area.y1 - ROOM
        for number, cable in enumerate(self.cables):
            fitting = max(0, int((y - low - HEADING) // ROW))
            count = max(0 if number else least, min(len(cable.shown), fitting))
            if count:
                y = sheet.heading(page, area.x0, y, cable.title, area.x1 - area.x0)
                for candidate in cable.shown[:count]:
                    self._row(page, Patch(area.x0, area.x1, y - ROW, y), cable, candidate, lefts, wide)
                    y -= ROW
                for left in lefts:
                    draw_line(page, [left, left], [y + 0.4, y + count * ROW - 0.4], color=INK, linewidth=0.4, zorder=6)
            if count < len(cable.shown):
                write(page, area.x0, y - 0.5, onward, size=SMALL)
                title = continued(cable.title) if count else cable.title
                rest = replace(cable, title=title, shown=cable.shown[count:])
                return area.y0, replace(self, cables=(rest, *self.cables[number + 1 :]))
            y -= AFTER
        return y, None

    def _row(
        self, page: Axes, row: Patch, cable: CableBars, candidate: Candidate, lefts: list[float], wide: float
    ) -> None:
        chosen = candidate.id == cable.chosen
        draw_line(page, [row.x0, row.x1], [row.y0, row.y0], color=RULE, linewidth=0.4)
        if chosen:
            frame = Rectangle((row.x0 - 0.8, row.y0), row.x1 - row.x0 + 1.6, ROW, fill=False, edgecolor=CABLE)
            frame.set(linewidth=1.2, zorder=7, gid=f"choice-{candidate.id}")
            draw_shape(page, frame)
        write(page, row.x0, row.y1 - TOP, candidate.id, size=SMALL, bold=chosen)
        said = f"CHOSEN, {candidate.offered_as}" if chosen else candidate.offered_as
        write(page, row.x0, row.y1 - TOP - line_height(SMALL), said, size=SMALL)
        for measure, left in zip(MEASURES, lefts, strict=True):
            values = [value for one in cable.candidates if (value := measure.value(one)) is not None]
            value = measure.value(candidate)
            best = value is not None and value == min(values) < max(values)
            write(page, left + INDENT, row.y1 - TOP, measure.said(candidate, self.units), size=SMALL, bold=best)
            if best:
                star = draw_line(page, [left + 1.1], [row.y1 - TOP - 1.3], marker="*", markersize=3.8, color=INK)
                star.set(zorder=8, gid=f"best-{measure.name}-{candidate.id}")
            if value:
                bar = Rectangle((left, row.y0 + 0.7), wide * value / max(values), BAR, linewidth=0.5, edgecolor=INK)
                bar.set(facecolor=CABLE if chosen else OTHER, gid=f"bar-{measure.name}-{candidate.id}")
                draw_shape(page, bar)
