"""What the circuits of a job say, as plain data for JSON. Lengths in whole mm."""

from typing import Any

from drawcord.coach.coach import Coach
from drawcord.plan.circuit import SEQUENCE, Circuit
from drawcord.plan.circuits import Circuits
from drawcord.plan.pieced import Piece
from drawcord.plan.placed import Placed
from drawcord.plan.section import Tried
from drawcord.sheets.basis import basis_document
from drawcord.sheets.cautions import ELSEWHERE, cautions
from drawcord.sheets.report import FORMAT, Inputs, figure_document, finding_document
from drawcord.wire.device import Device
from drawcord.wire.published import Rule
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding


def circuits_document(coach: Coach, found: Circuits, inputs: Inputs) -> dict[str, Any]:
    """The document of `drawcord circuit JOB --json`."""
    bonds = found.bonds._asdict().items() if found.bonds else ()
    return {
        "format": FORMAT,
        "job": coach.job.job if coach.job else None,
        "rig": coach.rig.rig,
        "inputs": [{"file": name, "sha256": digest} for name, digest in inputs],
        "grouping": found.strings and found.strings.name,
        "circuits": [_circuit(coach, one) for one in found.circuits],
        "left": dict(sorted(found.left.items())),
        "bonding": {what: {"section": bond.section, **figure_document(bond.copper)} for what, bond in bonds},
        "rules_applied": [_rule(one) for one in found.rules],
        "figures": [figure_document(figure) for figure in found.figures],
        "findings": [finding_document(finding) for finding in found.findings],
        "sequence": list(SEQUENCE),
        "cautions": [finding_document(caution) for caution in cautions_of(coach, found)],
        **basis_document(found.fitted.rules, figures_of(found), findings_of(found), sources_of(found)),
    }


def figures_of(found: Circuits) -> list[Figure]:
    """Every figure of the circuits."""
    own = [figure for one in found.circuits for figure in (*one.figures, *one.readings)]
    return [*own, *found.figures, *(bond.copper for bond in found.bonds or ())]


def findings_of(found: Circuits) -> list[Finding]:
    """Every finding of the circuits."""
    return [*found.findings, *(finding for one in found.circuits for finding in one.findings)]


def cautions_of(coach: Coach, found: Circuits) -> tuple[Finding, ...]:
    """The cautions for every power cable of the job and the routes of its circuits."""
    classes = sorted({cable.carries for cable in coach.job.cables.values()} if coach.job else ())
    return cautions(classes, [one.candidate.route for one in found.circuits], ELSEWHERE)


def sources_of(found: Circuits) -> list[str]:
    """The sources of what is neither figure nor finding: rules, and how near to its source a device sits."""
    own = [rule.source for one in found.circuits for rule in one.rules]
    return [*(one.source for one in found.rules), *own, *(one.source for one in found.fitted.rules.distances)]


def _circuit(coach: Coach, one: Circuit) -> dict[str, Any]:
    route = one.candidate.route
    low, likely, high = route.cut_length
    return {
        "cable": one.cable,
        "circuit": one.purpose.circuit,
        "candidate": one.candidate.id,
        "section": one.chosen and one.chosen.cable.section,
        "type": one.chosen and one.chosen.type_id,
        "pieces": [_piece(each) for each in one.pieces],
        "named": one.planned.written.type,
        "given_up": [{"type": name, "against": list(why)} for name, why in one.planned.given_up.items()],
        "proof": one.planned.proof or None,
        "device": one.device and _device(one.device),
        "where": one.where,
        "places": [_place(each) for each in one.placed],
        "disconnect": one.disconnect,
        "cut_length_mm": {"low": low, "likely": likely, "high": high},
        "drop": one.chosen and one.chosen.drop and [figure_document(figure) for figure in one.chosen.drop],
        "joints": [{"at_mm": joint.at, "space": joint.space} for joint in route.joints],
        "roof_holes_mm": [hole.diameter for hole in route.holes if hole.kind == "roof"],
        "largest_plug_mm": coach.job.cables[one.cable].largest_plug if coach.job else None,
        "unproven": list(route.unproven),
        "minutes": round(route.criteria.seconds / 60, 1),
        "tried": [_tried(each) for each in one.tried],
        "figures": [figure_document(figure) for figure in one.figures],
        "readings": [figure_document(figure) for figure in one.readings],
        "findings": [finding_document(finding) for finding in one.findings],
        "rules_applied": [_rule(each) for each in one.rules],
        "sequence": list(one.sequence),
    }


def _place(one: Placed) -> dict[str, Any]:
    at = one.at
    return {
        "name": one.name or None,
        "type": one.type_id,
        "from": at.terminal,
        "along_mm": at.along,
        "space": at.space,
        "point_mm": list(at.point),
        "opening": at.opening or None,
    }


def _rule(one: Rule) -> dict[str, Any]:
    return {"name": one.name, "applies": one.applies, "reason": one.reason, "source": one.source}


def _piece(one: Piece) -> dict[str, Any]:
    joint = one.joint and {"at_mm": one.joint.at, "space": one.joint.space, "through": one.joint.opening}
    return {"type": one.tried.type_id, "spaces": list(one.spaces), "joined_before": joint}


def _device(one: Device) -> dict[str, Any]:
    return {
        "name": one.name,
        "kind": one.kind,
        "current": one.current,
        "volts": one.volts,
        "amperes": one.amperes,
        "interrupting_amperes": one.interrupting_amperes,
        "polarised": one.polarised,
        "poles": one.poles,
    }


def _tried(one: Tried) -> dict[str, Any]:
    legs = one.carrying and (one.carrying.governing, *one.carrying.others)
    return {
        "type": one.type_id,
        "against": list(one.against),
        "worst_legs": [{"leg": each.leg.name, **figure_document(each.amperes)} for each in legs or ()],
        "beyond": list(one.carrying.beyond) if one.carrying else [],
    }
