"""Quantities as people write them, turned into the units used inside, and back.

Exact arithmetic throughout; where a whole number is asked for, a half rounds to the even neighbour. Every
parser raises a ValueError that is one sentence: the value, what is wrong and what would be right.
"""

import re
from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from drawcord.words.amount import NUMBER, Scale, number, read, shown, spelled, typed

# The most that a length may be [mm], and what it would be beyond: a slip of the pen.
LONGEST = (30_000, "longer than any vehicle")
LONGEST_CABLE = (500_000, "longer than any reel of cable")
THICKEST_CABLE = (60, "thicker than any cable")
WIDEST_PLUG = (100, "wider than any plug")
WIDEST_BEND = (1000, "wider than any cable's bend")
UNITS = ("mm", "cm", "m", "in", "ft")  # that a file may state once, for its bare lengths
LONGEST_WORK = 1000  # [h]
MOST_AMPERES = 100_000  # [A] above what a battery bank feeds into a short circuit
MOST_VOLTS = 1500  # [V] the upper end of low voltage for direct current
COLDEST, HOTTEST = Fraction("-273.15"), 1000  # [°C]

_FEET = r"(?:'|ft|foot|feet)"
_INCHES = r"(?:\"|in|inch|inches)"
_FEET_AND_INCHES = re.compile(rf"([+-]?) *([0-9]+) *{_FEET}[ -]*({NUMBER}) *{_INCHES}", re.IGNORECASE)
_LENGTH = Scale(
    "length",
    spelled(
        ("mm millimetre millimetres millimeter millimeters", 1),
        ("cm centimetre centimetres centimeter centimeters", 10),
        ("m metre metres meter meters", 1000),
        ('in inch inches "', Fraction("25.4")),
        ("ft foot feet '", Fraction("304.8")),
    ),
    "600 mm, 60 cm, 2.3 m, 90 in or 7' 6 1/2\"",
    f"{{0}} mm or {{0}} in, or state `units` once at the top of the file: {', '.join(UNITS[:-1])} or {UNITS[-1]}",
)
_TIME = Scale(
    "time",
    spelled(("s sec second seconds", 1), ("min minute minutes", 60), ("h hour hours", 3600)),
    "15 min, 90 s or 0.5 h",
    "{} min",
)
_TEMPERATURE = Scale(
    "temperature", spelled(("c °c", 1), ("f °f", Fraction(5, 9))), "-20 °C or 14 °F", "{} °C"
)
_CURRENT = Scale("current", spelled(("a amp amps ampere amperes", 1), ("ka", 1000)), "12.5 A", "{} A")
_VOLTAGE = Scale("voltage", spelled(("v volt volts", 1)), "12.8 V", "{} V")
_SHARE = Scale(
    "share",
    {"%": Fraction(1, 100), "percent": Fraction(1, 100), "": Fraction(1)},
    "60 %, or 0.6 as a fraction from 0 to 1",
    "{} %",
)


def parse_length(value: object, bare: str | None = None, longest: tuple[int, str] = LONGEST) -> int:
    """A length [mm], to the nearest whole one.

    `value` is text such as `7' 6 1/2"`, `7 ft 6 in`, `2.3 m` or `2,3 m`, or a number, whose unit is `bare`;
    `longest` is the most it may be [mm], and what it is beyond that. Raises ValueError.
    """
    return length_and_unit(value, bare, longest)[0]


def length_and_unit(value: object, bare: str | None, longest: tuple[int, str] = LONGEST) -> tuple[int, str | None]:
    """A length [mm] and the unit it was written in, None for feet with inches. Raises ValueError."""
    size, unit = _length_as_written(value, bare, longest)
    return round(size), unit


def parse_bore(value: object, bare: str | None = None, longest: tuple[int, str] = LONGEST) -> float:
    """The same to the nearest tenth, as bits are sold [mm]."""
    return round(_length_as_written(value, bare, longest)[0], 1)


def parse_thickness(value: object, bare: str | None = None, longest: tuple[int, str] = LONGEST) -> int:
    """The same up to the next whole one [mm]: what a cable has to pass is never taken too narrow."""
    return ceil(_length_as_written(value, bare, longest)[0])


def _length_as_written(value: object, bare: str | None, longest: tuple[int, str]) -> tuple[float, str | None]:
    unit: str | None = None
    text = typed(value)
    if found := _FEET_AND_INCHES.fullmatch(text):
        sign, feet, inches = found.groups()
        rest = number(inches, value)
        if rest >= 12:
            raise ValueError(f"{shown(value)} has {inches} inches beside its feet: twelve make another foot")
        size = (12 * int(feet) + rest) * _LENGTH.units["in"] * (-1 if sign == "-" else 1)
    else:
        size, unit = read(value, _LENGTH, bare)
    most, beyond = longest
    if abs(round(size)) > most:
        raise ValueError(f"{shown(value)} is {beyond} ({format_length(most, 'm' if most >= 1000 else 'mm')})")
    return float(size), unit


