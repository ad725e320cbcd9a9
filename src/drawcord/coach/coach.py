"""The coach: one vehicle's spaces, moving parts and hazards as placed solids. All lengths in whole mm."""

from dataclasses import dataclass, field
from functools import cached_property

from drawcord.coach.box import Box, Point
from drawcord.coach.catalogue import Types
from drawcord.coach.faces import Direction
from drawcord.coach.job import Job
from drawcord.coach.kinds import SpaceKind, Standing, Zone
from drawcord.coach.levels import Levels
from drawcord.coach.rig import Passage, Rig
from drawcord.coach.shop import Shop
from drawcord.coach.standing import Known
from drawcord.words.faults import Path
from drawcord.words.finding import Finding


def shown_in(rig: Rig, job: Job | None) -> str:
    """The unit that lengths are shown in, "mm", "cm", "m" or "in": that of the files, millimetres if they have none."""
    stated = (job.units if job else None) or rig.units or "mm"
    return "in" if stated == "ft" else stated


@dataclass(frozen=True)
class Space:
    """A placed space.

    `taken` are the boxes inside `box` that a cable cannot use: contents, nested spaces, sweeps, clearances.
    `moving` names the moving part that it rides on or lies in the way of, or is empty.
    `barred` says in a few words why no cable may run here, or is empty.
    `hidden`: nobody sees into it without opening something, and no joint or device may lie in it, whatever opens it.
    `tall` says that it reaches from floor to ceiling. `front` is the face with its door, if it has one.
    """

    id: str
    kind: SpaceKind
    box: Box
    taken: tuple[Box, ...]
    zone: Zone
    hidden: bool
    tall: bool
    moving: str
    barred: str
    standing: Standing
    chance: float
    front: Direction | None
    plain: tuple[Direction, ...]
    cover: str
    source: str


@dataclass(frozen=True)
class Moving:
    """A moving part: where it is drawn, where it goes, and the volume it sweeps with its margin."""

    id: str
    kind: str
    drawn: Box
    moved: Box
    sweep: Box
    riders: tuple[str, ...]


@dataclass(frozen=True)
class Thing:
    """A placed obstacle, hazard or obstruction, and the box that must be kept clear of it."""

    id: str
    kind: str
    box: Box
    keep: Box


@dataclass(frozen=True)
class Opening:
    """A way to reach into a space: a flat box in one of its faces, and the seconds to open it."""

    id: str
    into: str
    kind: str
    box: Box
    seconds: int


@dataclass(frozen=True)
class Terminal:
    """Where a cable ends: its id is `equipment.terminal`."""

    id: str
    space: str
    point: Point
    kind: str


@dataclass(frozen=True)
class Declared:
    """A passage that the sketch or the job declares, with its place if it states one."""

    id: str
    passage: Passage
    at: Box | None


@dataclass(frozen=True)
class Coach:
    """One vehicle, ready for passages and pictures. Dicts keep ids in sorted order.

    `written` says where each entry stands: in the "rig" or the "job", and the keys that lead to it.
    """

    rig: Rig
    job: Job | None
    shop: Shop
    outline: tuple[tuple[int, int], ...]
    levels: Levels
    street_is_left: bool
    spaces: dict[str, Space]
    moving_parts: dict[str, Moving]
    obstacles: dict[str, Thing]
    hazards: dict[str, Thing]
    obstructions: dict[str, Thing]
    doors: dict[str, Box]
    windows: dict[str, Box]
    partitions: dict[str, Box]
    openings: dict[str, Opening]
    declared: dict[str, Declared]
    terminals: dict[str, Terminal]
    touching: dict[tuple[str, str], int]
    found: dict[str, Known] = field(default_factory=dict)
    written: dict[str, tuple[str, Path]] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()

    @property
    def units(self) -> str:
        """The unit that lengths are shown in."""
        return shown_in(self.rig, self.job)

    @property
    def types(self) -> Types:
        """The shop's types with the job's laid over them."""
        return self.shop.types.under(self.job.types) if self.job else self.shop.types

    def openings_into(self, space: str) -> list[Opening]:
        """The ways to reach into a space, in order of their ids."""
        return self._into.get(space, [])

    @cached_property
    def _into(self) -> dict[str, list[Opening]]:
        found: dict[str, list[Opening]] = {}
        for opening in self.openings.values():
            found.setdefault(opening.into, []).append(opening)
        return found

    @property
    def bounds(self) -> tuple[int, int, int, int]:
        """Least and greatest x, least and greatest y of the outline."""
        xs, ys = zip(*self.outline, strict=True)
        return min(xs), max(xs), min(ys), max(ys)
