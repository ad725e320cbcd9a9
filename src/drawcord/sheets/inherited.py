"""What is said of cables that were there before, as plain data for JSON, with all that it stands on."""

from collections.abc import Sequence
from typing import Any

from drawcord.plan.inherited import Carried, Reuse
from drawcord.sheets.report import figure_document, finding_document
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding


def reuse_document(one: Reuse) -> dict[str, Any]:
    """The entry of one cable in the document of `drawcord array JOB --json`."""
    return {
        "id": one.name,
        "section": one.run.section,
        "length_mm": one.run.length,
        "stays": one.stays,
        "verdict": list(one.verdict),
        "largest_isc": one.capacity and figure_document(one.capacity.most),
        "groupings": [_carried(each) for each in one.groupings],
        "figures": [figure_document(figure) for figure in one.figures],
        "beyond": list(one.capacity.bearing.beyond) if one.capacity else [],
        "findings": [finding_document(finding) for finding in one.findings],
    }


def figures_along(runs: Sequence[Reuse]) -> list[Figure]:
    """Every figure of inherited cables."""
    return [figure for one in runs for figure in one.figures]


def findings_along(runs: Sequence[Reuse]) -> list[Finding]:
    """Every finding of inherited cables."""
    return [finding for one in runs for finding in one.findings]


def _carried(one: Carried) -> dict[str, Any]:
    return {
        "grouping": one.name,
        "carried": not one.against,
        "against": list(one.against),
        "left_out": one.judged.grouping.left_out,
        "drop": [figure_document(figure) for figure in one.drop],
        "largest_imp": figure_document(one.most),
    }
