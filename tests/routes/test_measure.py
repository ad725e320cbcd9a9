"""What a route measures: one coach by hand, and every candidate of the demo jobs summed again from its legs."""

import csv
import math
from fractions import Fraction
from importlib.resources import files
from itertools import pairwise

import pytest

import answered
import sketch
from drawcord.coach.box import Box, Point
from drawcord.files.tables import conductors
from drawcord.routes.allowance import place_joints
from drawcord.routes.measure import measure
from drawcord.routes.order import Order
from drawcord.routes.route import Route
from drawcord.ways.ways import explore

# What the files of shared/ say, in mm, in seconds and in seconds a metre; allowances as low, likely and high.
MAKE_UP, DRIP_LOOP, SERVICE_LOOP, SLACK = (200, 300, 400), (80, 120, 150), (200, 300, 500), ("0", "0.08", "0.20")
ROOF_HOLE, INNER_HOLE, OPENING, TERMINAL, NO_ACCESS = 1500, 600, 120, 480, 900
PACE = {"roof": 240, "room": 480, "cabinet": 180, "chase": 240, "vent stack": 240, "appliance vent": 240}
PACE |= {"panel wall": 360, "void": 360, "bay": 180, "underfloor": 360}
PLUG, ARM = 2, 600
LEVELS = ("low", "likely", "high")
PER_KELVIN = {75: Fraction("0.00323"), 20: Fraction("0.00393")}  # NEC chapter 9 table 8, note; NBS Handbook 100
EVERY = [pytest.param(job, id=job) for job in answered.JOBS]


def order_by_hand(longest_piece: int, **cabinet: str) -> Order:
    """A junction on the roof beside a tall cabinet, a controller in it.

    The cabinet reaches from 1000 to 1600 mm along and from y = 50 to 650 mm across. A hole of 20 + 2 mm with a
    measuring error of 10 mm keeps its middle 21 mm off the sides, so the nearest place to the junction for an entry
    is x = 1579 mm.
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
    """3260 mm measured, two ends made up, one drip loop and one service loop; nothing is unproven."""
    route = route_by_hand()
    assert route.cut_length == (3260 + 400 + 80 + 200, 3260 + 600 + 120 + 300, 3260 + 800 + 150 + 500)


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
    """With pieces of 2100 mm: 400 mm are made up, 1421 mm lie on the roof, 150 mm loop, 60 mm cross the roof. From
    there, 2031 mm along, the cabinet's door is within an arm's length, down to the controller at 3810 mm."""
    route = route_by_hand(2100)
    assert [(joint.at, joint.space, joint.opening, joint.reachable) for joint in route.joints] == [
        (2100, "tall", "tall.door", True),
        (3810, "tall", "tall.door", True),
    ]
    assert [joint.point for joint in route.joints] == [(1579 - 69, 300, 2000), (1300, 300, 500)]


def test_joints_with_slack_by_hand():
    """In an unproven cabinet 20 % more cable is planned for: 72 mm cross the roof instead of 60, 335 mm lead forward,
    1800 mm down. So the joint 2100 mm along is 57 mm, or 48 mm in fact, from the entry."""
    route = route_by_hand(2100, standing="unproven", chance="50 %")
    assert [joint.at for joint in route.joints] == [2100, 400 + 1421 + 150 + 72 + 335 + 1800]
    assert [joint.point for joint in route.joints] == [(1579 - 47, 300, 2000), (1300, 300, 500)]
    assert route.cut_length == (3940, 4280 + round(0.08 * 1839), 4710 + round(0.2 * 1839))
    assert route.criteria.doubt == round(-1e6 * math.log(0.5))


def test_no_joint_in_reach():
    """With pieces of 2000 mm the first one ends before the cable comes within reach, on the roof: no candidate."""
    route = route_by_hand(2000)
    assert not route.reachable
    assert (route.joints[0].at, route.joints[0].reachable, route.joints[0].opening) == (2000, False, "")


@pytest.mark.parametrize("job", EVERY)
def test_cut_adds_up(job):
    """Every allowance is a line of its own, low, likely and high, and the cut length is the lines' sum."""
    for _, candidate in answered.candidates(job):
        route = candidate.route
        value = {figure.name: figure.value for figure in route.figures}
        at_roof = sum("roof" in two for two in pairwise(route.spaces))
        unproven = sum(leg.length for leg in route.legs if leg.standing == "unproven")
        for end, make_up, drip, service, slack, cut in zip(
            LEVELS, MAKE_UP, DRIP_LOOP, SERVICE_LOOP, SLACK, route.cut_length, strict=True
        ):
            lines = {
                "measured length": sum(leg.length for leg in route.legs),
                "make-up at both ends": 2 * make_up,
                "drip loop at the roof": at_roof * drip,
                "service loop": service,
                "slack on unproven legs": round(unproven * Fraction(slack)),
            }
            assert {name: value[f"{name}, {end}"] for name in lines} == lines
            assert value[f"cut length per core, {end}"] == cut == sum(lines.values())


