"""The ways of a coach: its passages, their stations, the runs within each space, and the graph of them all."""

from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product

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
            for number, (p, q, gate) in enumerate(_points(passage)):
                name = f"{passage.id}#{number}"
                mouths = {passage.a: p, passage.b: q}
                found[name] = Station(name, passage.id, mouths, gate.axis, gate.largest)
        return found

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


def _points(passage: Passage) -> list[tuple[Point, Point, Gate]]:
    """The corners of a passage's largest gate and the middles of the next largest.

    Few are enough: a route is pulled tight afterwards, within the gates it goes through.
    """
    gates = sorted(passage.gates, key=lambda gate: (-sum(gate.near[i + 1] - gate.near[i] for i in (0, 2, 4)), gate))
    points: dict[tuple[Point, Point], Gate] = {}
    for number, gate in enumerate(gates if passage.hole == "roof" else gates[:FRAGMENTS]):
        across = []
        for axis in (0, 1, 2):
            lo, hi = gate.near.span(axis)
            ends = (lo, hi) if hi - lo > WIDE and not number else ((lo + hi) // 2,)
            alike = gate.far.span(axis) == (lo, hi)
            across.append([(v, v if alike else gate.far.span(axis)[0]) for v in ends])
        for x, y, z in product(*across):
            points.setdefault(((x[0], y[0], z[0]), (x[1], y[1], z[1])), gate)
    return [(*pair, gate) for pair, gate in points.items()]


def living_areas(coach: Coach) -> dict[str, Raceway]:
    """Where raceway may run in each room that a cable may enter, by its id."""
    rooms = (space for space in coach.spaces.values() if space.kind == "room" and not space.barred)
    return {room.id: Raceway(faces(room, coach), ()) for room in rooms}


def explore(coach: Coach) -> Ways:
    """The ways of a coach. Raises BadInput for declared passages that cannot be."""
    rooms, roof = living_areas(coach), OnRoof(coach)
    return Ways(coach, derive(coach, rooms, roof.plan), rooms, roof)
