"""A cable's alternatives on small coaches: what they meet, when, and what a look there takes, worked out by hand."""

import sketch
from drawcord.plan.alternatives import alternatives, unproven
from drawcord.plan.card import card
from drawcord.routes.order import Order
from drawcord.ways.ways import explore

SPACES = {
    "aft": {"kind": "cabinet", "from front": [2000, 2600], "left": 500, "up": "floor..ceiling", "door": "right"},
    "chase": {"kind": "chase", "from front": [1900, 2000], "left": 500, "up": "floor..ceiling"},
    "fore": {"kind": "cabinet", "from front": [1300, 1900], "left": 500, "up": "floor..ceiling", "door": "right"},
}
BOX = {"kind": "junction box", "left": 250, "up": "floor+1000"}
EQUIPMENT = {
    "one": {**BOX, "in": "fore", "from front": 1600, "terminals": {"t": None}},
    "two": {**BOX, "in": "aft", "from front": 2300, "terminals": {"t": None}},
}


def order(spaces=None, **sections):
    job = sketch.job_data(EQUIPMENT, {"link": ("one.t", "two.t")}, **sections)
    return Order(explore(sketch.coach_of(sketch.rig_data(spaces or SPACES), job)), "link", ())


def test_what_is_met_comes_with_the_work_before_it():
    # 8 min at the first end, 1 min for its door, 3 min a metre; a hole is 10 min, working blind in the chase 15 min.
    hidden = {**SPACES, "chase": {**SPACES["chase"], "standing": "unproven"}}
    route = next(
        one for one in alternatives(order(hidden)).routes if one.spaces == ("fore", "chase", "aft")
    )
    names, done = zip(*route.meets, strict=True)
    assert names == ("chase~fore", "chase", "aft~chase")
    run = round(0.3 * 180)  # from 1600 to 1900, straight
    assert done[0] == (8 + 1) * 60 + run
    assert done[1] == done[0] + (10 + 15) * 60
    assert done[2] == done[1] + round(0.1 * 180)
    assert route.seconds == done[2] + (10 + 1 + 8) * 60 + run


def test_a_look_takes_opening_and_looking():
    # The sketch's shop says nothing of looking: 5 min a place. The chase has no way in, 15 min; cabinets a door, 1 min.
    hidden = {**SPACES, "chase": {**SPACES["chase"], "standing": "unproven", "chance": "80 %"}}
    found = unproven(order(hidden).coach, [order(hidden)])
    assert found["chase"].seconds == (15 + 5) * 60
    assert found["chase"].chance == 0.8
    assert found["aft~chase"].seconds == (1 + 5) * 60
    assert found["aft~chase"].called == "the way from aft to chase"


def test_nothing_is_open_for_a_cable_that_ends_in_a_blocked_space():
    # No routes, and a card that says so.
    blocked = order(differences={"found": [{"what": "aft", "standing": "blocked"}]})
    assert alternatives(blocked).routes == ()
    made = card([blocked])
    assert made.lookings[0].card.look is None
    assert made.lookings[0].seconds == 0


def test_a_job_without_cables_has_an_empty_card():
    # A job may only place equipment.
    assert card([]).lookings == ()
