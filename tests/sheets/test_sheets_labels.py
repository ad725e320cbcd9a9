import math
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawcord.sheets.labels import Board, Patch

PAGE = Patch(0, 100, 0, 60)
SIZE = (8.0, 3.0)


def test_a_free_wish_is_granted():
    board = Board("plan", PAGE)
    assert board.place(SIZE, [(50, 30)]) == ((50, 30), None)


def test_a_taken_wish_passes_to_the_next():
    board = Board("plan", PAGE)
    board.block(Patch.around((50, 30), 2, 2))
    assert board.place(SIZE, [(50, 30), (70, 30)]) == ((70, 30), None)


def test_a_wish_off_the_page_is_none():
    assert Board("plan", PAGE).place(SIZE, [(99, 30)]) is None


def test_a_tag_without_a_wish_is_led_to_its_anchor():
    # It lies beside the anchor, near it, and not over it.
    board = Board("plan", PAGE)
    board.block(Patch.around((50, 30), 4, 4))
    spot = board.place(SIZE, (), (50, 30))
    assert spot.foot is not None
    assert math.dist(spot.foot, (50, 30)) < 15
    assert not Patch.around(spot.centre, *SIZE).meets(Patch.around((50, 30), 4, 4))
    assert abs(spot.centre[0] - 50) < 15
    assert abs(spot.centre[1] - 30) < 10


def test_the_wish_that_covers_least_wins():
    # The middle of a space crossed by cable is worse than its edge.
    board = Board("plan", PAGE)
    board.avoid(Patch(45, 55, 25, 35), 4.0)
    assert board.place(SIZE, [(50, 30), (70, 30)]).centre == (70, 30)


def test_a_full_page_leaves_a_tag_out():
    # Rather no tag than one on top of another.
    board = Board("plan", PAGE)
    board.block(PAGE)
    assert board.place(SIZE, [(50, 30)], (50, 30)) is None


def test_a_dear_place_is_refused():
    # A long tag that would hide much gives way to a short one; it leaves no trace.
    board = Board("plan", PAGE)
    board.avoid(PAGE, 20.0)
    assert board.place(SIZE, (), (50, 30), most=15) is None
    assert board.taken == []
    assert board.leaders == []
    assert board.place(SIZE, (), (50, 30), most=25) is not None


def test_a_leader_goes_around_what_is_to_be_seen():
    # All near the anchor is taken. Left and right are as far; to the right the leader would cross something.
    board = Board("plan", PAGE)
    board.block(Patch(35, 65, 0, 60))
    assert board.place((4.0, 3.0), (), (50, 30)).centre[0] > 65
    board = Board("plan", PAGE)
    board.block(Patch(35, 65, 0, 60))
    board.avoid(Patch(58, 60, 0, 60), 9.0)
    assert board.place((4.0, 3.0), (), (50, 30)).centre[0] < 35


@pytest.mark.parametrize("inside", [True, False])
def test_a_leader_crosses_neither_a_leader_nor_a_tag(inside):
    # Above is nearer than below, but something lies on the way.
    board = Board("plan", PAGE)
    board.block(Patch(0, 100, 20, 38))
    assert board.place((4.0, 3.0), (), (50, 30)).centre[1] > 38
    board = Board("plan", PAGE)
    board.block(Patch(0, 100, 20, 38))
    if inside:
        board.leaders.append(((10, 36), (90, 36)))
    else:
        board.block(Patch(10, 90, 35, 37))
    assert board.place((4.0, 3.0), (), (50, 30)).centre[1] < 20


def test_a_tag_keeps_off_a_leader():
    board = Board("plan", PAGE)
    board.leaders.append(((40, 30), (60, 30)))
    assert board.place(SIZE, [(50, 30), (50, 40)]).centre == (50, 40)


def test_a_slanting_line_is_avoided_where_it_runs():
    # Not all over the rectangle that its ends span.
    board = Board("plan", PAGE)
    board.avoid_line((0, 0), (60, 60), 4.0)
    assert board.place(SIZE, [(30, 30), (12, 50)]).centre == (12, 50)
    assert board.place(SIZE, [(50, 12), (12, 30)]).centre == (50, 12)


sizes = st.tuples(st.floats(2, 20), st.floats(2, 5))
anchors = st.tuples(st.floats(0, 100), st.floats(0, 60))


@given(st.lists(st.tuples(sizes, anchors), max_size=30))
def test_placed_tags_never_overlap_nor_leave_the_page(asked):
    board = Board("plan", PAGE)
    placed = []
    for size, anchor in asked:
        spot = board.place(size, [anchor], anchor)
        if spot:
            placed.append(Patch.around(spot.centre, *size))
    assert [pair for pair in combinations(placed, 2) if pair[0].meets(pair[1])] == []
    for patch in placed:
        assert patch.x0 >= -1e-6
        assert patch.x1 <= 100 + 1e-6
        assert patch.y0 >= -1e-6
        assert patch.y1 <= 60 + 1e-6


@pytest.mark.parametrize("count", [12])
def test_the_same_requests_give_the_same_places(count):
    def run():
        board = Board("plan", PAGE)
        return [board.place(SIZE, (), (50, 30)) for _ in range(count)]

    assert run() == run()
