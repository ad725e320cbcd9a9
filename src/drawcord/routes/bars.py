"""Every way of a coach for one cable, open or not, with what bars it: each bar is a named fact."""

from collections.abc import Container, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import combinations, product
from typing import NamedTuple

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.routes.order import Order
from drawcord.ways.derive import passages as derive
from drawcord.ways.passage import Passage
from drawcord.ways.runs import OnRoof
from drawcord.ways.ways import Ways, living_areas

Part = tuple[str, int]  # a space, and which of the parts that what fills it leaves apart


class Bar(NamedTuple):
    """What is in the way, in a sentence, and the space or passage that it shuts."""

    sentence: str
    place: str


class Step(NamedTuple):
    """A way on to another part, and the bars that would have to go."""

    there: Part
    bars: tuple[Bar, ...]


@dataclass(frozen=True)
class Chart:
    """Parts of spaces with the steps from each; `before` are the bars of the start's own space."""

    start: Part
    goal: Part
    before: tuple[Bar, ...]
    steps: Mapping[Part, tuple[Step, ...]]


def chart(order: Order) -> Chart:
    """All spaces and passages, those that geometry would give if nothing were in the way included."""
    ways, spaces = order.ways, order.coach.spaces
    passages = {**_bare(order.coach), **ways.passages}
    every = replace(ways, passages={name: replace(passage, barred="") for name, passage in passages.items()})
    shut = dict(_shut(order, passages))
    ends: dict[str, list[tuple[str, Point]]] = {name: [] for name in spaces}
    for name in (order.cable.start, order.cable.end):
        terminal = order.coach.terminals[name]
        ends[terminal.space].append((name, terminal.point))
    for station in every.stations.values():
        for name, point in station.mouths.items():
            ends[name].append((station.passage, point))
    parts = {name: _parts(ways, name, ends[name], shut) for name in spaces}
    barred = {
        name: (Bar(f"{name}: {space.barred}", name),) if space.barred else () for name, space in spaces.items()
    }
    steps: dict[Part, set[Step]] = {(name, part): set() for name, of in parts.items() for part in range(of.count)}
    for station in every.stations.values():
        bars = (shut[station.passage],) if station.passage in shut else ()
        (a, p), (b, q) = station.mouths.items()
        for one, two in product(parts[a].around(p), parts[b].around(q)):
            steps[a, one].add(Step((b, two), (*bars, *barred[b])))
            steps[b, two].add(Step((a, one), (*bars, *barred[a])))
    for name, of in parts.items():
        for one, two in combinations(range(of.count), 2):
            gap = (_gap(order.coach, name, of.called[one], of.called[two]),)
            steps[name, one].add(Step((name, two), gap))
            steps[name, two].add(Step((name, one), gap))
    (first, p), (last, q) = (
        (order.coach.terminals[end].space, order.coach.terminals[end].point)
        for end in (order.cable.start, order.cable.end)
    )
    return Chart(
        start=(first, parts[first].around(p)[0]),
        goal=(last, parts[last].around(q)[0]),
        before=barred[first],
        steps={  # the start's own space is entered already
            part: tuple(sorted(step for step in found if part[0] == first or step.there[0] != first))
            for part, found in steps.items()
        },
    )


@dataclass(frozen=True)
class _Parts:
    """The parts of one space: which of them a point lies in, and one passage or terminal of each to call it by."""

    at: Mapping[Point, int]
    called: tuple[str, ...]

    @property
    def count(self) -> int:
        return len(self.called)

    def around(self, point: Point) -> list[int]:
        """The part that holds a point; all of them where a bar covers it, so that nobody knows."""
        return [self.at[point]] if point in self.at else list(range(self.count))


def _parts(ways: Ways, space: str, ends: list[tuple[str, Point]], shut: Container[str]) -> _Parts:
    if ways.coach.spaces[space].barred or space not in ways.runs:
        return _Parts({}, (space,))
    ends = sorted(ends)
    lengths = ways.runs[space].lengths([point for _, point in ends])
    at: dict[Point, int] = {}
    called: list[str] = []
    off: dict[str, int] = {}  # parts that are no more than mouths or terminals in what is taken
    for row, (name, point) in enumerate(ends):
        usable = lengths[row][row] is not None
        if not usable and name in shut:
            continue  # what covers it would go with the bar
        known = [at[ends[other][1]] for other in range(row) if lengths[row][other] is not None]
        part = known[0] if known else off.get(name, len(called))
        if part == len(called):
            called.append(name)
        if not usable:
            off[name] = part
        at[point] = part
    return _Parts(at, tuple(called) or (space,))


def _gap(coach: Coach, space: str, one: str, two: str) -> Bar:
    if coach.spaces[space].kind == "room":
        return Bar(f"no wall of {space} takes raceway all the way from {one} to {two}", space)
    return Bar(f"what fills {space} leaves no way from {one} to {two}", space)


def _bare(coach: Coach) -> dict[str, Passage]:
    """The passages there would be if nothing were in the way: neither fillings, clearances, parts that move, doors."""
    spaces = {name: replace(space, taken=(), barred="") for name, space in coach.spaces.items()}
    bare = replace(coach, spaces=spaces, moving_parts={}, hazards={}, obstructions={}, doors={}, windows={}, found={})
    return derive(bare, living_areas(bare), OnRoof(bare).plan)


def _shut(order: Order, passages: Mapping[str, Passage]) -> Iterator[tuple[str, Bar]]:
    """The passages that are shut themselves, whatever spaces they join, each with the bar."""
    coach, known = order.coach, order.ways.passages
    for name, passage in passages.items():
        if name in known:
            if refusal := order.refused(known[name]):
                yield name, Bar(f"{name}: {refusal}", name)
        elif coach.found.get(name, ("",))[0] == "blocked" or passage.barred:
            yield name, Bar(f"{name}: {passage.barred or 'it is blocked'}", name)
        elif not any(coach.spaces[end].barred for end in (passage.a, passage.b)):
            yield name, Bar(f"{name}: clearances, moving parts, doors, windows or framing cover all of it", name)
