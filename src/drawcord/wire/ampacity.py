"""What a conductor carries: its table, corrected for the air around it and for its neighbours."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from drawcord.wire.currents import DECIMALS
from drawcord.wire.possible import one_or_more, zero_or_more
from drawcord.wire.published import Adjustment, Ampacity, Correction
from drawcord.words.figure import Figure


@dataclass(frozen=True)
class Leg:
    """A stretch of cable under one set of conditions.

    `celsius` is the air around it [°C], `conductors` how many current-carrying ones lie together, both poles
    counted and its own among them, for `length_mm` [mm]. `roof_gap_mm` is the gap to a sunlit roof [mm], None
    where there is none. `free_air` if single conductors hang free, not in a raceway, chase or wall. `counted` is the
    sum that gives the conductors, where others than the cable's own are among them.

    Raises:
        ValueError: a temperature or gap that is no number, fewer than one conductor, a length below zero.

    """

    name: str
    celsius: float
    conductors: int
    length_mm: int
    roof_gap_mm: float | None = None
    free_air: bool = False
    counted: str = ""

    def __post_init__(self) -> None:
        if not math.isfinite(self.celsius):
            raise ValueError(f"the temperature around {self.name} must be a number, not {self.celsius}")
        one_or_more(f"the conductors in {self.name}", self.conductors)
        zero_or_more(f"the length of {self.name}", self.length_mm, "mm")
        if self.roof_gap_mm is not None:
            zero_or_more(f"the gap under {self.name}", self.roof_gap_mm, "mm")


@dataclass(frozen=True)
class Sunlit:
    """How much hotter it is close above a sunlit roof: `kelvin` [K] at less than `gap_mm` [mm]."""

    gap_mm: float
    kelvin: float
    source: str


@dataclass(frozen=True)
class Method:
    """One published way to say what conductors carry.

    A bundle counts where it is longer than `bundle_mm` [mm]; `together` conductors count as one there, which
    is two where a table counts circuits. Free-air rows are for single conductors, so that there each counts.
    `note` goes with every bundle factor, such as that it is disputed.
    """

    name: str
    enclosed: tuple[Ampacity, ...]
    free_air: tuple[Ampacity, ...]
    corrections: tuple[Correction, ...]
    adjustments: tuple[Adjustment, ...]
    bundle_mm: float
    together: int
    note: str = ""


class Carried(NamedTuple):
    """What a conductor carries in one leg, by one method: `amperes`, the product of all others but `together`.

    `together` is how many conductors the adjustment is for.
    """

    leg: Leg
    tabled: Figure
    corrected: Figure
    together: Figure
    adjusted: Figure
    amperes: Figure


def tabled(method: Method, rows: Iterable[Ampacity], section: str, celsius: float) -> Ampacity:
    """The row for a section with insulation, or a terminal, that bears `celsius` [°C].

    The hottest column that is not above it. Raises ValueError if there is none.
    """
    sized = [row for row in rows if row.section == section]
    if not sized:
        raise ValueError(f"{method.name} holds no {section}")
    bearable = [row for row in sized if row.insulation <= celsius]
    if not bearable:
        columns = ", ".join(f"{row.insulation}" for row in sized)
        raise ValueError(f"{method.name} has columns for {columns} °C, none at or below {celsius:g} °C")
    return max(bearable, key=lambda row: row.insulation)


def carried(method: Method, section: str, insulation: float, leg: Leg, sunlit: Sunlit) -> Carried:
    """What a conductor with insulation for `insulation` [°C] carries in a leg [A].

    Raises:
        ValueError: a section, temperature or bundle beyond the method's tables.

    """
    free = leg.free_air and any(_bears(row, section, insulation) for row in method.free_air)
    row = tabled(method, method.free_air if free else method.enclosed, section, insulation)
    table = Figure(
        f"ampacity of {section} at {row.insulation} °C", row.amperes, "A", f"{row.amperes:g} A", row.source
    )
    heat = _correction(method, row.insulation, leg, sunlit)
    crowd = _adjustment(method, leg, 1 if free else method.together)
    return Carried(
        leg,
        table,
        heat,
        Figure(
            f"conductors together in {leg.name}",
            leg.conductors,
            "",
            leg.counted or f"{leg.conductors}",
            f"those that carry current, both poles counted, over {leg.length_mm} mm of the cable",
        ),
        crowd,
        Figure(
            f"ampacity of {section} in {leg.name}",
            round(row.amperes * heat.value * crowd.value, DECIMALS),
            "A",
            f"{row.amperes:g} A · {heat.value:g} · {crowd.value:g}",
            method.name,
        ),
    )


def worst(method: Method, section: str, insulation: float, legs: Iterable[Leg], sunlit: Sunlit) -> Carried:
    """The leg that governs: the one in which the conductor carries least, the first of equals.

    Raises:
        ValueError: no leg; as `carried`.

    """
    found = [carried(method, section, insulation, leg, sunlit) for leg in legs]
    if not found:
        raise ValueError("a cable has at least one leg: what it carries depends on where it runs")
    return min(found, key=lambda one: one.amperes.value)


def _bears(row: Ampacity, section: str, celsius: float) -> bool:
    return row.section == section and row.insulation <= celsius


def _correction(method: Method, insulation: int, leg: Leg, sunlit: Sunlit) -> Figure:
    close = leg.roof_gap_mm is not None and leg.roof_gap_mm < sunlit.gap_mm
    celsius = leg.celsius + (sunlit.kelvin if close else 0)
    sums = f"{leg.celsius:g} °C + {sunlit.kelvin:g} K" if close else f"{leg.celsius:g} °C"
    column = [row for row in method.corrections if row.insulation == insulation]
    for row in sorted(column, key=lambda row: row.up_to):
        if celsius <= row.up_to:
            source = f"{row.source}; {sunlit.source}" if close else row.source
            return Figure(f"correction for {sums} in {leg.name}", row.factor, "", f"{row.factor:g}", source)
    most = max((row.up_to for row in column), default=math.nan)
    raise ValueError(
        f"{method.name} ends at {most:g} °C for insulation of {insulation} °C, {leg.name} has {celsius:g} °C"
    )


def _adjustment(method: Method, leg: Leg, together: int) -> Figure:
    name = f"adjustment for {leg.conductors} conductors together in {leg.name}"
    if leg.length_mm <= method.bundle_mm:
        reason = f"{method.name}: a bundle of up to {method.bundle_mm:g} mm does not count"
        return Figure(name, 1.0, "", "1", reason)
    count = math.ceil(leg.conductors / together)
    for row in sorted(method.adjustments, key=lambda row: row.up_to):
        if count <= row.up_to:
            source = f"{row.source}; {method.note}" if method.note else row.source
            return Figure(name, row.factor, "", f"{row.factor:g}", source)
    most = max((row.up_to for row in method.adjustments), default=0)
    raise ValueError(f"{method.name} ends at {most:g} together, and {leg.name} has {count}")
