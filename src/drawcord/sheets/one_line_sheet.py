"""The sheets of the one-line diagram: array and battery circuits with what each part bears and should read."""

from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.plan.circuit import SEQUENCE
from drawcord.plan.circuits import Circuits
from drawcord.sheets import page as sheet
from drawcord.sheets.basis import remembered
from drawcord.sheets.circuit_report import cautions_of, figures_of, findings_of, sources_of
from drawcord.sheets.flow import Block, Table, follow, pour
from drawcord.sheets.labels import Patch
from drawcord.sheets.one_line import diagrams, used
from drawcord.sheets.one_line_drawing import draw_diagram
from drawcord.sheets.signs import Signs
from drawcord.sheets.style import A4, MARGIN, house_style
from drawcord.words.finding import Severity

TITLE = "One-line diagram of array and battery"


def one_line_sheets(coach: Coach, found: Circuits, units: str = "mm") -> list[Figure]:
    """Draw the circuits of a job on upright A4 sheets; none where no grouping of its modules fits.

    `units` is `mm`, `cm`, `m` or `in`.
    """
    made, said = diagrams(coach, found, units), cautions_of(coach, found)
    order, *tables = _tables(found)
    blocks: list[Block] = [order, Signs(tuple(used(made))), *tables]
    with house_style():
        sheets = [sheet.new_page(upright=True) for _ in made]
        for number, ((_, page), one) in enumerate(zip(sheets, made, strict=True), start=1):
            top, low = sheet.head(page, TITLE, _lines(coach, found)) - 2.0, sheet.foot(page, said)
            free = draw_diagram(page, one, Patch(MARGIN, A4[0] - MARGIN, low, top))
            if number == len(made):
                blocks = pour(page, blocks, free, number)
        return follow(sheets, blocks, TITLE, said) if made else []


def _lines(coach: Coach, found: Circuits) -> list[str]:
    job = f"{coach.job.name}. " if coach.job else ""
    routes = ", ".join(one.candidate.id for one in found.circuits) or "no route"
    grouping = found.strings.name if found.strings else "none"
    climate = found.fitted.climate
    cold, hot = f"cold is {climate.coldest:.3g} °C", f"hot are cells of {climate.hottest_cell:.3g} °C"
    return [
        f"{coach.rig.name}. {job}Modules grouped as {grouping}; lengths of {routes}.",
        f"Worked out by the rule set {found.fitted.rules.name}; {cold}, {hot}.",
        "A line stands for all conductors of a circuit; dashed: bonds, and what is not worked out.",
    ]


def _tables(found: Circuits) -> list[Table]:
    """What finds no room beside the symbols: the order of work, places, what to look out for, what is from memory."""
    places = [[one.cable, one.where, one.disconnect] for one in found.circuits]
    looked = [
        [finding.place, finding.sentence, finding.source]
        for finding in findings_of(found)
        if finding.severity is not Severity.NOTICE
    ]
    memory = [[source] for source in remembered(figures_of(found), findings_of(found), sources_of(found))]
    tables = [
        Table("In this order", [["no", "step"], *([str(n), step] for n, step in enumerate(SEQUENCE, start=1))]),
        Table("Look out", [["where", "what", "source"], *looked]),
        Table("Where devices go", [["cable", "device", "disconnect"], *places]),
        Table("Not worked out", [["cable", "why"], *([name, why] for name, why in sorted(found.left.items()))]),
        Table("To be confirmed: from memory", [["source"], *memory]),
    ]
    return [table for table in tables if len(table.rows) > 1]
