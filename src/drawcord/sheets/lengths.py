"""Lengths as sheets and tables say them: no finer than a tape in a vehicle, a bore never too small."""

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
