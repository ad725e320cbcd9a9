"""Bits and saws that the holes of a plan need, and the chuck each needs."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from drawcord.coach.parts import Parts
from drawcord.load.holes import HoleEntry
from drawcord.wire.glands import TOO_LARGE, TOO_SMALL

WIDER = 1.0  # how much wider than planned a grommet's hole may be [mm]


@dataclass(frozen=True)
class ToolNeed:
    """A bit or saw of `diameter` [mm], the `shank` its chuck has to take [mm], and the holes it is for.

    Whatever bores from `least` to `most` [mm] serves: a gland's hole has its published tolerance, a grommet's may be a
    millimetre wide (common practice, no source).
    """

    kind: str  # "drill bit" or "hole saw"
    diameter: float
    least: float
    most: float
    shank: int
    holes: tuple[str, ...]
    why: str


def tools(holes: Sequence[HoleEntry], rules: Parts) -> tuple[ToolNeed, ...]:
    """Each size once, the thinnest first; a hole saw also needs a pilot bit."""
    bores = Counter(hole.bore for hole in holes)
    found = [_bore(size, holes, rules) for size in sorted(bores)]
    sawn = tuple(hole.id for hole in holes if hole.bore > rules.largest_bit)
    if sawn:
        pilot = ToolNeed("drill bit", *(float(rules.pilot),) * 3, rules.pilot, sawn, "pilot hole before each saw")
        same = next((one for one in found if one.kind == "drill bit" and one.diameter == pilot.diameter), None)
        found = [pilot, *found] if same is None else found
    return tuple(sorted(found, key=lambda one: (one.diameter, one.kind)))


def serves(hole: HoleEntry) -> tuple[float, float]:
    """The narrowest and the widest bore that do for a hole [mm]."""
    off = (TOO_SMALL, TOO_LARGE) if hole.thread else (0.0, WIDER)
    return round(hole.bore - off[0], 1), round(hole.bore + off[1], 1)


def _bore(size: float, holes: Sequence[HoleEntry], rules: Parts) -> ToolNeed:
    made = [hole for hole in holes if hole.bore == size]
    names, limits = tuple(hole.id for hole in made), (size, *serves(made[0]))
    if size <= rules.largest_bit:
        return ToolNeed("drill bit", *limits, ceil(size), names, f"a bit up to {rules.largest_bit} mm, round shank")
    return ToolNeed("hole saw", *limits, rules.saw_shank, names, f"beyond the {rules.largest_bit} mm bit")
