"""Raceway as pieces that several cables may share: runs along walls, cut wherever one of them begins, turns or ends."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.plan.bundle import strands
from drawcord.routes.route import Route

Line = tuple[str, int, tuple[int, ...]]  # room, axis along which it runs, the other two coordinates
Piece = tuple[Line, int, int]  # a line, and from where to where along it [mm]
Run = tuple[str, Sequence[Point]]  # room, and the corners of a run in it


def pieces(runs: Sequence[Run]) -> list[list[Piece]]:
    """For each run the pieces that it consists of; two runs share a piece or do not touch it."""
    stretches = [list(_stretches(*run)) for run in runs]
    cuts: dict[Line, set[int]] = {}
    for line, low, high in (stretch for run in stretches for stretch in run):
        cuts.setdefault(line, set()).update((low, high))
    ordered = {line: sorted(places) for line, places in cuts.items()}
    return [
        [(line, a, b) for line, low, high in run for a, b in pairwise(ordered[line]) if low <= a and b <= high]
        for run in stretches
    ]


def lain(routes: Sequence[Route]) -> dict[Piece, tuple[int, ...]]:
    """By piece, in order, the numbers of the routes that lie in it."""
    legs = [(number, leg) for number, route in enumerate(routes) for leg in route.legs if leg.in_sight]
    runs = pieces([(leg.space, beyond(leg.points, leg.through_length)) for _, leg in legs])
    found: dict[Piece, set[int]] = {}
    for (number, _), some in zip(legs, runs, strict=True):
        for piece in some:
            found.setdefault(piece, set()).add(number)
    return {piece: tuple(sorted(found[piece])) for piece in sorted(found)}


def company(coach: Coach, routes: Mapping[str, Route]) -> dict[str, list[list[int]]]:
    """For each cable what others may lie in its raceway with it, by diameter [mm], stretch by stretch."""
    if coach.job is None:
        raise LookupError("a coach without a job has no cables")
    names = sorted(routes)
    found: dict[str, list[list[int]]] = {}
    for group in sorted(set(lain([routes[name] for name in names]).values())):
        cables = {names[number]: coach.job.cables[names[number]] for number in group}
        for name, cable in cables.items():
            others = [
                diameter
                for other, one in cables.items()
                if other != name and coach.shop.sharing.of(cable.carries, one.carries)[1].raceway
                for diameter in strands(one)
            ]
            found.setdefault(name, []).append(others)
    return found


def length(found: Iterable[Piece]) -> int:
    """How long pieces are together [mm]."""
    return sum(high - low for _, low, high in found)


def beyond(points: Sequence[Point], distance: int) -> list[Point]:
    """The rest of a square polyline after its first so many millimetres."""
    for number, (p, q) in enumerate(pairwise(points)):
        step = sum(abs(u - v) for u, v in zip(p, q, strict=True))
        if distance <= step:
            x, y, z = (u + (v > u) * distance - (v < u) * distance for u, v in zip(p, q, strict=True))
            return [(x, y, z), *points[number + 1 :]]
        distance -= step
    return list(points[-1:])


def _stretches(room: str, corners: Sequence[Point]) -> Iterable[Piece]:
    for p, q in pairwise(corners):
        for axis in (0, 1, 2):
            if p[axis] != q[axis]:
                line = room, axis, (*p[:axis], *p[axis + 1 :])
                yield line, min(p[axis], q[axis]), max(p[axis], q[axis])
