"""A rule, and one row of each kind of published table; a band ends at its last value, the stricter serves between."""

from dataclasses import dataclass
from typing import NamedTuple


@dataclass(frozen=True)
class Factor:
    """A number of a rule, and on whose word."""

    value: float
    source: str


@dataclass(frozen=True)
class Rule:
    """A rule that applies or does not, with the reason."""

    name: str
    applies: bool
    reason: str
    source: str


@dataclass(frozen=True)
class Ampacity:
    """What a conductor of one size and insulation [°C] carries [A]."""

    section: str
    insulation: int
    amperes: float
    source: str


@dataclass(frozen=True)
class Correction:
    """The factor for surroundings of up to so many degrees [°C], for one insulation [°C]."""

    insulation: int
    up_to: float
    factor: float
    source: str


@dataclass(frozen=True)
class Adjustment:
    """The factor for up to so many conductors or circuits together."""

    up_to: float
    factor: float
    source: str


@dataclass(frozen=True)
class Fill:
    """The share of a raceway's section that up to so many cables may fill."""

    up_to: float
    share: float
    source: str


@dataclass(frozen=True)
class ColdFactor:
    """What Voc is multiplied by where it gets as cold as `down_to` [°C]."""

    down_to: float
    factor: float
    source: str


@dataclass(frozen=True)
class Rating:
    """A standard rating of overcurrent devices [A]; `fuse_only` if breakers have none such."""

    amperes: float
    fuse_only: bool
    source: str


@dataclass(frozen=True)
class SmallConductor:
    """The largest device that may protect a thin conductor [A], whatever else it carries."""

    section: str
    amperes: float
    source: str


@dataclass(frozen=True)
class GroundingConductor:
    """The thinnest equipment grounding conductor behind a device of up to so many amperes [A]."""

    up_to: float
    section: str
    source: str


@dataclass(frozen=True)
class Distance:
    """How far along the conductor from its source a device may sit [mm], by one standard.

    `sheathed` if the conductor has to be in a sheath or enclosure all the way, `at_battery` if it has to be
    connected to the battery directly.
    """

    standard: str
    most_mm: float
    sheathed: bool
    at_battery: bool
    source: str


class Tables(NamedTuple):
    """Every published table, as `files` loads them; a test may pass three rows."""

    nec_enclosed: tuple[Ampacity, ...]
    nec_free_air: tuple[Ampacity, ...]
    nec_ambient: tuple[Correction, ...]
    nec_bundle: tuple[Adjustment, ...]
    nec_small: tuple[SmallConductor, ...]
    nec_ratings: tuple[Rating, ...]
    nec_grounding: tuple[GroundingConductor, ...]
    nec_cold: tuple[ColdFactor, ...]
    cfr_ampacity: tuple[Ampacity, ...]
    cfr_ambient: tuple[Correction, ...]
    cfr_bundle: tuple[Adjustment, ...]
    iec_enclosed: tuple[Ampacity, ...]
    iec_free_air: tuple[Ampacity, ...]
    iec_ambient: tuple[Correction, ...]
    iec_bundle: tuple[Adjustment, ...]
    iec_ratings: tuple[Rating, ...]
    iec_mains_ratings: tuple[Rating, ...]
    us_fill: tuple[Fill, ...]
    europe_fill: tuple[Fill, ...]
    us_distances: tuple[Distance, ...]
    europe_distances: tuple[Distance, ...]
