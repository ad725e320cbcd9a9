"""A route in words a helper can follow: which way the cable goes in each space, and what it goes through."""

import math
from collections.abc import Mapping
from itertools import pairwise

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.routes.route import Hole, Leg, Route
from drawcord.sheets.holes import from_edge
from drawcord.sheets.lengths import length


def walk(coach: Coach, route: Route, bores: Mapping[str, str]) -> tuple[str, ...]:
    """One sentence a leg, from terminal to terminal; `bores`: the size to drill each hole, by its id."""
    cable = coach.job.cables[route.cable] if coach.job else None
    bored = {hole.between: hole for hole in route.holes}  # a route enters a space once
    said = []
    before = cable.start if cable else ""
    for number, leg in enumerate(route.legs):
        joined = (route.legs[number - 1].space, leg.space)
        start = _through(coach, leg, bored.get(joined), bores) if number else f"From {before}"
        seen = " in sight," if leg.in_sight else ""
        doubt = " UNPROVEN: look before you pull." if leg.standing == "unproven" else ""
        joints = "".join(
            f" Joint J{place} here{'' if joint.reachable else ', OUT OF REACH'}."
            for place, joint in enumerate(route.joints, start=1)
            if joint.space == leg.space
        )
        end = f" to {cable.end}" if cable and number == len(route.legs) - 1 else ""
        way = f"in {leg.space} ({leg.kind}),{seen} {moves(coach, leg.points)}{end}"
        said.append(f"{start}, {way}; {leg.cover}.{joints}{doubt}")
    return tuple(said)


def moves(coach: Coach, points: tuple[Point, ...]) -> str:
    """The elbows of a leg as directions and lengths, those that go on the same way as one."""
    steps: list[tuple[str, float]] = []
    for p, q in pairwise(points):
        way, far = _way(coach, p, q), math.dist(p, q)
        if steps and steps[-1][0] == way:
            steps[-1] = (way, steps[-1][1] + far)
        elif far:
            steps.append((way, far))
    return ", then ".join(f"{length(round(far), coach.units)} {way}" for way, far in steps) or "straight on"


def _way(coach: Coach, p: Point, q: Point) -> str:
    """The direction of a stretch: the main one, and what it slants to by at least a tenth of it."""
    left, right = ("street", "curb") if coach.street_is_left else ("curb", "street")
    names = (("forward", "aft"), (f"towards {left} side", f"towards {right} side"), ("down", "up"))
    far = [b - a for a, b in zip(p, q, strict=True)]
    order = sorted((axis for axis in range(3) if far[axis]), key=lambda axis: (-abs(far[axis]), axis))
    most = abs(far[order[0]]) if order else 0
    shown = [axis for axis in order if 10 * abs(far[axis]) >= most]
    return " and ".join(names[axis][far[axis] > 0] for axis in shown)


def _through(coach: Coach, leg: Leg, hole: Hole | None, bores: Mapping[str, str]) -> str:
    """How the cable gets into the space of a leg."""
    if hole is None:
        return f"Through {leg.through}, no new hole"
    edge, across = from_edge(coach, hole.near[1], on_roof=hole.kind == "roof")
    front = length(hole.near[0] - coach.bounds[0], coach.units)
    where = f"{front} from the front, {length(across, coach.units)} from {edge}"
    return f"Through the {hole.kind} hole {hole.id} (⌀ {bores[hole.id]}, {where})"
