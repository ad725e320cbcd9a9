"""What the comparison and the plan say, as plain data for JSON. Lengths in whole mm, times in minutes."""

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from drawcord.coach.coach import Coach
from drawcord.routes.electric import POWER
from drawcord.routes.limits import least_chance
from drawcord.routes.order import Order
from drawcord.routes.route import Answer, Candidate, Joint, Leg, TooTight
from drawcord.routes.weighing import WORDS
from drawcord.sheets.cautions import cautions, powered
from drawcord.sheets.together import hole_document, together_document
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding

if TYPE_CHECKING:  # a comparison has neither, and need not load them
    from drawcord.plan.circuits import Circuits
    from drawcord.plan.plan import Plan

FORMAT = 1
Inputs = Sequence[tuple[str, str]]  # name and sha256 of each file read


def compare_document(
    coach: Coach, answers: Sequence[tuple[Order, Answer]], inputs: Inputs, circuits: "Circuits | None" = None
) -> dict[str, Any]:
    """The document of `drawcord compare JOB --json`; `circuits` if they were worked out, so that cautions know."""
    return {
        "format": FORMAT,
        "job": coach.job.job if coach.job else None,
        "rig": coach.rig.rig,
        "inputs": [{"file": name, "sha256": digest} for name, digest in inputs],
        "notices": [finding_document(finding) for finding in coach.findings],
        "cautions": [finding_document(caution) for caution in cautions_of(answers, circuits)],
        "cables": [_answer(order, answer) for order, answer in answers],
    }


def cautions_of(answers: Sequence[tuple[Order, Answer]], circuits: "Circuits | None" = None) -> tuple[Finding, ...]:
    """The cautions for the cables of a job and all their candidates."""
    routes = [candidate.route for _, answer in answers for candidate in answer.candidates]
    power = powered(circuits, [order.name for order, _ in answers if order.cable.carries in POWER])
    return cautions([order.cable.carries for order, _ in answers], routes, power)


def plan_document(plan: "Plan", orders: Sequence[Order], inputs: Inputs) -> dict[str, Any]:
    """The document of `plan.json`: the comparison, which candidate each cable takes, and what they share."""
    whole = compare_document(plan.coach, list(zip(orders, plan.answers, strict=True)), inputs, plan.circuits)
    whole["chosen"] = {cable: candidate.id for cable, candidate in sorted(plan.chosen.items())}
    whole["together"] = together_document(plan.together)
    return whole


def _answer(order: Order, answer: Answer) -> dict[str, Any]:
    closed = answer.unroutable
    return {
        "cable": answer.cable,
        "from": answer.start,
        "to": answer.end,
        "unroutable": closed
        and {
            "sentence": closed.sentence,
            "closed_by": list(closed.closed_by),
            "smallest_change": list(closed.smallest_change),
            "too_tight": [_too_tight(limit) for limit in closed.too_tight],
        },
        "exact": answer.exact,
        "guarantee": answer.guarantee,
        "left_out": list(answer.left_out),
        "candidates": [_candidate(order, candidate) for candidate in answer.candidates],
    }


def _too_tight(limit: TooTight) -> dict[str, Any]:
    """A limit in the unit in which the job states it."""
    values: list[float] = [limit.stated, limit.opens_at]
    if limit.name == "doubt":
        name, unit = "chance clear", "1"
        values = [least_chance(limit.stated), least_chance(limit.opens_at)]
    else:
        name, unit = WORDS[limit.name], {"length": "mm", "in_sight": "mm", "seconds": "s"}.get(limit.name, "1")
    return {"limit": name, "unit": unit, "stated": values[0], "opens_at": values[1], "alone": limit.alone}


def _candidate(order: Order, candidate: Candidate) -> dict[str, Any]:
    route = candidate.route
    low, likely, high = route.cut_length
    figures = {figure.name: figure for figure in route.figures}
    volts, percent = figures.get("voltage drop"), figures.get("voltage drop of supply")
    cable = order.cable
    stands_on = {"amperes": cable.amperes, "volts": cable.volts}
    return {
        "id": candidate.id,
        "rank": candidate.rank,
        "offered_as": candidate.offered_as,
        "reason": candidate.reason,
        "best_at": list(candidate.best_at),
        "score_m": round(candidate.score / 1e6, 3),
        "twins": [list(spaces) for spaces in candidate.twins],
        "spaces": list(route.spaces),
        "passages": list(route.passages),
        "length_mm": route.criteria.length,
        "in_sight_mm": route.criteria.in_sight,
        "roof_holes": route.criteria.roof_holes,
        "inner_holes": route.criteria.inner_holes,
        "minutes": round(route.criteria.seconds / 60, 1),
        "chance_clear": round(math.exp(-route.criteria.doubt / 1e6), 4),
        "cut_length_mm": {"low": low, "likely": likely, "high": high},
        "joints": [_joint(joint) for joint in route.joints],
        "longest_piece_mm": cable.longest_piece,
        "conductor": _conductor(order, route.figures) if volts else None,
        "drop_volts": volts and {"value": _short(volts.value), **stands_on},
        "drop_percent": percent and {"value": _short(percent.value), **stands_on},
        "holes": [hole_document(hole) | {"standing": hole.standing} for hole in route.holes],
        "consents": list(route.consents),
        "unproven": list(route.unproven),
        "findings": [finding_document(finding) for finding in route.findings],
        "legs": [_leg(leg) for leg in route.legs],
        "figures": [figure_document(figure) for figure in route.figures],
    }


def _conductor(order: Order, figures: Sequence[Figure]) -> dict[str, Any]:
    cable = order.cable
    least = next((figure for figure in figures if figure.name.startswith("smallest conductor")), None)
    return {
        "label": cable.conductor,
        "metal": cable.metal,
        "cores": cable.cores,
        "drop_limit_percent": None if cable.drop_limit is None else round(100 * cable.drop_limit, 4),
        "smallest_within_limit": least and least.formula.split(",")[0],
    }


def _leg(leg: Leg) -> dict[str, Any]:
    return {
        "space": leg.space,
        "kind": leg.kind,
        "zone": leg.zone,
        "through": leg.through or None,
        "through_mm": leg.through_length,
        "points_mm": [list(point) for point in leg.points],
        "length_mm": leg.length,
        "in_sight": leg.in_sight,
        "cover": leg.cover,
        "standing": leg.standing,
        "bends": leg.bends,
    }


def _joint(joint: Joint) -> dict[str, Any]:
    return {
        "at_mm": joint.at,
        "point_mm": list(joint.point),
        "space": joint.space,
        "reachable": joint.reachable,
        "through": joint.opening or None,
    }


def finding_document(finding: Finding) -> dict[str, Any]:
    """A finding as plain data."""
    return {
        "severity": finding.severity.name.lower(),
        "place": finding.place,
        "sentence": finding.sentence,
        "source": finding.source,
    }


def figure_document(figure: Figure) -> dict[str, Any]:
    """A figure with its working as plain data."""
    return {
        "name": figure.name,
        "value": float(f"{figure.value:.6g}"),
        "unit": figure.unit,
        "formula": figure.formula,
        "source": figure.source,
    }


def _short(value: float) -> float:
    """Four decimals, in two steps, so that the last binary digit of what comes just at a half does not decide."""
    return round(round(value, 9), 4)
