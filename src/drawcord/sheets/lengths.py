"""Lengths as sheets and tables say them: no finer than a tape in a vehicle, a bore never too small."""

from fractions import Fraction

from drawcord.words.units import tape_length

EIGHTH = 25.4 / 8  # of an inch [mm]


def length(mm: int, units: str | None) -> str:
    """A length in the reader's units (`mm`, `m` or `in`); without units a bare number, for a spreadsheet."""
    return tape_length(mm, units) if units else str(mm)


def bore(mm: int, units: str | None) -> str:
    """A bore's diameter, in inches the next eighth that is no less; never in metres."""
    if units == "in":
        return length(round(-(-mm // EIGHTH) * EIGHTH), units)
    return length(mm, units and "mm")


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
