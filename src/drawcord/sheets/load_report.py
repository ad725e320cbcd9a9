"""The load as plain data for JSON. Lengths in whole mm."""

from collections.abc import Sequence
from typing import Any

from drawcord.load.bring import Cut, From, Load
from drawcord.load.cases import JobCases
from drawcord.load.gear import Gear
from drawcord.load.pieces import Pieces
from drawcord.load.sure import Sure
from drawcord.sheets.load_gear import gear_document
from drawcord.sheets.load_sure import sure_document
from drawcord.sheets.report import FORMAT, Inputs, finding_document


def load_document(
    load: Load, gear: Gear | None, sure: tuple[Sure, Sequence[JobCases]] | None, inputs: Inputs
) -> dict[str, Any]:
    """The document of `drawcord bring JOB... --json`."""
    return {
        "format": FORMAT,
        "jobs": list(load.jobs),
        "inputs": [{"file": name, "sha256": digest} for name, digest in inputs],
        "enough": load.enough,
        "proved": load.proved,
        "gaps": list(load.gaps),
        "carry": dict(load.carry),
        "cut_from": [_source(one) for one in load.cuts],
        "buy": {"reels": dict(load.bought), "cost": load.cost},
        "unproven": list(load.unproven),
        "short": [_cut(one) for one in load.short],
        "cables": [_pieces(one) for one in load.pieces],
        "sure": sure_document(sure),
        "gear": gear_document(gear),
        "findings": [finding_document(finding) for finding in load.findings],
    }


def _source(one: From) -> dict[str, Any]:
    return {
        "stock": one.stock,
        "type": one.type,
        "bought": one.bought,
        "length_mm": one.length,
        "cuts": [_cut(cut) for cut in one.cuts],
        "left_mm": one.left,
    }


def _cut(one: Cut) -> dict[str, Any]:
    return {"length_mm": one.length, "for": one.run}


def _pieces(one: Pieces) -> dict[str, Any]:
    run = one.run
    return {
        "job": run.job,
        "cable": run.cable,
        "type": run.type,
        "cores": run.cores,
        "begins_mm": run.begins,
        "length_mm": run.length,
        "pieces": [
            {
                "piece": laid.piece.id if laid.piece.fitted else "cut",
                "from_mm": laid.start,
                "to_mm": laid.end,
                "left_over_mm": laid.left_over,
            }
            for laid in one.laid
        ],
        "joints": [
            {
                "at_mm": joint.at,
                "point_mm": list(joint.point),
                "space": joint.space,
                "through": joint.opening or None,
                "reason": reason,
            }
            for joint, reason in zip(one.joints, one.reasons, strict=True)
        ],
    }
