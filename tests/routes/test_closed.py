"""Why no way is open: against every choice of bars on random coaches, and by hand."""

from collections.abc import Iterable, Iterator
from itertools import chain, combinations, pairwise
from random import Random

import networkx as nx
import pytest

import sketch
from drawcord.coach.build import build
from drawcord.coach.job import Found, Job
from drawcord.coach.rig import Rig
from drawcord.files.tables import conductors
from drawcord.routes.closed import explain
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.routes.route import Answer, NoRoute
from drawcord.ways.graph import build_graph
from drawcord.ways.ways import explore
from random_coaches import random_coach

MOST_BARS = 6  # so that all choices of them can be tried
CHANGE = "no longer so: "


@pytest.mark.parametrize("spaces", [4, 6, 8])
def test_against_every_choice_of_bars(spaces):
    """What is named closes every way, and not without any one of it; no smaller change than the one named opens one."""
    sizes = set()
    for rig, job, bars in closed_coaches(spaces):
        why = explain(order_with(rig, job, bars))
        named = [bar.split(":")[0] for bar in why.closed_by]
        assert set(named) <= set(bars)
        assert not leads(order_with(rig, job, named))
        for bar in named:
            assert leads(order_with(rig, job, [other for other in named if other != bar]))
        changed = [change.removeprefix(CHANGE).split(":")[0] for change in why.smallest_change]
        assert leads(order_with(rig, job, [bar for bar in bars if bar not in changed]))
        smaller = chain.from_iterable(combinations(bars, size) for size in range(len(changed)))
        assert not any(leads(order_with(rig, job, [b for b in bars if b not in gone])) for gone in smaller)
        sizes |= {(len(named), len(changed))}
    assert len(sizes) > 2, "too few kinds of closure"


@pytest.mark.parametrize("spaces", [4, 6, 8])
def test_always_an_answer(spaces):
    """Any random coach, with all that fills, moves and is hot in it, gets routes or the reason why there is none."""
    without = 0
    for seed in range(60):
        rig, job = random_coach(spaces, seed)
        ways = explore(build(rig, job, sketch.shop()))
        for name in sorted(job.cables):
            answer = compare(Order(ways, name, conductors()))
            assert bool(answer.candidates) != bool(answer.unroutable)
            without += not answer.candidates
            if answer.unroutable:
                assert answer.unroutable.sentence
                assert answer.unroutable.smallest_change
    assert without > 10


def test_spaces_that_touch_nothing():
    """Two bays far apart: nothing in the sketch joins them, and that is said."""
    why = closed_between({"one": bay(100, 800), "other": bay(3000, 4000)}, "one", "other")
    assert why.closed_by == ()
    assert "nothing that the sketch shows leads from" in why.sentence


def test_one_wall_between():
    """Two bays side by side, the passage between them blocked: it alone closes every way and would open one."""
    passages = {"divider": {"between": ["one", "other"], "opening": "closed", "standing": "blocked"}}
    why = closed_between({"one": bay(100, 1000), "other": bay(1000, 2000)}, "one", "other", passages=passages)
    assert why.closed_by == ("divider: it is blocked",)
    assert why.smallest_change == (CHANGE + "divider: it is blocked",)


def test_two_ways_round():
    """Two spaces lead from the one bay to the other; both have to be barred, and either would do."""
    spaces = {
        "front": {"kind": "bay", "from front": [100, 1000], "up": "bay..belly"},
        "rear": {"kind": "bay", "from front": [2000, 3000], "up": "bay..belly"},
        "gas": {"kind": "gas locker", "from front": [1000, 2000], "street": 700},
        "full": {"kind": "bay", "from front": [1000, 2000], "curb": 700, "standing": "blocked"},
    }
    why = closed_between(spaces, "front", "rear")
    assert why.closed_by == ("full: it is blocked", "gas: it is a gas locker")
    assert len(why.smallest_change) == 1


def test_ends_in_a_barred_space():
    """A device in a gas locker can be reached by no cable."""
    spaces = {"one": bay(100, 1000), "gas": {"kind": "gas locker", "from front": [1000, 2000]}}
    for ends in (("one", "gas"), ("gas", "one")):
        assert closed_between(spaces, *ends).closed_by == ("gas: it is a gas locker",)


def test_what_fills_a_space():
    """A bay filled right across: its halves are apart, and no space may be entered twice to get round by another."""
    wall = {"from front": [900, 1100], "up": "bay..belly"}
    spaces = {
        "split": {**bay(100, 2000), "filled": [wall]},
        "beside": {"kind": "underfloor", "from front": [100, 2000], "curb": 900, "up": "bay..belly"},
    }
    why = closed_between(spaces, "split", "split", x=(300, 1700))
    assert why.closed_by == ("what fills split leaves no way from router.data to screen.data",)
    assert why.smallest_change == (CHANGE + why.closed_by[0],)


def test_round_by_entering_twice():
    """Between two bays lies one filled right across; round what fills it leads only its neighbour, and back into it."""
    spaces = {
        "one": bay(100, 1000),
        "split": {**bay(1000, 3000), "filled": [{"from front": [1900, 2100], "up": "bay..belly"}]},
        "other": bay(3000, 4000),
        "round": {"kind": "underfloor", "from front": [1200, 2800], "curb": 1500, "up": "bay..belly"},
    }
    why = closed_between(spaces, "one", "other")
    assert why.closed_by == ("what fills split leaves no way from one~split to other~split",)
    assert why.smallest_change == (CHANGE + why.closed_by[0],)


