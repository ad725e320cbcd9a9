"""Square lengths by voxels: a reference that knows a coach's solids and mouths, but neither its graph nor its searches.

The lattice is uneven: lines at every side of what is taken, at every mouth and at both ends, and more between
them, none further than `FILL` apart. So nothing is rounded, and its lengths are exact on its lines; that the
lines between them change nothing is tested with a finer filling and with plain cubes.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise, product

import numpy as np
from scipy.ndimage import binary_dilation
from skimage.graph import MCP

from drawcord.coach.box import Box, Point
from drawcord.ways.ways import Ways

FILL = 1000  # mm
FORWARD = (1, 0, 0, 0)  # on into the next solid of a chain, never back
NEIGHBOURS = [(0, *step) for step in product((-1, 0, 1), repeat=3) if sum(map(abs, step)) == 1]


def lengths(ways: Ways, chain: Sequence[str], start: Point, ends: Sequence[Point], fill: int = FILL) -> list[int | None]:
    """Least square length [mm] from a point of the first space through all the others, in order, to each end.

    Every space and every wall between two of them is a layer of voxels; a run goes on to the next layer where
    both are open. None where there is no way.
    """
    solids = [(ways.coach.spaces[name].box, ways.coach.spaces[name].taken) for name in chain]
    walls = [_walls(ways, here, there) for here, there in pairwise(chain)]
    boxes = [box for box, taken in solids for box in (box, *taken)] + [wall for layer in walls for wall in layer]
    points = [Box(*(v for v in point for _ in (0, 1))) for point in (start, *ends)]
    hull = solids[0][0]
    for box, _ in solids[1:]:
        hull = hull.hull(box)
    lines = [_lines([box.span(axis) for box in (*boxes, *points)], hull.span(axis), fill) for axis in range(3)]
    layers = [_room(lines, *solids[0])]
    for wall, solid in zip(walls, solids[1:], strict=True):
        layers += [_opening(lines, wall), _room(lines, *solid)]
    steps = np.where(np.stack(layers), _steps(lines), -1.0)
    at = [tuple(2 * int(np.searchsorted(line, v)) for line, v in zip(lines, p, strict=True)) for p in (start, *ends)]
    last = len(layers) - 1
    search = MCP(steps, offsets=[*NEIGHBOURS, FORWARD])
    found, _ = search.find_costs([(0, *at[0])], [(last, *place) for place in set(at[1:])])
    return [int(found[last, *place]) if np.isfinite(found[last, *place]) else None for place in at[1:]]


def _walls(ways: Ways, here: str, there: str) -> list[Box]:
    """What lies between the mouths of the open passages that join two spaces."""
    joining = (p for p in ways.passages.values() if {p.a, p.b} == {here, there} and not p.barred)
    return [near.hull(far) for passage in joining for near, far in passage.mouths]


def _lines(spans: Iterable[tuple[int, int]], within: tuple[int, int], fill: int) -> np.ndarray:
    low, high = within
    sides = sorted({low, high, *(side for span in spans for side in span if low < side < high)})
    return np.unique(
        np.concatenate([np.linspace(a, b, -(-(b - a) // fill) + 1).round().astype(int) for a, b in pairwise(sides)])
    )


def _steps(lines: Sequence[np.ndarray]) -> np.ndarray:
    """The length of each stretch between two neighbouring crossings of lines; 0 at crossings, -1 elsewhere.

    Crossings have even places along every axis, the stretch between two of them the odd place between theirs.
    """
    sizes = []
    for line in lines:
        size = np.zeros(2 * len(line) - 1)
        size[1::2] = np.diff(line)
        sizes.append(size)
    between = [size > 0 for size in sizes]
    odd = np.add.outer(np.add.outer(between[0].astype(int), between[1]), between[2])
    return np.where(odd < 2, np.add.outer(np.add.outer(*sizes[:2]), sizes[2]), -1.0)


def _room(lines: Sequence[np.ndarray], box: Box, taken: Iterable[Box]) -> np.ndarray:
    """Where a run may be in a space: the closure of the voxels that are in its box and in nothing taken."""
    shape = [2 * len(line) - 1 for line in lines]
    free = np.zeros(shape, dtype=bool)
    free[_voxels(lines, box)] = True
    for other in taken:
        free[_voxels(lines, other)] = False
    return binary_dilation(free, np.ones((3, 3, 3), dtype=bool))


def _voxels(lines: Sequence[np.ndarray], box: Box) -> tuple[slice, ...]:
    """The places of the voxels of a box: odd along every axis."""
    found = []
    for axis, line in enumerate(lines):
        low, high = np.searchsorted(line, box.span(axis))
        found.append(slice(2 * int(low) + 1, 2 * int(high), 2))
    return tuple(found)


def _opening(lines: Sequence[np.ndarray], walls: Iterable[Box]) -> np.ndarray:
    """Where a run may be between two spaces: in closed boxes, flat ones included."""
    free = np.zeros([2 * len(line) - 1 for line in lines], dtype=bool)
    for wall in walls:
        spans = [np.searchsorted(line, wall.span(axis)) for axis, line in enumerate(lines)]
        free[tuple(slice(2 * int(low), 2 * int(high) + 1) for low, high in spans)] = True
    return free
