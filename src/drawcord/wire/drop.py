"""Voltage drop there and back on the hot conductor, and the smallest conductor that keeps a limit."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from drawcord.wire.conductor import COEFFICIENTS, Conductor, Metal, Standard, resistance
from drawcord.words.figure import Figure


class Drop(NamedTuple):
    """What a cable costs its circuit; each figure with its working."""

    ohms: Figure
    volts: Figure
    percent: Figure
    watts: Figure


@dataclass(frozen=True)
class Sizing:
    """The smallest conductor that keeps a limit, None if there is none; `tried` from thin to thick."""

    conductor: Conductor | None
    tried: tuple[tuple[Conductor, Drop], ...]


def drop(amperes: float, volts: float, one_way_mm: int, conductor: Conductor, celsius: float) -> Drop:
    """Drop of `amperes` [A] from a supply of `volts` [V] over `one_way_mm` [mm] of cable, there and back.

    `celsius` [°C] is the copper's temperature in service. The current is taken as given, so that a drop
    above 100 % means that the cable cannot carry it at that voltage at all.

    Raises:
        ValueError: a current or length below zero, a supply not above zero, a number that is not finite,
            a temperature outside the range of `resistance`.

    """
    _refuse(amperes, amperes >= 0, "a current is zero or more amperes")
    _refuse(volts, volts > 0, "a supply is above zero volts, or no percentage of it exists")
    _refuse(one_way_mm, one_way_mm >= 0, "a cable's length is zero or more millimetres")
    metres = one_way_mm / 1000
    ohms = 2 * metres / 1000 * resistance(conductor, celsius)
    lost = amperes * ohms
    reference = conductor.reference_celsius
    coefficient = COEFFICIENTS[reference]
    hot = f"(1 + {coefficient.per_kelvin:g}/K · ({celsius:g} - {reference:g}) K)"
    ohms_law = "Ohm's law on the loop resistance"
    return Drop(
        Figure(
            "loop resistance",
            ohms,
            "Ω",
            f"2 · {metres:.10g} m · {conductor.ohm_per_km:.6g} Ω/km / 1000 · {hot}",
            f"{conductor.source}; {coefficient.source}",
        ),
        Figure("voltage drop", lost, "V", f"{amperes:.6g} A · {ohms:.6g} Ω", ohms_law),
        Figure(
            "voltage drop of supply", 100 * lost / volts, "%", f"100 · {lost:.6g} V / {volts:.6g} V", ohms_law
        ),
        Figure("power lost", amperes * lost, "W", f"{amperes:.6g} A · {lost:.6g} V", ohms_law),
    )


def smallest(
    table: Iterable[Conductor],
    amperes: float,
    volts: float,
    one_way_mm: int,
    celsius: float,
    *,
    limit_percent: float,
    standard: Standard,
    metal: Metal,
) -> Sizing:
    """The thinnest conductor of `table`, of that standard and metal, whose drop is at most `limit_percent`.

    Only the drop is looked at: the current a conductor may carry is another question.

    Raises:
        ValueError: as `drop`; a limit outside 0 to 100 %; a table without such a conductor.

    """
    _refuse(limit_percent, 0 < limit_percent <= 100, "a drop limit is above 0 and at most 100 %")
    fitting = [one for one in table if (one.standard, one.metal) == (standard, metal)]
    if not fitting:
        raise ValueError(f"the table holds no {metal} copper in {standard}")
    tried: list[tuple[Conductor, Drop]] = []
    for one in sorted(fitting, key=lambda one: (one.area_mm2, one.label)):
        tried.append((one, drop(amperes, volts, one_way_mm, one, celsius)))
        if tried[-1][1].percent.value <= limit_percent:
            return Sizing(one, tuple(tried))
    return Sizing(None, tuple(tried))


def _refuse(value: float, possible: bool, reason: str) -> None:
    if not (possible and math.isfinite(value)):
        raise ValueError(f"{reason}, not {value}")
