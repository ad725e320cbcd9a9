"""What cable to carry, cut and buy: from the van's stock where the shop keeps it, else how long each core is."""

from itertools import pairwise

from drawcord.load.bring import Load
from drawcord.plan.plan import Plan
from drawcord.routes.route import Route
from drawcord.sheets.day_parts import Block, Grid, Section, Words
from drawcord.sheets.lengths import length
from drawcord.sheets.load_spoken import carried, cut_list, made_of
from drawcord.sheets.tables import Rows

ALONE = "For this job by itself; the jobs of a week are loaded for together by `drawcord bring JOB JOB...`."
STILL = "Not from the van's stock, lengths only"


def cuts(plan: Plan, load: Load | None) -> Section:
    """Which pieces from where, in the order to cut them, and what remains; cables that have none with their lengths."""
    loaded = {one.run.cable for one in load.pieces} if load else set()
    blocks = _pieces(plan, load) if load else []
    rows = _lengths(plan, loaded)
    if len(rows) > 1:
        blocks.append(Grid(STILL if loaded else "", rows))
    return Section("Cut list", tuple(blocks))


def _pieces(plan: Plan, load: Load) -> list[Block]:
    """What the load says, with boxes to tick; its cables without the job's name, as there is one job here."""
    mine = f"{plan.coach.job.job}: " if plan.coach.job else ""
    blocks: list[Block] = []
    for title, rows, write in (
        ("Carry, as it is", carried(load), ("packed", "☐")),
        ("Cut, in this order", cut_list(load, bought=False), ("cut", "☐")),
        ("Buy, and cut in this order", cut_list(load, bought=True), ("cut", "☐")),
        ("Pieces of each core, from its start on", made_of(load), ("really used", "")),
    ):
        header, *others = rows
        if others:
            shown = [[*(cell.removeprefix(mine) for cell in row), write[1]] for row in others]
            blocks.append(Grid(title, [[*header, write[0]], *shown]))
    said = [[one.place.removeprefix(mine), f"{one.sentence} [{one.source}]"] for one in load.findings]
    return [Words((ALONE,)), *blocks, *([Grid("Look out", [["where", "what"], *said])] if said else [])]


def _lengths(plan: Plan, without: set[str]) -> Rows:
    """How long to cut each core of the other cables; the longest that is likely to be needed."""
    known = {one.cable: one for one in plan.circuits.circuits if one.chosen} if plan.circuits else {}
    units = plan.coach.units
    header = ["cable", "type", "lengths", "cut each", "in all", "pieces between joints, as measured", "really used"]
    rows: Rows = [header]
    for name, chosen in sorted(plan.chosen.items()):
        if name in without:
            continue
        cable = plan.coach.job.cables[name] if plan.coach.job else None
        cores, high = cable.cores if cable and cable.carries in ("PV", "battery DC") else 1, chosen.route.cut_length[2]
        one = known.get(name)
        written = (cable.type or cable.conductor or cable.carries) if cable else ""
        kind = one.chosen.type_id if one and one.chosen else written
        between = " + ".join(length(piece, units) for piece in _between(chosen.route))
        rows.append([name, kind, str(cores), length(high, units), length(cores * high, units), between, ""])
    return rows


def _between(route: Route) -> list[int]:
    ends = [0, *(joint.at for joint in route.joints), route.criteria.length]
    return [far - near for near, far in pairwise(ends)]
