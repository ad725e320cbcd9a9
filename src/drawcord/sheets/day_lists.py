"""What to cut, drill, join and label: the lists of the day, counted from the plan."""

import math
from itertools import pairwise

from drawcord.load.holes import register
from drawcord.load.parts import parts
from drawcord.plan.plan import Plan
from drawcord.routes.route import Route
from drawcord.sheets.day_parts import Block, Grid, Labels, Section
from drawcord.sheets.holes import holes_table, short
from drawcord.sheets.lengths import length
from drawcord.sheets.tables import Rows


def cuts(plan: Plan) -> Section:
    """How long to cut each core; the longest that is likely to be needed."""
    known = {one.cable: one for one in plan.circuits.circuits if one.chosen} if plan.circuits else {}
    header = ["cable", "type", "lengths", "cut each", "in all", "pieces between joints, as measured", "really used"]
    units = plan.coach.units
    rows: Rows = []
    for name, chosen in sorted(plan.chosen.items()):
        cable = plan.coach.job.cables[name] if plan.coach.job else None
        cores, high = cable.cores if cable and cable.carries in ("PV", "battery DC") else 1, chosen.route.cut_length[2]
        one = known.get(name)
        written = (cable.type or cable.conductor or cable.carries) if cable else ""
        kind = one.chosen.type_id if one and one.chosen else written
        pieces = " + ".join(length(piece, units) for piece in _pieces(chosen.route))
        rows.append([name, kind, str(cores), length(high, units), length(cores * high, units), pieces, ""])
    return Section("Cut list", (Grid("", [header, *rows]),) if rows else (), fresh=True)


def _pieces(route: Route) -> list[int]:
    ends = [0, *(joint.at for joint in route.joints), route.criteria.length]
    return [far - near for near, far in pairwise(ends)]


def holes(plan: Plan) -> Section:
    """The register of holes, a box to tick for what lies behind each."""
    blocks: list[Block] = []
    for name, chosen in sorted(plan.chosen.items()):
        if not chosen.route.holes:
            continue
        header, *rows = short(holes_table(plan.coach, chosen.route, plan.coach.units))
        blocks.append(Grid(name, [[*header, "looked behind"], *([*row, "☐"] for row in rows)]))
    rules = plan.coach.shop.parts
    if rules and blocks:
        rows = [
            [one.id, f"{one.bore:g} mm", one.fitting, one.seal, "; ".join(one.behind), one.consent]
            for one in register(plan, rules)
        ]
        header = ["hole", "drill", "fitting", "seal", "look behind for", "consent"]
        blocks.append(Grid("What goes into each", [header, *rows]))
    return Section("Holes", tuple(blocks))


def small_parts(plan: Plan) -> Section:
    """The small parts to take along, if the shop has rules that count them."""
    rules = plan.coach.shop.parts
    rows = [[one.id, f"{one.count} {one.unit}", one.why, "☐"] for one in parts(plan, rules)] if rules else []
    return Section("Small parts", (Grid("", [["part", "count", "why", "packed"], *rows]),) if rows else ())


def joints(plan: Plan) -> Section:
    """Where each joint lies and how a hand gets there."""
    rows = [
        [name, f"J{number}", length(joint.at, plan.coach.units), joint.space, joint.opening or "OUT OF REACH", ""]
        for name, chosen in sorted(plan.chosen.items())
        for number, joint in enumerate(chosen.route.joints, start=1)
    ]
    header = ["cable", "joint", "along the cable", "in", "reached through", "made by"]
    return Section("Joints", (Grid("", [header, *rows]),) if rows else ())


def labels(plan: Plan) -> Section:
    """Both ends of each cable, and both sides of each of its holes."""
    found = []
    known = {one.cable: one for one in plan.circuits.circuits if one.chosen} if plan.circuits else {}
    for name, chosen in sorted(plan.chosen.items()):
        cable = plan.coach.job.cables[name] if plan.coach.job else None
        if cable is None:
            continue
        one = known.get(name)
        section = one.chosen.cable.section if one and one.chosen else cable.conductor
        what = f"{cable.carries} {section or ''}".strip()
        warn = []
        if cable.carries == "PV":
            volts = f", up to {math.ceil(one.purpose.most_volts)} V" if one else ""
            warn = [f"LIVE WHENEVER IT IS LIGHT{volts}"]
        places = [cable.start, cable.end]
        for hole in chosen.route.holes:
            places += [f"{hole.id}, {side}" for side in hole.between]
        found += [(f"{name}: {cable.start} to {cable.end}", what, *warn, f"at {place}") for place in places]
    return Section("Labels to print", (Labels(tuple(found)),) if found else (), fresh=True)
