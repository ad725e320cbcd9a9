"""The ways of a coach: its passages, their stations, the runs within each space, and the graph of them all."""

from dataclasses import dataclass
from functools import cached_property
from itertools import product

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.ways.derive import passages as derive
from drawcord.ways.links import Links, link
from drawcord.ways.passage import Passage, Station
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
            for number, (p, q) in enumerate(_points(passage)):
                name = f"{passage.id}#{number}"
                found[name] = Station(name, passage.id, {passage.a: p, passage.b: q})
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

    @cached_property
    def links(self) -> Links:
        """Everything that joins mouths, measured."""
        return link(self.coach, self.passages, self.stations, self.runs)


def _points(passage: Passage) -> list[tuple[Point, Point]]:
    """The corners of a passage's largest mouth and the middles of the next largest.

    Few are enough: a route is pulled tight afterwards, within the mouths it goes through.
    """
    by_size = sorted(
        passage.mouths, key=lambda pair: (-sum(pair[0][i + 1] - pair[0][i] for i in (0, 2, 4)), pair)
    )
    points: list[tuple[Point, Point]] = []
    for number, (near, far) in enumerate(by_size[:FRAGMENTS] if passage.hole != "roof" else by_size):
        across = []
        for axis in (0, 1, 2):
            lo, hi = near.span(axis)
            if near.span(axis) != far.span(axis):
                across.append([(lo, far.span(axis)[0])])  # along the passage: from one face to the other
            else:
                across.append(
                    [(v, v) for v in ((lo, hi) if hi - lo > WIDE and not number else ((lo + hi) // 2,))]
                )
        points += [((x[0], y[0], z[0]), (x[1], y[1], z[1])) for x, y, z in product(*across)]
    return list(dict.fromkeys(points))


def living_areas(coach: Coach) -> dict[str, Raceway]:
    """Where raceway may run in each room that a cable may enter, by its id."""
    rooms = (space for space in coach.spaces.values() if space.kind == "room" and not space.barred)
    return {room.id: Raceway(faces(room, coach), ()) for room in rooms}


def explore(coach: Coach) -> Ways:
    """The ways of a coach. Raises BadInput for declared passages that cannot be."""
    rooms, roof = living_areas(coach), OnRoof(coach)
    return Ways(coach, derive(coach, rooms, roof.plan), rooms, roof)
