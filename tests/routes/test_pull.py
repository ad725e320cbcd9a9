"""Pulling a route tight, against trying every place."""

from itertools import pairwise, product

from hypothesis import given
from hypothesis import strategies as st

from drawcord.routes.pull import pull

small = st.tuples(st.integers(0, 6), st.integers(0, 4)).map(lambda t: (t[0], t[0] + t[1]))


def total(places):
    return sum(abs(a - b) for a, b in pairwise(places))


@given(st.lists(small, min_size=1, max_size=5))
def test_no_choice_of_places_is_shorter(intervals):
    # The oracle tries every whole place in every interval; ends of intervals are whole, so is an optimum.
    places = pull(intervals)
    assert all(lo <= at <= hi for at, (lo, hi) in zip(places, intervals, strict=True))
    best = min(total(choice) for choice in product(*(range(lo, hi + 1) for lo, hi in intervals)))
    assert total(places) == best


def test_fixed_ends_see_straight_through_open_mouths():
    # A mouth that spans the straight line between its neighbours adds nothing.
    assert total(pull([(0, 0), (0, 100), (40, 60), (50, 50)])) == 50


def test_a_mouth_aside_is_met_at_its_near_end():
    # Out and back to the nearer end of the mouth, no further.
    assert pull([(0, 0), (30, 90), (10, 10)]) == [0, 30, 10]
