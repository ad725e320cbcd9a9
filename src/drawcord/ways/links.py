"""Everything that joins mouths: runs within spaces and crossings between them, as plain arrays.

The one source of both the graph that people see (graph.py) and the searches' own net.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach, Space
from drawcord.ways.passage import Passage, Station
from drawcord.ways.runs import Runs

Array = NDArray[np.int64]


class Mouth(NamedTuple):
    """One side of a station, or a terminal; `passage` and `station` are empty for a terminal.

    `level_with`: of a station for some cables alone, the terminals of these, in order.
    """

    name: str
    space: str
    passage: str
    station: str
    point: Point
    level_with: tuple[str, ...] = ()


class Entering(NamedTuple):
    """What a space costs a route that enters it, once: time [s] to open it, and doubt [micro-nats]."""

    kind: str
    seconds: int
    doubt: int


@dataclass(frozen=True)
class Links:
    """Mouths, and what joins them.

    `twin`: for each mouth the mouth on the other side of its station, itself for a terminal.
    `over`: for each mouth what it costs to cross to its twin, shape (n, 5): thickness [mm], roof holes,
    inner holes, time [s], doubt [micro-nats]; zeros for a terminal.
    `one`, `two`: the mouths at the ends of each run; `length` [mm], `in_sight` [mm], `seconds` [s] of each.
    `entering`: by space, in order of id.
    """

    mouths: tuple[Mouth, ...]
    twin: Array
    over: Array
    one: Array
    two: Array
    length: Array
    in_sight: Array
    seconds: Array
    entering: Mapping[str, Entering]


def micronats(chance: float) -> int:
    """Doubt of something that is clear with this chance: -1e6 ln(chance), a whole number so that sums are exact."""
    return round(-1e6 * math.log(chance)) if 0 < chance < 1 else 0


def opening_seconds(space: Space, coach: Coach) -> int:
    """Time [s] to get at the inside of a space: its quickest way in, or to work blind where there is none."""
    ways_in = [opening.seconds for opening in coach.openings_into(space.id)]
    if ways_in:
        return min(ways_in)
    reached = space.kind in ("roof", "room") or (space.kind == "underfloor" and space.zone == "wet and stony")
    return 0 if reached else coach.shop.labour.no_access


def crossing_seconds(passage: Passage, coach: Coach) -> int:
    """Time [s] to get a cable through a passage."""
    labour = coach.shop.labour
    return {"roof": labour.roof_hole, "inner": labour.inner_hole}.get(passage.hole, labour.opening)


def run_seconds(length: int, pace: int) -> int:
    """Time [s] to run and fix a length [mm] at a pace [s/m], to the nearest second."""
    return (length * pace + 500) // 1000


def link(coach: Coach, passages: dict[str, Passage], stations: dict[str, Station], runs: dict[str, Runs]) -> Links:
    """Measure every run between the mouths of each space.

    No run leads from a passage to another one into the same space: a route enters no space twice.
    """
    mouths = [
        Mouth(f"{station.id}@{space}", space, station.passage, station.id, point, tuple(sorted(station.level_with)))
        for station in stations.values()
        for space, point in station.mouths.items()
    ]
    mouths += [Mouth(t.id, t.space, "", "", t.point) for t in coach.terminals.values() if t.space in runs]
    place = {mouth.name: number for number, mouth in enumerate(mouths)}
    here: dict[str, list[int]] = {name: [] for name in sorted(runs)}
    beyond: list[str] = []
    twin: list[int] = []
    for number, mouth in enumerate(mouths):
        here[mouth.space].append(number)
        other = passages[mouth.passage].other(mouth.space) if mouth.passage else mouth.name
        beyond.append(other)
        twin.append(place[f"{mouth.station}@{other}"] if mouth.passage else number)
    costs = {name: _crossing(station, passages[station.passage], coach) for name, station in stations.items()}
    costs[""] = (0, 0, 0, 0, 0)
    first: dict[str, int] = {}
    towards = np.array([first.setdefault(other, number) for number, other in enumerate(beyond)], np.int64)
    nothing = np.zeros(0, np.int64)
    parts = [(nothing,) * 5]
    for name, numbers in here.items():
        lengths = runs[name].lengths([mouths[number].point for number in numbers])
        known = [[-1 if length is None else length for length in row] for row in lengths]
        table = np.array(known, np.int64).reshape(len(numbers), len(numbers))
        at = np.array(numbers, np.int64)
        row, column = np.nonzero(np.tril(table >= 0, -1) & (towards[at][:, None] != towards[at][None]))
        run = table[row, column]
        kind = coach.spaces[name].kind
        pace = coach.shop.labour.metre[kind]
        parts.append((at[row], at[column], run, run * (kind == "room"), (run * pace + 500) // 1000))
    one, two, length, in_sight, seconds = (np.concatenate(column) for column in zip(*parts, strict=True))
    return Links(
        mouths=tuple(mouths),
        twin=np.array(twin, np.int64),
        over=np.array([costs[mouth.station] for mouth in mouths], np.int64).reshape(-1, 5),
        one=one,
        two=two,
        length=length,
        in_sight=in_sight,
        seconds=seconds,
        entering={
            name: Entering(space.kind, opening_seconds(space, coach), micronats(space.chance))
            for name in here
            if (space := coach.spaces[name])
        },
    )


def _crossing(station: Station, passage: Passage, coach: Coach) -> tuple[int, int, int, int, int]:
    p, q = station.mouths.values()
    thickness = sum(abs(u - v) for u, v in zip(p, q, strict=True))
    holes = int(passage.hole == "roof"), int(passage.hole == "inner")
    return thickness, *holes, crossing_seconds(passage, coach), micronats(passage.chance)
