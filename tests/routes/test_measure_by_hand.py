"""What a route measures, on one coach worked out by hand."""

import math
from fractions import Fraction

import pytest

import sketch
from drawcord.files.tables import conductors
from drawcord.routes import electric
from drawcord.routes.measure import measure
from drawcord.routes.order import Order
from drawcord.routes.route import Route
from drawcord.ways.ways import explore


def order_by_hand(longest_piece: int, unsaid: tuple[str, ...] = (), **cabinet: str) -> Order:
    """A junction on the roof beside a tall cabinet, a controller in it.

    The cabinet reaches from 1000 to 1600 mm along and from y = 50 to 650 mm across. A hole of 20 + 2 mm with a
    measuring error of 10 mm keeps its middle 21 mm off the sides, so the nearest place to the junction for an entry
    is x = 1579 mm. What is `unsaid` is left out of the cable.
    """
    place = {"from front": "1000..1600", "street": 600, "up": "floor..ceiling", "door": "curb"}
    junction = {"kind": "junction box", "in": "roof", "from front": 3000, "street": 300, "terminals": {"pv": None}}
    controller = {"in": "tall", "from front": 1300, "street": 250, "up": 500, "terminals": {"pv": None}}
    power = {"class": "PV", "cores": 2, "amperes": "10 A", "volts": "40 V", "drop limit": "2 %", "metal": "tinned"}
    cable = {
        **power,
        "conductor": "10 AWG",
        "from": "junction.pv",
        "to": "controller.pv",
        "longest piece": longest_piece,
    }
    cable = {key: value for key, value in cable.items() if key not in unsaid}
    equipment = {"junction": junction, "controller": {"kind": "charge controller", **controller}}
    rig = sketch.rig_data({"tall": {"kind": "cabinet", **place, **cabinet}})
    coach = sketch.coach_of(rig, sketch.job_data(equipment, {"pv": cable}))
    return Order(explore(coach), "pv", conductors())


def route_by_hand(longest_piece: int = 20_000, **cabinet: str) -> Route:
    """The route through the entry at (1579, 300)."""
    order = order_by_hand(longest_piece, **cabinet)
    station = next(s for s in order.ways.stations.values() if s.mouths["tall"] == (1579, 300, 2000))
    return measure(order, (station.id,))


def test_lengths_by_hand():
    """1421 mm along the roof, 60 mm through it, 279 mm aft and 1500 mm down inside."""
    route = route_by_hand()
    assert [leg.points for leg in route.legs] == [
        ((3000, 300, 2060), (1579, 300, 2060)),
        ((1579, 300, 2060), (1579, 300, 2000), (1300, 300, 2000), (1300, 300, 500)),
    ]
    assert [(leg.length, leg.through_length, leg.bends) for leg in route.legs] == [(1421, 0, 0), (1839, 60, 3)]
    assert route.criteria.length == 1421 + 60 + 279 + 1500
    assert (route.criteria.in_sight, route.criteria.roof_holes, route.criteria.inner_holes) == (0, 1, 0)
    assert route.criteria.doubt == 0


def test_work_by_hand():
    """The roof at 3 min a metre, so is the cabinet; 25 min for the hole, 1 min for the door, 8 min an end."""
    assert route_by_hand().criteria.seconds == 256 + 320 + 25 * 60 + 60 + 2 * 8 * 60


def test_cut_by_hand():
    """3260 mm measured in two legs, each to 10 mm, two ends made up, one drip loop and one service loop; nothing is
    unproven."""
    route = route_by_hand()
    assert route.cut_length == (3260 - 20 + 400 + 80 + 200, 3260 + 600 + 120 + 300, 3260 + 20 + 800 + 150 + 500)


def test_drop_by_hand():
    """10 AWG, tinned and stranded, has 1.29 Ω per 1000 ft at 75 °C (NEC 2017 chapter 9 table 8), the job's temperature.

    So 10 A over 4280 mm there and back lose 10 · 2 · 4.28 / 304.8 · 1.29 V of 40 V. The limit of 2 % is 0.8 V, kept
    by 12 AWG with 2.05 Ω, not by 14 AWG with 3.26 Ω.
    """
    figures = {figure.name: figure for figure in route_by_hand().figures}
    volts = 10 * 2 * Fraction("4.28") / Fraction("304.8") * Fraction("1.29")
    assert figures["voltage drop"].value == pytest.approx(float(volts), rel=1e-12)
    assert figures["voltage drop of supply"].value == pytest.approx(float(volts / 40 * 100), rel=1e-12)
    assert figures["power lost"].value == pytest.approx(float(volts * 10), rel=1e-12)
    least = next(figure for name, figure in figures.items() if name.startswith("smallest conductor"))
    assert least.formula.startswith("12 AWG,")


def test_hole_by_hand():
    """One, through the roof, for the 20 mm plug and 2 mm more."""
    (hole,) = route_by_hand().holes
    assert (hole.kind, hole.between, hole.diameter) == ("roof", ("roof", "tall"), 22)
    assert (hole.near, hole.far) == ((1579, 300, 2060), (1579, 300, 2000))


def test_joints_by_hand():
    """With pieces of 2100 mm: 400 mm are made up, 1421 mm lie on the roof, 150 mm loop, 60 mm cross the roof, and each
    of the two legs may be 10 mm longer. From there, 2051 mm along, the cabinet's door is within an arm's length, down
    to the controller at 3830 mm."""
    route = route_by_hand(2100)
    assert [(joint.at, joint.space, joint.opening, joint.reachable) for joint in route.joints] == [
        (2100, "tall", "tall.door", True),
        (3830, "tall", "tall.door", True),
    ]
    assert [joint.point for joint in route.joints] == [(1579 - 49, 300, 2000), (1300, 300, 500)]


def test_joints_with_slack_by_hand():
    """In an unproven cabinet 20 % more cable is planned for: 72 mm cross the roof instead of 60, 335 mm lead forward,
    1800 mm down. So the joint 2100 mm along is 37 mm, or 31 mm in fact, from the entry."""
    route = route_by_hand(2100, standing="unproven", chance="50 %")
    assert [joint.at for joint in route.joints] == [2100, 400 + 10 + 1421 + 150 + 10 + 72 + 335 + 1800]
    assert [joint.point for joint in route.joints] == [(1579 - 31, 300, 2000), (1300, 300, 500)]
    assert route.cut_length == (3920, 4280 + round(0.08 * 1839), 4730 + round(0.2 * 1839))
    assert route.criteria.doubt == round(-1e6 * math.log(0.5))


def test_no_joint_in_reach():
    """With pieces of 2000 mm the first one ends before the cable comes within reach, on the roof: no candidate."""
    route = route_by_hand(2000)
    assert not route.reachable
    assert (route.joints[0].at, route.joints[0].reachable, route.joints[0].opening) == (2000, False, "")


def test_a_drop_that_cannot_be_worked_out_is_said():
    """A power cable of neither conductor nor limit has no drop, nor has one that no conductor keeps in its limit."""
    no_limit, limited = order_by_hand(20_000, ("conductor", "drop limit")), order_by_hand(20_000, ("conductor",))
    (notice,) = electric.judge(no_limit, electric.fall(no_limit, 5000))
    assert "give its `conductor` or a `drop limit`" in notice.sentence
    assert electric.judge(limited, electric.fall(limited, 5000)) == []
    (caution,) = electric.judge(limited, electric.fall(limited, 5_000_000))
    assert caution.severity > notice.severity
    assert "no conductor of the table keeps pv within 2 %" in caution.sentence
