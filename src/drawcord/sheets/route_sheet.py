"""The sheet of one chosen route: every view from one scale, aligned, with its tables."""

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.routes.route import Candidate, Route
from drawcord.sheets import page as sheet
from drawcord.sheets.column import draw_column
from drawcord.sheets.grid import draw_table, table_height
from drawcord.sheets.key import key_of
from drawcord.sheets.legend import space_list, symbol_list, thing_list
from drawcord.sheets.style import A4, MARGIN, house_style
from drawcord.sheets.tables import holes_table, legs_table
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
        y = symbol_list(page, x, top, width, route=True)
        y = space_list(page, x, y, width, coach, key)
        thing_list(page, x, y, width, coach, key)
        return figure


def _title(coach: Coach, candidate: Candidate, units: str) -> tuple[str, list[str]]:
    """The title and the lines under it: where the cable runs and what that takes."""
    route = candidate.route
    title = f"{coach.rig.name}: {route.cable}"
    job = f"Job: {coach.job.name}." if coach.job else ""
    low, likely, high = (format_length(value, units) for value in route.cut_length)
    criteria = route.criteria
    ends = ends_of(coach, route)
    lines = [
        f"{job} Cable {route.cable} from {ends[0]} to {ends[1]}. Candidate {candidate.id}, rank {candidate.rank}.",
        f"Measured {format_length(criteria.length, units)}, of it {format_length(criteria.in_sight, units)} in sight;"
        f" cut {likely} a core ({low} to {high}). {criteria.roof_holes} roof and {criteria.inner_holes} inner holes,"
        f" {len(route.joints)} joints, {format_minutes(criteria.seconds)} of work.",
    ]
    if route.consents:
        lines.append(f"Ask the owner first: {', '.join(route.consents)}.")
    return title, lines


def ends_of(coach: Coach, route: Route) -> tuple[str, str]:
    """The names of the terminals that a route joins."""
    cable = coach.job.cables.get(route.cable) if coach.job else None
    return (cable.start, cable.end) if cable else ("start", "end")


def _tables(page: Axes, coach: Coach, route: Route, low: float, units: str) -> float:
    """Legs on the left, holes on the right, standing on `low` [mm]; returns the height they reach."""
    legs = [row[:1] + row[1:2] + row[3:] for row in legs_table(route, units)]
    holes = holes_table(coach, route, units)
    share = 0.46
    left, right = WIDTH * share, WIDTH * (1 - share) - GAP
    top = low + 5.0 + max(table_height(legs, left), table_height(holes, right))
    for x, width, title, rows in ((MARGIN, left, "Legs", legs), (MARGIN + left + GAP, right, "Holes", holes)):
        y = sheet.heading(page, x, top, title, width)
        draw_table(page, x, y, width, rows)
    return top + 1.5