def test_too_narrow_for_the_plug():
    """An opening smaller than the plug is named with both sizes."""
    passages = {"hole": {"between": ["one", "other"], "opening": "exists", "standing": "proven", "size": 12}}
    why = closed_between({"one": bay(100, 1000), "other": bay(1000, 2000)}, "one", "other", passages=passages)
    assert why.closed_by == ("hole: its opening of 12 mm does not pass the 20 mm plug",)


def test_clearance_covers_all():
    """A gas line along the whole of a shared face leaves no place for a hole."""
    low = {"kind": "bay", "from front": [1000, 2000], "street": 900, "up": "bay..bay+100"}
    line = {"kind": "gas line", "from front": [995, 1005], "street": [0, 900], "up": "bay+40..bay+60"}
    why = closed_between({"one": bay(100, 1000), "other": low}, "one", "other", z="bay+50", hazards={"line": line})
    assert why.closed_by == ("one~other: clearances, moving parts, doors, windows or framing cover all of it",)


def test_finding_into_an_excluded_space():
    """What was found out about a declared passage is let be where the owner excludes a space that it joins."""
    passages = {"gap": {"between": ["one", "other"], "opening": "exists"}}
    rig = sketch.rig_data({"one": bay(100, 1000), "other": bay(1000, 2000)}, passages=passages)
    spot = {"in": "one", "from front": 500, "street": 400, "up": "bay+300"}
    equipment = {name: {"kind": "router", **spot, "terminals": {"data": None}} for name in ("router", "screen")}
    job = sketch.job_data(
        equipment,
        {"data": ("router.data", "screen.data")},
        differences={"found": [{"what": "gap", "standing": "proven"}]},
        owner={"excludes": ["other"]},
    )
    assert explore(sketch.coach_of(rig, job)).passages == {}


def bay(begins: int, ends: int) -> sketch.Data:
    return {"kind": "bay", "from front": [begins, ends], "street": 900}


def closed_between(
    spaces: sketch.Data,
    start: str,
    end: str,
    *,
    x: tuple[int, int] | None = None,
    z: str = "bay+300",
    **sections: sketch.Data,
) -> NoRoute:
    """Why no way leads from the middle of one space, or from a place along it, to that of another."""
    places = x or tuple(sum(spaces[name]["from front"]) // 2 for name in (start, end))
    spots = [{"from front": place, "street": 400, "up": z} for place in places]
    equipment = {
        name: {"kind": "router", "in": space, **spot, "terminals": {"data": None}}
        for name, space, spot in zip(("router", "screen"), (start, end), spots, strict=True)
    }
    job = sketch.job_data(equipment, {"data": ("router.data", "screen.data")})
    coach = sketch.coach_of(sketch.rig_data(spaces, **sections), job)
    answer: Answer = compare(Order(explore(coach), "data", ()))
    assert answer.candidates == ()
    assert answer.unroutable is not None
    return answer.unroutable


def closed_coaches(spaces: int) -> Iterator[tuple[Rig, Job, list[str]]]:
    """Random coaches of boxes that nothing fills, and spaces and passages that, blocked, leave `link` no way."""
    for seed in range(40):
        rig, job = random_coach(spaces, seed)
        boxes = {
            name: space.model_copy(update={"filled": [], "pipe": None, "standing": None, "chance": None})
            for name, space in rig.spaces.items()
            if space.kind != "room"
        }
        bare = {"spaces": boxes, "moving_parts": {}, "hazards": {}, "obstructions": {}, "passages": {}}
        rig = rig.model_copy(update=bare)
        order = order_with(rig, job, [])
        ends = {order.coach.terminals[end].space for end in (order.cable.start, order.cable.end)}
        every = sorted({*order.coach.spaces, *order.ways.passages} - {*ends, "roof"})
        rng = Random(seed)  # noqa: S311 - any bars will do
        for _ in range(10):
            bars = sorted(rng.sample(every, min(MOST_BARS, len(every))))
            if leads(order) and not leads(order_with(rig, job, bars)):
                yield rig, job, bars
                break


def order_with(rig: Rig, job: Job, blocked: Iterable[str]) -> Order:
    """The cable `link` where these spaces and passages are found blocked."""
    found = [Found(what=what, standing="blocked") for what in blocked]
    differences = job.differences.model_copy(update={"found": found})
    coach = build(rig, job.model_copy(update={"differences": differences}), sketch.shop())
    return Order(explore(coach), "link", ())


def leads(order: Order) -> bool:
    """Whether any route leads from end to end: tries every order of spaces on the published graph."""
    graph = build_graph(order.coach, order.ways.passages, order.ways.links)
    start, end = order.cable.start, order.cable.end
    if start not in graph or end not in graph:
        return False
    across = {(u, v): key for u, v, key, kind in graph.edges(keys=True, data="kind") if kind == "crossing"}
    touching = nx.Graph([(graph.nodes[u]["space"], graph.nodes[v]["space"]) for u, v in across])
    first, last = graph.nodes[start]["space"], graph.nodes[end]["space"]
    if first == last:
        return graph.has_edge(start, end, first)
    if first not in touching or last not in touching:
        return False
    for spaces in nx.all_simple_paths(touching, first, last):
        front = {start}
        for here, there in pairwise(spaces):
            out = {v for u in front for v, edges in graph[u].items() if here in edges}
            front = {v for u in out for v in graph[u] if graph.nodes[v]["space"] == there}
        if any(graph.has_edge(u, end, last) for u in front):
            return True
    return False
