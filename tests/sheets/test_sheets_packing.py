"""Circles laid into bores and rectangles: they never overlap or stick out, and the tightest bores are found."""

import math
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.sheets.packing import Bore, Cut, pack

TOLD = 1e-6  # mm
DIAMETERS = st.lists(st.integers(2, 20), min_size=1, max_size=5)


def apart(laid):
    return all(
        math.dist(one.centre, other.centre) >= (one.diameter + other.diameter) / 2 - TOLD
        for one, other in combinations(laid, 2)
    )


@settings(deadline=None)
@given(DIAMETERS, st.integers(5, 60))
def test_in_a_bore_nothing_overlaps_or_sticks_out(diameters, bore):
    laid = pack(diameters, Bore(bore))
    if laid is None:
        assert sum(diameters) > bore or max(diameters) > bore
        return
    assert [one.diameter for one in laid] == diameters
    assert apart(laid)
    assert all(math.hypot(*one.centre) + one.diameter / 2 <= bore / 2 + TOLD for one in laid)


BOXES = st.tuples(st.integers(0, 30), st.integers(1, 20), st.integers(0, 30), st.integers(1, 20))


@settings(deadline=None)
@given(DIAMETERS, st.lists(BOXES, max_size=2))
def test_in_a_rectangle_nothing_lies_in_what_is_taken(diameters, boxes):
    taken = tuple((x, min(40, x + wide), y, min(30, y + high)) for x, wide, y, high in boxes if y < 30)
    laid = pack(diameters, Cut(40, 30, taken))
    if laid is None:
        assert taken or sum(diameters) > 30  # in an empty one they would stand in a row
        return
    assert apart(laid)
    for (x, y), diameter in laid:
        radius = diameter / 2
        assert min(x, y) >= radius - TOLD
        assert (x <= 40 - radius + TOLD, y <= 30 - radius + TOLD) == (True, True)
        for x0, x1, y0, y1 in taken:  # the nearest of a grid of points of the box, and its corners, keeps away
            xs, ys = ([a + (b - a) * n / 20 for n in range(21)] for a, b in ((x0, x1), (y0, y1)))
            assert min(math.dist((x, y), (u, v)) for u in xs for v in ys) >= radius - TOLD


# The least bores for equal circles of diameter 1, proved optimal (Graham 1968, Pirl 1969; both from memory).
LEAST = {1: 1.0, 2: 2.0, 3: 1 + 2 / math.sqrt(3), 4: 1 + math.sqrt(2)}


@pytest.mark.parametrize(("count", "bore"), LEAST.items())
def test_the_tightest_bores_of_equal_circles(count, bore):
    # Found where there is just room, and nothing is made up where there is none.
    laid = pack([10.0] * count, Bore(10 * bore + 1e-6))
    assert laid
    assert apart(laid)
    assert pack([10.0] * count, Bore(10 * bore - 0.01)) is None


def test_two_that_add_up_to_the_bore_are_found():
    # What the plan counts for two cables: their diameters in a row.
    assert pack([16, 6], Bore(22))
    assert pack([16, 6], Bore(21.9)) is None


def test_an_order_that_fails_is_not_the_last_word():
    # With the thickest in a corner first there is room for one of the thin ones only.
    laid = pack([12, 5, 5], Cut(16, 16))
    assert laid
    assert apart(laid)
    assert laid[0].centre != (6, 6)


def test_the_same_circles_give_the_same_places():
    assert pack([9, 7, 7, 3], Bore(22)) == pack([9, 7, 7, 3], Bore(22))
