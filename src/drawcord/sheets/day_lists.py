"""What to pack, join and label: the lists of the day, counted from the plan."""

import math

from drawcord.load.bring import Load
from drawcord.load.gear import Gear
from drawcord.load.parts import parts
from drawcord.plan.plan import Plan
from drawcord.sheets.day_parts import Block, Grid, Labels, Section, Words
from drawcord.sheets.lengths import length

COUNTED = "How many of each, for what and by which rule: parts.csv, which `drawcord plan` writes."


def small_parts(plan: Plan, gear: Gear | None) -> Section:
    """The small parts, if the shop has rules that count them; with a van what it has of them, and what all costs."""
    rules = plan.coach.shop.parts
    if gear:
        rows = [
            [one.need.id, f"{one.need.count} {one.need.unit}", str(one.carry), str(one.buy), "☐"] for one in gear.parts
        ]
        costs = [[one.name, f"{one.value:.2f}", one.unit, one.formula] for one in gear.costs]
        blocks: tuple[Block, ...] = (
            Grid("", [["part", "count", "from the van", "to buy", "packed"], *rows]),
            Words((COUNTED,)),
            Grid("What it costs", [["what", "value", "unit", "how"], *costs]),
        )
        return Section("Small parts", blocks)
    rows = [[one.id, f"{one.count} {one.unit}", "☐"] for one in parts(plan, rules)] if rules else []
    packed = Grid("", [["part", "count", "packed"], *rows])
    return Section("Small parts", (packed, Words((COUNTED,))) if rows else ())


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
        found += [(f"{name}: {cable.start} to {cable.end}", *warn, f"{what}, at {place}") for place in places]
    return Section("Labels to print", (Labels(tuple(found)),) if found else (), fresh=True)
