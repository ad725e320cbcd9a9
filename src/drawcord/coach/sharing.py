"""What circuits may share, by pair of classes, as a shop writes it."""

from typing import Annotated, Literal, get_args

from pydantic import Field

from drawcord.coach.closed import Closed
from drawcord.coach.every import every
from drawcord.coach.rig import Format

Pair = Literal[
    "PV with PV",
    "PV with battery DC",
    "PV with mains",
    "PV with data or coax",
    "battery DC with battery DC",
    "battery DC with mains",
    "battery DC with data or coax",
    "mains with mains",
    "mains with data or coax",
    "data or coax with data or coax",
]


class Terms(Closed):
    """What two circuits may share."""

    together: bool = Field(description="Whether they may lie together in one chase, and cross one hole or opening.")
    cross: bool = Field(description="Whether one may cross over the other.")
    box: bool = Field(description="Whether they may share one roof entry or junction box.")
    raceway: bool = Field(description="Whether they may share one raceway.")
    source: str = Field(description="On whose word: the rule with its edition, from memory, or common practice.")


class Sharing(Closed):
    """What circuits may share, by pair of classes; data and coax count as one class."""

    format: Format
    pairs: Annotated[dict[Pair, Terms], every(Pair)] = Field(description="The terms of each pair of classes.")

    def of(self, one: str, other: str) -> tuple[Pair, Terms]:
        """The row for two classes of cable, in either order, and what it is called."""
        groups = sorted(map(_group, (one, other)))
        pair = next(pair for pair in get_args(Pair) if sorted(pair.split(" with ")) == groups)
        return pair, self.pairs[pair]


def _group(carries: str) -> str:
    return "data or coax" if carries in ("data", "coax") else carries
