"""Roof entries against every whole-millimetre point tried one by one."""

import math
from itertools import product

import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from drawcord.ways.entries import entry_points, entry_region
from drawcord.ways.roof import RoofRuns

ROOF = ((0, 0), (40, 0), (40, 24), (0, 24))


def rectangles(x=40, y=24):
    return st.tuples(st.integers(0, x - 1), st.integers(1, 16), st.integers(0, y - 1), st.integers(1, 16)).map(
        lambda sides: (sides[0], sides[0] + sides[1], sides[2], sides[2] + sides[3])
    )


@settings(deadline=None)
@given(
    rectangles(),
    st.lists(rectangles(), max_size=3),
    st.integers(0, 2),
    st.integers(1, 8),
    st.integers(1, 12),
    st.integers(0, 3),
)
def test_the_region_is_where_bore_and_flange_fit(footprint, obstacles, edge, bore, flange, error):
    # Oracle: every whole-millimetre point, with half sizes rounded up as documented.
    x0, x1, y0, y1 = footprint
    roof = RoofRuns(ROOF, obstacles, edge, 0, square=True)
    region, failed = entry_region(shapely.box(x0, y0, x1, y1), roof, bore, flange, error)
    keep, half = -(-bore // 2) + error, -(-flange // 2)
    lands, fits = set(), set()
    for x, y in product(range(42), range(26)):
        if x0 + keep <= x <= x1 - keep and y0 + keep <= y <= y1 - keep:
            lands.add((x, y))
        if (
            edge + half <= x <= 40 - edge - half
            and edge + half <= y <= 24 - edge - half
            and not any(a - half < x < b + half and c - half < y < d + half for a, b, c, d in obstacles)
        ):
            fits.add((x, y))
    found = {(x, y) for x, y in product(range(42), range(26)) if shapely.intersects_xy(region, x, y)}
    assert found == lands & fits
    assert region.is_empty == (failed != "")
    if x1 - x0 < 2 * keep or y1 - y0 < 2 * keep:
        assert failed == "bore"
    elif not found:
        assert failed == "flange"


def test_a_blind_hit_in_a_thin_wall_is_refused_for_its_bore():
    # The case of the rule: a 40 mm wall, a 22 mm bore, 10 mm of measuring error: 11 + 10 > 20.
    roof = RoofRuns([(0, 0), (6000, 0), (6000, 2400), (0, 2400)], [], 50, 3000, square=False)
    wall = shapely.box(2000, 300, 2040, 1500)
    assert entry_region(wall, roof, 22, 100, 10).failed == "bore"
    # With 9 mm the middle line is left, and counts.
    exact = entry_region(wall, roof, 22, 100, 9)
    assert exact.failed == ""
    assert {x for x, _ in entry_points(exact.region, [(2500, 900)])} == {2020}


def test_a_stack_below_its_own_cap_takes_no_flange():
    # The cap sits exactly where the flange wants to be.
    roof = RoofRuns([(0, 0), (6000, 0), (6000, 2400), (0, 2400)], [(950, 1250, 950, 1250)], 50, 3000, square=False)
    assert entry_region(shapely.box(1000, 1000, 1200, 1200), roof, 20, 100, 10).failed == "flange"


@settings(deadline=None)
@given(
    rectangles(),
    st.lists(rectangles(), max_size=3),
    st.lists(st.tuples(*[st.integers(-5, 50)] * 2), max_size=3),
)
@example(footprint=(5, 18, 0, 16), obstacles=[(0, 15, 14, 15)], towards=[(4, 40)])
def test_entry_points_are_few_whole_and_inside(footprint, obstacles, towards):
    # The first is the nearest whole point to the first place given, or as near to within a rounding, where the
    # nearest point of the region is not whole and another part of it is hardly further; all lie in the region.
    x0, x1, y0, y1 = footprint
    roof = RoofRuns(ROOF, obstacles, 0, 0, square=True)
    region, failed = entry_region(shapely.box(x0, y0, x1, y1), roof, 2, 4, 0)
    found = entry_points(region, towards, most=4)
    assert bool(found) == (not failed)
    assert len(found) == len(set(found)) <= 4
    assert all(isinstance(at, int) for spot in found for at in spot)
    assert all(shapely.intersects_xy(region, *spot) for spot in found)
    if found and towards:
        x, y = towards[0]
        inside = [spot for spot in product(range(42), range(26)) if shapely.intersects_xy(region, *spot)]
        nearest = min((a - x) ** 2 + (b - y) ** 2 for a, b in inside)
        assert math.dist(found[0], (x, y)) < math.sqrt(nearest) + 1


@pytest.mark.parametrize("towards", [[], [(0, 0)], [(0, 0), (40, 24), (20, 0)]])
def test_a_slanting_region_still_gives_points_inside(towards):
    # Nearest points on slanting sides are no whole millimetres; rounding must not push them out.
    region = shapely.Polygon([(3, 1), (37, 8), (20, 23)])
    found = entry_points(region, towards)
    assert found
    assert all(shapely.intersects_xy(region, *spot) for spot in found)


def test_no_region_gives_no_points():
    assert entry_points(shapely.Polygon(), [(0, 0)]) == []
