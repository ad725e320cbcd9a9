"""What a person will not have exceeded, whatever the weighting says."""

from typing import Annotated

from pydantic import AfterValidator, Field

from drawcord.coach.closed import Closed
from drawcord.words.quantity import CableLength, Fraction, Minutes, NotNegative, Number, Whole

Holes = Annotated[Whole, Field(ge=0, le=20)]


def _possible(chance: float) -> float:
    if chance <= 0:
        raise ValueError("every way has a chance of 0 % or more: leave this limit out, or ask for more")
    return chance


class Limits(Closed):
    """What no candidate may exceed; what is left out has no limit but the shop's own."""

    length: CableLength | None = Field(None, description="The most it may measure.")
    longer_than_shortest: NotNegative | None = Field(
        None, description="The most it may be longer than the shortest way there is."
    )
    times_shortest: Annotated[Number, Field(ge=1, le=1000)] | None = Field(
        None, description="How many times as long as the shortest way there is it may be at most."
    )
    in_sight: NotNegative | None = Field(None, description="The most that may run in sight; `0 m` for no raceway.")
    roof_holes: Holes | None = Field(None, description="The most new holes through the roof.")
    inner_holes: Holes | None = Field(None, description="The most new holes inside.")
    minutes: Minutes | None = Field(None, description="The most that the work may take.")
    chance_clear: Annotated[Fraction, AfterValidator(_possible)] | None = Field(
        None, description="How likely all of it has to be clear, at least."
    )

    def over(self, other: "Limits") -> "Limits":
        """These limits, and where they say nothing the others."""
        return self.model_copy(update={name: getattr(other, name) for name in set(Limits.model_fields) - self.said})

    @property
    def said(self) -> set[str]:
        """The fields that hold a limit."""
        return {name for name in Limits.model_fields if getattr(self, name) is not None}
