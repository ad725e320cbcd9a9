"""Joints along a run and the reach of a hand, against slow and obvious counting."""

import itertools
import math
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawcord.coach.box import Box
from drawcord.pieces.joints import joints
from drawcord.pieces.reach import merged, stretch_within_reach

stretches = st.lists(st.tuples(st.integers(0, 30), st.integers(0, 6)).map(lambda t: (t[0], t[0] + t[1])), max_size=5)


def fewest(length, longest, reachable):
    """Fewest joints over every choice of whole millimetres a hand reaches; None if there is no choice."""
    places = sorted({at for near, far in reachable for at in range(near, far + 1) if 0 < at < length})

    @cache
    def onward(at):
        if length - at <= longest:
            return 0
        counts = [onward(to) for to in places if at < to <= at + longest]
        return min((1 + count for count in counts if count is not None), default=None)

    return onward(0)


@given(st.integers(1, 36), st.integers(1, 12), stretches)
def test_joints_are_the_fewest_that_a_hand_reaches(length, longest, reachable):
    # The oracle tries every place; where it finds none, at least one joint is marked as out of reach.
    found = joints(length, longest, merged(reachable))
    best = fewest(length, longest, tuple(reachable))
    if best is None:
        assert any(not reached for _, reached in found)
    else:
        assert all(reached for _, reached in found)
        assert len(found) == best
    stops = [0, *(at for at, _ in found), length]
    assert all(0 <= b - a <= longest for a, b in itertools.pairwise(stops))


def test_a_piece_without_length_is_refused():
    # It would never get anywhere.
    with pytest.raises(ValueError, match="never gets anywhere"):
        joints(10, 0, [])


def test_a_run_no_longer_than_the_piece_needs_no_joint():
    # The edge: exactly as long.
    assert joints(3000, 3000, []) == []
    assert joints(3001, 3000, []) == [(3000, False)]


points = st.tuples(*[st.integers(-8, 8)] * 3)
openings = st.tuples(*[st.tuples(st.integers(-5, 5), st.integers(0, 4))] * 3).map(
    lambda spans: Box(*(v for lo, size in spans for v in (lo, lo + size)))
)


@given(points, st.integers(0, 2), st.integers(-9, 9), openings, st.integers(1, 9))
def test_the_stretch_within_reach_holds_just_the_points_within_reach(p, axis, way, opening, arm):
    # The oracle measures the distance from every whole millimetre of the line to the opening.
    q = tuple(v + way * (a == axis) for a, v in enumerate(p))
    step = 1 if way >= 0 else -1

    def apart(point):
        return math.hypot(*(max(opening.span(a)[0] - point[a], 0, point[a] - opening.span(a)[1]) for a in range(3)))

    near = [
        along
        for along in range(abs(way) + 1)
        if apart(tuple(v + step * along * (a == axis) for a, v in enumerate(p))) <= arm
    ]
    found = stretch_within_reach(p, q, opening, arm)
    assert found == ((near[0], near[-1]) if near else None)


@given(stretches)
def test_merging_keeps_every_place_and_leaves_gaps(found):
    # Every place within some stretch stays, and what comes out is apart and in order.
    joined = merged(found)
    assert {at for a, b in joined for at in range(a, b + 1)} >= {at for a, b in found for at in range(a, b + 1)}
    assert all(a[1] < b[0] for a, b in itertools.pairwise(joined))
