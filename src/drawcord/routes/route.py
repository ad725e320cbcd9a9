"""A route and all that is known of it once it has been measured. Lengths in whole mm, times in seconds."""

from dataclasses import dataclass
from typing import NamedTuple

from drawcord.coach.box import Point
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding


class Criteria(NamedTuple):
    """What routes are compared by, the smaller the better; integers, so that ties are ties."""

    length: int
    in_sight: int
    roof_holes: int
    inner_holes: int
    seconds: int
    doubt: int  # micro-nats: -1e6 ln(chance), summed over what is unproven


@dataclass(frozen=True)
class Leg:
    """What the cable does in one space.

    It enters through the passage `through` (empty at the start), `through_length` of its length being the
    thickness crossed, and ends at the mouth of the next passage or at the terminal. `points` are elbows,
    starting where the leg before ended. `bends` counts changes of direction, the one into this leg included.
    """

    space: str
    kind: str
    zone: str
    through: str
    through_length: int
    points: tuple[Point, ...]
    length: int
    in_sight: bool
    cover: str
    standing: str
    bends: int


@dataclass(frozen=True)
class Bore:
    """A hole, whoever uses it: both faces, what it joins, and its diameter."""

    id: str
    kind: str  # "roof" or "inner"
    between: tuple[str, str]
    near: Point
    far: Point
    diameter: int


@dataclass(frozen=True)
class Hole(Bore):
    """A bore of one route; its diameter is what the largest plug needs."""

    standing: str


@dataclass(frozen=True)
class Joint:
    """Where one piece ends and the next begins: distance from the start, place, and the way a hand gets there."""

    at: int
    point: Point
    space: str
    opening: str  # the way in; empty if no hand reaches it
    reachable: bool


@dataclass(frozen=True)
class Route:
    """An ordered list of legs from terminal to terminal, measured."""

    cable: str
    spaces: tuple[str, ...]
    passages: tuple[str, ...]
    stations: tuple[str, ...]  # of the graph, before the route was pulled tight
    legs: tuple[Leg, ...]
    holes: tuple[Hole, ...]
    joints: tuple[Joint, ...]
    criteria: Criteria
    cut_length: tuple[int, int, int]  # low, likely, high, per core
    figures: tuple[Figure, ...]  # every derived number with its working
    findings: tuple[Finding, ...]
    consents: tuple[str, ...]  # what the owner has to agree to
    agreed: bool = True  # whether the owner has agreed to all that is in sight
    unproven: tuple[str, ...] = ()  # ids of the spaces and passages that nobody has looked into

    @property
    def reachable(self) -> bool:
        """Whether every joint can be reached by hand."""
        return all(joint.reachable for joint in self.joints)

    @property
    def out_of_reach(self) -> tuple[int, int]:
        """The first and last leg of the first stretch without a place for a joint: from the joint before, or the start.

        Only of a route that is not `reachable`.
        """
        number = [joint.reachable for joint in self.joints].index(False)
        before = self.joints[number - 1].space if number else self.spaces[0]
        return self.spaces.index(before), self.spaces.index(self.joints[number].space)


@dataclass(frozen=True)
class Candidate:
    """A route offered for choice."""

    id: str  # "pv-1", by cable and rank
    rank: int
    route: Route
    score: int  # weighted sum, in thousandths of a millimetre of cable
    best_at: tuple[str, ...]  # criteria nobody beats it in, in words
    offered_as: str  # "winner", "efficient" or "another descent"
    reason: str  # a sentence: why it ranks where it does
    twins: tuple[tuple[str, ...], ...]  # other orders of spaces with exactly the same figures


@dataclass(frozen=True)
class TooTight:
    """A limit of the person's that has to give way, in the unit of its criterion.

    `opens_at` is the least value that opens a way: all by itself if `alone`, else with the others named.
    """

    name: str  # of the criterion, a field of Criteria
    stated: int
    opens_at: int
    alone: bool


@dataclass(frozen=True)
class NoRoute:
    """Why no way is open: what closes every way together, and the smallest change that opens one."""

    closed_by: tuple[str, ...]  # sentences, one a barred space or passage
    smallest_change: tuple[str, ...]  # sentences, all of them needed
    sentence: str
    too_tight: tuple[TooTight, ...] = ()  # where ways are open, but none keeps to the person's limits


@dataclass(frozen=True)
class Answer:
    """What the comparison says of one cable."""

    cable: str
    start: str
    end: str
    candidates: tuple[Candidate, ...]
    unroutable: NoRoute | None
    exact: bool
    guarantee: str  # a sentence: what the search proved, or to which tolerance
    left_out: tuple[str, ...]  # sentences: candidates dropped, with the reason
