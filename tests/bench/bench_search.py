"""The searches against `networkx.shortest_simple_paths` for ten paths, on the same graphs, in one run.

    python tests/bench/bench_search.py [seeds]

Coaches of boxes (see `tests/routes/random_nets.py`) from the roof down and from a bay up, plain and hard;
times are of the processor, the best of three, peer and drawcord one after the other. Ratios below 1: drawcord
is faster. Nets without any way are left out.

Both are given their graph ready-made, since the goals are about searching: the peer its DiGraph, which holds
neighbours both ways and the weighted sum on each arc; drawcord the same of its arrays, and no bound of any
kind. What the ratio is where both begin with bare arrays of arcs and costs is said beside it.
"""

# ruff: noqa: T201 - a benchmark prints

import sys
from collections.abc import Callable, Iterator, Sequence
from itertools import islice, product
from pathlib import Path
from statistics import median
from time import process_time

import networkx as nx

sys.path.insert(0, str(Path(__file__).parents[1] / "routes"))

from random_nets import box_net, seeded
from standing import Line, standing

from drawcord.routes.different import different
from drawcord.routes.efficient import efficient
from drawcord.routes.least import FAR
from drawcord.routes.net import Net
from drawcord.routes.orders import lightest_orders

STATIONS = 24  # spaces that have about 150 stations
SIZES = {STATIONS: (4, 3, 2), 30: (5, 3, 2), 120: (10, 4, 3), 1000: (25, 8, 5)}
DOUBLING = {30: (5, 3, 2), 60: (5, 4, 3), 120: (10, 4, 3), 240: (10, 8, 3), 480: (12, 8, 5), 960: (24, 8, 5)}
PRACTICAL = 10  # s; nobody waits longer for one cable
WEIGHTS = (1, 1500, 2, 0, 1500, 6)
TOLERANCE = (500, 0, 600, 50_000, 0, 500)
MOST_LABELS = 100_000
GOALS = {"exact": [(median, 1.0)], "limited": [(max, 2.0)], "ten orders": [(median, 0.2), (max, 1.0)]}


def best_time(run: Callable[[], object]) -> float:
    """Seconds of this process, the best of three runs; fewer are enough for what is slow."""
    times: list[float] = []
    while len(times) < 3 and sum(times) < 2:
        begin = process_time()
        run()
        times.append(process_time() - begin)
    return min(times)


def nets(spaces: int, seeds: int, criteria: int, *, hard: bool, up: bool) -> Iterator[Net]:
    """Generated coaches that have a way at all."""
    for seed in range(seeds):
        net = box_net(seeded(seed), *SIZES[spaces], criteria=criteria, hard=hard, up=up)
        if net.bounds[net.start, 0] < FAR:
            yield net


def peer(net: Net, weights: Sequence[int]) -> tuple[Callable[[], object], Callable[[], object]]:
    """The general-purpose library on the same graph: building it, and its ten paths."""

    def built() -> nx.DiGraph:
        graph = nx.DiGraph()
        arcs = zip(net.tail.tolist(), net.head.tolist(), net.weigh(weights).tolist(), strict=True)
        graph.add_weighted_edges_from(arcs)
        return graph

    graph = built()
    return built, lambda: list(islice(nx.shortest_simple_paths(graph, net.start, net.goal, "weight"), 10))


def bare(net: Net) -> Net:
    """The arrays alone."""
    return Net(net.space, net.tail, net.head, net.cost, net.start, net.goal)


def ten_orders(net: Net, weights: Sequence[int]) -> Callable[[], object]:
    """Ten different candidates, on the net with what the peer's graph holds too, made anew for each run."""
    net.weigh(weights)
    handed = {name: getattr(net, name) for name in ("into", "out_of", "_weighed")}

    def run() -> object:
        made = bare(net)
        made.__dict__.update(handed)
        return lightest_orders(made, weights, 10, MOST_LABELS)

    return run


