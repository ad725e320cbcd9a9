"""What to drill, pack, join and label: the lists of the day, counted from the plan."""

import math

from drawcord.load.bring import Load
from drawcord.load.holes import register
from drawcord.load.parts import parts
from drawcord.plan.plan import Plan
from drawcord.sheets.day_parts import Block, Grid, Labels, Section
from drawcord.sheets.holes import holes_table, short
from drawcord.sheets.lengths import length


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


def joints(plan: Plan, load: Load | None) -> Section:
    """Where each joint lies and how a hand gets there; of the van's pieces also why it lies there."""
    laid = load.pieces if load else ()
    why = {(one.run.cable, at): said for one in laid for at, said in zip(one.joints, one.reasons, strict=True)}
    units, cables = plan.coach.units, plan.coach.job.cables if plan.coach.job else {}
    rows = []
    for name, chosen in sorted(plan.chosen.items()):
        longest = f"the last place for a piece of {length(cables[name].longest_piece, units)}" if name in cables else ""
        for number, joint in enumerate(chosen.route.joints, start=1):
            through = joint.opening or ("open" if joint.reachable else "OUT OF REACH")
            reason = why.get((name, joint), longest)
            rows.append([name, f"J{number}", length(joint.at, units), joint.space, through, reason, ""])
    header = ["cable", "joint", "along the cable", "in", "reached through", "why there", "made by"]
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
