"""Everything that drawcord promises about time, as ratios against general-purpose peers, in one run.

    python tests/bench/bench.py [part …]

The parts, all where none is named: processes, coaches, search, again, outcomes, together. At the end each goal with
what was measured and whether it is met. About half an hour of the processor.

On the demo rigs and on generated coaches (tests/random_coaches.py) of 30, 120 and 1000 spaces. A ratio below 1
means that drawcord is faster. All times are of the processor: of whole processes the median of several runs in turn
with their peers, else the best of some runs in this process. Numbers in milliseconds are this machine's and of this
minute; only ratios are worth keeping.
"""

# ruff: noqa: T201 - a benchmark prints

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage
from statistics import median
from time import process_time

import networkx as nx

sys.path.insert(0, str(Path(__file__).parents[1]))

import bench_again
import bench_outcomes
import bench_search
import bench_together
from standing import Line, standing

from drawcord.coach.build import build
from drawcord.files.home import layouts
from drawcord.files.load import load, load_shop
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.weighing import weights
from drawcord.ways.graph import build_graph
from drawcord.ways.ways import Ways, explore
from random_coaches import random_coach

FLOOR = "import networkx, shapely, pydantic"
# Both sides run from compiled files, as what is installed does; else ours alone would be compiled each time.
COMPILED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
JOBS = sorted(layouts().glob("*/job-*.yaml"))


def seconds_of(*command: str) -> float:
    """Processor time of a whole process."""
    before = getrusage(RUSAGE_CHILDREN)
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=COMPILED)
    after = getrusage(RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def in_turn(ours: tuple[str, ...], theirs: tuple[str, ...], rounds: int = 5) -> float:
    """Our median time over theirs, the two run in turn so that both meet the same noise."""
    seconds_of(*ours)  # so that both are compiled
    ours_took, theirs_took = zip(*((seconds_of(*ours), seconds_of(*theirs)) for _ in range(rounds)), strict=True)
    return median(ours_took) / median(theirs_took)


def took(run: Callable[[], object]) -> float:
    """Processor time of this process [s], the best of three, of fewer where it is slow."""
    return bench_search.best_time(run)


def processes() -> list[Line]:
    """The program as a whole against what it must import anyway."""
    python, program = sys.executable, str(Path(sys.executable).with_name("drawcord"))
    ratio = in_turn((program, "--help"), (python, "-c", "import networkx"))
    lines = [standing("drawcord --help / import networkx", ratio, 0.5)]
    for job in JOBS:
        ratio = in_turn((program, "compare", str(job), "--json"), (python, "-c", FLOOR))
        lines.append(standing(f"drawcord compare {job.parent.name}/{job.stem} / {FLOOR}", ratio, 2.5))
    return lines


def candidates(ways: Ways) -> list[tuple[float, float]]:
    """Time of ten different candidates for each cable that has a choice, and of the peer's ten paths."""
    pairs = []
    job = ways.coach.job
    for name in sorted(job.cables) if job else ():
        ends = (ways.coach.terminals[end] for end in (job.cables[name].start, job.cables[name].end))
        if any(ways.coach.spaces[end.space].barred for end in ends):
            continue
        net, by = Netted(Order(ways, name, ())).net, weights(ways.coach)
        ours = bench_search.ten_orders(net, by)
        if len(ours().paths) > 1:
            pairs.append((took(ours), took(bench_search.peer(net, by)[1])))
    return pairs


def coach_lines(name: str, ways: Ways) -> None:
    """Sizes and times of one coach."""
    coach = ways.coach
    fresh = took(lambda: explore(coach).links)
    graph = build_graph(coach, ways.passages, ways.links)
    copied = took(lambda: nx.MultiGraph(graph))
    pairs = candidates(ways)
    print(
        f"{name}: {len(coach.spaces)} spaces, {len(ways.passages)} passages, {graph.number_of_nodes()} mouths, "
        f"{graph.number_of_edges()} edges; building them {1e3 * fresh:.0f} ms, {fresh / copied:.2f} times as long as "
        "networkx takes to copy the finished graph"
    )
    if pairs:
        ratios = [ours / theirs for ours, theirs in pairs]
        print(
            f"    ten different candidates / ten simple paths of networkx, {len(pairs)} cables: "
            f"median {median(ratios):.3f}, worst {max(ratios):.3f}"
        )


def coaches() -> list[Line]:
    """Building the graph, and ten candidates of every cable; no goals."""
    for job in JOBS:
        coach_lines(f"{job.parent.name}/{job.stem}", explore(load(job).coach))
    shop, _ = load_shop()
    for spaces in (30, 120, 1000):
        for seed in range(3 if spaces < 1000 else 1):
            rig, job = random_coach(spaces, seed)
            coach_lines(f"generated, {spaces} spaces, seed {seed}", explore(build(rig, job, shop)))
    return []


PARTS: dict[str, Callable[[], list[Line]]] = {
    "processes": processes,
    "coaches": coaches,
    "search": bench_search.main,
    "again": bench_again.main,
    "outcomes": bench_outcomes.main,
    "together": bench_together.main,
}


def main(parts: list[str]) -> None:
    """These parts, and how all goals stand."""
    lines: list[Line] = []
    for part in parts:
        print(f"-- {part}", flush=True)
        begin = process_time()
        lines += PARTS[part]()
        print(f"-- {part}: {process_time() - begin:.0f} s of the processor in this process", flush=True)
    print(f"\nGoals met: {sum(line.met for line in lines)} of {len(lines)}")
    for line in lines:
        print(line)


if __name__ == "__main__":
    main(sys.argv[1:] or list(PARTS))
