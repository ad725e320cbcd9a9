"""Bits that are needed held against those at hand, and these against the chucks."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from drawcord.load.tools import ToolNeed


class Bit(Protocol):
    """A bit or saw at hand."""

    @property
    def diameter(self) -> float:
        """The hole that it makes [mm]."""

    @property
    def shank(self) -> str:
        """The form of its shank."""

    @property
    def across(self) -> int:
        """The width of its shank [mm]."""


class Chuck(Protocol):
    """A chuck at hand."""

    @property
    def takes(self) -> Sequence[str]:
        """The forms of shank that it takes."""

    @property
    def widest(self) -> int:
        """The widest shank that it takes [mm]."""


@dataclass(frozen=True)
class Found:
    """A need with the bit and chuck that serve it; empty, with the reason, where none does."""

    need: ToolNeed
    bit: str
    chuck: str
    lacking: str


def found(needs: Sequence[ToolNeed], bits: Mapping[str, Bit], chucks: Mapping[str, Chuck]) -> tuple[Found, ...]:
    """For each need the thinnest bit that makes such a hole and fits a chuck; ties go to the id that comes first."""
    return tuple(_found(need, bits, chucks) for need in needs)


def _found(need: ToolNeed, bits: Mapping[str, Bit], chucks: Mapping[str, Chuck]) -> Found:
    fitting = sorted((bit.diameter, name) for name, bit in bits.items() if need.least <= bit.diameter <= need.most)
    for _, name in fitting:
        held = [chuck for chuck, one in sorted(chucks.items()) if _holds(one, bits[name])]
        if held:
            return Found(need, name, held[0], "")
    if fitting:
        names = ", ".join(name for _, name in fitting)
        return Found(need, "", "", f"no chuck takes the shank of {names}")
    return Found(need, "", "", f"no bit from {need.least:g} to {need.most:g} mm")


def _holds(chuck: Chuck, bit: Bit) -> bool:
    return bit.shank in chuck.takes and bit.across <= chuck.widest
