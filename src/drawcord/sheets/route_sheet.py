"""The sheet of one chosen route: every view from one scale, aligned, with its tables."""

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.routes.route import Candidate, Route
from drawcord.sheets import page as sheet
from drawcord.sheets.column import draw_column
from drawcord.sheets.grid import draw_table, table_height
from drawcord.sheets.holes import holes_table
from drawcord.sheets.key import key_of
from drawcord.sheets.legend import all_rows, draw_rows
from drawcord.sheets.marks import ends_of
from drawcord.sheets.style import A4, MARGIN, house_style
from drawcord.sheets.tables import columns, legs_table
from drawcord.words.units import format_length, format_minutes

SIDE = 58.0  # mm at least for the lists beside the views
GAP = 4.0
WIDTH = A4[0] - 2 * MARGIN


def route_sheet(coach: Coach, candidate: Candidate, units: str = "mm") -> Figure:
    """Draw a candidate on one upright A4 sheet; `units` is `mm`, `m` or `in`."""
    with house_style():
        figure, page = sheet.new_page(upright=True)
        top = sheet.head(page, *_title(coach, candidate, units))
        low = _tables(page, coach, candidate.route, sheet.foot(page), units)
        key = key_of(coach)
        room = (WIDTH - SIDE - GAP, top - low)
        x = MARGIN + GAP + draw_column(figure, page, coach, key, (MARGIN, top), room, units, candidate.route)
        width = A4[0] - MARGIN - x
        draw_rows(page, x, top, low, all_rows(width, coach, key, route=True))
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
            f" {counted(criteria.roof_holes, 'roof hole')}, {counted(criteria.inner_holes, 'inner hole')},"
            f" {counted(len(route.joints), 'joint')}, {format_minutes(criteria.seconds)} of work."
        ),
    ]
    if route.consents:
        lines.append(f"Ask the owner first: {', '.join(route.consents)}.")
    return f"{route.cable}: {start} to {end}", lines


def counted(number: int, noun: str) -> str:
    """A count with its noun, in the plural where it is not one."""
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _tables(page: Axes, coach: Coach, route: Route, low: float, units: str) -> float:
    """Legs on the left, holes on the right, standing on `low` [mm]; returns the height they reach."""
    legs = columns(legs_table(route, units), "leg", "space", "how covered", "length", "in sight", "standing")
    holes = columns(
        holes_table(coach, route, units),
        "hole", "from", "to", "diameter", "from front", "from side", "side", "above floor", "within",
    )  # fmt: skip
    left = 0.42 * WIDTH
    right = WIDTH - left - GAP
    top = low + 5.0 + max(table_height(legs, left), table_height(holes, right))
    for x, width, title, rows in ((MARGIN, left, "Legs", legs), (MARGIN + left + GAP, right, "Holes", holes)):
        y = sheet.heading(page, x, top, title, width)
        draw_table(page, x, y, width, rows)
    return top + 1.5
