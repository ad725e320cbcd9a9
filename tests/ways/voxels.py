"""Square lengths by voxels: a reference that knows a coach's solids and mouths, but neither its graph nor its searches.

The lattice is uneven: it has a line at every side of a solid, at every mouth and at both ends, and more lines
between those, so that none lie further apart than `FILL`. Nothing is rounded: its lengths are exact.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise, product
from typing import NamedTuple

import numpy as np
from skimage.graph import MCP
from skimage.morphology import dilation

from drawcord.coach.box import Box, Point
from drawcord.ways.ways import Ways

FILL = 200  # mm
NEIGHBOURS = [(0, *step) for step in product((-1, 0, 1), repeat=3) if sum(map(abs, step)) == 1]
ONWARD = (1, 0, 0, 0)  # into the next part of a chain; there is no way back


class Solid(NamedTuple):
    """A box, and the boxes in it that a cable cannot use [mm]."""

    box: Box
    taken: tuple[Box, ...]


def solids_of(ways: Ways, chain: Sequence[str]) -> list[Solid]:
    """The solids of spaces."""
    return [Solid(ways.coach.spaces[name].box, ways.coach.spaces[name].taken) for name in chain]


def walls_of(ways: Ways, chain: Sequence[str]) -> list[list[Box]]:
    """What lies between the mouths of the open passages from each space to the next."""
    return [
        [
            near.hull(far)
            for passage in ways.passages.values()
            if {passage.a, passage.b} == set(two) and not passage.barred
            for near, far in passage.mouths
        ]
        for two in pairwise(chain)
    ]


def lengths(
    solids: Sequence[Solid], walls: Sequence[Sequence[Box]], start: Point, ends: Sequence[Point], fill: int = FILL
) -> list[int | None]:
    """Least square length [mm] from a point of the first solid, through all the others in order, to each end.

    `walls[i]` are the boxes, flat where two solids touch, through which solid i + 1 is entered. Solids and
    walls are layers of one array; a run goes on to the next layer at a place where both are open. None where
    there is no way.
    """
    hull = solids[0].box
    for solid in solids:
        hull = hull.hull(solid.box)
    boxes = [box for solid in solids for box in (solid.box, *solid.taken)]
    boxes += [wall for entered in walls for wall in entered]
    boxes += [Box(x, x, y, y, z, z) for x, y, z in (start, *ends)]
    lines = [_lines(hull.span(axis), [box.span(axis) for box in boxes], fill) for axis in range(3)]
    layers = [_room(lines, solids[0])]
    for entered, solid in zip(walls, solids[1:], strict=True):
        layers += [_opening(lines, entered), _room(lines, solid)]
    search = MCP(np.where(np.stack(layers), _steps(lines), -1), offsets=[*NEIGHBOURS, ONWARD])
    (first, *goals) = [(*(2 * np.searchsorted(*pair) for pair in zip(lines, p, strict=True)),) for p in (start, *ends)]
    last = len(layers) - 1
    found, _ = search.find_costs([(0, *first)], [(last, *goal) for goal in set(goals)])
    return [int(found[last, *goal]) if np.isfinite(found[last, *goal]) else None for goal in goals]


def _lines(within: tuple[int, int], spans: Iterable[tuple[int, int]], fill: int) -> np.ndarray:
    """The lattice's lines across one axis [mm]."""
    low, high = within
    sides = sorted({low, high, *(side for span in spans for side in span if low < side < high)})
    filled = [np.linspace(a, b, -(-(b - a) // fill) + 1).round().astype(int) for a, b in pairwise(sides)]
    return np.unique(np.concatenate([*filled, [high]]))


# Along each axis even places are lines, odd places what lies between two of them. So a place that is even along
# all axes is a crossing, even along all but one a stretch between crossings, odd along all a voxel.


def _steps(lines: Sequence[np.ndarray]) -> np.ndarray:
    """What it costs to step onto a place [mm]: nothing at crossings, its length at stretches, -1 elsewhere."""
    sizes = [np.zeros(2 * len(line) - 1) for line in lines]
    for size, line in zip(sizes, lines, strict=True):
        size[1::2] = np.diff(line)
    x, y, z = np.meshgrid(*sizes, indexing="ij", sparse=True)
    return np.where((x > 0) * 1 + (y > 0) + (z > 0) < 2, x + y + z, -1)


def _room(lines: Sequence[np.ndarray], solid: Solid) -> np.ndarray:
    """The voxels in a box and in nothing taken from it, with their sides."""
    free = np.zeros([2 * len(line) - 1 for line in lines], dtype=bool)
    for box, open_ in ((solid.box, True), *((box, False) for box in solid.taken)):
        free[_places(lines, box, 1)] = open_
    return dilation(free, np.ones((3, 3, 3)))


def _opening(lines: Sequence[np.ndarray], walls: Iterable[Box]) -> np.ndarray:
    """All places in some closed boxes."""
    free = np.zeros([2 * len(line) - 1 for line in lines], dtype=bool)
    for wall in walls:
        free[_places(lines, wall, 0)] = True
    return free


def _places(lines: Sequence[np.ndarray], box: Box, first: int) -> tuple[slice, ...]:
    """The places in a box: all of them from `first` 0, the voxels from `first` 1."""
    ends = [2 * np.searchsorted(line, box.span(axis)) for axis, line in enumerate(lines)]
    return tuple(slice(low + first, high + 1 - first, 1 + first) for low, high in ends)
