"""Whether a route has room for a cable: by hand, on legs of known shape."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

import sketch
from drawcord.coach.box import Box
from drawcord.plan.room import cramped
from drawcord.routes.route import Criteria, Leg, Route

CHASE = {"kind": "chase", "from front": [1000, 1060], "street": [0, 40], "up": "floor..ceiling"}
JOB = sketch.job_data(
    {
        "one": {"kind": "router", "in": "low", "from front": 1030, "street": 300, "up": 200, "terminals": {"t": None}},
        "two": {"kind": "screen", "in": "low", "from front": 1400, "street": 300, "up": 200, "terminals": {"t": None}},
    },
    {"cable": ("one.t", "two.t")},
)
RIG = sketch.rig_data(
    {
        "chase": CHASE,
        "low": {"kind": "cabinet", "from front": [900, 1500], "street": [40, 600], "up": "floor..900", "door": "curb"},
    }
)
COACH = sketch.coach_of(RIG, JOB)
CABLE = COACH.job.cables["cable"].model_copy(update={"carries": "PV", "cores": 2})
IN, UP, OUT = (1030, 110, 300), (1030, 90, 300), (1030, 90, 1500)  # from the cabinet into the chase, and up in it


def cable(diameter, bend, cores=2):
    return CABLE.model_copy(update={"outside_diameter": diameter, "smallest_bend": bend, "cores": cores})


def route(*points, space="chase", kind="chase", through="chase~low"):
    leg = Leg(space, kind, "indoors", through, 20, points, 1000, False, "", "proven", 1)
    return Route("cable", (space,), (), (), (leg,), (), (), Criteria(*[0] * 6), (0, 0, 0), (), (), ())


def test_a_turn_needs_the_bend_and_the_cable_within_the_depth():
    # The chase is 40 mm deep where the cable comes in: a bend of 34 mm and 6 mm of cable just turn, 35 mm do not.
    there = route(IN, UP, OUT)
    assert cramped(COACH, cable(6, 34), 10, there) == ()
    assert cramped(COACH, cable(6, 35), 10, there) == (
        "chase is 40 mm deep, too little to turn in with a bend of 35 mm",
    )


def test_who_goes_straight_through_needs_no_room_to_turn():
    # In through one face and on to the opposite one.
    assert cramped(COACH, cable(6, 200), 10, route((1030, 110, 300), (1030, 90, 300), (1030, 50, 300))) == ()


def test_the_last_plug_passes_the_cores_that_are_there_already():
    # Across the chase are 60 x 40 mm. A plug of 34 mm and a core of 26 mm are 60 mm side by side: in the corners they
    # have hypot(60 - 30, 40 - 30) = 31.6 of the 30 mm they need; 36 and 30 mm have 27.9 of 33.
    assert cramped(COACH, cable(26, 5), 34, route(IN, UP, OUT)) == ()
    (said,) = cramped(COACH, cable(30, 5), 36, route(IN, UP, OUT))
    assert said == "chase leaves 60 x 40 mm, too little to draw a plug of 36 mm in beside cores of 30 mm"
    assert cramped(COACH, cable(30, 5, cores=1), 36, route(IN, UP, OUT)) == ()
    assert cramped(COACH, cable(10, 5, cores=1), 41, route(IN, UP, OUT))


def test_what_fills_the_chase_takes_its_room():
    # A pipe leaves 30 mm of the 60: the plug that passed does not.
    pipe = Box(1030, 1060, 50, 90, 0, 2000)
    spaces = {**COACH.spaces, "chase": replace(COACH.spaces["chase"], taken=(pipe,))}
    filled = replace(COACH, spaces=spaces)
    way = route((1010, 110, 300), (1010, 90, 300), (1010, 90, 1500))
    assert cramped(COACH, cable(6, 5), 33, way) == ()
    (said,) = cramped(filled, cable(6, 5), 33, way)
    assert "leaves 30 x 40 mm" in said


def test_a_roof_and_a_room_are_as_wide_as_they_look():
    # On the roof and in raceway nothing is drawn through.
    assert cramped(COACH, cable(6, 500), 400, route(IN, UP, OUT, kind="room")) == ()


@pytest.mark.parametrize("kind", ["cabinet", "bay", "underfloor"])
def test_where_hands_reach_nothing_is_drawn(kind):
    # Cable is laid into them, so that plugs pass anyhow; a turn needs its room all the same.
    assert cramped(COACH, cable(6, 5), 400, route(IN, UP, OUT, kind=kind)) == ()
    assert cramped(COACH, cable(6, 50), 10, route(IN, UP, OUT, kind=kind))


@given(st.integers(1, 70), st.integers(1, 70), st.integers(1, 60), st.integers(0, 60))
def test_thicker_stiffer_and_wider_never_has_more_room(diameter, bend, plug, more):
    # Growth is never rewarded: what is said of a cable is said, in other figures, of one that is more of all three.
    first = cramped(COACH, cable(diameter, bend), plug, route(IN, UP, OUT))
    worse = (diameter + more, bend + more, plug + more)
    for changed in product(*zip((diameter, bend, plug), worse, strict=True)):
        assert len(cramped(COACH, cable(*changed[:2]), changed[2], route(IN, UP, OUT))) >= len(first)
