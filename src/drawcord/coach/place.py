"""Where a thing is, the way a tape measures it."""

from typing import Annotated, NamedTuple

from pydantic import BeforeValidator, Field, ValidationInfo, WithJsonSchema

from drawcord.coach.closed import Closed, Id
from drawcord.words.quantity import Height, Length, Positive, Range, Rise
from drawcord.words.units import parse_length, parse_range

MISSING = 10**9


class Reach(NamedTuple):
    """How far a thing stands out from a side: from `near` to `far` [mm], or up to the space `to`."""

    near: int
    far: int
    to: str = ""


def _reach(value: object, info: ValidationInfo) -> Reach:
    if isinstance(value, Reach):
        return value
    bare = (info.context or {}).get("unit")
    if isinstance(value, str) and value.startswith("to "):
        return Reach(0, MISSING, value[3:].strip())
    if isinstance(value, list) or (isinstance(value, str) and ".." in value):
        return Reach(*parse_range(value, bare))
    depth = parse_length(value, bare)
    if depth < 0:
        raise ValueError(f"{value} lies outside the wall: write a depth of zero or more, or a range")
    return Reach(0, depth)


Depth = Annotated[
    Reach,
    BeforeValidator(_reach),
    WithJsonSchema(
        {
            "type": ["string", "number", "array"],
            "examples": ["600 mm", "200..900 mm", "to galley"],
        }
    ),
]


class Along(Closed):
    """The part of a place that runs along the vehicle."""

    from_front: Range | None = Field(None, description="Along the vehicle, measured from the front.")
    from_rear: Range | None = Field(None, description="Along the vehicle, measured from the rear.")
    after: Id | None = Field(None, description="Starts where this space ends; give `long` too.")
    before: Id | None = Field(None, description="Ends where this space starts; give `long` too.")
    long: Positive | None = Field(None, description="Size along the vehicle, with `after` or `before`.")
    between: tuple[Id, Id] | None = Field(None, description="From the end of one space to the start of another.")


class Place(Along):
    """A box in the vehicle: along, across and up, each measured from where a tape can be hooked."""

    street: Depth | None = Field(None, description="From the street side's wall: a depth, a range, or `to ID`.")
    curb: Depth | None = Field(None, description="From the curb side's wall: a depth, a range, or `to ID`.")
    left: Depth | None = Field(None, description="From the left wall, facing forward.")
    right: Depth | None = Field(None, description="From the right wall, facing forward.")
    centre: Positive | None = Field(None, description="This wide, in the middle of the vehicle.")
    up: Rise | None = Field(None, description="From one height to another: `floor..ceiling`, `900 mm..ceiling`.")
    from_floor: Range | None = Field(None, description="Up from the floor at that place.")
    from_ceiling: Range | None = Field(None, description="Down from the ceiling at that place.")


class Spot(Closed):
    """A point in the vehicle, measured the same way."""

    from_front: Length | None = Field(None, description="Along the vehicle, measured from the front.")
    from_rear: Length | None = Field(None, description="Along the vehicle, measured from the rear.")
    street: Length | None = Field(None, description="From the street side's wall.")
    curb: Length | None = Field(None, description="From the curb side's wall.")
    left: Length | None = Field(None, description="From the left wall, facing forward.")
    right: Length | None = Field(None, description="From the right wall, facing forward.")
    up: Height | None = Field(None, description="A height: `floor+900 mm`, `ceiling-100 mm`, `bay+300 mm`.")
    from_floor: Length | None = Field(None, description="Up from the floor at that place.")
    from_ceiling: Length | None = Field(None, description="Down from the ceiling at that place.")
