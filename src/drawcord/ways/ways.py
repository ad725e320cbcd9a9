"""The ways of a coach: its passages, their stations, the runs within each space, and the graph of them all."""

from dataclasses import dataclass
from functools import cached_property
from itertools import product

import networkx as nx

from drawcord.coach.box import Box, Point
from drawcord.coach.coach import Coach
from drawcord.ways.derive import passages as derive
from drawcord.ways.graph import build_graph
from drawcord.ways.passage import Passage, Station
from drawcord.ways.raceway import Raceway
from drawcord.ways.runs import OnRoof, Runs, runs
from drawcord.ways.walls import faces

WIDE = 250  # mm: a mouth narrower than this gets one station across it, a wider one gets one near each end


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
            points = dict.fromkeys(pair for mouths in passage.mouths for pair in self._points(passage, mouths))
            for number, (p, q) in enumerate(points):
                name = f"{passage.id}#{number}"
                found[name] = Station(name, passage.id, {passage.a: p, passage.b: q})
        return found

    def _points(self, passage: Passage, mouths: tuple[Box, Box]) -> list[tuple[Point, Point]]:
        """Corners of a mouth, and where a terminal of either space looks straight at it."""
        near, far = mouths
        across = []
        for axis in (0, 1, 2):
            lo, hi = near.span(axis)
            across.append([None] if near.span(axis) != far.span(axis) else [lo, hi] if hi - lo > WIDE else [(lo + hi) // 2])
        wanted = [tuple(corner) for corner in product(*across)]
        for terminal in self.coach.terminals.values():
            if terminal.space in (passage.a, passage.b):
                clamped = [min(max(v, near.span(i)[0]), near.span(i)[1]) for i, v in enumerate(terminal.point)]
                wanted.append(tuple(None if across[i] == [None] else v for i, v in enumerate(clamped)))
        return [(_at(near, corner), _at(far, corner)) for corner in wanted]

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

    @cached_property
    def graph(self) -> nx.MultiGraph:
        """The graph, as ways/graph.py documents it."""
        return build_graph(self.coach, self.passages, self.stations, self.runs)


def _at(mouth: Box, corner: tuple[int | None, ...]) -> Point:
    """A point of a mouth; None stands for the mouth's own place along the axis of the passage."""
    x, y, z = (mouth.span(axis)[0] if value is None else value for axis, value in enumerate(corner))
    return x, y, z


def explore(coach: Coach) -> Ways:
    """The ways of a coach. Raises BadInput for declared passages that cannot be."""
    rooms = {
        space.id: Raceway(faces(space, coach), ()) for space in coach.spaces.values() if space.kind == "room" and not space.barred
    }
    roof = OnRoof(coach)
    return Ways(coach, derive(coach, rooms, roof.plan, barred=False), rooms, roof)
