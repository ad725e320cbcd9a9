"""The graph that people see: a networkx MultiGraph of mouths, with every attribute named in this file.

Nodes are mouths: the two sides of each station, and the terminals.
  `<station>@<space>`  kind "mouth", space, passage, station, x, y, z [mm]
  `<terminal>`         kind "terminal", space, x, y, z [mm]
Edges are keyed by what they run in or go through.
  key = space id       kind "run", space, length_mm, in_sight_mm, seconds: from mouth to mouth within a space
  key = passage id     kind "crossing", passage, length_mm (the thickness), roof_holes, inner_holes, seconds,
                       doubt_micronats (-1e6 ln of the chance that it is clear), opening, standing
Graph attributes: `spaces`, by id: kind, seconds (to open it, once a route), doubt_micronats (once a route);
`rig`, `job`. A route is a path that alternates runs and crossings and enters no space twice; its cost is the
sum over its edges and over the spaces it enters after the first.
"""

import math

import networkx as nx

from drawcord.coach.coach import Coach, Space
from drawcord.ways.passage import Passage, Station
from drawcord.ways.runs import Runs


def micronats(chance: float) -> int:
    """Doubt of something that is clear with this chance: -1e6 ln(chance), a whole number so that sums are exact."""
    return round(-1e6 * math.log(chance)) if 0 < chance < 1 else 0


def opening_seconds(space: Space, coach: Coach) -> int:
    """Time to get at the inside of a space: its quickest way in, or to work blind where there is none."""
    ways_in = [opening.seconds for opening in coach.openings.values() if opening.into == space.id]
    if ways_in:
        return min(ways_in)
    reached = space.kind in ("roof", "room") or (space.kind == "underfloor" and space.zone == "wet and stony")
    return 0 if reached else coach.shop.labour.no_access


def build_graph(
    coach: Coach, passages: dict[str, Passage], stations: dict[str, Station], runs: dict[str, Runs]
) -> nx.MultiGraph:
    """Assemble the graph from its parts."""
    labour = coach.shop.labour
    graph = nx.MultiGraph(rig=coach.rig.rig, job=coach.job.job if coach.job else "")
    graph.graph["spaces"] = {
        space.id: {
            "kind": space.kind,
            "seconds": opening_seconds(space, coach),
            "doubt_micronats": micronats(space.chance),
        }
        for space in coach.spaces.values()
        if space.id in runs
    }
    mouths: dict[str, list[tuple[str, tuple[int, int, int], str]]] = {name: [] for name in runs}
    for station in stations.values():
        passage = passages[station.passage]
        ends = []
        for space, point in station.mouths.items():
            node = f"{station.id}@{space}"
            graph.add_node(
                node,
                kind="mouth",
                space=space,
                passage=passage.id,
                station=station.id,
                x=point[0],
                y=point[1],
                z=point[2],
            )
            mouths[space].append((node, point, passage.other(space)))
            ends.append((node, point))
        (one, p), (two, q) = ends
        graph.add_edge(
            one,
            two,
            key=passage.id,
            kind="crossing",
            passage=passage.id,
            length_mm=sum(abs(u - v) for u, v in zip(p, q, strict=True)),
            roof_holes=int(passage.hole == "roof"),
            inner_holes=int(passage.hole == "inner"),
            seconds={"roof": labour.roof_hole, "inner": labour.inner_hole}.get(passage.hole, labour.opening),
            doubt_micronats=micronats(passage.chance),
            opening=passage.opening,
            standing=passage.standing,
        )
    for terminal in coach.terminals.values():
        if terminal.space in runs:
            x, y, z = terminal.point
            graph.add_node(terminal.id, kind="terminal", space=terminal.space, x=x, y=y, z=z)
            mouths[terminal.space].append((terminal.id, terminal.point, ""))
    for name, ends_here in mouths.items():
        lengths = runs[name].lengths([point for _, point, _ in ends_here])
        kind = coach.spaces[name].kind
        pace, seen = labour.metre[kind], kind == "room"
        for row, (node, _, beyond) in enumerate(ends_here):
            for column in range(row):
                other, _, past = ends_here[column]
                length = lengths[row][column]
                # Out through another passage to the space just left would enter that space twice.
                if length is None or (beyond and beyond == past):
                    continue
                graph.add_edge(
                    node,
                    other,
                    key=name,
                    kind="run",
                    space=name,
                    length_mm=length,
                    in_sight_mm=length if seen else 0,
                    seconds=run_seconds(length, pace),
                )
    return graph


def run_seconds(length: int, pace: int) -> int:
    """Time [s] to run and fix a length [mm] at a pace [s/m], to the nearest second."""
    return (length * pace + 500) // 1000
