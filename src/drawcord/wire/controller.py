"""A charge controller, as its maker's sheet has it."""

from dataclasses import dataclass
from typing import Literal

from drawcord.wire.possible import above_zero, named, one_or_more, zero_or_more

Grounding = Literal["negative", "positive", "floating"]
"""Which pole the array shares with the battery: common negative, common positive, or neither."""


@dataclass(frozen=True)
class Controller:
    """What the controller bears and needs; the input limits hold for each tracker.

    `highest_volts` [V] and `short_circuit_amperes` [A] of an array; `running_margin` and `starting_margin`
    how far above the battery's voltage the array has to be to charge and to start charging [V];
    `output_amperes` [A]; `terminal_mm2` the thinnest and thickest conductor of its terminals [mm²].

    Raises:
        ValueError: a limit that is zero or no number, a range that runs backwards.

    """

    name: str
    highest_volts: float
    short_circuit_amperes: float
    running_margin: float
    starting_margin: float
    output_amperes: float
    trackers: int
    terminal_mm2: tuple[float, float]
    grounding: Grounding

    def __post_init__(self) -> None:
        named("a controller's name", self.name)
        above_zero(f"the highest input voltage of {self.name}", self.highest_volts, "V")
        above_zero(f"the input short-circuit limit of {self.name}", self.short_circuit_amperes, "A")
        zero_or_more(f"the running margin of {self.name}", self.running_margin, "V")
        zero_or_more(f"the start-up margin of {self.name}", self.starting_margin, "V")
        above_zero(f"the output current of {self.name}", self.output_amperes, "A")
        one_or_more(f"the trackers of {self.name}", self.trackers)
        thin, thick = self.terminal_mm2
        above_zero(f"the thinnest conductor of {self.name}", thin, "mm²")
        above_zero(f"the thickest conductor of {self.name}", thick, "mm²")
        if thin > thick:
            raise ValueError(f"the terminals of {self.name} run backwards: {thin:g} to {thick:g} mm²")

    @property
    def ungrounded(self) -> tuple[str, ...]:
        """The array's poles that a disconnect has to open, where the battery's negative is on the chassis."""
        return ("positive",) if self.grounding == "negative" else ("positive", "negative")
