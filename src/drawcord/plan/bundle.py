"""How much room cables need beside one another, and how much a narrow space leaves them.

Every rule grows with the set of cables, so that a set that does not fit rules out all larger ones.
"""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from drawcord.coach.coach import Space
from drawcord.coach.job import Cable

NARROW = ("chase", "vent stack", "appliance vent")  # spaces of a stated section, which a bundle has to share
LOOSE = ("PV", "battery DC")  # single cores, each in its own sheath; other cables have one sheath around them all

Span = tuple[int, int]


def strands(cable: Cable) -> list[int]:
    """The diameters of what lies side by side [mm]: the cores of PV and battery cables, else the cable as one.

    Common practice, no source.
    """
    return [cable.outside_diameter] * (cable.cores if cable.carries in LOOSE else 1)


def bore(cables: Sequence[Cable]) -> int:
    """The round opening [mm] that passes these cables, whichever is drawn in last with its plug on.

    A circle holds any circles whose diameters add up to its own, and any that fill no more than half of it
    (Fekete, Keldenich and Scheffer, Packing Disks into Disks with Optimal Worst-Case Density, 2019).
    """
    return max(circle(round_ones) for round_ones in _drawn_in(cables))


def filled(cables: Sequence[Cable]) -> int:
    """What cables take of a section [mm²]: the square around each strand (common practice, no source)."""
    return sum(diameter**2 for cable in cables for diameter in strands(cable))


def room(cables: Sequence[Cable]) -> int:
    """The section [mm²] that a chase needs: to draw in each of these cables, plug on, beside all the others."""
    return max(sum(diameter**2 for diameter in round_ones) for round_ones in _drawn_in(cables))


class Section(NamedTuple):
    """A cut square across a space at `at` on the axis `along`: what it spans on both others, what is taken [mm].

    `area` [mm²] is what is left of it.
    """

    along: int
    at: int
    spans: tuple[Span, Span]
    taken: tuple[tuple[Span, Span], ...]
    area: int


def free(space: Space) -> int:
    """The section of a narrow space [mm²], where what is in it leaves least."""
    found = narrowest(space)
    return found.area if found else 0


def narrowest(space: Space) -> Section | None:
    """The cut across the longest side of a space where what is in it leaves least; the first of equals.

    Stretches that something fills altogether do not count: no cable runs there.
    """
    box = space.box
    along = max((0, 1, 2), key=lambda axis: (box.span(axis)[1] - box.span(axis)[0], axis))
    cuts = sorted({*box.span(along), *(place for taken in space.taken for place in taken.span(along))})
    u, v = (axis for axis in (0, 1, 2) if axis != along)
    section = box.span(u), box.span(v)
    found = []
    for begins in cuts[:-1]:
        here = [t for t in space.taken if t.span(along)[0] <= begins < t.span(along)[1]]
        taken = tuple((t.span(u), t.span(v)) for t in here)
        found.append(Section(along, begins, section, taken, _left(section, taken)))
    return min((cut for cut in found if cut.area), key=lambda cut: cut.area, default=None)


def _drawn_in(cables: Sequence[Cable]) -> list[list[int]]:
    """For each cable as the last one: its plug and the strands of the others [mm]."""
    found = []
    for last, cable in enumerate(cables):
        others = [other for number, other in enumerate(cables) if number != last]
        found.append([cable.largest_plug, *(diameter for other in others for diameter in strands(other))])
    return found


def circle(diameters: Sequence[int]) -> int:
    """The round opening [mm] that passes all of these; as `bore` says."""
    return min(sum(diameters), math.ceil(math.sqrt(2 * sum(diameter**2 for diameter in diameters))))


def _left(section: Sequence[tuple[int, int]], taken: Sequence[Sequence[tuple[int, int]]]) -> int:
    """The area of a rectangle without the rectangles taken from it."""
    us, vs = (sorted({*section[i], *(place for part in taken for place in part[i])}) for i in (0, 1))
    area = 0
    for u0, u1 in pairwise(us):
        for v0, v1 in pairwise(vs):
            inside = section[0][0] <= u0 < section[0][1] and section[1][0] <= v0 < section[1][1]
            if inside and not any(p[0][0] <= u0 < p[0][1] and p[1][0] <= v0 < p[1][1] for p in taken):
                area += (u1 - u0) * (v1 - v0)
    return area
