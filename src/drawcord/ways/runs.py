"""How far it is within one space, whatever kind of space it is."""

from collections.abc import Sequence
from typing import Protocol

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach, Space
from drawcord.ways.inside import Inside
from drawcord.ways.raceway import Raceway
from drawcord.ways.roof import RoofRuns


class Runs(Protocol):
    """Least lengths [mm] between points of one space, and the elbows of the way that has that length."""

    def lengths(self, points: Sequence[Point], /) -> list[list[int | None]]:
        """A symmetric matrix; None where there is no way."""

    def path(self, p: Point, q: Point, /) -> tuple[Point, ...]:
        """The corners of a least way from p to q, both included; empty where there is none."""


class OnRoof:
    """Runs on the roof, at its height."""

    def __init__(self, coach: Coach) -> None:
        square = coach.job is None or coach.job.owner.roof_run == "square"
        obstacles = [thing.keep[:4] for thing in coach.obstacles.values()]
        # A flue is hot where it comes out, too.
        obstacles += [
            thing.keep[:4]
            for thing in coach.hazards.values()
            if thing.keep.z1 > coach.levels.roof > thing.keep.z0
        ]
        # What lifts takes the roof above it along: no cable crosses from fixed to lifted roof.
        obstacles += [
            part.sweep[:4]
            for part in coach.moving_parts.values()
            if part.sweep.z1 > coach.levels.roof >= part.sweep.z0
        ]
        self.z = coach.levels.roof
        self.plan = RoofRuns(coach.outline, obstacles, coach.shop.clearances.roof_edge, self.z, square)

    def lengths(self, points: Sequence[Point]) -> list[list[int | None]]:
        """See Runs."""
        return self.plan.lengths([(x, y) for x, y, _ in points])

    def path(self, p: Point, q: Point) -> tuple[Point, ...]:
        """See Runs."""
        return tuple((x, y, self.z) for x, y in self.plan.path(p[:2], q[:2]))


def runs(space: Space, rooms: dict[str, Raceway], roof: OnRoof) -> Runs:
    """The runs of a space by its kind."""
    if space.kind == "roof":
        return roof
    if space.kind == "room":
        return rooms[space.id]
    return Inside(space.box, space.taken)
