"""A rule set: factors, tables and functions as data, with the editions it follows and what it leaves out."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from drawcord.wire.ampacity import Method, Sunlit
from drawcord.wire.mains import Mains
from drawcord.wire.published import (
    ColdFactor,
    Distance,
    Factor,
    Fill,
    GroundingConductor,
    Rating,
    Rule,
    SmallConductor,
)


class Arrayed(NamedTuple):
    """What decides on an array's rules: highest voltage between two conductors [V], Imax [A], how many strings."""

    cold_voc: float
    imax: float
    strings: int


@dataclass(frozen=True)
class StringFusing:
    """When strings need fuses, and of what rating, in multiples of Isc.

    `feedback` is what each other string feeds back; a rating lies at or above `least`, or strictly above it
    if `strictly`, and below `most` if there is one.
    """

    feedback: Factor
    least: Factor
    most: Factor | None
    strictly: bool


@dataclass(frozen=True)
class Touch:
    """From which voltage bare parts are dangerous to touch [V]."""

    wet: float
    dry: float
    source: str


@dataclass(frozen=True)
class LeastSection:
    """The thinnest conductor for a purpose."""

    section: str
    source: str


@dataclass(frozen=True)
class RuleSet:
    """One way to decide, chosen in the job; `added` are methods of other trades, where the stricter governs.

    `brighter` is Imax over Isc, `longer` the continuous current over Imax, `cold_margin` what is added to the
    cold Voc, `drop_limits` the shares of the voltage that may be lost, by what the circuit is.
    `next_size_up` names what lets a device be the next standard rating above an ampacity, if anything does;
    `terminal_celsius` is what a terminal bears that says nothing else [°C]. `rules` says of an
    array which rules apply.
    """

    name: str
    editions: tuple[str, ...]
    added_practice: tuple[str, ...]
    not_covered: tuple[str, ...]
    brighter: Factor
    longer: Factor
    cold_factors: tuple[ColdFactor, ...]
    cold_margin: Factor
    touch: Touch
    drop_limits: Mapping[str, Factor]
    method: Method
    added: tuple[Method, ...]
    sunlit: Sunlit
    terminal_celsius: Factor
    ratings: tuple[Rating, ...]
    next_size_up: str | None
    small: tuple[SmallConductor, ...]
    fusing: StringFusing
    fill: tuple[Fill, ...]
    distances: tuple[Distance, ...]
    grounding: tuple[GroundingConductor, ...]
    enclosure_bond: LeastSection
    chassis_bond: LeastSection
    rules: Callable[[Arrayed], tuple[Rule, ...]]
    mains: Mains
