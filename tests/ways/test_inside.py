"""Runs inside a box against unit steps on the lattice and against voxels."""

from itertools import pairwise, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lattice import best, unit_steps
from skimage.graph import MCP

from drawcord.coach.box import Box
from drawcord.ways.inside import Inside


class Lattice:
    """Oracle: unit cells of the box that nothing takes; a unit step needs such a cell beside it.

    A box that is flat along an axis has one layer of cells there, taken by what reaches it.
    """

    def __init__(self, box, taken):
        self.box = box
        self.flat = [box.span(axis)[0] == box.span(axis)[1] for axis in range(3)]
        layers = [[box.span(axis)[0]] if self.flat[axis] else range(*box.span(axis)) for axis in range(3)]
        self.free = {cell for cell in product(*layers) if not any(self._takes(part, cell) for part in taken)}

    def _takes(self, part, cell):
        return all(
            part.span(axis)[0] <= at and (at < part.span(axis)[1] or (self.flat[axis] and at == part.span(axis)[1]))
            for axis, at in enumerate(cell)
        )

    def around(self, axis, at):
        """The layers of cells next to a coordinate."""
        return [at] if self.flat[axis] else [at - 1, at]

    def usable(self, point):
        return any(cell in self.free for cell in product(*(self.around(axis, at) for axis, at in enumerate(point))))

    def steps(self, point):
        for axis in range(3):
            if self.flat[axis]:
                continue
            walls = sum(point[other] in self.box.span(other) for other in range(3) if other != axis)
            for step, layer in ((-1, point[axis] - 1), (1, point[axis])):
                beside = [[layer] if other == axis else self.around(other, at) for other, at in enumerate(point)]
                if any(cell in self.free for cell in product(*beside)):
                    yield tuple(at + step * (axis == other) for other, at in enumerate(point)), axis, walls


@st.composite
def spaces(draw):
    """A small box, sometimes flat, parts that reach past it or stand flush, and points in and near it."""
    sizes = [draw(st.integers(1, 5)) for _ in range(3)]
    if draw(st.integers(0, 3)) == 0:
        sizes[draw(st.integers(0, 2))] = 0
    box = Box(0, sizes[0], 0, sizes[1], 0, sizes[2])
    taken = []
    for _ in range(draw(st.integers(0, 4))):
        sides = []
        for size in sizes:
            low = draw(st.integers(-1, max(size, 0)))
            sides += [low, draw(st.integers(low, size + 1))]
        taken.append(Box(*sides))
    points = draw(st.lists(st.tuples(*[st.integers(-1 * (size == 5), size) for size in sizes]), max_size=6))
    return box, tuple(taken), points


@settings(max_examples=200, deadline=None)
@given(spaces())
def test_lengths_and_paths_equal_unit_steps_on_the_lattice(space):
    # Length for every pair; and a path of that length, in clear steps, with least bends and then most wall.
    box, taken, points = space
    oracle, inside = Lattice(box, taken), Inside(box, taken)
    lengths = inside.lengths(points)
    assert len(lengths) == len(points)
    for p, row in zip(points, lengths, strict=True):
        least = best(p, oracle.steps) if box.holds(p) and oracle.usable(p) else {}
        assert row == [least[q][0] if q in least else None for q in points]
        for q in points:
            path = inside.path(p, q)
            if q not in least:
                assert path == ()
                continue
            assert (path[0], path[-1]) == (p, q)
            assert path == inside.path(q, p)[::-1]
            steps, walled, axes = unit_steps(path), 0, []
            for here, there in pairwise(steps):
                axis, walls = next((axis, walls) for to, axis, walls in oracle.steps(here) if to == there)
                walled += walls
                axes.append(axis)
            bends = sum(a != b for a, b in pairwise(axes))
            assert (len(steps) - 1, bends, -walled) == least[q]
            assert len(path) == (bends + 2 if p != q else 1)


@settings(max_examples=100, deadline=None)
@given(spaces())
def test_lengths_are_symmetric(space):
    # Clipped cable is as long one way as the other.
    box, taken, points = space
    lengths = Inside(box, taken).lengths(points)
    assert [list(column) for column in zip(*lengths, strict=True)] == lengths


