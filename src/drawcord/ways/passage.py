"""A passage: where a cable can get, or cannot get, from one space to another."""

from dataclasses import dataclass

from drawcord.coach.box import Box, Point
from drawcord.coach.kinds import Standing


@dataclass(frozen=True)
class Passage:
    """One way between the spaces `a` and `b`, `a` coming first in order of id.

    `mouths` pairs the boxes in which the cable's centre may leave `a` and enter `b`: equal across the axis of
    the passage, apart along it by what is crossed; for a passage through the roof they are single points.
    `opening` is "exists", "needs hole" or "closed"; `hole` is "roof", "inner" or empty if nothing is bored.
    `size` [mm] is what passes an opening that exists, 0 if it is not known. `barred` says why nothing may
    pass, or is empty. `declared` tells passages that a person wrote from those that geometry gives.
    """

    id: str
    a: str
    b: str
    mouths: tuple[tuple[Box, Box], ...]
    opening: str
    hole: str
    standing: Standing
    chance: float
    source: str
    size: int = 0
    barred: str = ""
    declared: bool = False

    def other(self, space: str) -> str:
        """The space on the other side."""
        return self.b if space == self.a else self.a


def pair_id(first: str, second: str) -> str:
    """The id of the derived passage between two spaces: theirs, in order."""
    return "~".join(sorted((first, second)))


@dataclass(frozen=True)
class Station:
    """One point of a passage: where the cable leaves one space and where it enters the other."""

    id: str
    passage: str
    mouths: dict[str, Point]  # by space
