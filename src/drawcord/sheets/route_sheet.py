"""The sheet of one chosen route: every view from one scale, aligned, with its tables."""

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.routes.route import Candidate, Route
from drawcord.sheets import page as sheet
from drawcord.sheets.column import column_scale, column_width, draw_column
from drawcord.sheets.grid import draw_table, table_height
from drawcord.sheets.holes import holes_table, short
from drawcord.sheets.key import key_of
from drawcord.sheets.labels import Patch
from drawcord.sheets.legend import draw_legend
from drawcord.sheets.marks import ends_of
from drawcord.sheets.style import A4, MARGIN, SMALL, house_style
from drawcord.sheets.tables import Rows, columns, legs_table
from drawcord.sheets.text import line_height, wrap
from drawcord.words.units import format_length, format_minutes

GAP = 4.0  # mm between blocks
WIDTH = A4[0] - 2 * MARGIN
BESIDE = 90.0  # mm with which the tables stand beside the views instead of under them
MOST = 7  # lines of findings
LEGS = ("leg", "space", "how covered", "length", "in sight", "standing")


def route_sheet(coach: Coach, candidate: Candidate, units: str = "mm") -> Figure:
    """Draw a candidate on one upright A4 sheet; `units` is `mm`, `m` or `in`."""
    route = candidate.route
    with house_style():
        figure, page = sheet.new_page(upright=True)
        top = sheet.head(page, *_title(coach, candidate, units))
        low = sheet.foot(page)
        tables = {
            "Legs": columns(legs_table(route, units), *LEGS),
            "Holes": short(holes_table(coach, route, units)),
        }
        used = frozenset(route.spaces)
        scale = column_scale(coach, used, top - low)
        side = WIDTH - GAP - column_width(coach, scale)
        if side >= BESIDE:
            x = WIDTH + MARGIN - side
            lists = _stand(page, tables, x, _warn(page, route, x, low, side), [side])
        else:
            left = 0.42 * WIDTH
            low = _warn(page, route, MARGIN, low, WIDTH)
            low = lists = _stand(page, tables, MARGIN, low, [left, WIDTH - left - GAP])
            scale = column_scale(coach, used, top - low)
        key = key_of(coach)
        x = MARGIN + GAP + draw_column(figure, page, coach, key, (MARGIN, top), scale, units, route)
        draw_legend(page, Patch(x, A4[0] - MARGIN, lists, top), coach, key, route=True)
        return figure


def _title(coach: Coach, candidate: Candidate, units: str) -> tuple[str, list[str]]:
    """The title and the lines under it: where the cable runs and what that takes."""
    route = candidate.route
    start, end = ends_of(coach, route)
    low, likely, high = (format_length(value, units) for value in route.cut_length)
    criteria = route.criteria
    job = f"{coach.job.name}. " if coach.job else ""
    lines = [
        f"{coach.rig.name}. {job}Candidate {candidate.id}, rank {candidate.rank}.",
        (
            f"Measured {format_length(criteria.length, units)}, of it"
            f" {format_length(criteria.in_sight, units)} in sight; cut {likely} a core ({low} to {high})."
            f" {_counted(criteria.roof_holes, 'roof hole')}, {_counted(criteria.inner_holes, 'inner hole')},"
            f" {_counted(len(route.joints), 'joint')}, {format_minutes(criteria.seconds)} of work."
        ),
    ]
    if route.consents:
        lines.append(f"Ask the owner first: {', '.join(route.consents)}.")
    return f"{route.cable}: {start} to {end}", lines


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _warn(page: Axes, route: Route, x: float, low: float, width: float) -> float:
    """Write the findings above `low` [mm], the worst first; returns the height they reach."""
    sentences = [f"{found.severity.name.capitalize()}: {found.sentence}." for found in route.findings]
    lines = [line for sentence in sentences for line in wrap(sentence, width, SMALL)]
    if not lines:
        return low
    if len(lines) > MOST:
        lines = [*lines[: MOST - 1], "… and more: see the comparison"]
    top = low + len(lines) * line_height(SMALL) + 5.0
    sheet.write_lines(page, x, sheet.heading(page, x, top, "Look out", width), lines, size=SMALL)
    return top + 1.0


def _stand(page: Axes, tables: dict[str, Rows], x: float, low: float, widths: list[float]) -> float:
    """Stand the tables on `low` [mm]: side by side if there is a width for each, else one on another.

    Returns the height [mm] they reach.
    """
    beside = len(widths) == len(tables)
    each = widths if beside else widths * len(tables)
    heights = [5.0 + table_height(rows, width) for rows, width in zip(tables.values(), each, strict=True)]
    top = low + (max(heights) if beside else sum(heights) + 1.5 * (len(heights) - 1))
    y = top
    for (title, rows), width in zip(tables.items(), each, strict=True):
        start = sheet.heading(page, x, y, title, width)
        end = draw_table(page, x, start, width, rows)
        x, y = (x + width + GAP, top) if beside else (x, end - 1.5)
    return top + 1.5
