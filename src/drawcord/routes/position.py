"""Where along its cable a device sits, or could: the place on a route, and the way a hand gets there."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.pieces.reach import within_reach
from drawcord.routes.route import Leg


@dataclass(frozen=True)
class Position:
    """A place on a route: `along` [mm] from one of its terminals, slack left out; `opening` is empty out of reach."""

    terminal: str
    along: int
    space: str
    point: Point
    opening: str


class _Run(NamedTuple):
    """A straight stretch of a route, `at` [mm] from the terminal that is measured from."""

    at: int
    space: str
    p: Point
    q: Point

    @property
    def end(self) -> int:
        return self.at + round(math.dist(self.p, self.q))

    def point(self, along: int) -> Point:
        share = min(max(0.0, (along - self.at) / max(1, self.end - self.at)), 1.0)
        x, y, z = (round(u + (v - u) * share) for u, v in zip(self.p, self.q, strict=True))
        return x, y, z


def position(coach: Coach, cable: str, legs: Sequence[Leg], terminal: str, along: int) -> Position | None:
    """The place so far along the route [mm]; None past its end. Where two stretches meet, the one in reach counts."""
    here = [run for run in _runs(coach, cable, legs, terminal) if run.at <= along <= run.end]
    for run in here:
        for name, near, far in _reach(coach, run):
            if near <= along <= far:
                return _position(terminal, along, run, name)
    return _position(terminal, along, here[0], "") if here else None


def measured(legs: Sequence[Leg]) -> int:
    """How far it is along a route from end to end [mm], each straight stretch to the millimetre, as places are told."""
    return sum(round(math.dist(p, q)) for leg in legs for p, q in pairwise(leg.points))


def first_reachable(coach: Coach, cable: str, legs: Sequence[Leg], terminal: str, least: int = 0) -> Position | None:
    """The first place in reach at least so far from the terminal [mm], None if there is none."""
    for run in _runs(coach, cable, legs, terminal):
        within = sorted((max(near, least), name) for name, near, far in _reach(coach, run) if far >= least)
        if within:
            along, name = within[0]
            return _position(terminal, along, run, name)
    return None


def entry(coach: Coach, cable: str, legs: Sequence[Leg], terminal: str) -> int:
    """How far from the terminal the route has left the roof for good [mm]; 0 if it never is there."""
    runs = _runs(coach, cable, legs, terminal)
    return max((run.end for run in runs if coach.spaces[run.space].kind == "roof"), default=0)


def _position(terminal: str, along: int, run: _Run, opening: str) -> Position:
    return Position(terminal, along, run.space, run.point(along), opening)


def _reach(coach: Coach, run: _Run) -> list[tuple[str, int, int]]:
    return [(name, run.at + near, run.at + far) for name, near, far in within_reach(coach, run.space, run.p, run.q)]


def _runs(coach: Coach, cable: str, legs: Sequence[Leg], terminal: str) -> Iterator[_Run]:
    """The stretches of a route from one of its terminals to the other."""
    ways = [(leg.space, leg.points) for leg in legs]
    if coach.job and coach.job.cables[cable].end == terminal:
        ways = [(space, points[::-1]) for space, points in reversed(ways)]
    at = 0
    for space, points in ways:
        for p, q in pairwise(points if len(points) > 1 else points * 2):
            yield (run := _Run(at, space, p, q))
            at = run.end
