"""A number with what it takes to trust it."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Figure:
    """One derived number: what it is, its unit, how it came about and on whose word.

    `formula` is the arithmetic with the numbers put in, so that a reader can repeat it.
    `source` names a standard with its edition and table, a file of the shop, or "geometry".
    """

    name: str
    value: float
    unit: str
    formula: str
    source: str
