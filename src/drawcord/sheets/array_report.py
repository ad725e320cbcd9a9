"""What the comparison of an array's groupings says, as plain data for JSON."""

from collections.abc import Sequence
from typing import Any

from drawcord.coach.coach import Coach
from drawcord.plan.array import ORDER, Array, Offered
from drawcord.plan.inherited import Reuse
from drawcord.sheets.basis import basis_document
from drawcord.sheets.cautions import ELSEWHERE, cautions
from drawcord.sheets.inherited import figures_along, findings_along, reuse_document
from drawcord.sheets.report import FORMAT, Inputs, figure_document, finding_document
from drawcord.wire.strings import Judged, shade
from drawcord.wire.tracked import Tracked
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding

CAUTIONS = cautions(("PV", "battery DC"), (), ELSEWHERE)


def array_document(coach: Coach, array: Array, runs: Sequence[Reuse], inputs: Inputs) -> dict[str, Any]:
    """The document of `drawcord array JOB --json`."""
    judged = [one.judged for one in array.offered]
    figures = [*figures_of(judged), *figures_along(runs)]
    findings = [*findings_of(judged), *findings_along(runs)]
    return {
        "format": FORMAT,
        "job": coach.job.job if coach.job else None,
        "rig": coach.rig.rig,
        "inputs": [{"file": name, "sha256": digest} for name, digest in inputs],
        "controller": array.fitted.controller_id,
        "battery": array.fitted.battery_id,
        "coldest_c": array.fitted.climate.coldest,
        "hottest_cell_c": array.fitted.climate.hottest_cell,
        "drop_on_the_way_percent": round(100 * array.drop_share, 4),
        "planes": [
            {"name": plane.name, "module": plane.module.name, "places": list(plane.places)}
            for plane in array.fitted.planes
        ],
        "order": ORDER,
        "groupings": [_offered(one, array) for one in array.offered],
        "fell_out": [
            {"grouping": one.name, "barred": one.judged.barred, "reason": one.reason} for one in array.fell_out
        ],
        "inherited": [reuse_document(one) for one in runs],
        "findings": [finding_document(finding) for finding in array.findings],
        "cautions": [finding_document(caution) for caution in CAUTIONS],
        **basis_document(array.fitted.rules, figures, findings),
    }


def figures_of(judged: Sequence[Judged]) -> list[Figure]:
    """Every figure of some groupings."""
    return [figure for one in judged for figure in (*_sums(one), *(f for each in one.trackers for f in each.figures))]


def findings_of(judged: Sequence[Judged]) -> list[Finding]:
    """Every finding of some groupings."""
    return [finding for one in judged for finding in one.findings]


def margin(one: Tracked, array: Array) -> Figure:
    """What is left to the controller's limit on the coldest morning [V]."""
    most, cold = array.fitted.controller.highest_volts, one.cold.with_margin.value
    formula = f"{most:g} V - {cold:.6g} V"
    return Figure("margin to the controller's limit", most - cold, "V", formula, "maker's sheet of the controller")


def _offered(one: Offered, array: Array) -> dict[str, Any]:
    return {
        "grouping": one.name,
        "best_at": list(one.best_at),
        "merits": one.merits._asdict(),
        "left_out": one.judged.grouping.left_out,
        "figures": [figure_document(figure) for figure in _sums(one.judged)],
        "trackers": [_tracker(each, array) for each in one.judged.trackers],
        "findings": [finding_document(finding) for finding in one.judged.findings],
    }


def _sums(one: Judged) -> tuple[Figure, Figure, Figure]:
    return one.watts, one.offered, one.clipped


def _tracker(one: Tracked, array: Array) -> dict[str, Any]:
    strings = one.strings
    return {
        "plane": strings.plane.name,
        "series": strings.series,
        "parallel": strings.parallel,
        "string_fuses_needed": one.fuse.needed,
        "shade": shade(strings),
        "figures": [figure_document(figure) for figure in (*one.figures, margin(one, array))],
    }
