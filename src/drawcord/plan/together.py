"""What a joint plan comes to: holes and raceway shared, room taken, what it saved, and how far it is proved."""

from dataclasses import dataclass

from drawcord.routes.route import Bore

Names = tuple[str, ...]


@dataclass(frozen=True)
class SharedHole(Bore):
    """A bore, whether several cables go through it or one; `diameter` passes the bundle and the largest plug [mm]."""

    cables: Names


@dataclass(frozen=True)
class SharedRaceway:
    """All raceway of one room that holds just these cables [mm]."""

    space: str
    length: int
    cables: Names


@dataclass(frozen=True)
class Bundle:
    """Cables that share a passage or space of stated section: what they fill of what is free [mm²]."""

    where: str
    cables: Names
    filled: int
    free: int


@dataclass(frozen=True)
class Apart:
    """Two cables that come to one place, and the row of the sharing table that says what they may do there."""

    where: str
    cables: tuple[str, str]
    rule: str


@dataclass(frozen=True)
class Saved:
    """What planning together saves against each cable planned alone; below zero where rules cost more."""

    roof_holes: int
    inner_holes: int
    seconds: int
    raceway: int  # mm


@dataclass(frozen=True)
class Together:
    """The joint plan of the cables that have a way.

    `weight`, `least_possible`: on the graph [thousandths of a mm of cable]; no plan weighs less than the latter,
    and `proved` says that they are one. All else is as measured. `alone_faults`: why the winners could not all be
    carried out as they are, in sentences. `left_out`: cables for which nothing was left.
    """

    proved: bool
    weight: int
    least_possible: int
    holes: tuple[SharedHole, ...]
    raceway: tuple[SharedRaceway, ...]
    bundles: tuple[Bundle, ...]
    apart: tuple[Apart, ...]
    saved: Saved
    alone_faults: tuple[str, ...]
    left_out: Names

    @property
    def gap_percent(self) -> float:
        """How much of its weight the plan may be above the least possible."""
        return 100 * (self.weight - self.least_possible) / self.weight if self.weight else 0.0
