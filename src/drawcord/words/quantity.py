"""Types for the fields of the models: quantities as people write them, read while the model is built.

A bare number takes the unit that its file states once; who validates passes it as `context={"unit": "mm"}`.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, NamedTuple

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, Strict, ValidationInfo
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from drawcord.words.amount import shown
from drawcord.words.units import (
    LONGEST,
    LONGEST_CABLE,
    THICKEST_CABLE,
    WIDEST_BEND,
    WIDEST_PLUG,
    length_and_unit,
    parse_amperes,
    parse_bore,
    parse_celsius,
    parse_length,
    parse_minutes,
    parse_percent,
    parse_range,
    parse_thickness,
    parse_volts,
    two_ends,
)

BASES = ("ground", "bay", "belly", "floor", "ceiling", "roof")
MAIN = "main"  # the base of a height that names none: the main floor, where z is nothing

_HEIGHT = re.compile(rf"({'|'.join(BASES)})(?: *([+-]) *([^ +-].*))?")


class Height(NamedTuple):
    """A level as the sketch names it: one of BASES or MAIN, and how far above it [mm]."""

    base: str
    offset: int

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(
            lambda value, info: value if isinstance(value, cls) else parse_height(value, _bare(info))
        )

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {
            "type": ["string", "number"],
            "examples": ["floor+900 mm", "ceiling - 12 in", "roof", "350 mm"],
        }


def parse_height(value: object, bare: str | None = None) -> Height:
    """A height from `floor+900 mm`, `ceiling` or a length above the main floor. Raises ValueError."""
    return _height_and_unit(value, bare)[0]


def parse_rise(value: object, bare: str | None = None) -> tuple[Height, Height]:
    """The lower and upper end of `floor..ceiling` or `0..350 mm`; the last unit serves the first number.

    Raises ValueError, also if both ends stand on the same base and leave nothing between them.
    """
    low, high = two_ends(value)
    top, unit = _height_and_unit(high, bare)
    bottom, _ = _height_and_unit(low, unit)
    if bottom.base == top.base and bottom.offset >= top.offset:
        raise ValueError(f"{shown(value)} leaves no height: the lower end comes first")
    return bottom, top


def _height_and_unit(value: object, bare: str | None) -> tuple[Height, str | None]:
    found = _HEIGHT.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None:
        if isinstance(value, str) and value.strip()[:1].isalpha():
            bases = ", ".join(BASES)
            raise ValueError(f"{shown(value)} is no height: write a length, or {bases}, or such as floor+900 mm")
        offset, unit = length_and_unit(value, bare)
        return Height(MAIN, offset), unit
    base, sign, above = found.groups()
    if above is None:
        return Height(base, 0), bare
    offset, unit = length_and_unit(above, bare)
    return Height(base, -offset if sign == "-" else offset), unit


def _bare(info: ValidationInfo) -> str | None:
    unit: str | None = (info.context or {}).get("unit")
    return unit


@dataclass(frozen=True, eq=False)
class Reads:
    """Says of a field that one function reads it, and how it looks in a file.

    `read` takes what stands in the file and, if `bare`, the unit of its bare numbers; it raises ValueError. Hundreds
    of fields are quantities; to pydantic this is half the work of a validator before a type that it checks again.
    """

    read: Callable[..., object]
    form: JsonSchemaValue
    bare: bool = False

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Whatever `read` returns is taken."""
        if not self.bare:
            return core_schema.no_info_plain_validator_function(self.read)
        return core_schema.with_info_plain_validator_function(lambda value, info: self.read(value, _bare(info)))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        """What an editor accepts."""
        return self.form


def _positive(most: tuple[int, str] = LONGEST) -> Reads:
    """Reads a length of more than nothing and no more than `most`, as in `units`."""

    def read(value: object, bare: str | None) -> int:
        if (size := parse_length(value, bare, most)) <= 0:
            raise ValueError(f"{shown(value)} must be more than nothing")
        return size

    return Reads(read, _SIZES, bare=True)


def _bore(value: object, bare: str | None) -> float:
    if (size := parse_bore(value, bare, WIDEST_PLUG)) <= 0:
        raise ValueError(f"{shown(value)} must be more than nothing")
    return float(size)


def _thickness(value: object, bare: str | None) -> int:
    if (size := parse_thickness(value, bare, THICKEST_CABLE)) <= 0:
        raise ValueError(f"{shown(value)} must be more than nothing")
    return size


def _not_negative(value: object, bare: str | None) -> int:
    if (size := parse_length(value, bare)) < 0:
        raise ValueError(f"{shown(value)} must not be less than nothing")
    return size


def _text(*examples: str) -> JsonSchemaValue:
    return {"type": "string", "examples": list(examples)}


def _text_or_number(*examples: str) -> JsonSchemaValue:
    return {"type": ["string", "number"], "examples": list(examples)}


def _text_or_pair(*examples: str) -> JsonSchemaValue:
    pair = {"type": "array", "items": {"type": ["string", "number"]}, "minItems": 2, "maxItems": 2}
    return {"anyOf": [{"type": "string"}, pair], "examples": list(examples)}


_SIZES = _text_or_number("600 mm", "2.3 m", "90 in", "7' 6 1/2\"")

Whole = Annotated[int, Strict()]  # strict, since true and false are no numbers
Number = Annotated[float, Strict()]
Length = Annotated[int, Reads(parse_length, _SIZES, bare=True)]  # [mm]
CableLength = Annotated[int, _positive(LONGEST_CABLE)]  # [mm]
Thickness = Annotated[int, Reads(_thickness, _SIZES, bare=True)]  # of a cable, rounded up [mm]
PlugWidth = Annotated[int, _positive(WIDEST_PLUG)]  # [mm]
Bore = Annotated[float, Reads(_bore, _SIZES, bare=True)]  # to a tenth, as bits are sold [mm]
Bend = Annotated[int, _positive(WIDEST_BEND)]  # [mm]
Positive = Annotated[int, _positive()]  # [mm]
NotNegative = Annotated[int, Reads(_not_negative, _SIZES, bare=True)]  # [mm]
Range = Annotated[tuple[int, int], Reads(parse_range, _text_or_pair("6.70..7.09 m"), bare=True)]  # [mm]
Rise = Annotated[tuple[Height, Height], Reads(parse_rise, _text_or_pair("floor..ceiling", "0..350 mm"), bare=True)]
Minutes = Annotated[int, Reads(parse_minutes, _text("15 min", "90 s", "0.5 h"))]  # [s]
Celsius = Annotated[float, Reads(parse_celsius, _text("-20 °C", "14 °F"))]  # [°C]
Amperes = Annotated[float, Reads(parse_amperes, _text("12.5 A"))]  # [A]
Volts = Annotated[float, Reads(parse_volts, _text("12.8 V"))]  # [V]
Fraction = Annotated[float, Reads(parse_percent, _text_or_number("60 %"))]  # from 0 to 1
