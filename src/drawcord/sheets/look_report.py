"""The card as plain data for JSON. Lengths in whole mm, times in minutes."""

from collections.abc import Sequence
from typing import Any

from drawcord.coach.coach import Coach
from drawcord.plan.alternatives import Alternative
from drawcord.plan.card import Card, numbered
from drawcord.plan.looking import Looking, Step
from drawcord.sheets.report import FORMAT

INDEPENDENT = "each place is taken to be clear or blocked whatever the others are"


def look_document(coach: Coach, card: Card, inputs: Sequence[tuple[str, str]]) -> dict[str, Any]:
    """The document of `drawcord look JOB --json`; steps and routes are called by their numbers from 1."""
    return {
        "format": FORMAT,
        "job": coach.job.job if coach.job else None,
        "rig": coach.rig.rig,
        "inputs": [{"file": name, "sha256": digest} for name, digest in inputs],
        "assumed": INDEPENDENT,
        "groups": [_group(looking) for looking in card.lookings],
        "cables": [
            {
                "cable": cable.cable,
                "exact": cable.exact,
                "routes": [_route(number, route) for number, route in enumerate(cable.routes, 1)],
            }
            for cable in card.cables
        ],
    }


def _group(looking: Looking) -> dict[str, Any]:
    steps = looking.card.steps()
    number = {step.left: at for at, step in enumerate(steps, 1)}
    return {
        "cables": list(looking.knowing.cables),
        "unproven": [
            {"id": place.id, "minutes_to_look": place.seconds / 60} for place in looking.knowing.places
        ],
        "exact": looking.exact,
        "above_least_minutes": looking.above_least / 60,
        "expected_minutes": looking.seconds / 60,
        "without_looking_minutes": looking.without / 60,
        "steps": [_step(looking, step, number) for step in steps],
    }


def _step(looking: Looking, step: Step, number: dict[Any, int]) -> dict[str, Any]:
    if step.look and step.clear and step.blocked:
        then = {"clear": number[step.clear.left], "blocked": number[step.blocked.left]}
        return {"step": number[step.left], "look": step.look.id, **then}
    routes, unknown = numbered(looking, step)
    return {"step": number[step.left], "routes": routes, "unproven": unknown}


def _route(number: int, route: Alternative) -> dict[str, Any]:
    low, likely, high = route.cut_length
    return {
        "route": number,
        "spaces": list(route.spaces),
        "minutes": route.seconds / 60,
        "cut_length_mm": {"low": low, "likely": likely, "high": high},
        "unproven": [name for name, _ in route.meets],
    }
