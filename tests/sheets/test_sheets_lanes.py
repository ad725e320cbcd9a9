from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawcord.sheets.lanes import Stretch, set_all_apart, set_apart

GAP = 10.0


def walk(*points):
    return [Stretch(1, a, b, own=True) for a, b in pairwise(points)]


def main_parts(stretches, drawn):
    """The drawn part of each stretch without the step that joins it to the one before: its last two points."""
    return [(stretch.along, *points[-2:]) for stretch, points in zip(stretches, drawn, strict=True)]


def run_together(stretches, drawn, least):
    """Pairs that lie less than `least` apart side by side for longer than the gap: the slow, obvious check."""
    found = []
    for (axis, a, b), (other, c, d) in combinations(main_parts(stretches, drawn), 2):
        if axis is None or axis != other:
            continue
        shared = min(max(a[axis], b[axis]), max(c[axis], d[axis])) - max(min(a[axis], b[axis]), min(c[axis], d[axis]))
        if shared > 3 * GAP and abs(a[1 - axis] - c[1 - axis]) < least:
            found.append((a, b, c, d))
    return found


def test_there_and_back_is_drawn_side_by_side():
    # Up the wall and down again on the same line: the second keeps one gap beside the first.
    stretches = walk((0, 0), (0, 100), (0, 20))
    drawn = set_apart(stretches, GAP)
    assert drawn[0] == [(0, 0), (0, 100)]
    assert drawn[1] == [(0, 100), (10, 100), (10, 20)]


def test_a_corner_stays_closed():
    # A run that is set apart takes the corners at both of its ends along.
    stretches = walk((0, 0), (100, 0), (100, 50), (200, 50), (200, 0), (50, 0))
    drawn = set_apart(stretches, GAP)
    assert drawn[-1] == [(200, 10), (50, 10)]
    assert drawn[-2] == [(200, 50), (200, 10)]


def test_what_does_not_coincide_stays_in_place():
    stretches = walk((0, 0), (100, 0), (100, 50), (0, 50))
    assert set_apart(stretches, GAP) == [[(0, 0), (100, 0)], [(100, 0), (100, 50)], [(100, 50), (0, 50)]]


def test_a_slanting_stretch_follows_its_neighbours():
    # On the roof cable may run straight across; it starts where the run before it was moved to.
    stretches = walk((0, 0), (100, 0), (0, 0), (60, 80))
    drawn = set_apart(stretches, GAP)
    assert drawn[2] == [(0, 10), (60, 80)]


def test_routes_that_run_together_lie_side_by_side_and_are_not_joined():
    # Two cables on one line: the second beside the first, each with its own ends.
    routes = [walk((0, 0), (100, 0), (100, 60)), walk((0, 0), (100, 0), (100, -60))]
    first, second = set_all_apart(routes, GAP)
    assert first == set_apart(routes[0], GAP)
    assert second == [[(0, 10), (100, 10)], [(100, 10), (100, -60)]]


@pytest.mark.parametrize("times", [3, 6])
def test_many_runs_on_one_line_get_a_lane_each(times):
    stretches = walk(*[((0, 0), (500, 0))[number % 2] for number in range(times + 1)])
    across = sorted(part[1][1] for part in main_parts(stretches, set_apart(stretches, GAP)))
    assert all(b - a == GAP for a, b in pairwise(across))


def test_the_lane_within_the_shell_is_taken():
    # There and back along the upper wall: the second run keeps below the first, not outside the vehicle.
    stretches = walk((0, 50), (100, 50), (0, 50))
    assert set_apart(stretches, GAP)[1][-1] == (0, 60)
    assert set_apart(stretches, GAP, ((0, 0), (100, 55)))[1][-1] == (0, 40)


@given(st.integers(2, 8), st.integers(0, 100))
def test_no_lane_leaves_a_shell_that_has_room(times, across):
    # Where the first run lies in the shell, which is wide enough for all lanes on one side, every run does.
    stretches = walk(*[((0, across), (500, across))[number % 2] for number in range(times + 1)])
    drawn = set_apart(stretches, GAP, ((0, 0), (500, 100)))
    assert all(0 <= part[1][1] <= 100 for part in main_parts(stretches, drawn))
    assert run_together(stretches, drawn, 0.9 * GAP) == []


@st.composite
def square_walks(draw):
    """Walks along a coarse grid, so that stretches coincide often."""
    points = [(0, 0)]
    for _ in range(draw(st.integers(1, 14))):
        axis = draw(st.sampled_from((0, 1)))
        point = list(points[-1])
        point[axis] = draw(st.sampled_from((0, 50, 53, 100, 200)))
        if tuple(point) != points[-1]:
            points.append(tuple(point))
    return points


@given(square_walks())
def test_no_two_runs_are_drawn_on_top_of_each_other(points):
    # Corners move by a few gaps at most, so runs are compared where they share clearly more than that.
    stretches = walk(*points)
    drawn = set_apart(stretches, GAP)
    assert run_together(stretches, drawn, 0.9 * GAP) == []


@given(square_walks())
def test_the_drawn_line_is_in_one_piece(points):
    drawn = set_apart(walk(*points), GAP)
    assert all(before[-1] == after[0] for before, after in pairwise(drawn))
