"""What the van carries, and what a store sells beside it."""

from collections.abc import Mapping
from itertools import groupby
from typing import Annotated, Literal, get_args

from pydantic import Field

from drawcord.coach.catalogue import Types
from drawcord.coach.closed import Closed, Id
from drawcord.coach.parts import PartKind
from drawcord.coach.rig import Format, Unit
from drawcord.words.faults import Path, Problem
from drawcord.words.nearest import nearest
from drawcord.words.quantity import Bore, CableLength, NotNegative, Number, Positive, Whole

Count = Annotated[Whole, Field(ge=0, le=1000)]
Price = Annotated[Number, Field(ge=0, le=100_000)]
PART_KINDS = tuple(kind.lower().replace(" ", "-") for kind in get_args(PartKind))
Shank = Literal["round", "hex", "slotted"]


class Fitted(Closed):
    """Cable of a fixed length with its ends fitted, one core."""

    type: Id = Field(description="The type of cable.")
    length: Positive = Field(description="From end to end.")
    count: Count = Field(description="How many there are.")
    price: Price = Field(0.0, description="What one costs to replace.")


class Loose(Closed):
    """Cable without ends, to cut from."""

    type: Id = Field(description="The type of cable.")
    length: CableLength = Field(description="What is left of it.")


class Sold(Closed):
    """A reel that can be bought."""

    type: Id = Field(description="The type of cable.")
    length: CableLength = Field(description="The length of the reel.")
    price: Price = Field(description="What it costs.")


class Bit(Closed):
    """A bit or hole saw."""

    kind: Literal["twist bit", "step bit", "hole saw"] = Field(description="What it is.")
    diameter: Bore = Field(description="The hole that it makes.")
    shank: Shank = Field(description="The form of its shank.")
    across: Positive = Field(description="The width of its shank.")


class Chuck(Closed):
    """What holds a bit."""

    takes: list[Shank] = Field(min_length=1, description="The forms of shank that it takes.")
    widest: Positive = Field(description="The widest shank that it takes.")


class Tools(Closed):
    """What holes are made with."""

    bits: dict[Id, Bit] = Field(default={}, description="Bits and hole saws, each by an id.")
    chucks: dict[Id, Chuck] = Field(default={}, description="Chucks, each by an id.")


class Van(Closed):
    """What the van carries now."""

    format: Format
    units: Unit = None
    keep: NotNegative = Field(description="A left-over from here up is kept; a shorter one is scrap.")
    leads: dict[Id, Fitted] = Field(
        default={}, description="Entry leads, gland and connectors fitted: always the first piece of a cable."
    )
    extensions: dict[Id, Fitted] = Field(default={}, description="Cables with both ends fitted.")
    reels: dict[Id, Loose] = Field(default={}, description="Reels that have been begun or not, one an entry.")
    off_cuts: dict[Id, Loose] = Field(default={}, description="Left-overs worth keeping, one an entry.")
    store: dict[Id, Sold] = Field(default={}, description="Reels that can be bought, as many as it takes.")
    parts: dict[Id, Count] = Field(
        default={}, description="How many there are of each part, by its id in parts.csv: `clip`, `lug-2-awg`."
    )
    tools: Tools = Field(default_factory=Tools, description="What holes are made with.")

    @property
    def cables(self) -> list[tuple[str, str, Fitted | Loose | Sold]]:
        """Everything of cable: the key it stands under, its id, and what it is."""
        kinds: tuple[tuple[str, Mapping[str, Fitted | Loose | Sold]], ...] = (
            ("leads", self.leads),
            ("extensions", self.extensions),
            ("reels", self.reels),
            ("off cuts", self.off_cuts),
            ("store", self.store),
        )
        return [(kind, name, one) for kind, held in kinds for name, one in sorted(held.items())]


def check(van: Van, types: Types) -> list[Problem]:
    """Cable of no known type, and ids that stand for two things."""
    found = [_no_part(part) for part in van.parts if not any(_is(part, kind) for kind in PART_KINDS)]
    for kind, name, one in van.cables:
        if one.type not in types.cables:
            path: Path = (kind, name, "type")
            close = nearest(one.type, types.cables)
            sentence = f"{name} is of type {one.type}, but there is no such type of cable{close}"
            found.append(Problem(path, f"{sentence}: add it to the shop's cables.yaml"))
    for name, alike in groupby(sorted(van.cables, key=lambda one: one[1]), key=lambda one: one[1]):
        first, *others = (kind for kind, _, _ in alike)
        for kind in others:
            sentence = f"{name} stands under `{first}` as well: give each its own id, so that a cut list can name it"
            found.append(Problem((kind, name), sentence, on_key=True))
    return found


def _is(part: str, kind: str) -> bool:
    """Whether a part is of a kind, in a size or without."""
    return part == kind or part.startswith(f"{kind}-")


def _no_part(part: str) -> Problem:
    sentence = f"nothing that drawcord counts is called {part}{nearest(part, PART_KINDS)}"
    return Problem(("parts", part), f"{sentence}: parts.csv of a plan has the ids", on_key=True)
