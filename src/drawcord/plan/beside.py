"""Which cables lie beside one another along their routes: how many conductors carry current together, how far."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from drawcord.coach.box import Box, Point
from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable
from drawcord.plan.bundle import NARROW
from drawcord.routes.electric import POWER
from drawcord.routes.route import Candidate, Route

NEAR = 150  # mm: cables drawn nearer than this end up in one bundle, unless they are told to keep apart
CROSSING = 2 * NEAR  # mm: no longer beside each other in a wide space, they cross or end at one terminal
FAR = 100_000  # mm: in a narrow space all cables are one bundle
PRACTICE = "common practice, no source"  # of both

Span = tuple[float, float]  # of a route, from and to so many mm from its start


class _Run(NamedTuple):
    """A straight stretch of a route in a space, `at` mm from its start."""

    at: float
    space: str
    narrow: bool
    p: Point
    q: Point

    @property
    def end(self) -> float:
        return self.at + math.dist(self.p, self.q)


@dataclass(frozen=True)
class Crowd:
    """At least `conductors` that carry current lie together over `length` mm of a cable in all, both poles counted.

    `others` are those that are not its own, by cable.
    """

    conductors: int
    length: int
    others: tuple[tuple[str, int], ...] = ()


def loaded(cable: Cable) -> int:
    """How many conductors of a cable carry current: of mains all but the protective one, of coax and data none."""
    if cable.carries not in POWER:
        return 0
    return cable.cores - 1 if cable.carries == "mains" else cable.cores


def beside(coach: Coach, chosen: Mapping[str, Candidate]) -> dict[str, list[tuple[Crowd, ...]]]:
    """What lies beside each power cable on the routes `chosen`, leg by leg, the most conductors first.

    Cables that may not lie together are kept apart, so that they do not count. Lengths add up along the route, since
    the gaps between are short; which errs to the safe side.
    """
    if coach.job is None:
        raise LookupError("a coach without a job has no cables")
    cables = {name: one for name, one in sorted(coach.job.cables.items()) if name in chosen and loaded(one)}
    found = {}
    for name, cable in cables.items():
        route, near = chosen[name].route, {}
        for other, one in cables.items():
            terms = coach.shop.sharing.of(cable.carries, one.carries)[1]
            if other != name and (terms.together or terms.raceway):
                near[other] = _near(route, chosen[other].route)
        found[name] = _crowds(route, loaded(cable), {other: (loaded(cables[other]), near[other]) for other in near})
    return found


def alone(cable: Cable, route: Route) -> list[tuple[Crowd, ...]]:
    """A cable without others: its own conductors keep together all the way."""
    return [(Crowd(loaded(cable), route.criteria.length),)] * len(route.legs)


def _crowds(route: Route, own: int, near: Mapping[str, tuple[int, Sequence[Span]]]) -> list[tuple[Crowd, ...]]:
    """For each leg, every count that is reached in it, with the length that as many lie together on the whole route."""
    marks = sorted({edge for _, spans in near.values() for span in spans for edge in span})
    stretches: list[tuple[int, float, tuple[tuple[str, int], ...]]] = []
    most = []
    for runs in _drawn(route):
        begins, ends = runs[0].at, runs[-1].end
        here = []
        for low, high in pairwise([begins, *(mark for mark in marks if begins < mark < ends), ends]):
            middle = (low + high) / 2
            others = tuple(
                (name, count)
                for name, (count, spans) in near.items()
                if any(a < middle < b for a, b in spans)
            )
            here.append((own + sum(count for _, count in others), high - low, others))
        stretches += here
        most.append(max((count for count, _, _ in here), default=own))
    levels = {own: Crowd(own, route.criteria.length)}
    for count, _, others in stretches:
        if count not in levels:
            levels[count] = Crowd(count, round(sum(length for n, length, _ in stretches if n >= count)), others)
    return [tuple(levels[count] for count in sorted(levels, reverse=True) if count <= top) for top in most]


def _drawn(route: Route) -> list[list[_Run]]:
    """The straight stretches of each leg, one after the other."""
    found, at = [], 0.0
    for leg in route.legs:
        points = leg.points if len(leg.points) > 1 else leg.points * 2
        runs = []
        for p, q in pairwise(points):
            runs.append(_Run(at, leg.space, leg.kind in NARROW, p, q))
            at = runs[-1].end
        found.append(runs)
    return found


def _near(route: Route, other: Route) -> list[Span]:
    """Where along a route the other lies beside it: in a narrow space, or in any for longer than a crossing takes."""
    boxes: dict[str, list[Box]] = {}
    for runs in _drawn(other):
        for run in runs:
            boxes.setdefault(run.space, []).extend(_around(run))
    touched = sorted(
        (*span, run.narrow)
        for runs in _drawn(route)
        for run in runs
        for box in boxes.get(run.space, ())
        if (span := _within(run, box))
    )
    merged: list[tuple[float, float, bool]] = []
    for low, high, narrow in touched:
        if merged and low <= merged[-1][1] + 1:  # mm: no gap that is drawn
            before = merged.pop()
            merged.append((before[0], max(high, before[1]), narrow or before[2]))
        else:
            merged.append((low, high, narrow))
    return [(low, high) for low, high, narrow in merged if narrow or high - low > CROSSING]


def _around(run: _Run) -> Iterator[Box]:
    """What counts as beside a straight stretch, in boxes; one that slants goes in short pieces."""
    slants = sum(u != v for u, v in zip(run.p, run.q, strict=True)) > 1
    count = math.ceil(math.dist(run.p, run.q) / NEAR) if slants else 1
    at = [tuple(u + (v - u) * n / count for u, v in zip(run.p, run.q, strict=True)) for n in range(count + 1)]
    for p, q in pairwise(at):
        sides = [edge for u, v in zip(p, q, strict=True) for edge in (math.floor(min(u, v)), math.ceil(max(u, v)))]
        yield Box(*sides).grow(FAR if run.narrow else NEAR)


def _within(run: _Run, box: Box) -> Span | None:
    """The part of a straight stretch that lies in a box, None if none does."""
    low, high = 0.0, 1.0
    for axis in (0, 1, 2):
        begins, step = run.p[axis], run.q[axis] - run.p[axis]
        edges = box.span(axis)
        if step:
            first, last = sorted((edge - begins) / step for edge in edges)
            low, high = max(low, first), min(high, last)
        elif not edges[0] <= begins <= edges[1]:
            return None
    length = run.end - run.at
    return (run.at + low * length, run.at + high * length) if low < high else None
