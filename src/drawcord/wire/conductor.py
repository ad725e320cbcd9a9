"""Copper conductors: their resistance at a temperature, and the American wire gauge."""

import math
from dataclasses import dataclass
from typing import Literal

Metal = Literal["plain", "tinned"]
Standard = Literal["AWG", "mm2"]

COLDEST, HOTTEST = -40.0, 120.0
"""Where copper's resistance is taken as linear [°C]: pure copper keeps to it within 0.2 % (see the tests)."""


@dataclass(frozen=True)
class Coefficient:
    """How much of its resistance at the reference temperature copper gains with each kelvin [1/K]."""

    per_kelvin: float
    source: str


COEFFICIENTS = {
    20.0: Coefficient(0.00393, "NBS Handbook 100, annealed copper at 20 °C"),
    75.0: Coefficient(0.00323, "NEC chapter 9 table 8, note for copper at 75 °C"),
}
"""By the temperature a table refers to [°C]; for any other there is no published value here."""


@dataclass(frozen=True)
class Conductor:
    """One row of a resistance table.

    `label` is what a job file says, "10 AWG" or "6 mm2"; `area_mm2` the nominal section [mm²];
    `ohm_per_km` the resistance of one conductor [Ω/km] at `reference_celsius` [°C].

    Raises:
        ValueError: a section or resistance that is no positive number, or a reference temperature
            without a published coefficient.

    """

    label: str
    area_mm2: float
    ohm_per_km: float
    reference_celsius: float
    metal: Metal
    standard: Standard
    source: str

    def __post_init__(self) -> None:
        for what, value in (("section", self.area_mm2), ("resistance", self.ohm_per_km)):
            if not (math.isfinite(value) and value > 0):
                raise ValueError(f"the {what} of {self.label} must be above zero, not {value}")
        if self.reference_celsius not in COEFFICIENTS:
            known = " or ".join(f"{celsius:g}" for celsius in COEFFICIENTS)
            raise ValueError(
                f"copper's temperature coefficient is known for tables at {known} °C, "
                f"not at {self.reference_celsius}"
            )


def resistance(conductor: Conductor, celsius: float) -> float:
    """Resistance of one conductor [Ω/km] at `celsius` [°C]: R = R0 (1 + a0 (T - T0)).

    Source: NEC chapter 9 table 8, note. Valid from COLDEST to HOTTEST.

    Raises:
        ValueError: a temperature outside that range.

    """
    if not COLDEST <= celsius <= HOTTEST:
        raise ValueError(f"copper is taken as linear from {COLDEST:g} to {HOTTEST:g} °C, not at {celsius}")
    per_kelvin = COEFFICIENTS[conductor.reference_celsius].per_kelvin
    return conductor.ohm_per_km * (1 + per_kelvin * (celsius - conductor.reference_celsius))


_GAUGES = {f"{1 - n}/0": n for n in range(-3, 1)} | {str(n): n for n in range(1, 45)}


def awg_number(size: str) -> int:
    """The number that the gauge's formula takes: 10 for "10", 0 for "1/0", -1 for "2/0".

    Raises:
        ValueError: a size outside 4/0 to 44, where ASTM B258 follows the formula.

    """
    if size not in _GAUGES:
        raise ValueError(f"a wire gauge is 4/0 to 1/0 or 1 to 44, not {size!r}")
    return _GAUGES[size]


def awg_diameter_mm(number: int) -> float:
    """Diameter of the solid wire [mm]: 0.127 · 92^((36 - n) / 39). Source: ASTM B258-02."""
    return float(0.127 * 92 ** ((36 - number) / 39))


def awg_area_mm2(number: int) -> float:
    """Section of the solid wire [mm²], which is the nominal section of a stranded one too."""
    return math.pi / 4 * awg_diameter_mm(number) ** 2
