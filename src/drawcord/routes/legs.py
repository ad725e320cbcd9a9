"""From an order of stations to legs: pulled tight, with elbows."""

import math
from collections.abc import Container, Iterator
from itertools import pairwise
from typing import NamedTuple

from drawcord.coach.box import Box, Point
from drawcord.routes.pull import pull
from drawcord.routes.route import Leg
from drawcord.ways.elbows import FAR, corners
from drawcord.ways.links import run_seconds
from drawcord.ways.passage import Passage
from drawcord.ways.ways import Ways

UNPULLED = ("roof", "room")  # spaces whose lengths are no plain square distances


class Total(NamedTuple):
    """What a way comes to: compared by length [mm], then by the work to run it [s]."""

    length: int
    seconds: int


class Crossing(NamedTuple):
    """A passage on a route: what is left and entered, and where; `held` if it may not be moved from there."""

    passage: Passage
    left: str
    entered: str
    near: Point
    far: Point
    axis: int
    largest: int
    held: bool = False

    def points(self, ways: Ways) -> tuple[Point, ...]:
        """The elbows from one mouth to the other, both included.

        From a room's wall to the hole beside it, through it, and on to a wall; through a roof cap level first.
        """
        entry, leave = self.bore(ways)
        return corners((self.near, *_elbows(self.near, entry), leave, *_elbows(leave, self.far), self.far))

    def bore(self, ways: Ways) -> tuple[Point, Point]:
        """Where the hole's middle lies in the face of the space left, and in that of the space entered."""
        level_first = self.left == "roof" and not self.passage.hole
        if ways.coach.spaces[self.left].kind == "room" or level_first:
            return _moved(self.far, self.axis, self.near[self.axis]), self.far
        return self.near, _moved(self.near, self.axis, self.far[self.axis])


def _moved(point: Point, axis: int, to: int) -> Point:
    """A point with one of its coordinates replaced."""
    x, y, z = (to if side == axis else value for side, value in enumerate(point))
    return x, y, z


def crossings(
    ways: Ways, start: str, end: str, stations: tuple[str, ...], held: Container[str] = ()
) -> tuple[Crossing, ...]:
    """The crossings of a route between two terminals, each where it makes the route shortest [mm].

    Each may move within the mouth of its station; and to another mouth of its passage where that alone makes
    the route shorter, or as short for less work, since the search compared stations before anything was pulled
    tight. Those at `held` stations stay there.
    """
    first, last = ways.coach.terminals[start], ways.coach.terminals[end]
    here = first.space
    found = []
    for name in stations:
        station = ways.stations[name]
        passage = ways.passages[station.passage]
        there = passage.other(here)
        mouths = station.mouths[here], station.mouths[there]
        found.append(Crossing(passage, here, there, *mouths, station.axis, station.largest, name in held))
        here = there
    least, way = _tightest(ways, first.point, last.point, found)
    moved = True
    while moved:
        moved = False
        for number, crossing in enumerate(way):
            for other in _elsewhere(ways, crossing):
                changed = [*way[:number], other, *way[number + 1 :]]
                less, tight = _tightest(ways, first.point, last.point, changed, least.length)
                if less < least:
                    least, way, moved = less, tight, True
    return tuple(way)


def _tightest(
    ways: Ways, start: Point, end: Point, way: list[Crossing], most: int = FAR
) -> tuple[Total, list[Crossing]]:
    """A way pulled tight, and first what it comes to; or the way as it is, where that is less.

    It is shorter where something fills the spaces, and may be less work where lengths are equal. FAR where it would be
    longer than `most` [mm] even with nothing in the way.
    """
    tight = _tight(ways, start, end, way)
    if _open(ways, start, end, tight) > most:
        return Total(FAR, 0), way
    total = _total(ways, start, end, tight)
    if total.length < _open(ways, start, end, way):
        return total, tight  # whatever is in the way of the other
    before = _total(ways, start, end, way)
    return (total, tight) if total <= before else (before, way)


def _elsewhere(ways: Ways, crossing: Crossing) -> list[Crossing]:
    """The same crossing at a station in each other mouth of its passage, where it may be moved at all."""
    mouths = {_mouths(ways, crossing): crossing}
    if len(crossing.passage.mouths) > 1 and _movable(ways, crossing):
        for station in ways.stations_of(crossing.passage.id):
            near, far = station.mouths[crossing.left], station.mouths[crossing.entered]
            other = crossing._replace(near=near, far=far, axis=station.axis, largest=station.largest)
            mouths.setdefault(_mouths(ways, other), other)
    return list(mouths.values())[1:]


def _movable(ways: Ways, crossing: Crossing) -> bool:
    left, entered = ways.coach.spaces[crossing.left].kind, ways.coach.spaces[crossing.entered].kind
    return not (crossing.held or left in UNPULLED or entered in UNPULLED)


