"""The graph that people see: a networkx MultiGraph of mouths, with every attribute named in this file.

Nodes are mouths: the two sides of each station, and the terminals.
  `<station>@<space>`  kind "mouth", space, passage, station, x, y, z [mm], level_with (the terminals for whose
                       cables alone it is; empty where it is for all)
  `<terminal>`         kind "terminal", space, x, y, z [mm]
Edges are keyed by what they run in or go through.
  key = space id       kind "run", space, length_mm, in_sight_mm, seconds: from mouth to mouth within a space
  key = passage id     kind "crossing", passage, length_mm (the thickness), roof_holes, inner_holes, seconds,
                       doubt_micronats (-1e6 ln of the chance that it is clear), opening, standing
Graph attributes: `spaces`, by id: kind, seconds (to open it, once a route), doubt_micronats (once a route);
`rig`, `job`. A route is a path that alternates runs and crossings and enters no space twice; its cost is the
sum over its edges and over the spaces it enters after the first.
"""

import networkx as nx

from drawcord.coach.coach import Coach
from drawcord.ways.links import Links
from drawcord.ways.passage import Passage


def build_graph(coach: Coach, passages: dict[str, Passage], links: Links) -> nx.MultiGraph:
    """The links as a graph."""
    graph = nx.MultiGraph(rig=coach.rig.rig, job=coach.job.job if coach.job else "")
    graph.graph["spaces"] = {
        name: {"kind": space.kind, "seconds": space.seconds, "doubt_micronats": space.doubt}
        for name, space in links.entering.items()
    }
    for number, mouth in enumerate(links.mouths):
        x, y, z = mouth.point
        if not mouth.passage:
            graph.add_node(mouth.name, kind="terminal", space=mouth.space, x=x, y=y, z=z)
            continue
        where = {"space": mouth.space, "passage": mouth.passage, "station": mouth.station}
        serves = list(mouth.level_with)
        graph.add_node(mouth.name, kind="mouth", **where, level_with=serves, x=x, y=y, z=z)
        twin = int(links.twin[number])
        if twin < number:
            passage = passages[mouth.passage]
            length, roof_holes, inner_holes, seconds, doubt = links.over[number].tolist()
            graph.add_edge(
                links.mouths[twin].name,
                mouth.name,
                key=passage.id,
                kind="crossing",
                passage=passage.id,
                length_mm=length,
                roof_holes=roof_holes,
                inner_holes=inner_holes,
                seconds=seconds,
                doubt_micronats=doubt,
                opening=passage.opening,
                standing=passage.standing,
            )
    columns = (links.one, links.two, links.length, links.in_sight, links.seconds)
    for one, two, length, in_sight, seconds in zip(*(column.tolist() for column in columns), strict=True):
        space = links.mouths[one].space
        graph.add_edge(
            links.mouths[one].name,
            links.mouths[two].name,
            key=space,
            kind="run",
            space=space,
            length_mm=length,
            in_sight_mm=in_sight,
            seconds=seconds,
        )
    return graph
