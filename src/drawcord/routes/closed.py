"""Why no way is open: the bars that together close every way, and the fewest that would have to go.

Works on the coach stripped of everything that bars: each bar found on the way is then a named fact.
"""

from collections.abc import Iterator
from dataclasses import replace
from heapq import heappop, heappush
from itertools import combinations

import networkx as nx

from drawcord.coach.coach import Coach
from drawcord.routes.order import Order
from drawcord.routes.route import NoRoute
from drawcord.ways.derive import passages as derive
from drawcord.ways.passage import Passage
from drawcord.ways.runs import OnRoof
from drawcord.ways.ways import Ways, living_areas

Node = tuple[
    str, str
]  # a side of a passage (passage, space), a terminal (terminal, space) or a barred space's hub


def explain(order: Order) -> NoRoute:
    """What closes every way for this cable, and the smallest change that opens one."""
    ways = order.ways
    bare = _stripped(ways.coach)
    rooms = living_areas(bare)
    every = derive(bare, rooms, OnRoof(bare).plan)
    bars = dict(_bars(order, every))
    start, goal = order.cable.start, order.cable.end
    ends = {t: ways.coach.terminals[t].space for t in (start, goal)}
    flow = nx.DiGraph()
    for passage in every.values():
        _both(flow, (passage.id, passage.a), (passage.id, passage.b), bars.get(passage.id))
    sides: dict[str, list[str]] = {}
    for passage in every.values():
        for space in (passage.a, passage.b):
            sides.setdefault(space, []).append(passage.id)
    for terminal, space in ends.items():
        sides.setdefault(space, []).append(terminal)
    for space, names in sorted(sides.items()):
        if space in bars:
            hub_in, hub_out = ("into", space), ("out of", space)
            flow.add_edge(hub_in, hub_out, capacity=1, bar=bars[space])
            for name in names:
                flow.add_edge((name, space), hub_in)
                flow.add_edge(hub_out, (name, space))
            continue
        apart = _apart(ways, space)
        for one, two in combinations(names, 2):
            gap = apart.get((one, two))
            _both(
                flow,
                (one, space),
                (two, space),
                f"what fills {space} leaves no way from {one} to {two}" if gap else None,
            )
    source, target = (start, ends[start]), (goal, ends[goal])
    flow.add_nodes_from((source, target))  # a space may touch no other
    if not nx.has_path(flow, source, target):
        sentence = f"nothing that the sketch shows leads from {start} to {goal}: no chain of touching spaces joins them"
        return NoRoute((), ("sketch or declare a passage between them",), sentence)
    _, (reached, beyond) = nx.minimum_cut(flow, source, target)
    closing = sorted({data["bar"] for u, v, data in flow.edges(data=True) if u in reached and v in beyond})
    change = _fewest(flow, source, target)
    sentence = f"every way from {start} to {goal} is closed by: {'; '.join(closing)}"
    return NoRoute(tuple(closing), tuple(f"it would open if this changed: {bar}" for bar in change), sentence)


def _both(flow: nx.DiGraph, one: Node, two: Node, bar: str | None) -> None:
    for u, v in ((one, two), (two, one)):
        if bar:
            flow.add_edge(u, v, capacity=1, bar=bar)
        else:
            flow.add_edge(u, v)  # no capacity: never part of a cut


def _stripped(coach: Coach) -> Coach:
    """The coach as its spaces alone, with nothing in the way."""
    spaces = {name: replace(space, taken=(), barred="") for name, space in coach.spaces.items()}
    return replace(
        coach, spaces=spaces, moving_parts={}, hazards={}, obstructions={}, doors={}, windows={}, found={}
    )


def _bars(order: Order, every: dict[str, Passage]) -> Iterator[tuple[str, str]]:
    """Every bar as (id of a space or passage, a sentence's worth of reason)."""
    coach = order.coach
    for space in coach.spaces.values():
        if space.barred:
            yield space.id, f"{space.id}: {space.barred}"
    known = order.ways.passages
    for name, passage in every.items():
        if any(coach.spaces[end].barred for end in (passage.a, passage.b)):
            found = coach.found.get(name)
            if found and found[0] == "blocked":
                yield name, f"{name}: it is blocked"
        elif name in known:
            if refusal := order.refused(known[name]):
                yield name, f"{name}: {refusal}"
        else:
            yield name, f"{name}: clearances, moving parts, doors, windows or framing cover all of it"


def _apart(ways: Ways, space: str) -> dict[tuple[str, str], bool]:
    """Which ends within a space have no run between any of their mouths."""
    ends = [(s.passage, s.mouths[space]) for s in ways.stations.values() if space in s.mouths]
    ends += [(t.id, t.point) for t in ways.coach.terminals.values() if t.space == space]
    if space not in ways.runs:
        return {}
    lengths = ways.runs[space].lengths([point for _, point in ends])
    joined: dict[tuple[str, str], bool] = {}
    for i, (one, _) in enumerate(ends):
        for j, (two, _) in enumerate(ends):
            key = (one, two)
            joined[key] = joined.get(key, False) or lengths[i][j] is not None
    return {key: not together for key, together in joined.items()}


def _fewest(flow: nx.DiGraph, source: Node, target: Node) -> list[str]:
    """The bars of a way with the fewest of them; ties go to the first in order of their sentences."""
    heap: list[tuple[int, tuple[str, ...], Node]] = [(0, (), source)]
    done = set()
    while heap:
        _, bars, node = heappop(heap)
        if node == target:
            return list(bars)
        if node in done:
            continue
        done.add(node)
        for _, onward, data in flow.out_edges(node, data=True):
            bar = data.get("bar")
            now = bars if bar is None or bar in bars else tuple(sorted((*bars, bar)))
            heappush(heap, (len(now), now, onward))
    return []