def searches(net: Net, spaces: int) -> dict[str, Callable[[], object]]:
    """What is compared; all but the ten orders of spaces from the bare arcs."""
    criteria = net.cost.shape[1]
    weights, tolerance = WEIGHTS[:criteria], TOLERANCE[:criteria]
    length, holes, *others = net.bounds[net.start].tolist()
    limits = [length * 3 // 2, holes + 2, *[2 * least for least in others[:1]], *[None] * (criteria - 3)]
    levels = SIZES[spaces][2]
    above = {box for box in range(net.spaces - 1) if box % levels}
    return {
        "exact": lambda: efficient(bare(net), weights, [None] * criteria, MOST_LABELS, tolerance),
        "limited": lambda: efficient(bare(net), weights, limits, MOST_LABELS, tolerance),
        "ten orders": ten_orders(net, weights),
        "five descents": lambda: different(bare(net), weights, above, 5, MOST_LABELS),
    }


def against_peer(spaces: int, seeds: int) -> list[Line]:
    """One line for each kind of coach, then how the goals stand over all of them."""
    ratios: dict[str, list[float]] = {}
    for hard, up in product((False, True), repeat=2):
        times: dict[str, list[float]] = {}
        peers, arcs, members, bounded = [], [], [], 0
        for net in nets(spaces, seeds, 4, hard=hard, up=up):
            build, ten_paths = peer(net, WEIGHTS[:4])
            peers.append(best_time(ten_paths))
            bare_run = best_time(lambda net=net: lightest_orders(bare(net), WEIGHTS[:4], 10, MOST_LABELS))
            ratios.setdefault("graph and ten orders", []).append(bare_run / (best_time(build) + peers[-1]))
            arcs.append(len(net.tail))
            for name, run in searches(net, spaces).items():
                times.setdefault(name, []).append(best_time(run))
                ratios.setdefault(name, []).append(times[name][-1] / peers[-1])
            found = searches(net, spaces)["exact"]()
            members.append(len(found.paths))
            bounded += not found.exact
        ways = f"{'hard' if hard else 'plain'}, {'up' if up else 'down'}"
        print(
            f"{spaces:>5} spaces, {ways}: {len(arcs)} nets, {median(arcs):.0f} arcs, "
            f"{median(members):.0f} (at most {max(members)}) efficient, {bounded} met the bound on labels; "
            f"medians: peer {1e3 * median(peers):.1f} ms, "
            + ", ".join(f"{name} {1e3 * median(some):.1f}" for name, some in times.items())
        )
    lines = []
    for name, some in ratios.items():
        print(f"      {name:>20} / peer: median {median(some):.3f}, worst {max(some):.3f}", flush=True)
        for which, goal in GOALS.get(name, ()) if spaces == 120 else ():
            said = f"{spaces} spaces, {name} / ten paths of networkx, {'worst' if which is max else 'median'}"
            lines.append(standing(said, which(some), goal))
    return lines


def six_criteria(seeds: int) -> list[Line]:
    """Six criteria at about 150 stations, within the limits and without: the goal is a second."""
    times: dict[str, list[float]] = {}
    stations = []
    for hard, up in product((False, True), repeat=2):
        for net in nets(STATIONS, seeds, 6, hard=hard, up=up):
            stations.append(len(net.space) // 2 - 1)
            for name in ("limited", "exact", "five descents"):
                times.setdefault(name, []).append(best_time(searches(net, STATIONS)[name]))
    spread = f"{min(stations)} to {max(stations)} stations, median {median(stations):.0f}"
    each = ", ".join(f"{name}: median {median(t):.4f} s, worst {max(t):.4f} s" for name, t in times.items())
    print(f"six criteria, {len(stations)} nets of {spread}; {each}", flush=True)
    worst = max(max(some) for some in times.values())
    return [standing(f"six criteria at {spread}, worst of all searches [s]", worst, 1)]


def growth(spaces: int, seeds: int) -> None:
    """How the efficient set grows with the criteria and as they fight, and what limits leave of it."""
    for hard in (False, True):
        for criteria in range(2, 7):
            found: dict[str, list[tuple[int, int, float, bool]]] = {}
            for net in nets(spaces, seeds, criteria, hard=hard, up=False):
                for name in ("exact", "limited"):
                    run = searches(net, spaces)[name]
                    some = run()
                    found.setdefault(name, []).append((len(some.paths), some.labels, best_time(run), some.exact))
            said = []
            for name, each in found.items():
                members, labels, seconds, exact = zip(*each, strict=True)
                said.append(
                    f"{'all' if name == 'exact' else 'within limits'}: {median(members):.0f} (at most {max(members)}) "
                    f"members, {median(labels):.0f} ({max(labels)}) labels, {1e3 * median(seconds):.1f} "
                    f"({1e3 * max(seconds):.0f}) ms, {exact.count(False)} met the bound on labels"
                )
            kind = "criteria fight" if hard else "criteria agree"
            print(f"{spaces:>5} spaces, {kind}, {criteria} of them: {'; '.join(said)}", flush=True)


def doubling(seeds: int) -> None:
    """Six criteria that fight, within limits, as the coach doubles, up to where it stops being practical."""
    for spaces, size in DOUBLING.items():
        SIZES[spaces] = size
        times, bounded = [], 0
        for net in nets(spaces, seeds, 6, hard=True, up=False):
            run = searches(net, spaces)["limited"]
            times.append(best_time(run))
            bounded += not run().exact
        practical = max(times) <= PRACTICAL and not bounded
        print(
            f"{spaces:>5} spaces, six criteria that fight, within limits: median {median(times):.3f} s, worst "
            f"{max(times):.3f} s, {bounded} of {len(times)} met the bound on labels"
            + ("" if practical else f": no longer practical (exact within {PRACTICAL} s)"),
            flush=True,
        )
        if not practical:
            break


def main(seeds: int = 6) -> list[Line]:
    """All sizes; the largest on a few seeds only, since the peer takes its time."""
    lines = six_criteria(seeds)
    for spaces in (30, 120):
        growth(spaces, max(1, seeds // 3))
    lines += against_peer(30, seeds)
    lines += against_peer(120, seeds)
    lines += against_peer(1000, max(1, seeds // 6))
    doubling(max(1, seeds // 3))
    return lines


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:2]))
