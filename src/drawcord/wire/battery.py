"""A battery bank, as its maker's sheet has it."""

from dataclasses import dataclass

from drawcord.wire.possible import above_zero, named


@dataclass(frozen=True)
class Battery:
    """Voltages [V] of the bank: `nominal`, `absorption` and, where it is equalised, `equalise`.

    `short_circuit_amperes` [A] is the prospective current into a short circuit, None if nobody knows it.

    Raises:
        ValueError: a voltage or current that is zero or no number, a charge voltage below the nominal one.

    """

    name: str
    nominal: float
    absorption: float
    equalise: float | None = None
    short_circuit_amperes: float | None = None

    def __post_init__(self) -> None:
        named("a battery's name", self.name)
        above_zero(f"the nominal voltage of {self.name}", self.nominal, "V")
        above_zero(f"the absorption voltage of {self.name}", self.absorption, "V")
        if self.absorption <= self.nominal:
            raise ValueError(
                f"{self.name} is charged at {self.absorption:g} V, which is not above its nominal "
                f"{self.nominal:g} V: no current would flow into it"
            )
        if self.equalise is not None and self.equalise < self.absorption:
            raise ValueError(
                f"{self.name} is equalised at {self.equalise:g} V, below its absorption at "
                f"{self.absorption:g} V: equalising is an overcharge"
            )
        if self.short_circuit_amperes is not None:
            above_zero(f"the short-circuit current of {self.name}", self.short_circuit_amperes, "A")

    @property
    def highest(self) -> float:
        """The highest charge voltage [V]."""
        return max(self.absorption, self.equalise or 0.0)
