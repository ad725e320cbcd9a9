"""Whether a route has room for a cable: to turn, to be drawn in, and for its largest plug to pass."""

from collections.abc import Iterator
from itertools import pairwise

from drawcord.coach.box import Box, Point
from drawcord.coach.coach import Coach, Space
from drawcord.coach.job import Cable
from drawcord.plan.grown import lie_apart
from drawcord.routes.route import Leg, Route
from drawcord.wire.fill import across, pass_each_other
from drawcord.words.units import format_lengths, format_width

DRAWN = ("chase", "vent stack", "panel wall", "void")  # kinds of spaces that cable is drawn through unseen


def cramped(coach: Coach, cable: Cable, plug: int, route: Route) -> tuple[str, ...]:
    """What on the way has no room for the cable, its largest plug being `plug` [mm], each in a few words.

    The route counts as drawn. A turn is only held against the whole depth of the space it is made in, and a run against
    what stands nearest beside it: what is called too tight is so, what is not may be so all the same.
    """
    found = [
        sentence
        for leg in route.legs
        if leg.kind not in ("roof", "room")
        for sentence in (*_turning(coach, cable, leg), *_drawing(coach, cable, plug, leg))
    ]
    return tuple(dict.fromkeys(found))


def _turning(coach: Coach, cable: Cable, leg: Leg) -> Iterator[str]:
    """Where it comes in or leaves through a face that it does not run straight away from, it turns within the depth."""
    space = coach.spaces[leg.space]
    inside = [point for point in leg.points if space.box.holds(point)]
    runs = {_axis(p, q) for p, q in pairwise(inside)}
    needed = cable.smallest_bend + cable.outside_diameter
    for point in (inside[0], inside[-1]) if runs else ():
        spans = [space.box.span(axis) for axis in _faces(space.box, point) if runs - {axis}]
        depth = max((high - low for low, high in spans), default=needed)
        if depth < needed:
            bend, room = (format_width(one, coach.units) for one in (cable.smallest_bend, depth))
            yield f"{space.id} is {room} deep, too little to turn in with a bend of {bend}"


def _faces(box: Box, point: Point) -> list[int]:
    """The axes across the faces of a box that a point lies in."""
    return [axis for axis in (0, 1, 2) if point[axis] in box.span(axis)]


def _drawing(coach: Coach, cable: Cable, plug: int, leg: Leg) -> Iterator[str]:
    """The last plug passes the cores that are in there already."""
    space = coach.spaces[leg.space]
    if leg.kind not in DRAWN:
        return
    others = across(cable.cores - 1, cable.outside_diameter) if lie_apart(cable) else 0.0
    for p, q in pairwise(leg.points):
        if not (space.box.holds(p) and space.box.holds(q)):
            continue  # within the wall that the passage leads through
        wide, deep = _clear(space, p, q)
        if not pass_each_other(max(plug, cable.outside_diameter), others, wide, deep):
            room = format_lengths((wide, deep), "in" if coach.units == "in" else "mm", " x ")
            beside = f" beside cores of {format_width(cable.outside_diameter, coach.units)}" if others else ""
            size = format_width(plug, coach.units)
            yield f"{space.id} leaves {room}, too little to draw a plug of {size} in{beside}"


def _axis(p: Point, q: Point) -> int:
    return next((axis for axis in (0, 1, 2) if p[axis] != q[axis]), 0)


def _clear(space: Space, p: Point, q: Point) -> tuple[int, int]:
    """How wide it is around the straight run from p to q, across it [mm]."""
    along = _axis(p, q)
    wide, deep = (axis for axis in (0, 1, 2) if axis != along)
    run = Box(*(value for axis in (0, 1, 2) for value in sorted((p[axis], q[axis]))))
    return _between(space, run, along, wide), _between(space, run, along, deep)


def _between(space: Space, run: Box, along: int, axis: int) -> int:
    """From what lies nearest on one side of a run to what lies nearest on the other, along an axis [mm]."""
    low, high = space.box.span(axis)
    beside = 3 - along - axis
    at = run.span(beside)[0]
    inside = [near for near in (at - 1, at + 1) if space.box.span(beside)[0] < near < space.box.span(beside)[1]]
    for part in space.taken:
        over = part.span(along)[0] < run.span(along)[1] and run.span(along)[0] < part.span(along)[1]
        level = all(part.span(beside)[0] <= near <= part.span(beside)[1] for near in inside)
        if over and level:
            if part.span(axis)[1] <= run.span(axis)[0]:
                low = max(low, part.span(axis)[1])
            elif part.span(axis)[0] >= run.span(axis)[1]:
                high = min(high, part.span(axis)[0])
    return high - low
