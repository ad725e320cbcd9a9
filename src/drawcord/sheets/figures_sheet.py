"""The figures of every candidate of every cable of a job side by side, as small bars."""

from matplotlib.figure import Figure

from drawcord.plan.plan import Plan
from drawcord.sheets import page as sheet
from drawcord.sheets.bars import Bars, CableBars
from drawcord.sheets.cautions import cautions, powered
from drawcord.sheets.flow import follow, pour
from drawcord.sheets.labels import Patch
from drawcord.sheets.style import A4, MARGIN, house_style

READ = (
    "A row is a candidate; the one that the plan takes is framed, its bars dark. A star: none in the column is better,"
    " some are worse. The bars of a column start at nothing and share their cable's scale; shorter is better in all."
)
COLUMNS = (
    "Weighs: all criteria counted as cable, each at the shop's or the owner's weight. Doubt: the less likely"
    " that all unproven places are clear, the longer. Cut: the likely length of each core. Drop: volts lost."
)


def figures_sheets(plan: Plan, units: str = "mm") -> list[Figure]:
    """Draw all candidates on upright A4 sheets, `units` as in `tables`; an empty list if there are none."""
    answers = [answer for answer in plan.answers if answer.candidates]
    if not answers:
        return []
    job = plan.coach.job
    name = job.name if job else plan.coach.rig.name
    classes = [job.cables[answer.cable].carries for answer in answers] if job else []
    routes = [candidate.route for answer in answers for candidate in answer.candidates]
    said = cautions(classes, routes, powered(plan.circuits, [answer.cable for answer in answers]))
    title = f"{name}: the candidates' figures"
    offered = []
    for answer in answers:
        chosen = plan.chosen[answer.cable].id if answer.cable in plan.chosen else ""
        cable = f"{answer.cable}: {answer.start} to {answer.end}"
        offered.append(CableBars(cable, answer.candidates, chosen, answer.candidates))
    with house_style():
        figure, page = sheet.new_page(upright=True)
        top, low = sheet.head(page, title, [READ, COLUMNS]) - 1.0, sheet.foot(page, said)
        rest = pour(page, [Bars(tuple(offered), units)], [Patch(MARGIN, A4[0] - MARGIN, low, top)], 1)
        return follow([(figure, page)], rest, title, said, across=1)
