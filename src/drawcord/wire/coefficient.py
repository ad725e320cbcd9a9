"""How a module's ratings change with the temperature of its cells; the unit is required, the sign checked."""

import math
import re
from dataclasses import dataclass
from typing import Literal

from drawcord.words.amount import NUMBER, number, shown, typed

Quantity = Literal["Voc", "Vmp", "Isc", "Pmp"]

STANDARD_CELSIUS = 25.0
"""Cell temperature that ratings stand for [°C]. Source: standard test conditions, IEC 60904-3."""

LEAST, MOST = 0.001, 0.01
"""Bounds on the change of voltage and power [1/K]; pvlib's table of 21 535 modules spans 0.0017 to 0.0085."""

PERCENT = "%/°C"
_ABSOLUTE = {"V": 1.0, "mV": 0.001, "A": 1.0, "mA": 0.001, "W": 1.0}
_BASES = {"Voc": ("V", "mV"), "Vmp": ("V", "mV"), "Isc": ("A", "mA"), "Pmp": ("W",)}
_TYPICAL = {"Voc": 0.0034, "Vmp": 0.0045, "Isc": 0.0005, "Pmp": 0.0045}  # medians of the same table [1/K]
_FORM = re.compile(rf"([+-]?) *({NUMBER}) *(?:(%|mV|V|mA|A|W) *(?:/|per) *(?:°? *C|K))?", re.IGNORECASE)
_SPELLED = {unit.casefold(): unit for unit in _ABSOLUTE}


@dataclass(frozen=True)
class TemperatureCoefficient:
    """Change of a rating with each kelvin, `value` in `unit`, as the maker's sheet has it.

    Raises:
        ValueError: a unit that does not fit, a number that is not finite, or the wrong sign: heat lowers
            voltage and power and raises the short-circuit current.

    """

    of: Quantity
    value: float
    unit: str

    def __post_init__(self) -> None:
        if self.unit not in units(self.of):
            raise ValueError(
                f"the coefficient of {self.of} is in {' or '.join(units(self.of))}, not {self.unit!r}"
            )
        if not math.isfinite(self.value):
            raise ValueError(f"the coefficient of {self.of} must be a number, not {self.value}")
        rises = self.of == "Isc"
        if self.value < 0 if rises else self.value >= 0:
            other = "Voc" if rises else "Isc"
            wrong = "fall" if rises else "rise"
            raise ValueError(
                f"{self.value:g} {self.unit} makes {self.of} {wrong} with heat: it could be {-self.value:g} "
                f"{self.unit} with the wrong sign, or the coefficient of {other}"
            )

    def per_kelvin(self, rated: float) -> float:
        """The change in the rating's own unit [V/K, A/K or W/K], where `rated` is the rating."""
        return self.relative(rated) * rated

    def relative(self, rated: float) -> float:
        """The change as a share of the rating [1/K]."""
        return self.value * _share(self.unit, rated)

    def __str__(self) -> str:
        return f"{self.value:g} {self.unit}"


def units(of: Quantity) -> tuple[str, ...]:
    """The units that a coefficient may come in."""
    return (PERCENT, *(f"{base}/°C" for base in _BASES[of]))


def parse_coefficient(value: object, of: Quantity, rated: float) -> TemperatureCoefficient:
    """The coefficient from `-0.27 %/°C`, `-0.13 V/°C` or `-134 mV/K`; `rated` is the rating it changes.

    Raises:
        ValueError: without a unit, with the two readings it could have; as `TemperatureCoefficient`.

    """
    found = _FORM.fullmatch(typed(value))
    if not found:
        raise ValueError(f"{shown(value)} is no coefficient of {of}: write -0.27 {PERCENT} or the like")
    sign, digits, base = found.groups()
    size = float(number(digits, value)) * (-1 if sign == "-" else 1)
    if base is None:
        raise ValueError(f"{shown(value)} has no unit: it could be {' or '.join(_readings(size, of, rated))}")
    return TemperatureCoefficient(of, size, f"{_SPELLED.get(base.casefold(), base)}/°C")


def _readings(size: float, of: Quantity, rated: float) -> list[str]:
    """The two units in which a bare number is nearest to what modules have, each with its share."""
    size = abs(size) * (1 if of == "Isc" else -1)

    def strange(unit: str) -> float:
        return abs(math.log(max(abs(size) * _share(unit, rated), 1e-12) / _TYPICAL[of]))

    nearest = sorted(units(of), key=strange)[:2]
    return [f"{size:g} {unit} ({100 * size * _share(unit, rated):.3g} % a kelvin)" for unit in nearest]


def _share(unit: str, rated: float) -> float:
    """What one of `unit` is as a share of `rated` a kelvin."""
    return 0.01 if unit == PERCENT else _ABSOLUTE[unit.removesuffix("/°C")] / rated
