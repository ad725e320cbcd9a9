"""Whether a wider bore keeps clear, against what the planner kept its holes clear of."""

import pytest

from drawcord.coach.box import Box
from drawcord.ways.contact import avoided
from drawcord.ways.wider import keeps_clear
from planned import plan as plan_of


@pytest.fixture(scope="module")
def plan():
    return plan_of("fifth-wheel/job-front-bay")


def holes(plan):
    return [hole for taken in plan.chosen.values() for hole in taken.route.holes]


def disc(hole, axis, bore):
    """The square around the bore, as deep as the wall."""
    spans = []
    for side in (0, 1, 2):
        low, high = sorted((hole.near[side], hole.far[side]))
        by = 1 if side == axis else bore / 2
        spans += [low - by, high + by]
    return Box(*spans)


def test_every_planned_hole_keeps_clear(plan):
    # The planner's own holes are clear at their own size: the two agree on what no hole may meet.
    assert len(holes(plan)) > 4
    for hole in holes(plan):
        assert keeps_clear(plan.coach, hole.between, (hole.near, hole.far), hole.diameter), hole


def test_a_bore_that_keeps_clear_meets_nothing(plan):
    # Whatever size is called clear, its square overlaps nothing that no hole may meet; and none is clear without end.
    for hole in holes(plan):
        if hole.kind == "roof":
            continue
        axis = max((0, 1, 2), key=lambda side: abs(hole.near[side] - hole.far[side]))
        sizes = [d for d in range(10, 2000, 10) if keeps_clear(plan.coach, hole.between, (hole.near, hole.far), d)]
        assert sizes == list(range(10, max(sizes) + 10, 10))
        assert max(sizes) < 1990
        widest = disc(hole, axis, max(sizes) - 2)
        assert not [box for box in avoided(plan.coach) if box.overlap(widest)], hole


def test_a_bore_at_the_edge_of_the_space_below_the_roof_does_not_keep_clear(plan):
    # The hole has to land inside the space below, the measuring error included.
    (hole,) = [one for one in holes(plan) if one.kind == "roof" and "hall_closet" in one.between]
    box = plan.coach.spaces["hall_closet"].box
    room = 2 * min(hole.near[0] - box.x0, box.x1 - hole.near[0], hole.near[1] - box.y0, box.y1 - hole.near[1])
    error = plan.coach.shop.clearances.measuring_error
    faces = (hole.near, hole.far)
    assert not keeps_clear(plan.coach, hole.between, faces, room)
    assert not keeps_clear(plan.coach, hole.between, faces, room - 2 * error + 4)
