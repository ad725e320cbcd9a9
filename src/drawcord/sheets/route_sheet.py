"""The sheet of one chosen route: every view from one scale, aligned, with its tables."""

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.routes.route import Candidate, Route
from drawcord.sheets import page as sheet
from drawcord.sheets.column import column_scale, column_width, draw_column
from drawcord.sheets.grid import PAD, draw_table, natural_widths, table_height
from drawcord.sheets.holes import holes_table, short
from drawcord.sheets.key import key_of
from drawcord.sheets.labels import Patch
from drawcord.sheets.legend import draw_legend
from drawcord.sheets.marks import ends_of
from drawcord.sheets.style import A4, MARGIN, house_style
from drawcord.sheets.tables import Rows, columns, findings_table, legs_table, short_legs
from drawcord.words.units import format_length, format_minutes

GAP = 4.0  # mm between blocks
WIDTH = A4[0] - 2 * MARGIN
BESIDE = 90.0  # mm with which the tables stand beside the views instead of under them
HEADS = 6.5  # mm over and under each table, for its title
MOST, FEW = 13, 5  # rows of a table of legs or holes, and of findings
Block = tuple[str, Rows]  # a title and its table
Column = tuple[float, float, list[Block]]  # where it starts and how wide it is [mm], and what stands in it


def route_sheet(coach: Coach, candidate: Candidate, units: str = "mm") -> Figure:
    """Draw a candidate on one upright A4 sheet; `units` is `mm`, `m` or `in`."""
    route = candidate.route
    with house_style():
        figure, page = sheet.new_page(upright=True)
        top = sheet.head(page, *_title(coach, candidate, units))
        low = sheet.foot(page)
        tables = _tables(coach, route, units)
        used = frozenset(route.spaces)
        scale = column_scale(coach, used, top - low)
        side = WIDTH - GAP - column_width(coach, scale)
        if side >= BESIDE:
            lists = _stand(page, [(WIDTH + MARGIN - side, side, tables)], low)
        else:
            low = lists = _stand(page, _in_two(tables), low)
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


def _tables(coach: Coach, route: Route, units: str) -> list[Block]:
    """Legs, and holes and findings where there are any; whole millimetres stand bare under their unit."""
    cells = None if units == "mm" else units
    legs = short_legs(legs_table(route, cells))
    holes = short(holes_table(coach, route, cells))
    findings = columns(findings_table(route), "severity", "place", "finding")
    tables = [("Legs", _capped(legs, MOST)), ("Holes", _capped(holes, MOST)), ("Look out", _capped(findings, FEW))]
    return [(title, rows) for title, rows in tables if len(rows) > 1]


def _capped(rows: Rows, most: int) -> Rows:
    """The table with no more than `most` rows; how many are left out stands in the last."""
    if len(rows) <= most + 1:
        return rows
    return [*rows[:most], [*[""] * (len(rows[0]) - 1), f"… and {len(rows) - most} more"]]


def _in_two(tables: list[Block]) -> list[Column]:
    """The tables in two columns: legs on the left, holes on the right, the rest where it makes less height."""
    asked = sum(natural_widths(tables[0][1])) + PAD * len(tables[0][1][0])
    left = min(max(asked, 0.3 * WIDTH), 0.5 * WIDTH)
    right = WIDTH - left - GAP
    legs, holes, rest = tables[:1], tables[1:2], tables[2:]
    ways: list[list[Column]] = [
        [(MARGIN, left, one), (MARGIN + left + GAP, right, other)]
        for one, other in ((legs, holes + rest), (legs + rest, holes))
    ]
    return min(ways, key=lambda across: max(map(_height, across)))


def _height(column: Column) -> float:
    _, width, tables = column
    return sum(HEADS + table_height(rows, width) for _, rows in tables)


def _stand(page: Axes, across: list[Column], low: float) -> float:
    """Stand columns of tables on `low` [mm]; returns the height [mm] they reach."""
    top = low + max(map(_height, across))
    for x, width, tables in across:
        y = top
        for title, rows in tables:
            y = draw_table(page, x, sheet.heading(page, x, y, title, width), width, rows) - 1.5
    return top + 1.5
