"""How much of a raceway cables may fill, how wide they are together, and what passes beside what."""

import math
from collections.abc import Iterable, Sequence

from drawcord.wire.possible import above_zero, one_or_more
from drawcord.wire.published import Fill
from drawcord.words.figure import Figure


def fill_of(rows: Iterable[Fill], cables: int) -> Fill:
    """The row for so many cables in one raceway. Raises ValueError for none, or for more than the table holds."""
    one_or_more("the cables in a raceway", cables)
    found = min((row for row in rows if row.up_to >= cables), key=lambda row: row.up_to, default=None)
    if found is None:
        raise ValueError(f"the table of fill ends before {cables} cables")
    return found


def least_inside(rows: Iterable[Fill], diameters: Sequence[float]) -> Figure:
    """The least section inside a raceway [mm²] for cables of these outside diameters [mm]. Raises ValueError."""
    row = fill_of(rows, len(diameters))
    for diameter in diameters:
        above_zero("an outside diameter", diameter, "mm")
    filled = math.pi / 4 * sum(diameter**2 for diameter in diameters)
    counted = " + ".join(f"({diameter:g} mm)²" for diameter in diameters)
    formula = f"π / 4 · ({counted}) / {row.share:g}"
    return Figure("least section inside a raceway", filled / row.share, "mm²", formula, row.source)


def across(count: int, diameter: float) -> float:
    """How wide a round bundle of equal cables is [mm]: a ring of them, from the seventh on around one in the middle.

    No bundle is narrower up to nine cables; beyond, a ring is somewhat wider than it need be. Raises ValueError.
    """
    one_or_more("the cables of a bundle", count)
    above_zero("an outside diameter", diameter, "mm")
    ring = count if count < 7 else count - 1
    return diameter if count == 1 else diameter * (1 + 1 / math.sin(math.pi / ring))


def pass_each_other(one: float, other: float, wide: float, deep: float) -> bool:
    """Whether two round things [mm] have room beside each other in a rectangle of `wide` by `deep` [mm]."""
    if max(one, other) > min(wide, deep):
        return False
    apart = (one + other) / 2
    return math.hypot(wide - apart, deep - apart) >= apart
