"""Random coaches and every route of each of their cables, from the graph that is published: slow and obvious."""

from collections import Counter
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import pairwise

import networkx as nx
import numpy as np

import sketch
from drawcord.coach.build import build
from drawcord.coach.shop import Shop
from drawcord.files.tables import conductors
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria
from drawcord.ways.graph import build_graph
from drawcord.ways.ways import explore
from kept import kept
from random_coaches import random_coach

SEEDS = 60
MOST_ROUTES = 20_000  # a coach with more is left out: the oracle looks at each of them
ATTRIBUTES = ("length_mm", "in_sight_mm", "roof_holes", "inner_holes", "seconds", "doubt_micronats")
ONCE = ("seconds", "doubt_micronats")  # what entering a space costs, as ways/graph.py says

CONDUCTORS = conductors()
Vector = tuple[int, ...]


def orders(spaces: int, shop: Shop | None = None) -> Iterator[Order]:
    """Every cable of the random coaches of a size whose ends lie where a cable may run."""
    for seed in range(SEEDS):
        rig, job = random_coach(spaces, seed)
        ways = explore(build(rig, job, shop or sketch.shop()))
        for name, cable in sorted(job.cables.items()):
            if not any(ways.coach.spaces[ways.coach.terminals[end].space].barred for end in (cable.start, cable.end)):
                yield Order(ways, name, CONDUCTORS)


@kept
def few(spaces: str) -> list[tuple[Order, frozenset[Vector]]]:
    """Of these orders those that have few enough routes to look at, and what their routes cost."""
    every = ((order, all_routes(order)) for order in orders(int(spaces)))
    return [(order, frozenset(routes)) for order, routes in every if len(routes) <= MOST_ROUTES]


def whole(netted: Netted, vector: Vector) -> Criteria:
    """The criteria of a path with what every path costs."""
    return Criteria(*map(sum, zip(netted.base, vector, strict=True)))


def all_routes(order: Order) -> list[Vector]:
    """The costs of all routes: paths through the graph that alternate runs and crossings, by each order of spaces.

    Where there are more than MOST_ROUTES, that many and one of nothing.
    """
    graph = build_graph(order.coach, order.ways.passages, order.ways.links)
    start, end = order.cable.start, order.cable.end
    refused = {passage.id for passage in order.ways.passages.values() if order.refused(passage)}
    stations: dict[tuple[str, str], list[tuple[str, str, str]]] = {}
    touching = nx.Graph()
    touching.add_nodes_from(graph.graph["spaces"])
    for one, two, passage in graph.edges(keys=True):
        here, there = graph.nodes[one]["space"], graph.nodes[two]["space"]
        level_with = graph.nodes[one].get("level_with")
        if level_with and not {start, end} & set(level_with):
            continue
        if here != there and passage not in refused:
            touching.add_edge(here, there)
            stations.setdefault((here, there), []).append((one, two, passage))
            stations.setdefault((there, here), []).append((two, one, passage))
    first, last = graph.nodes[start]["space"], graph.nodes[end]["space"]
    every = [[first]] if first == last else list(nx.all_simple_paths(touching, first, last))

    @cache
    def onward(at: str, here: str, there: str) -> list[tuple[str, np.ndarray]]:
        """Where a cable at a mouth may come out in the next space, and what it costs to get there."""
        return [
            (into, costs(graph.edges[at, out, here]) + costs(graph.edges[out, into, passage]))
            for out, into, passage in stations[here, there]
            if graph.has_edge(at, out, here)
        ]

    def most(spaces: list[str]) -> int:
        """How many beginnings of routes there are at most, in this order of spaces."""
        counts = [Counter({start: 1})]
        for here, there in pairwise(spaces):
            counts.append(Counter())
            for at, number in counts[-2].items():
                for into, _ in onward(at, here, there):
                    counts[-1][into] += number
        return max(one.total() for one in counts)

    if sum(map(most, every)) > MOST_ROUTES:
        return [(0,) * 6] * (MOST_ROUTES + 1)
    found = [np.zeros((0, 6), np.int64)]
    for spaces in every:
        entered = [costs({key: graph.graph["spaces"][name].get(key, 0) for key in ONCE}) for name in spaces[1:]]
        fronts = {start: sum(entered, np.zeros((1, 6), np.int64))}  # a row for each way of getting there
        for here, there in pairwise(spaces):
            beyond: dict[str, list[np.ndarray]] = {}
            for at, rows in fronts.items():
                for into, cost in onward(at, here, there):
                    beyond.setdefault(into, []).append(rows + cost)
            fronts = {at: np.concatenate(rows) for at, rows in beyond.items()}
        arrived = ((at, rows) for at, rows in fronts.items() if graph.has_edge(at, end, last))
        found += [rows + costs(graph.edges[at, end, last]) for at, rows in arrived]
    return list(map(tuple, np.concatenate(found).tolist()))


def costs(attributes: dict[str, int]) -> np.ndarray:
    """What an edge costs, or entering a space."""
    return np.array([attributes.get(key, 0) for key in ATTRIBUTES], np.int64)


def unbeaten(vectors: Iterable[Vector]) -> list[Vector]:
    """Those that no other is nowhere above."""
    best: list[Vector] = []
    for vector in sorted(vectors):  # whatever beats a vector comes before it
        if not any(all(a <= b for a, b in zip(other, vector, strict=True)) for other in best):
            best.append(vector)
    return best
