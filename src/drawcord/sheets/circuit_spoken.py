"""The circuits of a job as plain text for a terminal: at a glance first, then the chain of figures."""

from collections.abc import Sequence

from drawcord.coach.coach import Coach
from drawcord.plan.circuit import Circuit
from drawcord.plan.circuits import Circuits
from drawcord.plan.placed import Placed
from drawcord.sheets.array_spoken import figure_lines, finding_lines, list_lines
from drawcord.sheets.basis import CHECKED, basis_lists
from drawcord.sheets.circuit_report import cautions_of, figures_of, findings_of, sources_of
from drawcord.sheets.lines import lines
from drawcord.sheets.spoken import cautions_text
from drawcord.sheets.tables import LINE
from drawcord.wire.device import Device
from drawcord.wire.published import Rule
from drawcord.words.finding import Severity
from drawcord.words.units import format_minutes, tape_length

OWN_WAY = (
    "Each cable is on its own best way; `drawcord plan` puts all in one plan, and counts again which lie together."
)


def circuits_text(coach: Coach, found: Circuits) -> str:
    """Every circuit, what is bonded, which rules apply, and what all of it stands on."""
    fitted = found.fitted
    out = [f"{coach.rig.name}: circuits, rule set {fitted.rules.name}"]
    out += lines(OWN_WAY, LINE)
    if found.strings:
        out += lines(f"Modules grouped as {found.strings.name}; `drawcord array` compares the others.", LINE)
    for one in found.circuits:
        out += ["", *_circuit(coach, one, found)]
    out += ["", *list_lines("No circuit worked out:", [f"{name}: {why}" for name, why in sorted(found.left.items())])]
    out += ["", *(line for one in found.findings for line in finding_lines(one))]
    if found.figures:
        out += ["", "The array as a whole:", *figure_lines(list(found.figures))]
    out += ["", *_bonding(found), *_rules(found)]
    for heading, sentences in basis_lists(fitted.rules, figures_of(found), findings_of(found), sources_of(found)):
        out += list_lines(heading, sentences)
    return "\n".join([*out, *lines(CHECKED, LINE), "", cautions_text(cautions_of(coach, found))])


def circuits_glance(coach: Coach, found: Circuits) -> str:
    """Of each circuit what the plan was made with, and what speaks against it; the working is another command's."""
    out = [f"{coach.rig.name}: circuits, rule set {found.fitted.rules.name}; `drawcord circuit` shows the working"]
    for one in found.circuits:
        out += lines(f"{one.cable}: {_section(one)}; device: {device_said(one.device)}; {_drop(one)}", LINE)
        out += [line for finding in one.findings for line in finding_lines(finding)]
    out += [line for one in found.findings if one.severity is Severity.REFUSAL for line in finding_lines(one)]
    for sequence in dict.fromkeys(one.sequence for one in found.circuits):
        named = ", ".join(one.cable for one in found.circuits if one.sequence == sequence)
        out += list_lines(f"In this order, {named}:", list(sequence))
    return "\n".join(out) + "\n"


def _circuit(coach: Coach, one: Circuit, found: Circuits) -> list[str]:
    out = lines(f"{one.cable}, {one.purpose.circuit}, on {one.candidate.id}", LINE)
    for sentence in _glance(coach, one, found):
        out += lines(sentence, LINE, "  ")
    out += [line for finding in one.findings for line in finding_lines(finding)]
    thinner = [f"{each.type_id}: {'; '.join(each.against)}" for each in one.tried if each.against]
    out += list_lines("  Types that do not serve:", thinner)
    beyond = one.chosen.carrying.beyond if one.chosen and one.chosen.carrying else ()
    out += list_lines("  Added practice that cannot answer:", list(beyond))
    out += ["  The chain of figures:", *figure_lines(list(one.figures))]
    out += ["  Readings to expect at commissioning:", *figure_lines(list(one.readings))]
    out += list_lines("  Rules, applied or not:", _applied(one.rules))
    return [*out, *list_lines("  In this order:", list(one.sequence))]


