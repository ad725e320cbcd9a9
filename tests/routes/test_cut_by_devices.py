"""What a device on a cable makes it longer by: where it sits, and what lies beyond it, worked out by hand."""

import pytest

import sketch
from drawcord.files.tables import conductors
from drawcord.routes.allowance import cut, place_joints, ways_in
from drawcord.routes.devices import cut_places
from drawcord.routes.measure import measure
from drawcord.routes.order import Order
from drawcord.ways.ways import explore

CABLE = {"class": "battery DC", "cores": 2, "amperes": "10 A", "volts": "12 V", "conductor": "6 AWG"}
# 2800 mm from end to end, a panel in reach from 1613 mm to the load's end; with make-up and service loop at their high
# ends, 400 and 500 mm, and 10 mm by which the leg may be longer, 4110 mm in all.
NEAR, LENGTH, WHOLE, MAKE_UP, ERROR = 1613, 2800, 4110, 400, 10


def route(*devices, longest=20_000):
    """A cable in one long cabinet, with so many devices, each from an end and so far along."""
    placed = {f"d{n}": {"on": "supply", "from": end, "along": along} for n, (end, along) in enumerate(devices)}
    coach = sketch.behind_a_panel({**CABLE, "longest piece": longest}, placed)
    return coach, measure(Order(explore(coach), "supply", conductors()), ())


@pytest.mark.parametrize(
    ("devices", "places"),
    [
        ([], []),
        ([("battery.dc", 2000)], [2000]),
        ([("load.dc", 800)], [2000]),
        ([("load.dc", 100), ("battery.dc", 150)], [150, 2700]),
        ([("battery.dc", 2000), ("load.dc", 800)], [2000, 2000]),
        ([("battery.dc", LENGTH), ("load.dc", LENGTH)], []),  # at its ends it makes no more ends
        ([("battery.dc", LENGTH + 1), ("load.dc", LENGTH + 1)], []),  # no place: refused where circuits are worked out
    ],
)
def test_each_device_within_a_cable_makes_two_ends_more(devices, places):
    coach, found = route(*devices)
    assert cut_places(coach, "supply", found.legs) == places
    plain = (LENGTH - ERROR + 400 + 200, LENGTH + 600 + 300, WHOLE)
    more = [2 * len(places) * each for each in (200, 300, 400)]
    assert found.cut_length == tuple(a + b for a, b in zip(plain, more, strict=True))
    lines = [figure for figure in found.figures if figure.name.startswith("make-up at devices")]
    assert [line.value for line in lines] == more
    assert lines[2].formula == f"{2 * len(places)} × 400 mm"


def test_the_drop_is_that_of_all_the_conductor():
    """Ohm's law: 600 mm more of 3800 mm lose as much more."""
    lost = [
        next(f.value for f in one.figures if f.name == "voltage drop") for _, one in (route(), route(("load.dc", 9)))
    ]
    assert lost[1] / lost[0] == pytest.approx((3700 + 600) / 3700)


def test_what_lies_beyond_a_device_lies_further_along_the_cable():
    """Within reach from 1613 mm on, behind 400 mm of make-up and 10 mm of error; at 2000 mm of the way the cable is
    cut, and 800 mm are made up, in which no joint lies."""
    coach, found = route(("battery.dc", 2000))
    ways = [(way.near, way.far) for way in ways_in(coach, found.legs, [2000])]
    assert ways == [(MAKE_UP + ERROR + NEAR, 2410), (3210, 4010)]
    for at, x in ((2410, 1900), (3210, 1900), (3310, 1800), (4010, 1100)):
        (way,) = (way for way in ways_in(coach, found.legs, [2000]) if way.near <= at <= way.far)
        assert way.joint(at).point == (x, 300, 500)


@pytest.mark.parametrize(
    ("longest", "joints"),
    [
        (4910, []),
        (4909, [(4010, 1100)]),  # the last place in reach: what comes after it is made up, and the service loop
        (3250, [(3250, 1860)]),
        (3209, [(2410, 1900)]),  # as far as the device, and no further in what is made up there
        (2450, [(2410, 1900), (4010, 1100)]),
    ],
)
def test_joints_before_and_beyond_a_device_by_hand(longest, joints):
    _, found = route(("battery.dc", 2000), longest=longest)
    assert [(joint.at, joint.point[0]) for joint in found.joints] == joints
    assert found.reachable


def test_a_device_out_of_reach_makes_the_stretch_without_a_joint_longer():
    """At 1000 mm no hand reaches: 2023 mm before the first place for a joint become 2823 mm."""
    assert route(longest=2100)[1].reachable
    assert not route(("battery.dc", 1000), longest=2822)[1].reachable
    assert route(("battery.dc", 1000), longest=2823)[1].reachable


def test_the_first_place_below_the_roof_holds_a_joint_beside_the_device():
    """Down from the roof into a closet whose door is its whole side: a device where it comes out of the ceiling, 60 mm
    through the roof, parts the line there, and a joint may lie right before it and right behind what it makes up."""
    place = {"from front": "1000..1600", "street": 600, "up": "floor..ceiling", "door": "curb"}
    pv = {"terminals": {"pv": None}}
    equipment = {
        "junction": {"kind": "junction box", "in": "roof", "from front": 3000, "street": 300, **pv},
        "load": {"kind": "inverter", "in": "tall", "from front": 1300, "street": 250, "up": 500, **pv},
    }
    cable = {**CABLE, "class": "PV", "from": "junction.pv", "to": "load.pv"}
    placed = {"switch": {"on": "pv", "from": "junction.pv", "along": 1421 + 60}}
    rig = sketch.rig_data({"tall": {"kind": "cabinet", **place}})
    coach = sketch.coach_of(rig, sketch.job_data(equipment, {"pv": cable}, devices=placed))
    order = Order(explore(coach), "pv", conductors())
    station = next(s for s in order.ways.stations.values() if s.mouths["tall"] == (1579, 300, 2000))
    legs = measure(order, (station.id,)).legs
    ways = ways_in(coach, legs, cut_places(coach, "pv", legs))
    first = 400 + ERROR + 1421 + 150 + ERROR + 60
    assert [(way.near, way.far) for way in ways[:2]] == [(first, first), (first + 800, 3130)]
    assert [way.joint(way.near).point for way in ways[:2]] == [(1579, 300, 2000)] * 2


def test_nothing_else_than_the_count_of_devices_and_their_places_matters():
    coach, found = route()
    assert cut(coach, found.legs, [7]).length == cut(coach, found.legs, [1999]).length
    assert place_joints(coach, found.legs, [], 20_000) == ()