@pytest.mark.parametrize("job", EVERY)
def test_work_and_doubt_add_up(job):
    """Work is that of runs, holes, openings, spaces opened and ends; doubt that of spaces and passages unproven."""
    coach, passages = answered.coach_of(job), answered.ways_of(job).passages
    for _, candidate in answered.candidates(job):
        route = candidate.route
        seconds = Fraction(2 * TERMINAL)
        for leg in route.legs:
            kind, zone = coach.spaces[leg.space].kind, coach.spaces[leg.space].zone
            seconds += Fraction((leg.length - leg.through_length) * PACE[kind], 1000)
            openings = [opening.seconds for opening in coach.openings.values() if opening.into == leg.space]
            open_anyway = kind in ("roof", "room") or (kind == "underfloor" and zone == "wet and stony")
            seconds += min(openings, default=0 if open_anyway else NO_ACCESS)
        for name in route.passages:
            hole = passages[name].opening == "needs hole"
            seconds += (
                (ROOF_HOLE if "roof" in (passages[name].a, passages[name].b) else INNER_HOLE) if hole else OPENING
            )
        assert abs(route.criteria.seconds - seconds) <= len(route.legs)  # each is rounded
        chances = [coach.spaces[leg.space].chance for leg in route.legs] + [passages[n].chance for n in route.passages]
        assert route.criteria.doubt == pytest.approx(-1e6 * math.log(math.prod(chances)), abs=len(chances))


@pytest.mark.parametrize("job", EVERY)
def test_drop_again(job):
    """The drop of every power cable, in fractions from the published tables; the conductor named is the first of its
    table that keeps the limit."""
    for order, candidate in answered.candidates(job):
        cable, figures = order.cable, {figure.name: figure for figure in candidate.route.figures}
        if cable.amperes is None:
            assert "voltage drop" not in figures
            continue
        hot, supply = (Fraction(str(v)) for v in (order.coach.job.temperatures.conductor, cable.volts))
        metres = Fraction(candidate.route.cut_length[1], 1000)
        percent = {  # of the supply, by size of conductor
            label: 100 * Fraction(str(cable.amperes)) * 2 * metres * (1 + PER_KELVIN[at] * (hot - at)) * ohms / supply
            for label, (ohms, at) in published(cable.metal, cable.conductor.split()[1]).items()
        }
        drop = percent[cable.conductor]
        assert figures["voltage drop of supply"].value == pytest.approx(float(drop), rel=1e-9)
        assert figures["voltage drop"].value == pytest.approx(float(drop * supply / 100), rel=1e-9)
        keep = [label for label, of in percent.items() if of <= 100 * Fraction(str(cable.drop_limit))]
        named = [figure.formula.split(",")[0] for name, figure in figures.items() if name.startswith("smallest")]
        assert named == keep[:1]


