"""An overcurrent device or switch, as its maker's sheet has it."""

from dataclasses import dataclass
from typing import Literal

from drawcord.wire.possible import above_zero, named, one_or_more

Kind = Literal["breaker", "fuse", "switch"]
Current = Literal["DC", "AC"]


@dataclass(frozen=True)
class Device:
    """Ratings for one kind of `current`: `volts` [V], `amperes` [A] and what it interrupts at that voltage [A].

    `interrupting_amperes` is None if the sheet does not say; `polarised` if it only opens in one direction of
    the current; `switch_rated` if it may be opened under load; `poles` how many conductors it opens.

    Raises:
        ValueError: a rating that is zero or no number, or that such a device cannot have.

    """

    name: str
    kind: Kind
    volts: float
    amperes: float
    interrupting_amperes: float | None
    polarised: bool
    switch_rated: bool
    poles: int
    current: Current = "DC"

    def __post_init__(self) -> None:
        named("a device's name", self.name)
        above_zero(f"the {self.current} voltage of {self.name}", self.volts, "V")
        above_zero(f"the current of {self.name}", self.amperes, "A")
        one_or_more(f"the poles of {self.name}", self.poles)
        if self.interrupting_amperes is not None:
            above_zero(f"the interrupting rating of {self.name}", self.interrupting_amperes, "A")
            if self.kind != "switch" and self.interrupting_amperes < self.amperes:
                raise ValueError(
                    f"{self.name} carries {self.amperes:g} A but would interrupt only "
                    f"{self.interrupting_amperes:g} A: is that in kA?"
                )
        if self.kind == "fuse" and self.polarised:
            raise ValueError(f"{self.name} is a fuse: a wire melts whichever way the current flows")
        if self.kind == "fuse" and self.switch_rated:
            raise ValueError(f"{self.name} is a fuse: its link is no switch, only its holder could be one")
