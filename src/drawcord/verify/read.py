"""The raw files: YAML taken as text alone, quantities as people write them."""

import json
import math
import re
import unicodedata
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

Data = dict[str, Any]

_SIZES = {
    "mm millimetre millimetres millimeter millimeters s sec second seconds a amp amps ampere amperes": "1",
    "cm centimetre centimetres centimeter centimeters": "10",
    "m metre metres meter meters ka": "1000",
    'in inch inches "': "25.4",
    "ft foot feet '": "304.8",
    "min minute minutes": "60",
    "h hour hours": "3600",
    "% percent": "0.01",
    "v volt volts c °c": "1",
    "f °f": "5/9",
}
UNITS = {unit: Fraction(size) for units, size in _SIZES.items() for unit in units.split()} | {"": Fraction(1)}
_PART = re.compile(r"((?:\d+[ -])?\d+/\d+|\d*[.,]?\d+) *([^\d\s.,/+-]*)[ -]*")


class Unreadable(Exception):
    """A file cannot be read as what it should be; says why in a sentence."""


def read(path: Path) -> Data:
    """What a JSON or YAML file holds, every scalar of YAML as text. Raises Unreadable."""

    def refuse(word: str) -> None:
        raise ValueError(f"{word} is no number")

    try:
        text = path.read_text(encoding="utf-8-sig")
        is_json = path.suffix == ".json"
        found = json.loads(text, parse_constant=refuse) if is_json else YAML(typ="base", pure=True).load(text)
    except (OSError, ValueError, RecursionError, YAMLError) as error:
        raise Unreadable(f"{path} cannot be read: {error}") from error
    if not isinstance(found, dict):
        raise Unreadable(f"{path} holds no keys with values")
    return found


@cache
def number(text: str, bare: str = "") -> Fraction:
    """A quantity in mm, s, A, V, °C or as a share; where it has no unit it is in `bare`. `7' 6 1/2"` adds up."""
    plain = unicodedata.normalize("NFKC", re.sub("([½¼¾⅛⅜⅝⅞])", r" \1", text.replace("º", "°")))
    for typed, signs in (("'", "[′’‘ʼ]"), ('"', "''|[″”“]"), ("/", "⁄"), ("-", "−"), (" ", r"\s+")):
        plain = re.sub(signs, typed, plain)
    total = Fraction(0)
    for size, unit in _PART.findall(plain.strip().lstrip("+- ")):
        whole, _, part = size.replace("-", " ").rpartition(" ")
        total += (int(whole or 0) + Fraction(part.replace(",", "."))) * UNITS[(unit or bare).casefold()]
    total = -total if plain.strip().startswith("-") else total
    return total - 32 * UNITS["f"] if plain.strip().casefold().endswith("f") else total


def mm(text: str, bare: str) -> int:
    """A length [mm]."""
    return round(number(text, bare))


def thick(text: str, bare: str) -> int:
    """A cable's outside diameter, up to the next whole one [mm]."""
    return math.ceil(number(text, bare))


def ends(value: str | list[str], bare: str) -> tuple[str, str, str]:
    """Both ends of a range as written, the first empty if there is but one, and the unit of a bare first one."""
    low, _, high = value.rpartition("..") if isinstance(value, str) else (value[0], "", value[1])
    unit = re.sub(r".*[\d\s]", "", high.strip()).casefold()
    return low.strip(), high.strip(), unit if unit in UNITS and unit else bare
