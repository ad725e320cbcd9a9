"""Lengths as sheets and tables say them: no finer than a tape in a vehicle, a bore never too small."""

from drawcord.words.units import format_length

PARTS = 8  # of an inch; measuring in a vehicle misses by more than a sixteenth
EIGHTH = 25.4 / PARTS  # [mm]


def length(mm: int, units: str | None) -> str:
    """A length in the reader's units (`mm`, `m` or `in`); without units a bare number, for a spreadsheet."""
    return format_length(mm, units, PARTS) if units else str(mm)


def bore(mm: int, units: str | None) -> str:
    """A bore's diameter, in inches the next eighth that is no less; never in metres."""
    if units == "in":
        return length(round(-(-mm // EIGHTH) * EIGHTH), units)
    return length(mm, units and "mm")
