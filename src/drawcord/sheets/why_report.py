"""The answer about a route that a person has in mind, as plain data for JSON."""

import math
from collections.abc import Mapping
from typing import Any

from drawcord.coach.coach import Coach
from drawcord.routes.change import Change
from drawcord.routes.facts import EFFORTS
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria, Route
from drawcord.routes.why import Why
from drawcord.sheets.cautions import cautions
from drawcord.sheets.report import FORMAT, Inputs, finding_document
from drawcord.words.finding import Finding


def why_document(coach: Coach, order: Order, answer: Why, where: Mapping[str, str], inputs: Inputs) -> dict[str, Any]:
    """The document of `drawcord why --json`; `where` says where in the files each place with a breach stands."""
    wish = answer.wish
    best, rival = answer.best, answer.rival
    limits = {name: cost for name, cost in _criteria(best).items() if name in answer.limits} if best else {}
    return {
        "format": FORMAT,
        "job": coach.job.job if coach.job else None,
        "rig": coach.rig.rig,
        "inputs": [{"file": name, "sha256": digest} for name, digest in inputs],
        "cautions": [finding_document(caution) for caution in cautions_of(order, answer)],
        "cable": order.name,
        "asked": {"spaces": list(wish.spaces), "through": list(wish.through), "avoid": list(wish.avoid)},
        "verdict": answer.verdict,
        "certain": answer.certain,
        "best": best and _route(best),
        "rival": rival and {"called": answer.called, **_route(rival)},
        "more_than_rival": best and rival and _less(best.criteria, rival.criteria),
        "breaches": [
            {"place": breach.place, "sentence": breach.sentence, "at": where.get(breach.place)}
            for breach in answer.breaches
        ],
        "weights": answer.sway and answer.sway.weights,
        "changed_weight": (answer.sway and answer.sway.only) or None,
        "no_weights_proved": answer.sway and not answer.sway.weights and answer.sway.proved,
        "limits": limits,
        "needs_consent": answer.consent,
        "smallest_change": _change(answer.change),
        "smallest_change_that_opens": _change(answer.opens),
    }


def cautions_of(order: Order, answer: Why) -> tuple[Finding, ...]:
    """What has to be said beside the answer."""
    return cautions([order.cable.carries], [route for route in (answer.best, answer.rival) if route])


def _route(route: Route) -> dict[str, Any]:
    return {"spaces": list(route.spaces), "passages": list(route.passages), **_criteria(route)}


def _criteria(route: Route) -> dict[str, Any]:
    """The criteria by their fields, as limits name them, and the chance in its own right."""
    return {**route.criteria._asdict(), "chance_clear": round(math.exp(-route.criteria.doubt / 1e6), 4)}


def _less(one: Criteria, other: Criteria) -> dict[str, int]:
    return {name: mine - theirs for name, mine, theirs in zip(Criteria._fields, one, other, strict=True)}


def _change(change: Change | None) -> dict[str, Any] | None:
    if change is None:
        return None
    return {
        "asks_for": EFFORTS[change.effort],
        "place": change.place,
        "amount_mm": change.amount,
        "sentence": change.sentence,
    }
