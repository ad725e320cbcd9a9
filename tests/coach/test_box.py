"""Boxes against the unit cells they are made of."""

from fractions import Fraction
from itertools import combinations, pairwise, product

from hypothesis import given
from hypothesis import strategies as st

from drawcord.coach.box import Box

SIZE = 6


@st.composite
def boxes(draw, least=0):
    sides = []
    for _ in range(3):
        low = draw(st.integers(0, SIZE - least))
        sides += [low, draw(st.integers(low + least, SIZE))]
    return Box(*sides)


solid = boxes(least=1)
points = st.tuples(*[st.integers(-1, SIZE + 1)] * 3)


def cells(box):
    """Oracle: the unit cells of a box, by their lower corners."""
    return set(product(*(range(*box.span(axis)) for axis in range(3))))


def lattice(box):
    """Oracle: all whole-millimetre points of a closed box."""
    return set(product(*(range(box.span(axis)[0], box.span(axis)[1] + 1) for axis in range(3))))


@given(boxes(), boxes())
def test_two_boxes_relate_as_their_cells_and_points_do(a, b):
    # Overlap is shared volume; touching is sharing points without volume; containing needs no volume.
    common = a.overlap(b)
    assert (cells(common) if common else set()) == cells(a) & cells(b)
    assert common == b.overlap(a)
    assert a.touches(b) == (bool(lattice(a) & lattice(b)) and not cells(a) & cells(b))
    assert a.contains(b) == (lattice(b) <= lattice(a))
    assert a.volume == len(cells(a))


@given(boxes(), boxes())
def test_the_hull_is_the_least_box_around_both(a, b):
    # It contains both, and moving any side inwards would lose one of them.
    hull = a.hull(b)
    assert hull.contains(a)
    assert hull.contains(b)
    for side in range(6):
        smaller = list(hull)
        smaller[side] += 1 if side % 2 == 0 else -1
        assert not (Box(*smaller).contains(a) and Box(*smaller).contains(b))


@given(boxes(), points)
def test_a_box_holds_its_sides_too(box, point):
    assert box.holds(point) == (point in lattice(box))


@given(boxes(), points, st.integers(0, 3))
def test_a_box_nearly_holds_what_it_holds_once_grown(box, point, by):
    assert box.nearly_holds(point, by) == box.grow(by).holds(point)


@given(boxes(), st.integers(0, 3), st.integers(0, 3), st.integers(0, 3))
def test_growing_can_be_undone(box, dx, dy, dz):
    # Each axis by its own distance; what is left out follows the first.
    grown = box.grow(dx, dy, dz)
    assert grown == (box.x0 - dx, box.x1 + dx, box.y0 - dy, box.y1 + dy, box.z0 - dz, box.z1 + dz)
    assert grown.grow(-dx, -dy, -dz) == box
    assert box.grow(dx) == box.grow(dx, dx, dx)


def test_shrinking_past_the_middle_leaves_a_flat_box_there():
    # Never a box turned inside out.
    assert Box(0, 10, 0, 4, 0, 30).grow(-3) == Box(3, 7, 2, 2, 3, 27)


@given(boxes(), points)
def test_shifting_moves_every_point(box, by):
    assert lattice(box.shift(*by)) == {
        tuple(at + step for at, step in zip(point, by, strict=True)) for point in lattice(box)
    }


@given(boxes(), points, points)
def test_a_segment_meets_the_interior_if_a_point_between_crossings_lies_in_it(box, p, q):
    # Oracle: between the parameters at which the line crosses the planes of the box nothing changes, so
    # the middles of these intervals decide. Running along a side or through a corner is no meeting.
    times = {Fraction(0), Fraction(1)}
    for axis in range(3):
        if p[axis] != q[axis]:
            times |= {Fraction(side - p[axis], q[axis] - p[axis]) for side in box.span(axis)}
    times = sorted(time for time in times if 0 <= time <= 1)
    middles = [(a + b) / 2 for a, b in pairwise(times)]

    def inside(time):
        at = [start + time * (end - start) for start, end in zip(p, q, strict=True)]
        return all(box.span(axis)[0] < at[axis] < box.span(axis)[1] for axis in range(3))

    assert box.meets_segment(p, q) == any(map(inside, middles))
    assert box.meets_segment(p, q) == box.meets_segment(q, p)


@given(solid, st.lists(boxes(), max_size=5), st.randoms(use_true_random=False))
def test_taking_boxes_out_leaves_exactly_the_other_cells(box, others, random):
    # Pieces never share volume, stand sorted, and do not depend on the order of what is taken.
    left = box.minus(others)
    assert set().union(*map(cells, left)) == cells(box).difference(*map(cells, others))
    assert not any(a.overlap(b) for a, b in combinations(left, 2))
    assert all(piece.volume for piece in left)
    assert list(left) == sorted(left)
    random.shuffle(others)
    assert box.minus(others) == left


@given(solid, solid)
def test_one_box_taken_out_leaves_one_piece_a_side_at_most(box, other):
    # Fewer cuts are not possible: one for each side of the other that lies inside.
    common = box.overlap(other)
    sides = sum(a != b for a, b in zip(box, common, strict=True)) if common else 1
    assert len(box.minus([other])) == sides


def test_cuts_go_beside_the_parts_not_through_them():
    # A slab right through leaves two pieces; the part in one of them makes six of that piece, not of both.
    slab, part = Box(2, 4, 0, 10, 0, 10), Box(6, 8, 2, 4, 2, 4)
    assert len(Box(0, 10, 0, 10, 0, 10).minus([slab, part])) == 1 + 6


def test_a_flat_box_loses_nothing():
    # There is no volume to take away.
    wall = Box(0, 0, 0, 10, 0, 10)
    assert wall.minus([Box(-5, 5, 2, 4, 2, 4)]) == (wall,)
