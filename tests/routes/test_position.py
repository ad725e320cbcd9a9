"""Where a device sits on a route: distances by hand, and the first place that a hand reaches."""

import pytest

import sketch
from drawcord.files.tables import conductors
from drawcord.routes.measure import measure
from drawcord.routes.order import Order
from drawcord.routes.position import entry, first_reachable, position
from drawcord.ways.ways import explore

CABLE = {"class": "battery DC", "cores": 2, "amperes": "10 A", "volts": "12 V"}
PV = {"terminals": {"pv": None}}
# A straight cable 350 mm behind a panel from 1500 to 1800 mm: an arm of 600 mm reaches isqrt(600² - 350²) = 487 mm to
# either side of it, from 1013 to 2287 mm.
FIRST, LAST = 1013, 2287


def straight():
    """Coach, cable and legs: a cable in one long cabinet."""
    coach = sketch.behind_a_panel(CABLE, {})
    return coach, "supply", measure(Order(explore(coach), "supply", conductors()), ()).legs


def test_the_first_place_in_reach_by_hand():
    coach, *way = straight()
    assert sum(leg.length for leg in way[1]) == 2800
    found = first_reachable(coach, *way, "battery.dc")
    assert (found.along, found.space, found.point, found.opening) == (3900 - LAST, "tall", (LAST, 300, 500), "panel")
    # From the other end the cable starts in reach; from 1500 mm along on it is past it.
    assert first_reachable(coach, *way, "load.dc").along == 0
    assert first_reachable(coach, *way, "load.dc", 400).along == 400
    assert first_reachable(coach, *way, "load.dc", LAST - 1100 + 1) is None


@pytest.mark.parametrize(
    ("terminal", "along", "x", "opening"),
    [
        ("battery.dc", 0, 3900, ""),
        ("battery.dc", 3900 - LAST - 1, LAST + 1, ""),
        ("battery.dc", 3900 - LAST, LAST, "panel"),
        ("battery.dc", 2800, 1100, "panel"),
        ("load.dc", 0, 1100, "panel"),
        ("load.dc", LAST - 1100 + 1, LAST + 1, ""),
    ],
)
def test_a_place_by_hand(terminal, along, x, opening):
    found = position(*straight(), terminal, along)
    assert (found.point, found.opening) == ((x, 300, 500), opening)


def test_past_the_end_is_no_place():
    assert position(*straight(), "battery.dc", 2801) is None


def test_one_end_sees_what_the_other_does():
    # The same place from either end, for every 100 mm.
    coach, *way = straight()
    for along in range(0, 2801, 100):
        one, other = position(coach, *way, "battery.dc", along), position(coach, *way, "load.dc", 2800 - along)
        assert (one.point, one.opening) == (other.point, other.opening)


def test_a_cable_that_never_is_on_the_roof_enters_at_once():
    assert entry(*straight(), "battery.dc") == 0


def test_entry_and_reach_of_a_cable_from_the_roof_by_hand():
    # 1421 mm on the roof, then 60 mm through it: the door of the cabinet opens its whole side, 350 mm from the cable.
    place = {"from front": "1000..1600", "street": 600, "up": "floor..ceiling", "door": "curb"}
    equipment = {
        "junction": {"kind": "junction box", "in": "roof", "from front": 3000, "street": 300, **PV},
        "controller": {"kind": "inverter", "in": "tall", "from front": 1300, "street": 250, "up": 500, **PV},
    }
    cable = {**CABLE, "from": "junction.pv", "to": "controller.pv"}
    rig = sketch.rig_data({"tall": {"kind": "cabinet", **place}})
    coach = sketch.coach_of(rig, sketch.job_data(equipment, {"pv": cable}))
    order = Order(explore(coach), "pv", conductors())
    station = next(s for s in order.ways.stations.values() if s.mouths["tall"] == (1579, 300, 2000))
    way = "pv", measure(order, (station.id,)).legs
    assert entry(coach, *way, "junction.pv") == 1421
    assert position(coach, *way, "junction.pv", 1000).opening == ""
    assert first_reachable(coach, *way, "junction.pv").along == 1421 + 60
