"""The figures of a plan at a glance, on one page: those of the array, the work, then a row for each cable."""

from drawcord.load.against_van import correction, work
from drawcord.load.bring import Load
from drawcord.plan.circuit import Circuit
from drawcord.plan.plan import Plan
from drawcord.routes.electric import POWER
from drawcord.routes.route import Candidate
from drawcord.sheets.day_holes import bores
from drawcord.sheets.day_parts import Block, Grid, Section, Words
from drawcord.sheets.lengths import bore, length
from drawcord.sheets.tables import DROP, Rows, figure_named
from drawcord.words.finding import Severity
from drawcord.words.units import format_minutes

OPEN = "not worked out"


def glance(plan: Plan, load: Load | None) -> Section:
    """What decides whether the day can start."""
    rows = [_cable(plan, name, plan.chosen[name]) for name in sorted(plan.chosen)]
    header = ["cable", "route", "cores", "device", "cut a core, at most", "drop", "holes", "joints", "unproven", "work"]
    cables = [Grid("Each cable", [header, *rows])] if rows else []
    return Section("At a glance", (*_refused(plan, load), *_array(plan), _work(plan), *cables))


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
    planned, (more, said) = work(plan), correction(plan)
    rows = [["along all routes, what cables share done once", format_minutes(planned)]]
    if said:
        rows.append([f"correction: {said}", f"{'+' if more > 0 else '−'} {format_minutes(abs(more))}"])
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


def _cable(plan: Plan, name: str, chosen: Candidate) -> list[str]:
    """The figures of one cable, in the order of the header."""
    coach, route = plan.coach, chosen.route
    cable = coach.job.cables[name] if coach.job else None
    known = {one.cable: one for one in plan.circuits.circuits} if plan.circuits else {}
    one = known.get(name)
    unknown = OPEN if cable and cable.carries in POWER else "none"
    _, likely, high = (length(cut, coach.units) for cut in route.cut_length)
    return [
        f"{name}: {cable.start} to {cable.end}" if cable else name,
        f"{chosen.id}: {', '.join(route.spaces)}",
        f"{cable.cores} × {_section(one) if one else cable.conductor or cable.carries}" if cable else "",
        (one.device.name if one.device else "NONE OF THE TYPES SERVES") if one else unknown,
        f"{high} (likely {likely})",
        _drop(one, chosen),
        _holes(plan, name, chosen),
        ", ".join(f"J{n} in {joint.space}" for n, joint in enumerate(route.joints, start=1)) or "none",
        ", ".join(route.unproven) or "none",
        format_minutes(route.criteria.seconds),
    ]


def _holes(plan: Plan, name: str, chosen: Candidate) -> str:
    """How many holes, those through the roof with the size to drill; and the plug that has to pass them."""
    route, drilled = chosen.route, bores(plan, name)
    roof = [f"roof ⌀ {drilled[hole.id]}" for hole in route.holes if hole.kind == "roof"]
    inner = [f"{route.criteria.inner_holes} inside"] * bool(route.criteria.inner_holes)
    cable = plan.coach.job.cables[name] if plan.coach.job else None
    plug = [f"plug {bore(cable.largest_plug, plan.coach.units)}"] if cable else []
    return ", ".join([*roof, *inner, *plug] if roof or inner else ["none", *plug])


def _section(one: Circuit) -> str:
    if one.chosen is None:
        return "NONE OF THE TYPES SERVES"
    types = ", then ".join(each.tried.type_id for each in one.pieces) or one.chosen.type_id
    return f"{one.chosen.cable.section}, {types}"


def _drop(one: Circuit | None, chosen: Candidate) -> str:
    if one and one.chosen and one.chosen.drop:
        volts, percent = one.chosen.drop.volts, one.chosen.drop.percent
    else:
        volts, percent = (figure_named(chosen.route, name) for name in DROP)  # type: ignore[assignment]
    return f"{volts.value:.2f} V, {percent.value:.2f} %" if volts and percent else "none"
