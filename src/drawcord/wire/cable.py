"""A type of cable, as a shop stocks it."""

from dataclasses import dataclass

from drawcord.wire.conductor import Metal, Standard, awg_area_mm2, awg_number
from drawcord.wire.possible import above_zero, named


@dataclass(frozen=True)
class CableType:
    """One core's section for power, `10 AWG` or `6 mm2`, or the loss of coax; neither for data.

    `insulation_celsius` is what the insulation bears [°C], `diameter_mm` the outside diameter and `bend_mm`
    the smallest bend radius [mm], `zones` where it may run, `loss_db_per_m` the loss of coax [dB/m].

    Raises:
        ValueError: a number that no cable can have, a section that is none, a power cable without a metal.

    """

    name: str
    section: str | None
    metal: Metal | None
    insulation_celsius: float
    diameter_mm: float
    sunlight_resistant: bool
    zones: tuple[str, ...]
    bend_mm: int
    loss_db_per_m: float | None = None

    def __post_init__(self) -> None:
        named("a cable's name", self.name)
        above_zero(f"the insulation temperature of {self.name}", self.insulation_celsius, "°C")
        above_zero(f"the outside diameter of {self.name}", self.diameter_mm, "mm")
        above_zero(f"the smallest bend of {self.name}", self.bend_mm, "mm")
        if not self.zones:
            raise ValueError(f"{self.name} may run in no zone: it could not be used anywhere")
        if (self.section is None) != (self.metal is None):
            raise ValueError(f"{self.name} needs both a section and a metal, or neither")
        if self.loss_db_per_m is not None:
            above_zero(f"the loss of {self.name}", self.loss_db_per_m, "dB/m")
            if self.section is not None:
                raise ValueError(f"{self.name} is either a power cable of {self.section} or coax, not both")
        if self.section is not None:
            copper = area_mm2(self.section)
            if copper >= 0.7854 * self.diameter_mm**2:
                raise ValueError(
                    f"{self.name}: {self.section} of copper does not fit into {self.diameter_mm:g} mm outside"
                )


def standard(section: str) -> Standard:
    """Whether a section is an American wire gauge or metric. Raises ValueError."""
    size, _, unit = section.partition(" ")
    if unit == "AWG":
        awg_number(size)
        return "AWG"
    if unit == "mm2":
        above_zero("a section", _number(size, section), "mm²")
        return "mm2"
    raise ValueError(f"a section is such as 10 AWG or 6 mm2, not {section!r}")


def area_mm2(section: str) -> float:
    """Nominal section of copper [mm²] of `10 AWG` or `6 mm2`. Raises ValueError."""
    size = section.partition(" ")[0]
    return awg_area_mm2(awg_number(size)) if standard(section) == "AWG" else float(size)


def _number(size: str, section: str) -> float:
    try:
        return float(size)
    except ValueError:
        raise ValueError(f"a section is such as 10 AWG or 6 mm2, not {section!r}") from None
