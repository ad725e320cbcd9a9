"""The ways of a coach: its passages, their stations, the runs within each space, and the graph of them all."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import count, product, takewhile

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.ways.derive import passages as derive
from drawcord.ways.links import Links, link
from drawcord.ways.passage import Gate, Passage, Station
from drawcord.ways.raceway import Raceway
from drawcord.ways.runs import OnRoof, Runs, runs
from drawcord.ways.walls import faces

WIDE = 250  # mm: a mouth narrower than this gets one station across it, a wider one gets one near each end
FRAGMENTS = 4  # mouths of one passage that get stations
Pair = tuple[Point, Point]


@dataclass(frozen=True)
class Ways:
    """Everything a search needs to know of one coach."""

    coach: Coach
    passages: dict[str, Passage]
    rooms: dict[str, Raceway]
    roof: OnRoof

    @cached_property
    def stations(self) -> dict[str, Station]:
        """The points at which passages can be crossed, by id."""
        found = {}
        for passage in self.passages.values():
            if passage.barred:
                continue
            corners = _corners(passage)
            level = {pair: ids for pair, ids in _level(passage, self.coach).items() if pair not in corners}
            gates = corners | dict.fromkeys(level, _by_size(passage)[0])
            for number, (pair, gate) in enumerate(gates.items()):
                name = f"{passage.id}#{number}"
                mouths = dict(zip((passage.a, passage.b), pair, strict=True))
                serves = frozenset(level.get(pair, ()))
                found[name] = Station(name, passage.id, mouths, gate.axis, gate.largest, serves)
        return found

    def stations_of(self, passage: str) -> Iterator[Station]:
        """The stations of a passage, in order."""
        names = (f"{passage}#{number}" for number in count())
        return (self.stations[name] for name in takewhile(self.stations.__contains__, names))

    @cached_property
    def runs(self) -> dict[str, Runs]:
        """Runs within each space that any cable may enter, by its id."""
        used = {end for passage in self.passages.values() for end in (passage.a, passage.b)}
        used |= {terminal.space for terminal in self.coach.terminals.values()}
        return {
            space.id: runs(space, self.rooms, self.roof)
            for space in self.coach.spaces.values()
            if space.id in used and not space.barred
        }

    def path(self, space: str, p: Point, q: Point) -> tuple[Point, ...]:
        """The corners of a least way from p to q within a space; empty where there is none.

        Remembered, since the candidates of a job share most of their legs.
        """
        key = (space, p, q)
        if key not in self._paths:
            self._paths[key] = self.runs[space].path(p, q)
        return self._paths[key]

    @cached_property
    def _paths(self) -> dict[tuple[str, Point, Point], tuple[Point, ...]]:
        return {}

    def beside(self, coach: Coach) -> "Ways":
        """The same ways for a coach that differs only in cables of its job with the same largest hole.

        Whatever was worked out is kept, since none of it depends on anything else of a cable.
        """
        other = replace(self, coach=coach)
        vars(other).update({name: value for name, value in vars(self).items() if name not in vars(other)})
        return other

    @cached_property
    def links(self) -> Links:
        """Everything that joins mouths, measured."""
        return link(self.coach, self.passages, self.stations, self.runs)


def _by_size(passage: Passage) -> list[Gate]:
    """The gates of a passage, the largest mouth first."""
    return sorted(passage.gates, key=lambda gate: (-sum(gate.near[i + 1] - gate.near[i] for i in (0, 2, 4)), gate))


def _corners(passage: Passage) -> dict[Pair, Gate]:
    """The corners of a passage's largest gate and the middles of the next largest, on both sides.

    Few are enough: a route is pulled tight afterwards, within the gates it goes through.
    """
    points: dict[Pair, Gate] = {}
    gates = _by_size(passage)
    for number, gate in enumerate(gates if passage.hole == "roof" else gates[:FRAGMENTS]):
        across = []
        for axis in (0, 1, 2):
            lo, hi = gate.near.span(axis)
            across.append((lo, hi) if hi - lo > WIDE and not number else ((lo + hi) // 2,))
        for x, y, z in product(*across):
            points.setdefault(_pair(gate, (x, y, z)), gate)
    return points


def _level(passage: Passage, coach: Coach) -> dict[Pair, list[str]]:
    """The points of a passage's largest gate that lie nearest to each terminal, with the terminals of each.

    In the square metric a cable that can cross level with one of its ends gains nothing by crossing elsewhere, but
    at corners alone it would seem up to twice the mouth longer.
    """
    gate = _by_size(passage)[0]
    found: dict[Pair, list[str]] = {}
    for terminal in coach.terminals.values():
        x, y, z = (min(max(at, gate.near.span(a)[0]), gate.near.span(a)[1]) for a, at in enumerate(terminal.point))
        found.setdefault(_pair(gate, (x, y, z)), []).append(terminal.id)
    return found


def _pair(gate: Gate, near: Point) -> Pair:
    """A point of a gate's near mouth and the one across from it."""
    alike = (gate.near.span(axis) == gate.far.span(axis) for axis in (0, 1, 2))
    x, y, z = (at if same else gate.far.span(a)[0] for a, (at, same) in enumerate(zip(near, alike, strict=True)))
    return near, (x, y, z)


def living_areas(coach: Coach) -> dict[str, Raceway]:
    """Where raceway may run in each room that a cable may enter, by its id."""
    rooms = (space for space in coach.spaces.values() if space.kind == "room" and not space.barred)
    return {room.id: Raceway(faces(room, coach), ()) for room in rooms}


def explore(coach: Coach) -> Ways:
    """The ways of a coach. Raises BadInput for declared passages that cannot be."""
    rooms, roof = living_areas(coach), OnRoof(coach)
    return Ways(coach, derive(coach, rooms, roof.plan), rooms, roof)
