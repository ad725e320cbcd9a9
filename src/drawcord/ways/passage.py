"""A passage: where a cable can get, or cannot get, from one space to another."""

from dataclasses import dataclass
from typing import NamedTuple

from drawcord.coach.box import Box, Point
from drawcord.coach.kinds import Standing


class Gate(NamedTuple):
    """Where the cable's centre may leave one space (`near`) and enter the other (`far`), by moving along `axis`.

    Across the axis both are alike, but beside the walls of a living area: there the hole is where the other
    space has its mouth, and raceway leads from it to the wall, since nobody bores in a corner. Through a roof
    cap the cable goes level first. `largest` is the largest hole that fits [mm].
    """

    near: Box
    far: Box
    axis: int
    largest: int

    def turned(self) -> "Gate":
        """The same from the other side."""
        return Gate(self.far, self.near, self.axis, self.largest)


@dataclass(frozen=True)
class Passage:
    """One way between the spaces `a` and `b`, `a` coming first in order of id.

    `gates` says where the cable may pass; through the roof they are single points.
    `opening` is "exists", "needs hole" or "closed"; `hole` is "roof", "inner" or empty if nothing is bored.
    `size` [mm] is what passes an opening that exists, 0 if it is not known. `barred` says why nothing may
    pass, or is empty. `declared` tells passages that a person wrote from those that geometry gives.
    """

    id: str
    a: str
    b: str
    gates: tuple[Gate, ...]
    opening: str
    hole: str
    standing: Standing
    chance: float
    source: str
    size: int = 0
    barred: str = ""
    declared: bool = False

    @property
    def mouths(self) -> tuple[tuple[Box, Box], ...]:
        """The two mouths of each gate."""
        return tuple((gate.near, gate.far) for gate in self.gates)

    def other(self, space: str) -> str:
        """The space on the other side."""
        return self.b if space == self.a else self.a


def pair_id(first: str, second: str) -> str:
    """The id of the derived passage between two spaces: theirs, in order."""
    return "~".join(sorted((first, second)))


@dataclass(frozen=True)
class Station:
    """One point of a passage: where the cable leaves one space and where it enters the other.

    `level_with`: the terminals that it is as near to as the passage lets it be; it serves their cables alone. Empty
    where it serves every cable.
    """

    id: str
    passage: str
    mouths: dict[str, Point]  # by space
    axis: int
    largest: int
    level_with: frozenset[str] = frozenset()
