"""What can hurt and in which order to work, what the owner has to agree to, and what nobody has measured."""

from drawcord.plan.circuit import Circuit
from drawcord.plan.plan import Plan
from drawcord.routes.electric import POWER
from drawcord.sheets.basis import CHECKED, remembered
from drawcord.sheets.cautions import cautions, powered
from drawcord.sheets.circuit_report import figures_of, findings_of, sources_of
from drawcord.sheets.circuit_spoken import device_said, place_said
from drawcord.sheets.day_parts import Blanks, Block, Grid, Section, Steps, Words
from drawcord.sheets.joint_marks import fixtures
from drawcord.words.finding import Severity

ASKED = (
    "Asked is what goes through the roof or the shell, and what shows. Other holes, between places that nobody sees, "
    "stand in the register of holes: show it to the owner."
)


def care(plan: Plan) -> Section:
    """Cautions, the order of connecting and isolating, and what to look out for on each route."""
    coach = plan.coach
    carried = {name: coach.job.cables[name].carries for name in plan.chosen} if coach.job else {}
    power = powered(plan.circuits, sorted(name for name, what in carried.items() if what in POWER))
    said = cautions(sorted(carried.values()), [one.route for one in plan.chosen.values()], power)
    blocks: list[Block] = [Words(tuple(one.sentence for one in said), strong=True)]
    steps: dict[tuple[str, ...], list[str]] = {}
    for one in plan.circuits.circuits if plan.circuits else ():
        steps.setdefault(one.sequence, []).append(one.cable)
    blocks += [Steps(f"In this order: {', '.join(names)}", order, tick=True) for order, names in steps.items()]
    if plan.circuits and plan.circuits.circuits:
        known = plan.circuits.circuits
        rows = [[one.cable, device_said(one.device), _where(plan, one), one.disconnect] for one in known]
        blocks.append(Grid("Devices", [["cable", "device", "where", "disconnect"], *rows]))
    seen = [
        [f"{name}, {one.place}", f"{one.sentence} [{one.source}]"]
        for name, chosen in sorted(plan.chosen.items())
        for one in chosen.route.findings
        if one.severity is not Severity.NOTICE
    ]
    found = findings_of(plan.circuits) if plan.circuits else []
    seen += [[one.place, f"{one.sentence} [{one.source}]"] for one in found if one.severity is not Severity.NOTICE]
    if seen:
        blocks.append(Grid("Look out", [["where", "what"], *seen]))
    return Section("Before you start", tuple(blocks))


def _where(plan: Plan, one: Circuit) -> str:
    """Where on its cable a device sits, by its mark in the picture of all cables, and the rule for that."""
    marks = [each.tag for each in fixtures(plan) if each.cable == one.cable and each.what != "joint"]
    said = [place_said(plan.coach, each) for each in one.placed]
    if plan.together:
        said = [f"{mark}, {each}" for mark, each in zip(marks, said, strict=True)]
    return ". ".join([*said, one.where])


def consents(plan: Plan) -> Section:
    """What the owner must agree to before work, with room to sign."""
    coach = plan.coach
    asked: dict[str, list[str]] = {}  # what the owner is asked once, with the cables that ask it
    for name, chosen in sorted(plan.chosen.items()):
        for consent in chosen.route.consents:
            asked.setdefault(consent, []).append(name)
    if not asked:
        return Section("The owner's consent", ())
    agreed = coach.job.owner.consents if coach.job else []
    said = Words((f"The job says that the owner agreed to: {', '.join(agreed) or 'nothing yet'}.", ASKED))
    rows = [[", ".join(names), consent, "☐\u00a0yes ☐\u00a0no"] for consent, names in asked.items()]
    sign = Blanks("Agreed before work began", ("owner's name", "signature", "date"))
    return Section("The owner's consent", (said, Grid("", [["for", "what", "agreed"], *rows]), sign), whole=True)


def unmeasured(plan: Plan) -> Section:
    """What was assumed: places nobody looked into, sources of spaces, figures from memory, what is not covered."""
    coach = plan.coach
    unproven = [
        [name, place, "☐\u00a0clear ☐\u00a0blocked", ""]
        for name, chosen in sorted(plan.chosen.items())
        for place in chosen.route.unproven
    ]
    sources = {space: coach.spaces[space].source for chosen in plan.chosen.values() for space in chosen.route.spaces}
    blocks: list[Block] = []
    if unproven:
        blocks.append(Grid("Nobody has looked into these", [["cable", "place", "found", "by"], *unproven]))
    if sources:
        told = [[space, source or "none: taken from the sketch"] for space, source in sorted(sources.items())]
        blocks.append(Grid("Where what is known of each space comes from", [["space", "source"], *told]))
    if found := plan.circuits:
        rules = found.fitted.rules
        memory = remembered(figures_of(found), findings_of(found), sources_of(found))
        blocks += [
            Steps("From memory, to be confirmed", tuple(memory)),
            Steps("Not covered", rules.not_covered),
            Steps("Not worked out", tuple(f"{name}: {why}" for name, why in sorted(found.left.items()))),
        ]
    blocks.append(Words((CHECKED,)))
    return Section("Assumed, never measured", tuple(blocks))
