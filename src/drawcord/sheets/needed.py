"""The register of holes, the bits and the list of parts, as tables."""

from collections.abc import Sequence

from drawcord.coach.coach import Coach
from drawcord.load.against_van import Line
from drawcord.load.holes import HoleEntry
from drawcord.load.tools import ToolNeed
from drawcord.sheets.holes import drill_from, from_edges
from drawcord.sheets.tables import Rows, headed
from drawcord.words.figure import Figure


def register_table(coach: Coach, entries: Sequence[HoleEntry], units: str | None = None) -> Rows:
    """One row a hole: both faces from edges that a tape finds, the bore in mm as bits are sold, and all else."""
    header = ["hole", "for", "from", "to", "near face", "far face", "drill from", headed("bore", units), "thread"]
    header += ["fitting", "seal", "look at first", "consent", "source"]
    unit = " mm" if units else ""
    rows = [
        [
            entry.id,
            ", ".join(f"{cable} {hole}" for cable, hole in entry.own),
            *entry.hole.between,
            *(from_edges(coach, entry.hole, face, coach.units) for face in (0, 1)),
            drill_from(coach, entry.hole),
            f"{entry.bore:g}{unit}",
            entry.thread,
            entry.fitting,
            entry.seal,
            "; ".join(entry.behind),
            entry.consent,
            entry.source,
        ]
        for entry in entries
    ]
    return [header, *rows]


def tools_table(needs: Sequence[ToolNeed]) -> Rows:
    """One row a bit or saw."""
    header = ["tool", "diameter [mm]", "serves [mm]", "chuck from [mm]", "holes", "why"]
    rows = [
        [
            one.kind,
            f"{one.diameter:g}",
            f"{one.least:g} to {one.most:g}",
            str(one.shank),
            ", ".join(one.holes),
            one.why,
        ]
        for one in needs
    ]
    return [header, *rows]


def parts_table(lines: Sequence[Line]) -> Rows:
    """One row a part."""
    header = ["part", "count", "unit", "carry", "buy", "price", "minutes", "why", "source"]
    rows = [
        [
            line.need.id,
            str(line.need.count),
            line.need.unit,
            str(line.carry),
            str(line.buy),
            f"{line.price:.2f}",
            f"{line.seconds / 60:.0f}",
            line.need.why,
            line.need.source,
        ]
        for line in lines
    ]
    return [header, *rows]


def costs_table(figures: Sequence[Figure]) -> Rows:
    """One row a figure."""
    header = ["figure", "value", "unit", "formula", "source"]
    return [header, *([one.name, f"{one.value:.2f}", one.unit, one.formula, one.source] for one in figures)]
