"""The sheets of one chosen route: every view from one scale, aligned, with its tables."""

from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.routes.route import Candidate, Route
from drawcord.sheets import page as sheet
from drawcord.sheets.cautions import UNCHECKED, Power, cautions
from drawcord.sheets.column import column_scale, column_width, draw_column
from drawcord.sheets.flow import GAP, WIDTH, Block, Table, follow, pour
from drawcord.sheets.grid import natural_width
from drawcord.sheets.holes import holes_table, short
from drawcord.sheets.key import key_of
from drawcord.sheets.labels import Patch
from drawcord.sheets.legend import legend
from drawcord.sheets.lengths import length
from drawcord.sheets.marks import ends_of
from drawcord.sheets.style import A4, MARGIN, house_style
from drawcord.sheets.tables import legs_table, look_out, short_legs
from drawcord.words.units import format_minutes

BESIDE = 90.0  # mm with which the tables stand beside the views instead of under them
UNDER = 75.0  # mm at most under the views
RIGHT = A4[0] - MARGIN
Column = tuple[float, float, list[Table]]  # where it starts and how wide it is [mm], and what stands in it


def route_sheets(
    coach: Coach, candidate: Candidate, units: str = "mm", power: Power = UNCHECKED
) -> list[Figure]:
    """Draw a candidate on upright A4 sheets; `units` is `mm`, `m` or `in`.

    The first has the views and as much of legs, holes, findings and key as fits; what is left goes onto others.
    """
    route = candidate.route
    start, end = ends_of(coach, route)
    title = f"{route.cable}: {start} to {end}"
    said = cautions([coach.job.cables[route.cable].carries] if coach.job else [], [route], power)
    used = frozenset(route.spaces)
    tables = _tables(coach, route, units)
    with house_style():
        key = key_of(coach)
        figure, page = sheet.new_page(upright=True)
        top, low = sheet.head(page, title, _lines(coach, candidate, units)), sheet.foot(page, said)
        scale = column_scale(coach, used, top - low)
        side = WIDTH - GAP - column_width(coach, scale)
        if side >= BESIDE:
            columns: list[Column] = [(RIGHT - side, side, tables)]
            most = top - low - legend(coach, key, (side, 0), route).height  # the key in its smallest type
        else:
            columns, most = _in_two(tables), UNDER
        high = low + min(most, max(map(_height, columns)))
        rest: list[Block] = []
        for x, width, blocks in columns:
            rest += pour(page, blocks, [Patch(x, x + width, low, high)], 1)
        if side < BESIDE:
            scale = column_scale(coach, used, top - high)
        x = MARGIN + GAP + draw_column(figure, page, coach, key, (MARGIN, top), scale, units, route)
        listing = legend(coach, key, (RIGHT - x, top - high), route)
        rest += pour(page, [listing], [Patch(x, RIGHT, high, top)], 1)
        return follow([(figure, page)], rest, title, said)


def _lines(coach: Coach, candidate: Candidate, units: str) -> list[str]:
    """The lines under the title: which candidate it is, and what it takes."""
    route, criteria = candidate.route, candidate.route.criteria
    low, likely, high = (length(value, units) for value in route.cut_length)
    job = f"{coach.job.name}. " if coach.job else ""
    lines = [
        f"{coach.rig.name}. {job}Candidate {candidate.id}, rank {candidate.rank}.",
        (
            f"Measured {length(criteria.length, units)}, of it {length(criteria.in_sight, units)} in sight;"
            f" cut {likely} a core ({low} to {high})."
            f" {_counted(criteria.roof_holes, 'roof hole')}, {_counted(criteria.inner_holes, 'inner hole')},"
            f" {_counted(len(route.joints), 'joint')}, {format_minutes(criteria.seconds)} of work."
        ),
    ]
    if route.consents:
        lines.append(f"Ask the owner first: {', '.join(route.consents)}.")
    return lines


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _tables(coach: Coach, route: Route, units: str) -> list[Table]:
    """Legs, and holes and findings where there are any; whole millimetres stand bare under their unit."""
    cells = None if units == "mm" else units
    tables = [
        Table("Legs", short_legs(legs_table(route, cells))),
        Table("Holes", short(holes_table(coach, route, cells))),
        Table("Look out", look_out(route)),
    ]
    return [table for table in tables if len(table.rows) > 1]


def _in_two(tables: list[Table]) -> list[Column]:
    """The tables in two columns: legs on the left, holes on the right, the rest where it makes less height."""
    left = min(max(natural_width(tables[0].rows) + 0.1, 0.3 * WIDTH), 0.5 * WIDTH)
    right = WIDTH - left - GAP
    legs, holes, rest = tables[:1], tables[1:2], tables[2:]
    ways: list[list[Column]] = [
        [(MARGIN, left, one), (MARGIN + left + GAP, right, other)]
        for one, other in ((legs, holes + rest), (legs + rest, holes))
    ]
    return min(ways, key=lambda across: max(map(_height, across)))


def _height(column: Column) -> float:
    _, width, tables = column
    return sum(table.height(width) for table in tables)
