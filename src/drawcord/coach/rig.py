"""The sketch of one rig model, as a person writes it."""

import re
from datetime import date
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, ValidationInfo, WithJsonSchema, field_validator

from drawcord.coach.closed import Closed, Id
from drawcord.coach.kinds import AccessKind, Face, HazardKind, ObstacleKind, SpaceKind, Standing, Zone
from drawcord.coach.place import Along, Place, Spot
from drawcord.words.amount import shown
from drawcord.words.quantity import Fraction, Length, Minutes, NotNegative, Positive

Skin = Literal["rubber membrane", "fibreglass", "aluminium", "steel"]


def _version(value: object) -> object:
    if value == 1 and type(value) is not int:  # true and 1.0, which equal it
        raise ValueError(f"{shown(value)} should be `1`")
    return value


Format = Annotated[
    Literal[1], BeforeValidator(_version), Field(description="The version of this file's form; 1 today.")
]
Unit = Annotated[
    Literal["mm", "cm", "m", "in", "ft"] | None,
    Field(description="The unit of lengths written as bare numbers; without it they are refused."),
]


DATE = r"[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])"


def _date(value: object) -> str:
    try:
        if isinstance(value, str) and re.fullmatch(DATE, value) and date.fromisoformat(value):
            return value
    except ValueError:
        pass  # a thirtieth of February
    raise ValueError(f"{shown(value)} should be a date such as 2026-05-04")


Date = Annotated[str, BeforeValidator(_date), WithJsonSchema({"type": "string", "pattern": f"^{DATE}$"})]


class Fact(Closed):
    """Where a fact comes from and when; both may be left out of a sketch."""

    source: str | None = Field(None, description="Where this comes from: `measured`, `owner`, `looked behind it`.")
    date: Date | None = Field(None, description="When, as YYYY-MM-DD.")


class Doubt(Fact):
    """What is known about whether a cable gets through."""

    standing: Standing | None = Field(None, description="`proven`, `unproven` or `blocked`.")
    chance: Fraction | None = Field(None, description="How likely an unproven one is clear, such as `60 %`.")

    @field_validator("chance")
    @classmethod
    def _only_in_doubt(cls, chance: float | None, info: ValidationInfo) -> float | None:
        standing = info.data.get("standing")
        if chance is not None and standing in ("proven", "blocked"):
            raise ValueError(f"what is {standing} has no chance: write `standing: unproven`, or leave the chance out")
        return chance


class Step(Along):
    """A stretch of the floor at another height, such as a raised front floor."""

    floor: Length = Field(description="Height of this floor above the main floor.")
    ceiling: Length | None = Field(None, description="Height of the ceiling here above the main floor, if it differs.")


class Shell(Closed):
    """The outside of the rig. Heights are above the main floor."""

    length: Positive | None = Field(
        None, description="Outside length, for a rectangular plan; otherwise give `outline`."
    )
    width: Positive | None = Field(None, description="Outside width, for a rectangular plan.")
    outline: list[tuple[Length, Length]] | None = Field(
        None,
        description="The plan outline as corners [from front, from left side], for a plan that is no rectangle.",
    )
    wall: Positive = Field(description="Thickness of the outside walls; sides are measured from their inside.")
    floor_thickness: Positive = Field(description="Thickness of the floor.")
    ceiling: Positive = Field(description="Height of the ceiling.")
    roof: Positive = Field(
        description="Height of the roof's outer skin; roof less ceiling is what an entry goes through."
    )
    bay: Length | None = Field(None, description="Height of the bays' floor (negative); left out where there are none.")
    ground: Length = Field(description="Height of the ground (negative).")
    roof_skin: Skin = Field(
        description="What the roof is covered with: it decides the seal."
    )
    steps: list[Step] = Field(default=[], description="Stretches where the floor or ceiling steps.")


