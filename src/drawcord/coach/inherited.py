"""A cable that was in the vehicle before: what can be read off it and seen of it."""

from typing import Literal, Self

from pydantic import Field
from pydantic import model_validator as validator

from drawcord.coach.catalogue import Section
from drawcord.coach.closed import Closed
from drawcord.wire.conductor import Metal
from drawcord.words.quantity import CableLength, Celsius, Whole


class Inherited(Closed):
    """A pair of conductors that is in the vehicle already and might serve the array."""

    start: str = Field(alias="from", description="The terminal it starts at, or is to be joined to: `junction.pv`.")
    end: str = Field(alias="to", description="The terminal that it ends at: `controller.pv`.")
    section: Section = Field(description="Of one conductor, as printed on it.")
    metal: Metal = Field("plain", description="Plain or tinned copper.")
    insulation: Celsius = Field(
        description="What its insulation bears; where nothing is printed on it, the least there may be."
    )
    length: CableLength = Field(description="One way, from end to end.")
    together: Whole = Field(
        2, ge=2, le=60, description="Current-carrying conductors together along it, with its own; 2 if left out."
    )
    sunlit: bool = Field(False, description="Whether part of it lies on the roof in the sun.")
    sunlight_resistant: bool = Field(False, description="Whether it says so on its sheath.")
    joints: Whole | None = Field(
        None, ge=0, le=24, description="Joints along it, its ends not counted; left out if nobody has looked."
    )
    hidden_joints: Whole = Field(0, ge=0, le=24, description="Those of its joints that no hand reaches.")
    condition: Literal["unknown", "sound", "damaged"] = Field(
        "unknown", description="What was found: sound if its insulation was looked at and tested."
    )

    @validator(mode="after")
    def _possible(self) -> Self:
        if self.joints is not None and self.hidden_joints > self.joints:
            raise ValueError(f"{self.hidden_joints} hidden joints are more than its {self.joints} joints")
        return self