def _mouths(ways: Ways, crossing: Crossing) -> tuple[Box, Box]:
    """The boxes in which a crossing may be moved, near and far; points where it may not."""
    if _movable(ways, crossing):
        for one, two in crossing.passage.mouths:
            near, far = (one, two) if crossing.left == crossing.passage.a else (two, one)
            if near.holds(crossing.near):
                return near, far
    return _point(crossing.near), _point(crossing.far)


def _point(point: Point) -> Box:
    x, y, z = point
    return Box(x, x, y, y, z, z)


def _tight(ways: Ways, start: Point, end: Point, found: list[Crossing]) -> list[Crossing]:
    mouths = [_mouths(ways, crossing) for crossing in found]
    places: list[list[tuple[int, int]]] = [[(0, 0)] * 3 for _ in found]
    for axis in (0, 1, 2):
        intervals = [(start[axis], start[axis])]
        columns = []
        for near, far in mouths:
            spans = dict.fromkeys((near.span(axis), far.span(axis)))  # one where both sides move together
            columns.append((len(intervals), len(intervals) + len(spans) - 1))
            intervals.extend(spans)
        intervals.append((end[axis], end[axis]))
        pulled = pull(intervals)
        for place, (first, last) in zip(places, columns, strict=True):
            place[axis] = pulled[first], pulled[last]
    return [
        c._replace(near=(p[0][0], p[1][0], p[2][0]), far=(p[0][1], p[1][1], p[2][1]))
        for c, p in zip(found, places, strict=True)
    ]


def _total(ways: Ways, start: Point, end: Point, way: list[Crossing]) -> Total:
    """What a way comes to without what runs on the roof and in rooms; FAR if it cannot be run."""
    length, seconds = _through(way), 0
    for name, p, q in _runs(ways, start, end, way):
        run = ways.path(name, p, q)
        if not run:
            return Total(FAR, 0)
        length += _length(run)
        seconds += run_seconds(_length(run), ways.coach.shop.labour.metre[ways.coach.spaces[name].kind])
    return Total(length, seconds)


def _open(ways: Ways, start: Point, end: Point, way: list[Crossing]) -> int:
    """How long a way would be with nothing in the way, without what runs on the roof and in rooms [mm]."""
    return sum(_square(p, q) for _, p, q in _runs(ways, start, end, way)) + _through(way)


def _runs(ways: Ways, start: Point, end: Point, way: list[Crossing]) -> Iterator[tuple[str, Point, Point]]:
    """From where to where a way runs in each space but roof and rooms."""
    names = [way[0].left, *(c.entered for c in way)] if way else []
    stops = [start, *(point for crossing in way for point in (crossing.near, crossing.far)), end]
    for name, p, q in zip(names, stops[::2], stops[1::2], strict=False):
        if ways.coach.spaces[name].kind not in UNPULLED:
            yield name, p, q


def _through(way: list[Crossing]) -> int:
    """The length of a way within its passages [mm]."""
    return sum(_square(c.near, c.far) for c in way)


def _square(p: Point, q: Point) -> int:
    return abs(p[0] - q[0]) + abs(p[1] - q[1]) + abs(p[2] - q[2])


def legs(ways: Ways, start: str, end: str, way: tuple[Crossing, ...]) -> tuple[Leg, ...]:
    """The legs of a route, one for each space it runs in."""
    coach = ways.coach
    first, last = coach.terminals[start], coach.terminals[end]
    measured: list[Leg] = []
    entered = first.point
    before: Point | None = None  # the elbow before the leg's first point
    for number, name in enumerate([first.space, *(c.entered for c in way)]):
        crossing = way[number - 1] if number else None
        leaves = way[number].near if number < len(way) else last.point
        through = crossing.points(ways) if crossing else ()
        run = ways.path(name, entered, leaves)
        points = corners((*through, *run)) if through else corners(run)
        space = coach.spaces[name]
        run_length = _length(run)
        measured.append(
            Leg(
                space=name,
                kind=space.kind,
                zone=space.zone,
                through=crossing.passage.id if crossing else "",
                through_length=_square(crossing.near, crossing.far) if crossing else 0,
                points=points,
                length=run_length + (_square(crossing.near, crossing.far) if crossing else 0),
                in_sight=space.kind == "room",
                cover=space.cover,
                standing=space.standing,
                bends=_bends(points, before),
            )
        )
        before = points[-2] if len(points) > 1 else before
        entered = way[number].far if number < len(way) else entered
    return tuple(measured)


def _length(points: tuple[Point, ...]) -> int:
    """The length of a polyline [mm], rounded up where it slants."""
    return math.ceil(sum(math.dist(p, q) for p, q in pairwise(points)) - 1e-6)


def _elbows(p: Point, q: Point) -> tuple[Point, ...]:
    """From p to q level first, then up or down."""
    return corners((p, (q[0], p[1], p[2]), (q[0], q[1], p[2]), q))


def _bends(points: tuple[Point, ...], before: Point | None) -> int:
    """Changes of direction, the one at the leg's start included where something comes before it."""
    return max(0, len(corners((before, *points) if before else points)) - 2)
