"""Which stretches of a line a hand reaches again, through walls before the space and in every kind of space."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import sketch
from drawcord.pieces.reach import no_hand, within_reach

RIG = sketch.rig_data(
    {"linen": {"kind": "cabinet", "from front": [800, 1500], "street": 500, "up": "floor..ceiling", "door": "curb"}}
)
COACH = sketch.coach_of(RIG)
ROOF, CEILING = 2060, 2000  # of the sketch's shell


@given(st.integers(800, 1500), st.integers(50, 550), st.integers(0, CEILING))
def test_a_wall_before_the_space_only_shifts_what_is_reached(x, y, down):
    # Down from the roof's skin through the roof, or from its inside: the same places, 60 mm further along.
    inside = within_reach(COACH, "linen", (x, y, CEILING), (x, y, down))
    through = within_reach(COACH, "linen", (x, y, ROOF), (x, y, down))
    wall = ROOF - CEILING
    if down < CEILING:
        assert through == [(name, near + wall, far + wall) for name, near, far in inside]
    upwards = within_reach(COACH, "linen", (x, y, down), (x, y, ROOF))
    whole = ROOF - down
    if down < CEILING:
        assert upwards == [(name, whole - far, whole - near) for name, near, far in through]


def test_within_a_wall_or_beside_the_space_nothing_is_reached():
    # In the roof's thickness alone, and along the outside of the cabinet.
    assert within_reach(COACH, "linen", (1000, 300, ROOF), (1000, 300, CEILING)) == []
    assert within_reach(COACH, "linen", (1000, 700, 1900), (1000, 700, 100)) == []


@pytest.mark.parametrize(
    ("kind", "holds"),
    [
        *[(kind, False) for kind in ("chase", "vent stack", "appliance vent", "panel wall", "void")],
        *[(kind, True) for kind in ("cabinet", "bay", "underfloor")],
    ],
)
def test_no_way_in_makes_a_place_for_a_joint_in_what_hides_it(kind, holds):
    # A panel that is the whole curb side, and a second one of the job: only what is no chase, stack, wall or void
    # may hold a joint behind them.
    place = {"from front": [800, 1500], "street": 500, "up": "floor..ceiling"}
    panels = {name: {"into": "linen", "kind": "removable panel", "face": "curb"} for name in ("one", "two")}
    coach = sketch.coach_of(sketch.rig_data({"linen": {"kind": kind, **place}}, access=panels))
    assert len(coach.openings_into("linen")) == 2
    found = within_reach(coach, "linen", (1000, 350, CEILING), (1000, 350, 0))
    assert found == [(name, 0, CEILING) for name in panels if holds]
    assert no_hand(coach.spaces["linen"], "it") == (
        "where no hand reaches it" if holds else f"and no {kind} may hide it"
    )


@given(st.integers(50, 2450), st.integers(0, CEILING))
def test_raceway_is_reached_in_the_room_and_not_in_the_roof_or_floor_it_comes_through(y, stop):
    # A leg in a room begins where the cable leaves the space before, in the roof or the wall: no joint lies in there.
    room = sketch.coach_of(sketch.rig_data({"cabin": {"kind": "room", "from front": [800, 3000]}}))
    wall = ROOF - CEILING
    down = within_reach(room, "cabin", (1000, y, ROOF), (1000, y, stop))
    assert down == ([("raceway cover", wall, ROOF - stop)] if stop < CEILING else [])
    up = within_reach(room, "cabin", (1000, y, -wall), (1000, y, stop))
    assert up == ([("raceway cover", wall, wall + stop)] if stop else [])


def test_what_is_reached_through_the_door():
    # The door is the whole curb side, 550 mm from the left: all of a run 200 mm behind it is within an arm of 600 mm.
    assert within_reach(COACH, "linen", (1000, 350, ROOF), (1000, 350, 0)) == [("linen.door", 60, ROOF)]
