"""A cable's alternatives on small coaches: which these are, what they meet, when, and what a look there takes."""

from itertools import combinations

import pytest
from random_nets import all_paths

import sketch
from drawcord.coach.build import build
from drawcord.files.tables import conductors
from drawcord.plan.alternatives import alternatives, unproven
from drawcord.plan.card import card
from drawcord.plan.plan import Plan
from drawcord.routes.measure import measure
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.weighing import score, weights
from drawcord.ways.ways import explore
from random_coaches import random_coach

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
    made = card(Plan(blocked.coach, (), {}), [blocked])
    assert made.lookings[0].card.look is None
    assert made.lookings[0].seconds == 0


def test_a_job_without_cables_has_an_empty_card():
    # A job may only place equipment.
    assert card(Plan(sketch.coach_of(sketch.rig_data(SPACES)), (), {}), []).lookings == ()


def test_a_route_out_of_reach_stands_before_none_whose_joints_a_hand_reaches():
    # Straight on through what nobody reaches into, 3 m of it, or aside through a wardrobe: nothing is unproven.
    tall = {"kind": "cabinet", "up": "floor..ceiling"}
    spaces = {
        "fore": {**tall, "from front": [1000, 1300], "left": 2000, "door": "right"},
        "aft": {**tall, "from front": [4300, 4600], "left": 2000, "door": "right"},
        "blind": {**tall, "from front": [1300, 4300], "left": 500},
        "wardrobe": {**tall, "from front": [1300, 4300], "left": [1400, 2000], "door": "right"},
    }
    equipment = {
        "one": {**BOX, "in": "fore", "from front": 1150, "terminals": {"t": None}},
        "two": {**BOX, "in": "aft", "from front": 4450, "terminals": {"t": None}},
    }
    for longest, through in ((6000, "blind"), (2500, "wardrobe")):
        cable = {"from": "one.t", "to": "two.t", "longest piece": longest}
        coach = sketch.coach_of(sketch.rig_data(spaces), sketch.job_data(equipment, {"link": cable}))
        found = alternatives(Order(explore(coach), "link", ()))
        assert [route.spaces for route in found.routes] == [("fore", through, "aft")]
        assert found.exact


# Coaches by size, seed, cable and longest piece [mm]; on most of them routes out of reach are lighter than others over
# the same places.
SHORT = [(6, 13, "link", 1500), (6, 34, "link", 1500), (6, 126, "link", 1500), (9, 22, "link", 1500)]


@pytest.mark.parametrize(("size", "seed", "name", "longest"), SHORT)
def test_whatever_is_blocked_or_taken_the_lightest_route_in_reach_is_one_of_them(size, seed, name, longest):
    # Against every path there is, each measured, without and with places that another cable may be in.
    order = short_pieces(size, seed, name, longest)
    netted, by = Netted(order), (*weights(order.coach)[:-1], 0)
    every = [measure(order, netted.stations(path.states)) for path in all_paths(netted.net)]
    seen = "raceway in sight" in order.coach.job.owner.consents
    every = [route for route in every if route.reachable and (seen or not route.criteria.in_sight)]
    uses = [{*route.spaces, *route.passages} for route in every]
    unknown = set().union(*(route.unproven for route in every))
    # Up to five others that some routes use and some do not.
    others = sorted(set().union(*uses) - set.intersection(*uses) - unknown)[:5]
    for contested in (frozenset(), frozenset(others)):
        found = alternatives(order, contested)
        assert found.exact
        ours = [(one.weight, {*dict(one.meets), *one.through & contested}) for one in found.routes]
        for gone in subsets(unknown | contested):
            left = (score(route.criteria, by) for route, places in zip(every, uses, strict=True) if not gone & places)
            kept = (weight for weight, places in ours if not gone & places)
            assert min(kept, default=None) == min(left, default=None), gone


def subsets(places):
    return (set(some) for count in range(len(places) + 1) for some in combinations(sorted(places), count))


def short_pieces(size, seed, name, longest):
    """A cable of a random coach, with a longest piece [mm]."""
    rig, job = random_coach(size, seed)
    cables = {**job.cables, name: job.cables[name].model_copy(update={"longest_piece": longest})}
    coach = build(rig, job.model_copy(update={"cables": cables}), sketch.shop())
    return Order(explore(coach), name, conductors())
