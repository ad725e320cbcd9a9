"""Fill of raceways against the published shares and a worked example; bundles and passing against plain geometry."""

import math
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wire_samples import EUROPE, US

from drawcord.wire.fill import across, fill_of, least_inside, pass_each_other

SIZES = st.floats(1, 40)
MM2_PER_IN2 = 645.16  # exact, by the definition of the inch


@pytest.mark.parametrize(("cables", "percent"), [(1, 53), (2, 31), (3, 40), (9, 40), (40, 40)])
def test_the_published_shares(cables, percent):
    # NEC chapter 9 table 1: 53 % for one, 31 % for two, 40 % for more (seen, edition not named).
    assert fill_of(US.fill, cables).share == pytest.approx(percent / 100)


def test_europe_says_that_its_share_is_a_practice_from_memory():
    # IEC 60364-5-52 gives none; 45 % is a practice with BS 7671 (from memory), and the source must say both.
    row = fill_of(EUROPE.fill, 5)
    assert row.share == pytest.approx(0.45)
    assert "practice" in row.source
    assert "from memory" in row.source


def test_a_worked_fill_chooses_the_published_tube():
    # 3 of 0.0133, 4 of 0.0211 and 8 of 0.0366 in²: 0.4171 in². 40 % of 1.496 in² (trade size 1 1/4) are enough, 40 %
    # of 0.864 in² (trade size 1) are not (conduit-fill teaching text, seen, recomputed).
    areas = [0.0133] * 3 + [0.0211] * 4 + [0.0366] * 8
    found = least_inside(US.fill, [math.sqrt(4 / math.pi * area * MM2_PER_IN2) for area in areas])
    assert found.value * 0.40 / MM2_PER_IN2 == pytest.approx(0.4171, abs=5e-5)
    assert 0.864 < found.value / MM2_PER_IN2 < 1.496
    assert found.unit == "mm²"


@given(st.lists(SIZES, min_size=3, max_size=8), SIZES)
def test_one_more_cable_never_wants_a_smaller_raceway(diameters, more):
    # From three cables on; two want more than three do per cable, since they jam (31 against 40 %).
    assert least_inside(US.fill, [*diameters, more]).value > least_inside(US.fill, diameters).value


def test_bundles_are_as_wide_as_plain_geometry_says():
    # One, two side by side, a triangle, a square, and seven of which six stand around one.
    expected = {1: 1, 2: 2, 3: 1 + 2 / math.sqrt(3), 4: 1 + math.sqrt(2), 6: 3, 7: 3}
    assert {count: across(count, 10) / 10 for count in expected} == pytest.approx(expected)


@given(st.integers(2, 24), SIZES)
def test_no_two_cables_of_a_bundle_share_a_place(count, diameter):
    # The bundle is built and measured: a ring that touches the circle from within, one in the middle from the seventh.
    outer, ring = across(count, diameter), count if count < 7 else count - 1
    reach = (outer - diameter) / 2
    places = [(reach * math.cos(2 * math.pi * n / ring), reach * math.sin(2 * math.pi * n / ring)) for n in range(ring)]
    places += [(0.0, 0.0)] * (count - ring)
    apart = [math.dist(p, q) for number, p in enumerate(places) for q in places[:number]]
    assert min(apart) >= diameter * (1 - 1e-9)


@given(st.integers(1, 12), st.integers(1, 12), st.integers(1, 24), st.integers(1, 24))
def test_passing_agrees_with_trying_the_corners(one, other, wide, deep):
    # Two circles are furthest apart in opposite corners: the slow way puts each in all four.
    def corners(size):
        return list(product((size / 2, wide - size / 2), (size / 2, deep - size / 2)))

    fits = max(one, other) <= min(wide, deep)
    tried = any(math.dist(p, q) >= (one + other) / 2 - 1e-9 for p in corners(one) for q in corners(other))
    if fits and math.isclose(math.hypot(wide - (one + other) / 2, deep - (one + other) / 2), (one + other) / 2):
        return  # a touch, which rounding may read either way
    assert pass_each_other(one, other, wide, deep) == (fits and tried)


def test_no_cable_and_no_diameter_are_refused():
    # Neither fills anything.
    with pytest.raises(ValueError, match="1 or more"):
        fill_of(US.fill, 0)
    with pytest.raises(ValueError, match="1 or more"):
        across(0, 5)
    with pytest.raises(ValueError, match="above 0 mm"):
        least_inside(US.fill, [6, 0])
    with pytest.raises(ValueError, match="ends before 3"):
        fill_of(US.fill[:2], 3)
