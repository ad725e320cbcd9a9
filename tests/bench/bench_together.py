"""The joint plan of several cables against `networkx.shortest_simple_paths`, on generated coaches.

    python tests/bench/bench_together.py [seeds]

The peer finds ten paths for each cable, one after the other, on the same graphs with the same weights. Ours is
the whole joint plan: start, bounds, model, proof. Times are of the processor, one run each, since neither leaves
anything to be found again. Three devices and up to eight cables of all classes between them.
"""

# ruff: noqa: T201 - a benchmark prints

import sys
from itertools import islice
from pathlib import Path
from time import process_time

import networkx as nx

sys.path.insert(0, str(Path(__file__).parents[1]))

from standing import Line, standing

from drawcord.coach.build import build
from drawcord.files.load import load_shop
from drawcord.files.tables import conductors
from drawcord.plan.joint import Joint, jointly
from drawcord.routes.compare import compare
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.route import Answer
from drawcord.routes.weighing import weights
from drawcord.ways.ways import Ways, explore
from random_coaches import random_coach

CABLES = (  # class, from, to
    ("PV", "junction.pv", "controller.pv"),
    ("data", "router.data", "controller.data"),
    ("coax", "junction.pv", "router.data"),
    ("mains", "controller.pv", "router.pv"),
    ("PV", "junction.pv", "controller.data"),
    ("battery DC", "controller.pv", "router.data"),
    ("data", "junction.pv", "controller.data"),
    ("mains", "router.pv", "controller.data"),
)
Routed = list[tuple[Order, Answer]]
PRACTICAL = 60  # s, the goal for eight cables on 120 spaces


def job_of(spaces: int, seed: int, count: int) -> Ways:
    """A random coach in which so many cables are wanted."""
    rig, job = random_coach(spaces, seed)
    plain = job.cables["pv"]
    cables = {
        f"c{number}": plain.model_copy(update={"carries": carries, "start": start, "end": end})
        for number, (carries, start, end) in enumerate(CABLES[:count])
    }
    return explore(build(rig, job.model_copy(update={"cables": cables}), load_shop()[0]))


def timed(run):
    """Processor time [s] of one run, and its result."""
    begin = process_time()
    result = run()
    return process_time() - begin, result


def peer(routed: Routed) -> None:
    """Ten simple paths for each cable."""
    for order, _ in routed:
        net = Netted(order).net
        graph = nx.DiGraph()
        costs = net.weigh(weights(order.coach)).tolist()
        graph.add_weighted_edges_from(zip(net.tail.tolist(), net.head.tolist(), costs, strict=True))
        list(islice(nx.shortest_simple_paths(graph, net.start, net.goal, "weight"), 10))


def line(spaces: int, seed: int, count: int, *, with_peer: bool) -> tuple[bool, float]:
    """One coach: whether its plan was proved within a minute, or there was none to make; and how it compares."""
    ways = job_of(spaces, seed, count)
    orders = [Order(ways, name, conductors()) for name in sorted(ways.coach.job.cables)]  # type: ignore[union-attr]
    routed = [(order, answer) for order in orders if (answer := compare(order)).candidates]
    if len(routed) < 2:
        print(f"{spaces:>5} spaces, seed {seed}: fewer than two cables have a way")
        return True, 0.0
    took, joint = timed(lambda: jointly(routed, {}, lambda _: {}))
    against, ratio = "", 0.0
    if with_peer:
        theirs, _ = timed(lambda: peer(routed))
        ratio = took / theirs
        against = f", {ratio:.2f} times the peer's {theirs:.1f} s"
    print(f"{spaces:>5} spaces, seed {seed}, {len(routed)} cables: {took:.2f} s{against}; {proof(joint)}", flush=True)
    return joint.proved and took <= PRACTICAL, ratio


def proof(joint: Joint) -> str:
    """What is known of a plan."""
    out = f"; left out: {', '.join(joint.left_out)}" if joint.left_out else ""
    if joint.proved:
        return f"proved{out}"
    gap = 100 * (joint.weight - joint.bound) / joint.weight if joint.weight else 100
    return f"gap {gap:.2f} %{out}"


def main(seeds: int = 3) -> list[Line]:
    """Four and eight cables on 120 spaces, then four as the coach doubles, up to where that stops being practical."""
    ratios = [line(120, seed, 4, with_peer=True)[1] for seed in range(seeds)]
    lines = [standing("120 spaces, joint plan of 4 cables / ten paths of networkx for each, worst", max(ratios), 10)]
    late = [not line(120, seed, 8, with_peer=False)[0] for seed in range(seeds)]
    said = f"120 spaces, of {seeds} joint plans of 8 cables not proved within {PRACTICAL} s"
    lines.append(standing(said, sum(late), 0))
    for spaces in (30, 60, 120, 240, 480, 960):
        if not line(spaces, 0, 4, with_peer=False)[0]:
            print(f"four cables stop being practical (proved within {PRACTICAL} s) at {spaces} spaces")
            break
    else:
        print(f"four cables are practical (proved within {PRACTICAL} s) up to {spaces} spaces and more")
    return lines


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:2]))