@pytest.mark.parametrize("seed", range(4))
def test_lengths_equal_a_voxel_reference(seed):
    # Independent: scikit-image's MCP with 6 neighbours on 10 mm voxels at the lattice points, blocked
    # strictly inside a part. Shelves two voxels thick leave a gap at one side each and stick out through
    # the other walls, so that blocked voxels say all there is to say; a post stands through them.
    random, box = np.random.default_rng(seed), Box(0, 400, 0, 300, 0, 500)
    taken = [Box(160, 240, 100, 160, 50, 450)]
    for z in range(100, 500, 100):
        shelf = [-10, 410, -10, 310, z, z + 20]
        side = int(random.integers(4))
        shelf[side] += int(random.integers(60, 120)) // 10 * 10 * (1 if side % 2 == 0 else -1)
        taken.append(Box(*shelf))
    costs = np.ones([box.span(axis)[1] // 10 + 1 for axis in range(3)])
    for x0, x1, y0, y1, z0, z1 in taken:
        inner = [slice(max(low // 10 + 1, 0), max(high // 10, 0)) for low, high in ((x0, x1), (y0, y1), (z0, z1))]
        costs[tuple(inner)] = -1
    points = []
    while len(points) < 12:
        at = random.integers(costs.shape).tolist()
        at[int(random.integers(3))] = 0
        if costs[tuple(at)] > 0:
            points.append(tuple(10 * index for index in at))
    lengths = Inside(box, tuple(taken)).lengths(points)
    detours = 0
    for p, row in zip(points, lengths, strict=True):
        far, _ = MCP(costs, fully_connected=False).find_costs([[at // 10 for at in p]])
        for q, length in zip(points, row, strict=True):
            voxels = far[tuple(at // 10 for at in q)]  # counts the first voxel too
            assert length == (None if np.isinf(voxels) else 10 * (voxels - 1))
            detours += length is not None and length > sum(abs(a - b) for a, b in zip(p, q, strict=True))
    assert detours  # else the parts would have tested nothing


def test_a_plain_box_needs_no_grid_and_keeps_to_its_edges():
    # From the ceiling's middle to a side's middle: across the ceiling, along its edge, down the wall.
    inside = Inside(Box(0, 1000, 0, 600, 0, 2000))
    p, q = (500, 300, 2000), (200, 0, 900)
    assert inside.lengths([p, q]) == [[0, 1700], [1700, 0]]
    path = inside.path(p, q)
    assert path == ((500, 300, 2000), (500, 0, 2000), (200, 0, 2000), (200, 0, 900))


def test_an_edge_is_taken_before_a_mere_face():
    # Both ends on the floor and one at a wall: along the wall's foot, which is clipped twice.
    assert Inside(Box(0, 1000, 0, 600, 0, 2000)).path((100, 0, 0), (700, 400, 0)) == (
        (100, 0, 0),
        (700, 0, 0),
        (700, 400, 0),
    )


def test_walls_decide_between_detours_too():
    # Around a shelf in three bends; of the places where x can change the edge under the ceiling is best.
    shelf = Box(-10, 1010, -10, 500, 900, 1000)
    path = Inside(Box(0, 1000, 0, 600, 0, 2000), (shelf,)).path((500, 0, 100), (200, 0, 2000))
    assert path == ((500, 0, 100), (500, 500, 100), (500, 500, 2000), (500, 0, 2000), (200, 0, 2000))


def test_nothing_slips_past_a_part_that_stands_flush():
    # A fridge that fills the cabinet from wall to wall leaves no way behind it, though its face is a wall's.
    cabinet = Box(0, 600, 0, 600, 0, 2000)
    below, above = (300, 0, 0), (300, 0, 2000)
    fridge = Box(0, 600, 0, 600, 500, 1500)
    assert Inside(cabinet, (fridge,)).lengths([below, above])[0][1] is None
    assert Inside(cabinet, (fridge,)).path(below, above) == ()
    # With a strip left behind it there is one.
    assert Inside(cabinet, (fridge._replace(x1=520),)).lengths([below, above])[0][1] == 2000 + 2 * 220


def test_a_flat_box_loses_what_reaches_its_plane():
    # A stretch of wall with a window drawn flat in it and a cabinet standing against it.
    window, cabinet = Box(300, 500, 0, 0, 800, 1400), Box(600, 900, 0, 400, 700, 2000)
    wall = Inside(Box(0, 1000, 0, 0, 0, 2000), (window, cabinet))
    assert wall.lengths([(200, 0, 1000), (550, 0, 1000)])[0][1] == 350 + 2 * 200
    assert wall.lengths([(550, 0, 1000), (950, 0, 1000)])[0][1] == 400 + 2 * 300


def test_nothing_squeezes_between_two_parts_that_touch():
    # A clearance split into boxes is one thing.
    parts = (Box(0, 300, 0, 600, 500, 900), Box(300, 600, 0, 600, 500, 900))
    assert Inside(Box(0, 600, 0, 600, 0, 2000), parts).lengths([(300, 300, 0), (300, 300, 2000)])[0][1] is None


def test_a_point_outside_or_within_a_part_reaches_nothing():
    # Not even itself, so that a wrong station shows.
    inside = Inside(Box(0, 100, 0, 100, 0, 100), (Box(20, 60, 20, 60, 20, 60),))
    assert inside.lengths([(0, 0, 0), (40, 40, 40), (0, 0, 101)]) == [[0, None, None], [None] * 3, [None] * 3]
    assert inside.path((40, 40, 40), (40, 40, 40)) == ()
    assert inside.path((0, 0, 0), (0, 0, 101)) == ()
    assert inside.lengths([]) == []
