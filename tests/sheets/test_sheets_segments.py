import math

from hypothesis import assume, given
from hypothesis import strategies as st

from drawcord.sheets.segments import cross, passes

coordinates = st.integers(-6, 6)
points = st.tuples(coordinates, coordinates)


def along(start, end, parts=840):
    """Points on a stretch, close together: 840 can be divided by all small numbers."""
    return [tuple(a + (b - a) * part / parts for a, b in zip(start, end, strict=True)) for part in range(parts + 1)]


@given(points, points, points, points)
def test_a_stretch_passes_through_a_rectangle_if_a_point_of_it_lies_inside(corner, other, start, end):
    assume(start != end)
    (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(corner, other, strict=True))
    inside = any(x0 + 1e-9 < x < x1 - 1e-9 and y0 + 1e-9 < y < y1 - 1e-9 for x, y in along(start, end))
    assert passes((x0, x1, y0, y1), start, end) == inside


@given(points, points, points, points)
def test_stretches_cross_where_each_has_the_others_ends_on_both_sides(a, b, c, d):
    # The angles at which the ends of one are seen from the other, with complex numbers.
    def sides(start, end, first, last):
        way = complex(*end) - complex(*start)
        return [((complex(*point) - complex(*start)) * way.conjugate()).imag for point in (first, last)]

    def opposed(pair):
        return math.prod(pair) < 0

    assert cross((a, b), (c, d)) == (opposed(sides(a, b, c, d)) and opposed(sides(c, d, a, b)))


def test_stretches_that_touch_do_not_cross():
    assert not cross(((0, 0), (4, 0)), ((2, 0), (2, 3)))
    assert cross(((0, 0), (4, 0)), ((2, -1), (2, 3)))
