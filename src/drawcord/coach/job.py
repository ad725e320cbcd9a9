"""One vehicle and one order, as a person writes it."""

import re
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, Field, model_validator

from drawcord.coach.catalogue import Types
from drawcord.coach.closed import Closed, Id
from drawcord.coach.inherited import Inherited
from drawcord.coach.limits import Limits
from drawcord.coach.place import Spot
from drawcord.coach.rig import (
    Access,
    Doubt,
    Format,
    Hazard,
    MovingPart,
    Obstruction,
    Passage,
    RoofObstacle,
    Space,
    Unit,
)
from drawcord.wire.conductor import COLDEST, HOTTEST
from drawcord.words.quantity import (
    Amperes,
    Bend,
    CableLength,
    Celsius,
    Fraction,
    Number,
    PlugWidth,
    Thickness,
    Volts,
    Whole,
)

NO_CONNECTOR = "none"
Criterion = Literal["length", "in sight", "roof holes", "inner holes", "minutes", "doubt"]


def either_way_round(name: str) -> str:
    """A passage between two spaces is called by both, in order; people need not know which comes first."""
    return "~".join(sorted(part.strip() for part in name.split("~")))


class Found(Doubt):
    """What was found out about one space or passage of this vehicle."""

    what: Annotated[str, AfterValidator(either_way_round)] = Field(
        description="The id of a space or a passage: `linen`, `linen~bay_c2`."
    )


class Differences(Closed):
    """How this vehicle differs from its rig model; an entry with a known id replaces the rig's."""

    found: list[Found] = Field(default=[], description="Spaces and passages proven, unproven or blocked.")
    spaces: dict[Id, Space] = Field(default={}, description="Spaces added or changed.")
    moving_parts: dict[Id, MovingPart] = Field(default={}, description="Moving parts added or changed.")
    roof_obstacles: dict[Id, RoofObstacle] = Field(default={}, description="Roof obstacles added or changed.")
    hazards: dict[Id, Hazard] = Field(default={}, description="Hazards added or changed.")
    obstructions: dict[Id, Obstruction] = Field(default={}, description="Obstructions added or changed.")
    access: dict[Id, Access] = Field(default={}, description="Ways to reach in added or changed.")
    passages: dict[Id, Passage] = Field(default={}, description="Passages added or changed.")
    removed: list[Id] = Field(default=[], description="Ids of the rig's entries that this vehicle does not have.")


class Equipment(Spot):
    """A device and where it sits."""

    kind: Literal[
        "junction box",
        "solar module",
        "charge controller",
        "battery",
        "inverter",
        "shore inlet",
        "generator",
        "distribution panel",
        "socket outlet",
        "antenna",
        "router",
        "screen",
    ] = Field(description="What it is.")
    space: Id = Field(alias="in", description="The space it sits in; `roof` for what stands on the roof.")
    type: Id | None = Field(None, description="Its type, for a solar module, charge controller or battery.")
    plane: Id | None = Field(
        None, description="Of a solar module: like modules of one plane lie alike and share sun and shade."
    )
    short_circuit: Amperes | None = Field(
        None,
        description="Of a shore inlet, generator or inverter: the current its supply gives into a short circuit; left "
        "out if nobody knows.",
    )
    connector: str | None = Field(
        None, description="The family of its PV connectors, if cables plug into it; a module's stands in its type."
    )
    terminals: dict[Id, Spot | None] = Field(
        description="Its terminals; each sits where the device does unless it says otherwise."
    )


def _between(least: float, most: float, unit: str, what: str) -> AfterValidator:
    """Refuses a quantity that nobody would believe of a cable in a vehicle."""

    def check(value: float) -> float:
        if not least <= value <= most:
            raise ValueError(f"{value:g} {unit} is out of bounds: {what} is between {least:g} and {most:g} {unit}")
        return value

    return AfterValidator(check)


def _some(share: float) -> float:
    if not share:
        raise ValueError("a drop limit of 0 % leaves no cable that keeps it: write such as 2 %")
    return share


def _size(written: str) -> str:
    """A conductor's size as the tables call it, `10 AWG` or `6 mm2`; what is no size is left as written."""
    found = re.fullmatch(r"\s*([\d./]+)\s*(AWG|mm2|mm²)\s*", written, re.IGNORECASE)
    if not found:
        return written
    return f"{found[1]} {'AWG' if found[2].upper() == 'AWG' else 'mm2'}"


