"""How much cable to cut for a route, and where its joints fall.

`devices` are the places where some cut the cable, each so far along the route [mm], in order (routes/devices.py).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import NamedTuple

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.coach.history import SOURCE as LOG
from drawcord.pieces.joints import joints
from drawcord.pieces.reach import merged, within_reach
from drawcord.routes.route import Joint, Leg
from drawcord.words.figure import Figure

SHOP = "shop's allowances.yaml"
ENDS = ("low", "likely", "high")
Legs = tuple[Leg, ...]


@dataclass(frozen=True)
class Cut:
    """The cable to cut, per core [mm]: low, likely and high, and each allowance as a figure of its own."""

    length: tuple[int, int, int]
    figures: tuple[Figure, ...]


def cut(coach: Coach, legs: Legs, devices: Sequence[int]) -> Cut:
    """The cut length of a route: what it measures, plus every allowance."""
    shop = coach.shop.allowances
    measured = sum(leg.length for leg in legs)
    entries = _entries(legs)
    cuts = 2 * len(devices)
    doubtful = sum(leg.length for leg in legs if leg.standing == "unproven")
    errors = tuple(sign * coach.shop.clearances.measuring_error for sign in (-1, 0, 1))
    lines = [
        ("measured length", (measured,) * 3, "sum of the legs", "geometry"),
        (
            "measuring error",
            tuple(len(legs) * v for v in errors),
            f"{len(legs)} × {{each}} mm",
            "shop's clearances.yaml",
        ),
        ("make-up at both ends", tuple(2 * v for v in shop.make_up), "2 × {each} mm", SHOP),
        ("make-up at devices", tuple(cuts * v for v in shop.make_up), f"{cuts} × {{each}} mm", SHOP),
        (
            "drip loop at the roof",
            tuple(entries * v for v in shop.drip_loop),
            f"{entries} × {{each}} mm",
            SHOP,
        ),
        ("service loop", shop.service_loop, "1 × {each} mm", SHOP),
        (
            "slack on unproven legs",
            tuple(round(doubtful * share) for share in shop.unproven),
            f"{doubtful} mm × {{each}}",
            SHOP,
        ),
    ]
    each = {
        "measuring error": [str(v) for v in errors],
        "make-up at both ends": [str(v) for v in shop.make_up],
        "make-up at devices": [str(v) for v in shop.make_up],
        "drip loop at the roof": [str(v) for v in shop.drip_loop],
        "service loop": [str(v) for v in shop.service_loop],
        "slack on unproven legs": [f"{share:.0%}" for share in shop.unproven],
    }
    history = coach.shop.history
    if history.corrects:
        name, shares = f"correction from {history.jobs} jobs", history.corrections
        so_far = [sum(values[i] for _, values, _, _ in lines) for i in range(3)]
        added = tuple(round(mm * share) for mm, share in zip(so_far, shares, strict=True))
        lines.append((name, added, "sum of the above × {each}, by cable used over planned", LOG))
        each[name] = [f"{share:.1%}" for share in shares]
    figures = [
        Figure(
            f"{name}, {end}",
            values[i],
            "mm",
            formula.format(each=each[name][i]) if name in each else formula,
            source,
        )
        for name, values, formula, source in lines
        for i, end in enumerate(ENDS)
    ]
    total = tuple(sum(values[i] for _, values, _, _ in lines) for i in range(3))
    figures += [
        Figure(
            f"cut length per core, {end}",
            total[i],
            "mm",
            "measured length and all allowances",
            "sum of the above",
        )
        for i, end in enumerate(ENDS)
    ]
    return Cut((total[0], total[1], total[2]), tuple(figures))


def _entries(legs: Legs) -> int:
    """How often the route goes through the roof."""
    return sum("roof" in (here.space, there.space) for here, there in pairwise(legs))


def place_joints(coach: Coach, legs: Legs, devices: Sequence[int], longest: int) -> tuple[Joint, ...]:
    """The joints of a route for a longest piece [mm], with every allowance at its high end.

    Along the cable come the make-up of the start, each leg with its measuring error and slack, a drip loop at each
    roof entry, the make-up of two ends at each device, where no joint lies, and last the service loop and the make-up
    of the end. A hand reaches what lies within an arm's length of an opening of the space it runs in, and all of the
    raceway in a room; nothing on the roof, where no joint belongs (common practice, no source), and nothing in a
    hidden space.
    """
    stretches, end = _along(coach, legs, devices)
    grown = coach.shop.history.grown
    longest = int(longest / grown)
    if end <= longest:
        return ()  # nor is it asked what a hand reaches
    reach, placed = _reach(coach, stretches), []
    for where, reached in joints(end, longest, merged([(one.near, one.far) for one in reach])):
        stretch = max((s for s in stretches if s.at <= where), default=stretches[0])
        unreached = Joint(where, stretch.point(where), stretch.space, "", reachable=False)
        at = joint(reach, where) if reached else unreached
        placed.append(replace(at, at=round(where * grown)))
    return tuple(placed)


def joint_places(coach: Coach, legs: Legs, devices: Sequence[int]) -> tuple[Joint, ...]:
    """Where a joint could be, from the start on: for each stretch that a hand reaches, where it begins."""
    grown, reach = coach.shop.history.grown, sorted(_reach(coach, _along(coach, legs, devices)[0]))
    return tuple(replace(one.joint(one.near), at=round(one.near * grown)) for one in reach)


class WayIn(NamedTuple):
    """Where a hand reaches a cable: from and to where along it [mm], through what, on which straight stretch.

    `grown` is how many times as long the cable is as the allowances alone make it.
    """

    near: int
    far: int
    opening: str
    stretch: "_Stretch"
    grown: float = 1.0

    def joint(self, where: int) -> Joint:
        """A joint so much cable along the route [mm]."""
        point = self.stretch.point(where / self.grown)
        return Joint(where, point, self.stretch.space, self.opening, reachable=True)


def ways_in(coach: Coach, legs: Legs, devices: Sequence[int]) -> tuple[WayIn, ...]:
    """Every stretch of a route that a hand reaches, along the cable to cut, at its high end."""
    grown = coach.shop.history.grown
    return tuple(
        one._replace(near=math.ceil(one.near * grown), far=math.floor(one.far * grown), grown=grown)
        for one in _reach(coach, _along(coach, legs, devices)[0])
    )


def _reach(coach: Coach, stretches: Sequence["_Stretch"]) -> list[WayIn]:
    return [
        WayIn(one.cable(max(near, one.begins)), one.cable(min(far, one.ends)), name, one)
        for one in stretches
        for name, near, far in within_reach(coach, one.space, one.p, one.q)
        if near <= one.ends and one.begins <= far
    ]


def joint(reach: Sequence[WayIn], where: int) -> Joint:
    """The joint at a place [mm] that a hand reaches, through the opening whose id comes first."""
    _, _, one = min((way.opening, way.stretch, way) for way in reach if way.near <= where <= way.far)
    return one.joint(where)


def _along(coach: Coach, legs: Legs, devices: Sequence[int]) -> tuple[list["_Stretch"], int]:
    """Every straight stretch, parted where a device cuts the cable, and the whole [mm]."""
    shop = coach.shop.allowances
    at, measured = shop.make_up[2], 0
    stretches: list[_Stretch] = []
    for number, leg in enumerate(legs):
        if number and "roof" in (leg.space, legs[number - 1].space):
            at += shop.drip_loop[2]
        at += coach.shop.clearances.measuring_error
        scale = 1 + shop.unproven[2] * (leg.standing == "unproven")
        for p, q in pairwise(leg.points if len(leg.points) > 1 else leg.points * 2):
            long = round(math.dist(p, q))
            cuts = [place - measured for place in devices if 0 <= place - measured < long]
            measured += long
            for part, (begins, ends) in enumerate(pairwise([0, *cuts, long])):
                at += 2 * shop.make_up[2] * (part > 0)
                stretches.append(_Stretch(at, scale, leg.space, p, q, begins, ends))
                at = stretches[-1].cable(ends)
    return stretches, at + shop.service_loop[2] + shop.make_up[2]


class _Stretch(NamedTuple):
    """A part of a straight line from p to q: how much cable comes before it, and how much each millimetre of it takes.

    It `begins` and `ends` so far along that line [mm].
    """

    at: int
    scale: float
    space: str
    p: Point
    q: Point
    begins: int
    ends: int

    def cable(self, place: float) -> int:
        """How much cable it is to a place so far along the line [mm]."""
        return self.at + round((place - self.begins) * self.scale)

    def point(self, where: float) -> Point:
        """The point so much cable along the route [mm], or the end that is nearer."""
        length = math.dist(self.p, self.q) or 1
        place = self.begins + (where - self.at) / self.scale
        share = min(max(self.begins, place), self.ends, length) / length
        x, y, z = (round(u + (v - u) * share) for u, v in zip(self.p, self.q, strict=True))
        return x, y, z