def parse_range(value: object, bare: str | None = None) -> tuple[int, int]:
    """A range [mm] from `6.70..7.09 m` or a list of two; the last unit serves a first number without one.

    Raises ValueError, also if the range is reversed or empty.
    """
    low, high = two_ends(value)
    last, unit = length_and_unit(high, bare)
    first, _ = length_and_unit(low, unit)
    if first >= last:
        how = "is empty" if first == last else "runs backwards"
        raise ValueError(f"{shown(value)} {how}: the first end must be less than the last")
    return first, last


def parse_minutes(value: object) -> int:
    """A time [s] from `15 min`, `90 s` or `0.5 h`. Raises ValueError."""
    seconds, _ = read(value, _TIME, None)
    bounds = f"a time lies between 0 and {LONGEST_WORK} h"
    return round(_within(value, seconds, 0, LONGEST_WORK * 3600, bounds))


def parse_celsius(value: object) -> float:
    """A temperature [°C] from `-20 °C`, `-20 C` or `14 °F`. Raises ValueError."""
    degrees, unit = read(value, _TEMPERATURE, None)
    if unit.endswith("f"):
        degrees -= 32 * _TEMPERATURE.units[unit]
    bounds = f"a temperature lies between {float(COLDEST)} and {HOTTEST} °C"
    return float(_within(value, degrees, COLDEST, HOTTEST, bounds))


def parse_amperes(value: object) -> float:
    """A current [A] from `12.5 A`. Raises ValueError."""
    amperes, _ = read(value, _CURRENT, None)
    return _positive(value, amperes, MOST_AMPERES, "a current", "A")


def parse_volts(value: object) -> float:
    """A voltage [V] from `12.8 V`. Raises ValueError."""
    volts, _ = read(value, _VOLTAGE, None)
    return _positive(value, volts, MOST_VOLTS, "a voltage", "V")


def parse_percent(value: object) -> float:
    """A fraction from 0 to 1, from `60 %` or from a bare `0.6`, which is a fraction already.

    Raises ValueError.
    """
    share, unit = read(value, _SHARE, "")
    meant = f"{typed(value)} %" if unit == "" and 1 < share <= 100 else _SHARE.right
    return float(_within(value, share, 0, 1, f"a share lies between 0 and 100 %: write {meant}"))


def format_length(mm: int, style: str, parts: int = 16) -> str:
    """`mm` [mm] for people: in style `mm`, `cm` or `m` exactly, in style `in` as feet, inches and `parts` of one."""
    if style == "mm":
        return f"{mm} mm"
    if style == "cm":
        return f"{mm / 10:.1f}".removesuffix(".0") + " cm"
    if style == "m":
        return f"{mm / 1000:.3f}".rstrip("0").rstrip(".") + " m"
    whole = round(Fraction(mm * 10 * parts, 254))
    inches, part = divmod(abs(whole), parts)
    feet, inches = divmod(inches, 12)
    text = f"{inches} {Fraction(part, parts)}" if part else f"{inches}"
    text = f"{feet}' {text}" if feet else text.removeprefix("0 ")
    return f'{"-" if whole < 0 else ""}{text}"'


def tape_length(mm: int, style: str) -> str:
    """`mm` [mm] for people with a tape: in inches to the eighth, as measuring in a vehicle misses by more."""
    return format_length(mm, style, 8)


def format_width(mm: int, style: str) -> str:
    """A width, diameter or bend [mm] of a cable or hole, for people: in mm, as these are sold, or in inches."""
    return format_length(mm, "in" if style == "in" else "mm")


def format_lengths(values: Sequence[int], style: str, between: str) -> str:
    """Several lengths [mm] for people, with `between` between them and a common unit once: `5 to 60 mm`."""
    texts = [format_length(mm, style) for mm in values]
    return between.join([*(text.removesuffix(f" {style}") for text in texts[:-1]), texts[-1]])


def format_minutes(seconds: int) -> str:
    """`seconds` [s] for people: whole minutes, but seconds where these are few and say more."""
    if seconds < 120 and seconds % 60:
        return f"{seconds} s"
    return f"{round(Fraction(seconds, 60))} min"


def two_ends(value: object) -> tuple[object, object]:
    """The ends of `a..b`, or of a list of two, as written. Raises ValueError."""
    if isinstance(value, str) and value.count("..") == 1 and "..." not in value:
        low, _, high = value.partition("..")
        if low.strip() and high.strip():
            return low.strip(), high.strip()
    elif isinstance(value, Sequence) and not isinstance(value, str) and len(value) == 2:
        return value[0], value[1]
    raise ValueError(f"{shown(value)} is no range: write its two ends, such as 6.70..7.09 m")


def _within(value: object, size: Fraction, least: Fraction | int, most: int, rule: str) -> Fraction:
    if not least <= size <= most:
        raise ValueError(f"{shown(value)} is out of bounds: {rule}")
    return size


def _positive(value: object, size: Fraction, most: int, what: str, unit: str) -> float:
    if not 0 < size <= most:
        raise ValueError(f"{shown(value)} is out of bounds: {what} is more than 0 and up to {most} {unit}")
    return float(size)
