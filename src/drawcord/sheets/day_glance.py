"""The figures of a plan at a glance: those of the array first, then those of each cable side by side."""

import math

from drawcord.coach.coach import Coach
from drawcord.load.against_van import work
from drawcord.load.bring import Load
from drawcord.plan.circuit import Circuit
from drawcord.plan.plan import Plan
from drawcord.routes.route import Candidate
from drawcord.sheets.circuit_spoken import device_said, place_said
from drawcord.sheets.day_holes import bores
from drawcord.sheets.day_parts import Block, Grid, Section, Words
from drawcord.sheets.lengths import bore, length
from drawcord.sheets.tables import DROP, Rows, figure_named
from drawcord.words.finding import Severity
from drawcord.words.units import format_minutes

ACROSS = 4  # cables side by side, at the most
OPEN = "not worked out"


def glance(plan: Plan, load: Load | None) -> Section:
    """What decides whether the day can start."""
    blocks: list[Block] = [*_refused(plan, load), *_array(plan), _work(plan)]
    columns = [(name, _cable(plan, name, plan.chosen[name])) for name in sorted(plan.chosen)]
    tables = math.ceil(len(columns) / ACROSS)
    for number in range(tables):  # each as wide as the others, or one column less
        shown = columns[len(columns) * number // tables : len(columns) * (number + 1) // tables]
        header = ["figure", *(name for name, _ in shown)]
        rows = [[row[0][0], *(said for _, said in row)] for row in zip(*(facts for _, facts in shown), strict=True)]
        blocks.append(Grid("Each cable", [header, *rows]))
    return Section("At a glance", tuple(blocks))


def _refused(plan: Plan, load: Load | None) -> list[Block]:
    """What speaks against starting at all."""
    closed = [(answer.cable, answer.unroutable) for answer in plan.answers if answer.unroutable]
    said = [f"{name} has no route: {why.sentence}" for name, why in closed]
    if plan.circuits:
        own = [finding for one in plan.circuits.circuits for finding in one.findings]
        found = [one for one in (*plan.circuits.findings, *own) if one.severity is Severity.REFUSAL]
        said += [f"{one.place}: {one.sentence}" for one in found]
    if load:
        said += [f"{one.place}: {one.sentence}" for one in load.findings if one.severity is Severity.REFUSAL]
    return [Words(("Do not start before this is settled:", *said), strong=True)] if said else []


def _work(plan: Plan) -> Grid:
    """The time for the job, and what the shop's own jobs on this rig make of it."""
    planned, past = work(plan), plan.coach.shop.history
    rows = [["along all routes, what cables share done once", format_minutes(planned)]]
    if past.corrects_work:
        more = round(planned * (past.work_ratio - 1))
        share = f"{past.work_jobs} jobs on this rig took {past.work_ratio:.3f} × of what was planned"
        rows.append([f"correction: {share}", f"{'+' if more > 0 else '−'} {format_minutes(abs(more))}"])
        rows.append(["to expect", format_minutes(planned + more)])
    return Grid("Work", [["what", "time"], *rows])


def _array(plan: Plan) -> list[Block]:
    found = plan.circuits
    if found is None or found.strings is None:
        return []
    header = ["tracker", "strings", "cold Voc, with margin", "controller bears", "to spare", "string fuse, A"]
    most = found.fitted.controller.highest_volts
    rows: Rows = []
    for number, one in enumerate(found.strings.judged.trackers, start=1):
        cold, fuse = one.cold.with_margin.value, one.fuse.rating
        shape = f"{one.strings.series} in series, {one.strings.parallel} in parallel"
        least = [f"{cold:.1f} V", f"{most:g} V", f"{most - cold:.1f} V"]
        rows.append([str(number), shape, *least, f"{fuse.value:g}" if fuse else "none needed"])
    return [Grid(f"Modules grouped as {found.strings.name}, {found.fitted.controller.name}", [header, *rows])]


def _cable(plan: Plan, name: str, chosen: Candidate) -> list[tuple[str, str]]:
    """The figures of one cable, the same names for all."""
    coach, route = plan.coach, chosen.route
    known = {one.cable: one for one in plan.circuits.circuits} if plan.circuits else {}
    one, cable = known.get(name), coach.job.cables[name] if coach.job else None
    drilled = bores(plan, name)
    roof = ", ".join(f"⌀ {drilled[hole.id]}" for hole in route.holes if hole.kind == "roof")
    joints = ", ".join(f"in {joint.space}" for joint in route.joints)
    low, likely, high = (length(cut, coach.units) for cut in route.cut_length)
    return [
        ("from, to", f"{cable.start} to {cable.end}" if cable else ""),
        ("route", f"{chosen.id}: {', '.join(route.spaces)}"),
        ("section", _section(one) if one else (cable and cable.conductor) or OPEN),
        ("device", device_said(one.device) if one else OPEN),
        ("device, where", _where(coach, one) if one else OPEN),
        ("cut, each core", f"{high} at most ({low} to {high}, likely {likely})"),
        ("cores", str(cable.cores) if cable else ""),
        ("voltage drop", _drop(one, chosen)),
        ("joints", f"{len(route.joints)}, {joints}" if joints else "none"),
        ("roof holes", roof or "none"),
        ("holes inside", str(route.criteria.inner_holes)),
        ("largest plug", bore(cable.largest_plug, coach.units) if cable else ""),
        ("unproven places", ", ".join(route.unproven) or "none"),
        ("work", format_minutes(route.criteria.seconds)),
    ]


def _section(one: Circuit) -> str:
    if one.chosen is None:
        return "NONE OF THE TYPES SERVES"
    types = ", then ".join(each.tried.type_id for each in one.pieces) or one.chosen.type_id
    return f"{one.chosen.cable.section}, {types}"


def _where(coach: Coach, one: Circuit) -> str:
    """Where on its cable the device sits, or what it sits in."""
    return "; ".join(place_said(coach, each) for each in one.placed) or one.where


def _drop(one: Circuit | None, chosen: Candidate) -> str:
    if one and one.chosen and one.chosen.drop:
        volts, percent = one.chosen.drop.volts, one.chosen.drop.percent
    else:
        volts, percent = (figure_named(chosen.route, name) for name in DROP)  # type: ignore[assignment]
    return f"{volts.value:.2f} V, {percent.value:.2f} %" if volts and percent else "none"