class Cable(Closed):
    """A circuit's whole set of conductors, which run together."""

    start: str = Field(alias="from", description="The terminal it starts at: `junction.pv`.")
    end: str = Field(alias="to", description="The terminal it ends at: `controller.pv`.")
    carries: Literal["PV", "battery DC", "mains", "data", "coax"] = Field(alias="class", description="What it carries.")
    type: Id | None = Field(
        None,
        description="The type of cable to start with; where it does not serve, the plan takes a thicker one and says "
        "so. Left out, a power cable starts at the thinnest type there is with its `conductor`, or of all.",
    )
    importance: Literal["important", "other"] = Field(
        "important",
        description="Of a load on the battery: an important one may lose 3 % of the voltage, another 10 %, unless "
        "`drop limit` says otherwise.",
    )
    cores: Whole = Field(ge=1, le=24, description="Number of conductors.")
    amperes: Annotated[Amperes, _between(0, 1000, "A", "the current of a cable in a vehicle")] | None = Field(
        None, description="Current the drop is worked out at, if it carries power."
    )
    volts: Annotated[Volts, _between(1, 1000, "V", "the voltage of a cable in a vehicle")] | None = Field(
        None, description="Voltage the drop is a percentage of, if it carries power."
    )
    drop_limit: Annotated[Fraction, AfterValidator(_some)] | None = Field(
        None, description="Largest voltage drop wanted, such as `2 %`."
    )
    conductor: Annotated[str, AfterValidator(_size)] | None = Field(
        None, description="The conductor meant, such as `10 AWG` or `6 mm2`."
    )
    connectors: tuple[str, str] | None = Field(
        None,
        description="The families of PV connectors at its start and end, `none` for a bare end; its type's if left "
        "out. Two families make it an adapter.",
    )
    metal: Literal["plain", "tinned"] = Field("plain", description="Plain or tinned copper.")
    outside_diameter: Thickness = Field(
        description="Over one core's sheath, or the whole cable if it has one, counted up to the next whole "
        "millimetre; at least, where the type grows."
    )
    smallest_bend: Bend = Field(description="Smallest bend radius; at least, where the type grows.")
    largest_plug: PlugWidth = Field(
        description="Largest diameter that must pass each hole: a plug, or the cable itself. Where the cores of the "
        "type are wider together, the plan's holes are sized for them."
    )
    longest_piece: CableLength = Field(description="The longest piece at hand.")
    limits: Limits = Field(
        default_factory=Limits, description="What its way may not exceed; each limit stands instead of the job's."
    )


class PlacedDevice(Closed):
    """A breaker, fuse or switch that the job puts on one of its cables."""

    cable: Id = Field(alias="on", description="The cable it sits on.")
    type: Id | None = Field(None, description="Its type; left out, the least that serves is taken.")
    start: str = Field(alias="from", description="The end of the cable that it is measured from: `battery.dc`.")
    along: CableLength = Field(description="How far along the cable from there.")
    sheathed: bool = Field(
        False, description="Whether the conductor lies in a sheath or enclosure all the way from there to the device."
    )


class Owner(Closed):
    """What matters to this owner."""

    consents: list[Literal["raceway in sight", "roof into room"]] = Field(
        default=[], description="What the owner has agreed to."
    )
    excludes: list[Id] = Field(default=[], description="Spaces that must not be touched.")
    weights: dict[Criterion, Annotated[Number, Field(ge=0, le=1000)]] = Field(
        default={},
        description="What a unit of a criterion is worth, in metres of cable; the shop's if left out.",
    )
    roof_run: Literal["straight", "square"] = Field("square", description="How cable runs on the roof.")


class Temperatures(Closed):
    """Temperatures that the figures stand on."""

    coldest: Celsius = Field(description="The coldest place this vehicle will go.")
    hottest: Celsius = Field(description="The hottest air around the cable.")
    cell: Celsius | None = Field(
        None, description="Of a module's cells on a hot afternoon; 35 K above `hottest` if left out."
    )
    conductor: Annotated[
        Celsius, _between(COLDEST, HOTTEST, "°C", "the temperature at which copper's resistance is known")
    ] = Field(75.0, description="Of the copper in service, for voltage drop; 75 °C if left out.")

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.coldest > self.hottest:
            raise ValueError(
                f"the coldest, {self.coldest:g} °C, is hotter than the hottest, {self.hottest:g} °C: change the two"
            )
        return self


class Job(Closed):
    """One vehicle and one order."""

    format: Format
    job: Id = Field(description="The id of the job.")
    name: str = Field(description="What people call it.")
    units: Unit = None
    rig: str = Field(description="The rig file, relative to this one.")
    rules: Literal["US", "Europe"] = Field("US", description="The rule set that circuits are worked out by.")
    types: Types = Field(default_factory=Types, description="Types added to the shop's, or instead of them.")
    differences: Differences = Field(
        default_factory=Differences, description="How this vehicle differs from its rig model."
    )
    equipment: dict[Id, Equipment] = Field(description="Devices and their terminals, each by an id.")
    cables: dict[Id, Cable] = Field(min_length=1, description="Cables to run, each by an id.")
    devices: dict[Id, PlacedDevice] = Field(
        default={}, description="Devices with a place of their own; for other circuits one is proposed."
    )
    inherited: dict[Id, Inherited] = Field(
        default={}, description="Cables that were there before and might serve the array, each by an id."
    )
    owner: Owner = Field(default_factory=Owner, description="What matters to this owner.")
    limits: Limits = Field(default_factory=Limits, description="What no cable's way may exceed.")
    temperatures: Temperatures = Field(description="Temperatures that the figures stand on.")
