"""The sheets of one chosen route: the views with its cable, and its tables."""

from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.routes.route import Candidate, Route
from drawcord.sheets.cautions import UNCHECKED, Power, cautions
from drawcord.sheets.flow import Table
from drawcord.sheets.holes import holes_table, short
from drawcord.sheets.key import key_of
from drawcord.sheets.lengths import length
from drawcord.sheets.marks import ends_of
from drawcord.sheets.scene import route_scene
from drawcord.sheets.tables import legs_table, look_out, short_legs
from drawcord.sheets.views_sheet import views_sheets
from drawcord.words.units import format_minutes


def route_sheets(
    coach: Coach, candidate: Candidate, units: str = "mm", power: Power = UNCHECKED
) -> list[Figure]:
    """Draw a candidate on upright A4 sheets; `units` is `mm`, `cm`, `m` or `in`.

    The first has the views and as much of legs, holes, findings and key as fits; what is left goes onto others.
    """
    route = candidate.route
    start, end = ends_of(coach, route)
    title = f"{route.cable}: {start} to {end}"
    said = cautions([coach.job.cables[route.cable].carries] if coach.job else [], [route], power)
    head = title, _lines(coach, candidate, units)
    scene = route_scene(coach, route, units)
    return views_sheets(scene, key_of(coach), head, _tables(coach, route, units), said, units)


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
        Table("Holes", short(holes_table(coach, route.holes, cells))),
        Table("Look out", look_out(route)),
    ]
    return [table for table in tables if len(table.rows) > 1]
