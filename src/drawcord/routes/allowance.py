"""How much cable to cut for a route, and where its joints fall."""

from dataclasses import dataclass
from itertools import pairwise

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.pieces.joints import joints
from drawcord.pieces.reach import merged, stretch_within_reach
from drawcord.routes.route import Joint, Leg
from drawcord.words.figure import Figure

SHOP = "shop's allowances.yaml"
ENDS = ("low", "likely", "high")


@dataclass(frozen=True)
class Cut:
    """The cable to cut, per core [mm]: low, likely and high, and each allowance as a figure of its own."""

    length: tuple[int, int, int]
    figures: tuple[Figure, ...]


def cut(coach: Coach, legs: tuple[Leg, ...]) -> Cut:
    """The cut length of a route: what it measures, plus every allowance."""
    shop = coach.shop.allowances
    measured = sum(leg.length for leg in legs)
    entries = _entries(legs)
    doubtful = sum(leg.length for leg in legs if leg.standing == "unproven")
    lines = [
        ("measured length", (measured,) * 3, "sum of the legs", "geometry"),
        ("make-up at both ends", tuple(2 * v for v in shop.make_up), "2 × {each} mm", SHOP),
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
        "make-up at both ends": [str(v) for v in shop.make_up],
        "drip loop at the roof": [str(v) for v in shop.drip_loop],
        "service loop": [str(v) for v in shop.service_loop],
        "slack on unproven legs": [f"{share:.0%}" for share in shop.unproven],
    }
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


def _entries(legs: tuple[Leg, ...]) -> int:
    """How often the route goes through the roof."""
    return sum("roof" in (here.space, there.space) for here, there in pairwise(legs))


def place_joints(coach: Coach, legs: tuple[Leg, ...], longest: int) -> tuple[Joint, ...]:
    """The joints of a route for a longest piece [mm], with every allowance at its high end.

    Along the cable come the make-up of the start, each leg with its slack, a drip loop at each roof entry,
    and last the service loop and the make-up of the end. A hand reaches what lies within an arm's length of
    an opening of the space it runs in, and all of the raceway in a room; nothing on the roof, where no joint
    belongs (common practice, no source).
    """
    shop = coach.shop.allowances
    slack = 1 + shop.unproven[2]
    at = shop.make_up[2]
    stops: list[tuple[int, Leg, Point, Point]] = []  # cable up to a segment, and the segment
    ways_in: list[tuple[int, int, str]] = []
    for number, leg in enumerate(legs):
        if number and "roof" in (leg.space, legs[number - 1].space):
            at += shop.drip_loop[2]
        scale = slack if leg.standing == "unproven" else 1
        for p, q in pairwise(leg.points):
            size = round(sum(abs(u - v) for u, v in zip(p, q, strict=True)) * scale)
            stops.append((at, leg, p, q))
            for name, near, far in within_reach(coach, leg.space, p, q):
                ways_in.append((at + round(near * scale), at + round(far * scale), name))
            at += size
    end = at + shop.service_loop[2] + shop.make_up[2]
    placed = []
    for where, reached in joints(end, longest, merged([(near, far) for near, far, _ in ways_in])):
        begins, leg, p, q = max(
            (stop for stop in stops if stop[0] <= where), key=lambda stop: stop[0], default=stops[0]
        )
        opening = min((name for near, far, name in ways_in if near <= where <= far), default="")
        placed.append(Joint(where, _along(p, q, where - begins), leg.space, opening, reached))
    return tuple(placed)


def within_reach(coach: Coach, space: str, p: Point, q: Point) -> list[tuple[str, int, int]]:
    """Which stretches of the straight line from p to q in a space a hand reaches: through what, from, to [mm]."""
    if coach.spaces[space].kind == "roof":
        return []
    if coach.spaces[space].kind == "room":
        return [("raceway cover", 0, sum(abs(u - v) for u, v in zip(p, q, strict=True)))]
    box = coach.spaces[space].box
    if not (box.holds(p) and box.holds(q)):
        return []  # within a wall
    found = []
    for opening in coach.openings.values():
        if opening.into == space:
            stretch = stretch_within_reach(p, q, opening.box, coach.shop.clearances.arm)
            if stretch:
                found.append((opening.id, *stretch))
    return found


def _along(p: Point, q: Point, far: int) -> Point:
    """The point so far along the way from p to q [mm], or q."""
    length = sum(abs(u - v) for u, v in zip(p, q, strict=True))
    share = min(far, length) / length if length else 0
    x, y, z = (round(u + (v - u) * share) for u, v in zip(p, q, strict=True))
    return x, y, z
