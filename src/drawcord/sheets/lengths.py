"""Lengths as sheets and tables say them: no finer than a tape in a vehicle, a bore never too small; temperatures."""

import re
from fractions import Fraction

from drawcord.words.units import tape_length

EIGHTH = 25.4 / 8  # of an inch [mm]


def length(mm: int, units: str | None) -> str:
    """A length in the reader's units (`mm`, `cm`, `m` or `in`); without units a bare number, for a spreadsheet."""
    return tape_length(mm, units) if units else str(mm)


def bore(mm: int, units: str | None) -> str:
    """A bore's diameter, in inches the next eighth that is no less; never in metres."""
    if units == "in":
        return length(round(-(-mm // EIGHTH) * EIGHTH), units)
    return length(mm, units and "mm")


def degrees(text: str, units: str) -> str:
    """Text with °F behind each temperature in °C, for a reader in inches."""
    if units != "in":
        return text
    return re.sub(r"(-?\d+(?:\.\d+)?) °C", lambda found: f"{found[0]} ({fahrenheit(float(found[1]))} °F)", text)


def fahrenheit(celsius: float) -> str:
    """A temperature in degrees Fahrenheit, to a tenth."""
    return f"{round(celsius * 9 / 5 + 32, 1):g}"


def drill(mm: float, least: float, most: float, units: str | None) -> str:
    """The bit for a bore [mm]: metric, and in inches the coarsest that bores from `least` to `most`, if any does."""
    metric = f"{mm:g} mm" if units else f"{mm:g}"
    if units != "in":
        return metric
    for parts in (2, 4, 8, 16, 32, 64):
        size = Fraction(-(-Fraction(str(least)) * 10 * parts // 254), parts)
        if size * Fraction("25.4") <= Fraction(str(most)):
            whole, part = divmod(size, 1)
            said = " ".join(str(one) for one in (whole, part) if one)
            return f'{said}" ({metric})'
    return metric