class Space(Place, Doubt):
    """A volume that a cable can run in or on."""

    kind: SpaceKind = Field(description="What it is.")
    door: Face | None = Field(None, description="The face that opens: its front. No raceway or hole on it.")
    plain: list[Face] = Field(default=[], description="Faces that raceway may run on, such as a cabinet's end.")
    zone: Zone | None = Field(None, description="`sun`, `indoors` or `wet and stony`, where the kind's own is wrong.")
    filled: list[Place] = Field(default=[], description="Parts of it that something else fills.")
    usable: dict[Face, Positive] = Field(
        default={}, description="Only this much of it, against these faces, is usable: `{curb: 80 mm}`."
    )
    pipe: Positive | None = Field(None, description="Outside diameter of the pipe in a vent stack.")
    cap: Positive | None = Field(
        None, description="Width of the square cap on the roof over a stack or appliance vent."
    )
    pipe_at: Spot | None = Field(
        None,
        description="The middle of the pipe and of the cap over it, such as `{from front: 6.3 m, street: 90 mm}`; the "
        "middle of the space if left out.",
    )


class MovingPart(Place, Fact):
    """A part that moves; whatever rides on it or lies in its way moves too."""

    kind: Literal["slide-out", "lifting roof", "hatch"] = Field(description="What it is.")
    travel: Positive = Field(description="How far it moves.")
    towards: Face = Field(description="Which way it moves when it opens.")
    drawn: Literal["in", "out"] = Field(description="Whether the place given is where it is when in or when out.")


class RoofObstacle(Place, Fact):
    """Something that stands on the roof; sides are measured from the roof's edge."""

    kind: ObstacleKind = Field(
        description="What it is; `module` is a solar module that is already there."
    )
    clearance: NotNegative | None = Field(None, description="Kept free around it; the shop's figure if left out.")


class Hazard(Place, Fact):
    """Something hot or dangerous."""

    kind: HazardKind = Field(
        description="What it is."
    )
    clearance: NotNegative | None = Field(None, description="Kept free around it; the shop's figure if left out.")


class Obstruction(Place, Fact):
    """What a hole must not meet, or what a cable below must not meet."""

    kind: Literal["framing", "tank", "duct", "water line", "gas line", "wiring", "axle", "jack", "step"] = Field(
        description="Tanks, ducts, axles, jacks and steps (with travel) bar cables; the first six bar holes."
    )


class Access(Place, Fact):
    """A way to reach in; its place defaults to the whole face."""

    into: Id = Field(description="The space it opens.")
    kind: AccessKind = Field(description="What it is.")
    face: Face = Field(description="The face of the space it lies in.")
    minutes: Minutes | None = Field(None, description="To open and close it; the shop's figure if left out.")


class Passage(Doubt):
    """A place where a cable can, or cannot, get from one space to another."""

    between: tuple[Id, Id] = Field(description="The two spaces it joins.")
    opening: Literal["exists", "needs hole", "closed"] = Field(description="What is there today.")
    at: Place | None = Field(
        None,
        description="Where on the shared face, beside what geometry gives; left out, it replaces what geometry gives.",
    )
    size: Positive | None = Field(None, description="The largest thing that passes, for an opening that exists.")


class Rig(Closed):
    """One rig model."""

    format: Format
    rig: Id = Field(description="The id of the rig model; jobs and results refer to it.")
    name: str = Field(description="What people call it.")
    units: Unit = None
    traffic_keeps: Literal["right", "left"] = Field(
        description="The side traffic keeps where it is registered; the curb side is that side."
    )
    shell: Shell = Field(description="The outside.")
    spaces: dict[Id, Space] = Field(
        description="The volumes cable can run in, each by an id. The roof is there by itself."
    )
    moving_parts: dict[Id, MovingPart] = Field(default={}, description="Slide-outs, lifting roofs and hatches.")
    roof_obstacles: dict[Id, RoofObstacle] = Field(default={}, description="What stands on the roof.")
    hazards: dict[Id, Hazard] = Field(default={}, description="Hot or dangerous things.")
    obstructions: dict[Id, Obstruction] = Field(default={}, description="What holes and cables must not meet.")
    doors: dict[Id, Place] = Field(default={}, description="Doors; a depth of `0 mm` lies in that side's wall.")
    windows: dict[Id, Place] = Field(default={}, description="Windows, in the same way.")
    partitions: dict[Id, Place] = Field(default={}, description="Fixed walls inside that are no spaces.")
    access: dict[Id, Access] = Field(default={}, description="Ways to reach in, beside the doors of spaces.")
    passages: dict[Id, Passage] = Field(
        default={}, description="Passages known beside, or instead of, the derived ones."
    )
    touching: dict[str, NotNegative] = Field(
        default={},
        description="Another contact tolerance for a pair of spaces, such as `linen~shower: 120 mm`.",
    )