@pytest.mark.parametrize("job", EVERY)
def test_holes_listed(job):
    """Every bore is on the list, where one leg ends and the next comes in, wide enough for the largest plug.

    Beside the wall of a room raceway leads from where the leg ends to the bore, or from the bore to where the next
    begins; no bore lies in a corner of the face it goes through, unless that is too narrow for anything else.
    """
    passages = answered.ways_of(job).passages
    for order, candidate in answered.candidates(job):
        route = candidate.route
        bored = [i for i, name in enumerate(route.passages) if passages[name].opening == "needs hole"]
        assert len(route.holes) == len(bored) == route.criteria.roof_holes + route.criteria.inner_holes
        assert sum(hole.kind == "roof" for hole in route.holes) == route.criteria.roof_holes
        for hole, at in zip(route.holes, bored, strict=True):
            assert hole.between == (route.spaces[at], route.spaces[at + 1])
            assert (hole.kind == "roof") == ("roof" in hole.between)
            end, leg = route.legs[at].points[-1], route.legs[at + 1]
            stretches = [(end, hole.near), (hole.near, hole.far)]
            aside = sum(abs(u - v) for p, q in stretches for u, v in zip(p, q, strict=True))
            beside = leg.through_length - aside
            assert aside <= leg.through_length
            if "room" not in (route.legs[at].kind, leg.kind):
                assert (end, beside) == (hole.near, 0)
            assert sum(u != v for u, v in zip(hole.near, hole.far, strict=True)) <= 1
            assert hole.diameter == order.cable.largest_plug + PLUG


@pytest.mark.parametrize("job", EVERY)
def test_bends_counted(job):
    """Over all legs, bends are the changes of direction of the whole line."""
    for _, candidate in answered.candidates(job):
        line = [point for leg in candidate.route.legs for point in leg.points]
        ways = [direction(p, q) for p, q in pairwise(line) if p != q]
        assert sum(leg.bends for leg in candidate.route.legs) == sum(a != b for a, b in pairwise(ways))


@pytest.mark.parametrize("job", EVERY)
def test_joints_in_reach(job):
    """No piece is longer than the longest at hand, and every joint lies in its space within an arm's length of a way
    in, or in raceway; one piece of the whole cut length needs none."""
    coach = answered.coach_of(job)
    for order, candidate in answered.candidates(job):
        route, longest = candidate.route, order.cable.longest_piece
        ends = [0, *(joint.at for joint in route.joints), route.cut_length[2]]
        assert all(0 < b - a <= longest for a, b in pairwise(ends[:-1]))
        assert ends[-1] - ends[-2] <= longest + 2 * len(route.legs)  # each leg's slack is rounded
        for joint in route.joints:
            space = coach.spaces[joint.space]
            assert joint.reachable
            assert space.box.holds(joint.point)
            if space.kind != "room":
                near = [o.box for o in coach.openings.values() if o.into == joint.space]
                assert min(apart(box, joint.point) for box in near) <= ARM + 1  # the point is rounded
        spare = sum(len(leg.points) for leg in route.legs)  # each stretch's slack is rounded
        assert place_joints(coach, route.legs, route.cut_length[2] + spare) == ()


@pytest.mark.parametrize("job", EVERY)
def test_figures_whole(job):
    """Every figure says what it is, in which unit, how it came about and on whose word."""
    for _, candidate in answered.candidates(job):
        names = [figure.name for figure in candidate.route.figures]
        assert len(set(names)) == len(names) >= 6 + 3 * 6
        for figure in candidate.route.figures:
            assert figure.name
            assert figure.unit
            assert figure.formula
            assert figure.source
            assert math.isfinite(figure.value)


def published(metal: str, standard: str) -> dict[str, tuple[Fraction, int]]:
    """Ω/m and the temperature they hold at [°C] by size, from thin to thick; tests/wire checks the tables."""
    name, column, reference = {
        "AWG": ("resistance_awg.csv", f"{metal}_ohm_per_kft_at_75_c", 75),
        "mm2": ("resistance_mm2.csv", f"{metal}_ohm_per_km_at_20_c", 20),
    }[standard]
    with (files("drawcord") / "tables" / name).open(encoding="utf-8") as file:
        rows = [[*list(row.values())[:1], row[column]] for row in csv.DictReader(file)]
    metres = Fraction("304.8") if standard == "AWG" else 1000
    return {f"{size} {standard}": (Fraction(ohms) / metres, reference) for size, ohms in rows}


def direction(p: Point, q: Point) -> tuple[int, ...]:
    """Which way a stretch goes, as the least whole numbers."""
    ways = [v - u for u, v in zip(p, q, strict=True)]
    least = math.gcd(*ways)
    return tuple(way // least for way in ways)


def apart(box: Box, point: Point) -> float:
    """How far a point is from a box [mm]."""
    return math.hypot(*(max(box[2 * a] - point[a], 0, point[a] - box[2 * a + 1]) for a in range(3)))
