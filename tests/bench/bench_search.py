"""The searches against `networkx.shortest_simple_paths` for ten paths, on the same graphs, in one run.

    python tests/bench/bench_search.py [seeds]

Coaches of boxes (see `tests/routes/random_nets.py`) from the roof down and from a bay up, plain and hard;
times are of the processor, the best of three, peer and drawcord one after the other, bounds made anew.
Both are given their graph ready-made, with the peer's weights already summed up. Ratios below 1: drawcord
is faster. Nets without any way are left out.
"""

# ruff: noqa: T201 - a benchmark prints

import sys
from collections.abc import Callable, Iterator
from itertools import islice, product
from pathlib import Path
from statistics import median
from time import process_time

import networkx as nx

sys.path.insert(0, str(Path(__file__).parents[1] / "routes"))

from random_nets import box_net, seeded

from drawcord.routes.different import different
from drawcord.routes.efficient import efficient
from drawcord.routes.least import FAR
from drawcord.routes.net import Net
from drawcord.routes.orders import lightest_orders

SIZES = {30: (5, 3, 2), 120: (10, 4, 3), 1000: (25, 8, 5)}
WEIGHTS = (1, 1500, 2, 0, 1500, 6)
TOLERANCE = (500, 0, 600, 50_000, 0, 500)
MOST_LABELS = 100_000
GOALS = {"exact": ("median", 1.0), "limited": ("worst", 2.0), "ten orders": ("median", 0.2)}


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
        if net.least[net.start, 0] < FAR:
            yield net


def peer(net: Net) -> Callable[[], object]:
    """The general-purpose library on the same graph."""
    graph = nx.DiGraph()
    weights = net.weigh(WEIGHTS[: net.cost.shape[1]]).tolist()
    graph.add_weighted_edges_from(zip(net.tail.tolist(), net.head.tolist(), weights, strict=True))
    return lambda: list(islice(nx.shortest_simple_paths(graph, net.start, net.goal, "weight"), 10))


def searches(net: Net, spaces: int) -> dict[str, Callable[[], object]]:
    """What is compared, each from the bare arcs."""

    def bare() -> Net:
        return Net(net.space, net.tail, net.head, net.cost, net.start, net.goal)

    criteria = net.cost.shape[1]
    weights, tolerance = WEIGHTS[:criteria], TOLERANCE[:criteria]
    length, holes, seconds, *_ = net.least[net.start].tolist()
    limits = [length * 3 // 2, holes + 2, seconds * 2, *[None] * (criteria - 3)]
    levels = SIZES[spaces][2]
    above = {box for box in range(net.spaces - 1) if box % levels}
    return {
        "exact": lambda: efficient(bare(), weights, [None] * criteria, MOST_LABELS, tolerance),
        "limited": lambda: efficient(bare(), weights, limits, MOST_LABELS, tolerance),
        "ten orders": lambda: lightest_orders(bare(), weights, 10, MOST_LABELS),
        "five descents": lambda: different(bare(), weights, above, 5, MOST_LABELS),
    }


def against_peer(spaces: int, seeds: int) -> None:
    """One line for each kind of coach, then how the goals stand over all of them."""
    ratios: dict[str, list[float]] = {}
    for hard, up in product((False, True), repeat=2):
        times: dict[str, list[float]] = {}
        peers, arcs, members, bounded = [], [], [], 0
        for net in nets(spaces, seeds, 4, hard=hard, up=up):
            peers.append(best_time(peer(net)))
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
    for name, some in ratios.items():
        line = f"      {name:>13} / peer: median {median(some):.3f}, worst {max(some):.3f}"
        if spaces == 120 and name in GOALS:
            which, goal = GOALS[name]
            reached = (median if which == "median" else max)(some) <= goal
            line += f"; goal: {which} at most {goal}: {'reached' if reached else 'MISSED'}"
        print(line, flush=True)


def demo_size(seeds: int) -> None:
    """Six criteria within limits and the different descents together, as one comparison asks for."""
    times = []
    for hard, up in product((False, True), repeat=2):
        for net in nets(30, seeds, 6, hard=hard, up=up):
            runs = searches(net, 30)
            times.append(best_time(lambda runs=runs: (runs["limited"](), runs["five descents"]())))
    both = f"median {1e3 * median(times):.1f} ms, worst {1e3 * max(times):.1f}"
    print(f"   30 spaces, six criteria, limited and five descents together: {both}")


def main() -> None:
    """All sizes; the largest on a few seeds only, since the peer takes its time."""
    seeds = int(sys.argv[1]) if len(sys.argv) > 1 else 10
    demo_size(seeds)
    against_peer(30, seeds)
    against_peer(120, seeds)
    against_peer(1000, max(1, seeds // 5))


if __name__ == "__main__":
    main()