def _glance(coach: Coach, one: Circuit, found: Circuits) -> list[str]:
    route, units = one.candidate.route, coach.units
    plug = coach.job.cables[one.cable].largest_plug if coach.job else 0
    roof = ", ".join(tape_length(hole.diameter, units) for hole in route.holes if hole.kind == "roof")
    joints = ", ".join(f"{tape_length(joint.at, units)} in {joint.space}" for joint in route.joints)
    said = [
        *_cold(one, found),
        _section(one),
        f"device: {device_said(one.device)}, {one.where}",
        *(place_said(coach, each) for each in one.placed),
        f"disconnect: {one.disconnect}",
        f"cut at most {tape_length(route.cut_length[2], units)} a core; {_drop(one)}",
        f"joints: {joints or 'none'}; roof holes: {roof or 'none'}; largest plug {tape_length(plug, units)}",
        f"unproven: {', '.join(route.unproven) or 'nothing'}; work {format_minutes(route.criteria.seconds)}",
    ]
    return [*said, *([one.planned.proof] if one.planned.proof else [])]


def place_said(coach: Coach, one: Placed) -> str:
    """Where a device sits, or could, and how a hand gets there."""
    at = one.at
    how = f"{tape_length(at.along, coach.units)} along the cable from {at.terminal}, in {at.space}"
    reach = f"reached through {at.opening}" if at.opening else "out of reach"
    return f"{one.name or 'place proposed for it, the first in reach'}: {how}, {reach}"


def _cold(one: Circuit, found: Circuits) -> list[str]:
    if one.purpose.tracked is None:
        return []
    cold, most = one.purpose.tracked.cold.with_margin.value, found.fitted.controller.highest_volts
    said = [f"cold Voc {cold:.1f} V with margin, the controller bears {most:g} V: {most - cold:.1f} V to spare"]
    if (fuse := one.purpose.tracked.fuse).rating:
        said.append(f"string fuses: {fuse.rating.value:g} A, one in the ungrounded lead of each string where they join")
    return said


def _section(one: Circuit) -> str:
    if one.chosen is None:
        return "section: NONE OF THE TYPES SERVES"
    types = ", then ".join(piece.tried.type_id for piece in one.pieces) or one.chosen.type_id
    return f"section {one.chosen.cable.section}, {types}"


def _drop(one: Circuit) -> str:
    if one.chosen is None or one.chosen.drop is None:
        return "drop: not worked out"
    lost, limit = one.chosen.drop, 100 * one.purpose.limit.value
    early = "; the controller reads that much more than the battery has, which ends absorption early"
    said = f"drop {lost.volts.value:.3f} V, {lost.percent.value:.2f} % (limit {limit:g} %)"
    return said + (early if one.purpose.circuit == "controller to battery" else "")


def device_said(one: Device | None) -> str:
    """What a device is and bears."""
    if one is None:
        return "NONE OF THE TYPES SERVES"
    kilo = f"{one.interrupting_amperes / 1000:g} kA" if one.interrupting_amperes else "kA unknown"
    poles = f"{one.poles} pole{'s' if one.poles > 1 else ''}"
    return f"{one.name}: {one.volts:g} V {one.current}, {one.amperes:g} A, {kilo}, {poles}"


def _bonding(found: Circuits) -> list[str]:
    if found.bonds is None:
        return ["Bonding: not worked out, since no device and battery lead were found.", ""]
    figures = [bond.copper for bond in found.bonds]
    once = "One bond only between battery negative and chassis."
    return ["Bonding to the chassis, at least:", *figure_lines(figures), f"  {once}", ""]


def _rules(found: Circuits) -> list[str]:
    return list_lines("Rules, applied or not:", _applied(found.rules))


def _applied(rules: Sequence[Rule]) -> list[str]:
    return [
        f"{one.name}: {'applies' if one.applies else 'does not apply'}, {one.reason} [{one.source}]" for one in rules
    ]
