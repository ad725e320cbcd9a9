"""What is usable of upright walls: the faces in a plane less what touches them, as flat boxes."""

from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from drawcord.coach.box import Box


class Plane(NamedTuple):
    """An upright plane: the axis it stands across, 0 or 1, and where [mm]."""

    axis: int
    at: int


class _Rect(NamedTuple):
    """A rectangle in a plane: where it begins and ends along the wall and upwards [mm]."""

    u0: int
    u1: int
    z0: int
    z1: int


def plane(face: Box) -> Plane:
    """The plane of a flat upright box."""
    return Plane(0, face.x0) if face.x0 == face.x1 else Plane(1, face.y0)


def common(one: Box, other: Box) -> Box | None:
    """The box that two closed boxes share, however thin; None where they are apart."""
    a0, a1, b0, b1, c0, c1 = one
    d0, d1, e0, e1, f0, f1 = other
    if a0 > d1 or d0 > a1 or b0 > e1 or e0 > b1 or c0 > f1 or f0 > c1:
        return None
    return Box(max(a0, d0), min(a1, d1), max(b0, e0), min(b1, e1), max(c0, f0), min(c1, f1))


def usable(faces: Iterable[Box], taken: Iterable[Box]) -> list[Box]:
    """What is left of flat upright faces without what the taken boxes touch or cover of them, sorted.

    The parts are flat boxes that share nothing but upright edges: each plane is cut at every side of a face
    or taken box, then joined again along the wall where neighbouring parts are equally high.
    """
    boxes = tuple(taken)
    walls: dict[Plane, list[Box]] = {}
    for face in faces:
        walls.setdefault(plane(face), []).append(face)
    return sorted(part for wall, of_wall in walls.items() for part in _columns(wall, of_wall, boxes))


def _columns(wall: Plane, faces: Iterable[Box], taken: Iterable[Box]) -> list[Box]:
    """The usable parts of one plane."""
    along = 1 - wall.axis
    on = [_Rect(*face.span(along), *face.span(2)) for face in faces]
    reaching = (box for box in taken if box.span(wall.axis)[0] <= wall.at <= box.span(wall.axis)[1])
    off = [_Rect(*box.span(along), *box.span(2)) for box in reaching]
    cuts = sorted({u for rect in on + off for u in (rect.u0, rect.u1)})
    done: list[_Rect] = []
    growing: dict[tuple[int, int], int] = {}  # where the parts that reach the present cut began
    for u0, u1 in pairwise((*cuts, *cuts[-1:])):  # a last column without width ends what still grows
        spans = _spans(*([rect for rect in rects if rect.u0 <= u0 < u1 <= rect.u1] for rects in (on, off)))
        done += [_Rect(begin, u0, *span) for span, begin in growing.items() if span not in spans]
        growing = {span: growing.get(span, u0) for span in spans}
    flat = (wall.at, wall.at)
    return [Box(*flat, u0, u1, z0, z1) if along else Box(u0, u1, *flat, z0, z1) for u0, u1, z0, z1 in done]


def _spans(on: list[_Rect], off: list[_Rect]) -> list[tuple[int, int]]:
    """The stretches upwards of a column that rectangles cover and none of those taken does."""
    spans: list[tuple[int, int]] = []
    for low, high in pairwise(sorted({z for rect in on + off for z in (rect.z0, rect.z1)})):
        covers = [any(rect.z0 <= low < high <= rect.z1 for rect in rects) for rects in (on, off)]
        if covers == [True, False]:
            joins = bool(spans) and spans[-1][1] == low
            spans.append((spans.pop()[0] if joins else low, high))
    return spans
