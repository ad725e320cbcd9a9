"""A number with a unit, as people type it: exact, and refused where it can be read in two ways."""

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

_FEET_SIGNS = "\N{PRIME}\N{RIGHT SINGLE QUOTATION MARK}\N{LEFT SINGLE QUOTATION MARK}\N{MODIFIER LETTER PRIME}"
_INCH_SIGNS = "\N{DOUBLE PRIME}\N{RIGHT DOUBLE QUOTATION MARK}\N{LEFT DOUBLE QUOTATION MARK}"
_TYPED = str.maketrans(
    dict.fromkeys(_FEET_SIGNS, "'")
    | dict.fromkeys(_INCH_SIGNS, '"')
    | {"\N{MINUS SIGN}": "-", "\N{FRACTION SLASH}": "/", "º": "°", "℃": "°C", "℉": "°F"}
    | {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
)
NUMBER = r"(?:[0-9]+[ -])?[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+"
_FORM = re.compile(rf"([+-]?) *({NUMBER}) *([^\d\s.,/+-][^\d.,/+-]*)?")
_TWO_READINGS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


class Scale(NamedTuple):
    """One kind of quantity, with every spelling of its units and their sizes in the unit used inside."""

    what: str
    units: dict[str, Fraction]
    right: str  # how to write it
    instead: str  # how to write a number {} that came without a unit


class NoUnit(ValueError):
    """A number without a unit where the file states none for all; `what` is the kind of quantity."""

    def __init__(self, what: str, sentence: str) -> None:
        super().__init__(sentence)
        self.what = what


def spelled(*units: tuple[str, Fraction | int]) -> dict[str, Fraction]:
    """The sizes of units by spelling, from pairs of all spellings of a unit and its size."""
    return {spelling: Fraction(size) for spellings, size in units for spelling in spellings.split()}


def read(value: object, scale: Scale, bare: str | None) -> tuple[Fraction, str]:
    """The size of text or a number in the unit used inside, and the unit it came in; `bare` if in none.

    Raises ValueError, NoUnit where a unit is all that is missing.
    """
    found = _FORM.fullmatch(typed(value))
    if not found:
        raise ValueError(f"{shown(value)} is no {scale.what}: write {scale.right}")
    sign, digits, unit = found.groups()
    size = number(digits, value)
    if unit is None:
        if not isinstance(bare, str):  # it comes from a file, so it may be anything
            raise NoUnit(scale.what, f"{sign}{digits} has no unit: write {scale.instead.format(sign + digits)}")
        unit = bare
    unit = unit.strip().casefold()
    if unit not in scale.units:
        raise ValueError(f"{shown(unit)} in {shown(value)} is no unit of {scale.what}: write {scale.right}")
    return size * scale.units[unit] * (-1 if sign == "-" else 1), unit


def typed(value: object) -> str:
    """Text or a number with typographic signs as typed on a keyboard; nothing for what is neither."""
    if isinstance(value, str) and len(value) <= 60:
        return " ".join(value.translate(_TYPED).replace("''", '"').split())
    if isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < 10**15:
        return str(value)
    return ""


def number(digits: str, value: object) -> Fraction:
    """What NUMBER matched: `6`, `2.3`, `2,3`, `1/2`, `6 1/2`. Raises ValueError, quoting `value`."""
    if _TWO_READINGS.fullmatch(digits):
        whole, _, rest = digits.partition(",")
        raise ValueError(f"{shown(value)} can be read in two ways: write {whole}.{rest} or {whole}{rest}")
    if "/" not in digits:
        return Fraction(digits.replace(",", "."))
    mixed, _, below = digits.partition("/")
    whole, _, above = mixed.replace("-", " ").rpartition(" ")
    if int(below) == 0:
        raise ValueError(f"{shown(value)} divides by nothing: write a fraction such as 1/2")
    return int(whole or 0) + Fraction(int(above), int(below))


def shown(value: object) -> str:
    """`value` as a sentence quotes it."""
    if isinstance(value, str):
        text = " ".join(value.split())
        return f"`{text if len(text) <= 40 else text[:37] + '...'}`"
    if value is None:
        return "an empty value"
    if isinstance(value, bool):
        return "`true`" if value else "`false`"
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, Sequence):
        return "a list"
    if isinstance(value, int) and abs(value) >= 10**15:
        return "a number of more than fifteen digits"
    return f"`{value}`"
