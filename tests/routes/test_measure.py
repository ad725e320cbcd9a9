"""What a route measures: every candidate of the demo jobs summed again from its legs."""

import csv
import math
from fractions import Fraction
from importlib.resources import files
from itertools import pairwise

import pytest

import answered
from drawcord.coach.box import Box, Point
from drawcord.routes.allowance import place_joints
from drawcord.routes.devices import cut_places

# What the files of shared/ say, in mm, in seconds and in seconds a metre; allowances as low, likely and high.
ERROR = (-10, 0, 10)
MAKE_UP, DRIP_LOOP, SERVICE_LOOP, SLACK = (200, 300, 400), (80, 120, 150), (200, 300, 500), ("0", "0.08", "0.20")
ROOF_HOLE, INNER_HOLE, OPENING, TERMINAL, NO_ACCESS = 1500, 600, 120, 480, 900
PACE = {"roof": 240, "room": 480, "cabinet": 180, "chase": 240, "vent stack": 240, "appliance vent": 240}
PACE |= {"panel wall": 360, "void": 360, "bay": 180, "underfloor": 360}
PLUG, ARM = 2, 600
HOLLOW = ("chase", "vent stack", "appliance vent", "panel wall", "void")
LEVELS = ("low", "likely", "high")
PER_KELVIN = {75: Fraction("0.00323"), 20: Fraction("0.00393")}  # NEC chapter 9 table 8, note; NBS Handbook 100
EVERY = [pytest.param(job, id=job) for job in answered.JOBS]


@pytest.mark.parametrize("job", EVERY)
def test_cut_adds_up(job):
    """Every allowance is a line of its own, low, likely and high, and the cut length is the lines' sum."""
    coach = answered.coach_of(job)
    for order, candidate in answered.candidates(job):
        route = candidate.route
        value = {figure.name: figure.value for figure in route.figures}
        devices = cut_by_devices(coach, order.cable, order.name, route)
        assert cut_places(coach, order.name, route.legs) == devices
        at_roof = sum("roof" in two for two in pairwise(route.spaces))
        unproven = sum(leg.length for leg in route.legs if leg.standing == "unproven")
        for end, error, make_up, drip, service, slack, cut in zip(
            LEVELS, ERROR, MAKE_UP, DRIP_LOOP, SERVICE_LOOP, SLACK, route.cut_length, strict=True
        ):
            lines = {
                "measured length": sum(leg.length for leg in route.legs),
                "measuring error": len(route.legs) * error,
                "make-up at both ends": 2 * make_up,
                "make-up at devices": 2 * len(devices) * make_up,
                "drip loop at the roof": at_roof * drip,
                "service loop": service,
                "slack on unproven legs": round(unproven * Fraction(slack)),
            }
            assert {name: value[f"{name}, {end}"] for name in lines} == lines
            assert value[f"cut length per core, {end}"] == cut == sum(lines.values())


def cut_by_devices(coach, cable, name, route):
    """Where devices sit on a cable, millimetre by millimetre: the job's, or for a cable into the controller or out of
    the battery the first place that a hand gets to, of the former below the roof."""
    points = [(leg.space, point) for leg in route.legs for p, q in pairwise(leg.points) for point in between(p, q)]
    last = len(points)
    points.append((route.spaces[-1], route.legs[-1].points[-1]))
    stated = [one for one in coach.job.devices.values() if one.cable == name]
    places = [one.along if one.start == cable.start else last - one.along for one in stated]
    kinds = [coach.job.equipment[end.split(".")[0]].kind for end in (cable.start, cable.end)]
    near = {"PV": "charge controller", "battery DC": "battery"}.get(cable.carries)
    told = all(any(e.kind == kind for e in coach.job.equipment.values()) for kind in ("solar module", "battery"))
    if not stated and near in kinds and told:  # whatever a demo job states is more than a switch
        on_roof = [at for at, (space, _) in enumerate(points) if space == "roof"]
        ways = range(last + 1) if (kinds[0] == near) == (near == "battery") else range(last, -1, -1)
        free = [at for at in ways if not on_roof or near == "battery" or at >= on_roof[-1]]
        places += [at for at in free if reached(coach, *points[at])][:1]
    return [at for at in places if 0 < at < last]


def between(p, q):
    """Each point of a straight line a millimetre after the one before, up to that before q."""
    long = round(math.dist(p, q))
    return [tuple(round(u + (v - u) * n / long) for u, v in zip(p, q, strict=True)) for n in range(long)]


def reached(coach, name, point):
    """Whether a hand gets again to a point in a space."""
    space = coach.spaces[name]
    doors = [one.box for one in coach.openings.values() if one.into == name and space.kind not in HOLLOW]
    return space.kind == "room" or (space.box.holds(point) and any(apart(box, point) <= ARM for box in doors))


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
    in, or in raceway, never in what hides it; one piece of the whole cut length needs none."""
    coach = answered.coach_of(job)
    for order, candidate in answered.candidates(job):
        route, longest = candidate.route, order.cable.longest_piece
        ends = [0, *(joint.at for joint in route.joints), route.cut_length[2]]
        assert all(0 < b - a <= longest for a, b in pairwise(ends[:-1]))
        assert ends[-1] - ends[-2] <= longest + 2 * len(route.legs)  # each leg's slack is rounded
        for joint in route.joints:
            space = coach.spaces[joint.space]
            assert joint.reachable
            assert space.kind not in HOLLOW
            assert space.box.holds(joint.point)
            if space.kind != "room":
                near = [o.box for o in coach.openings.values() if o.into == joint.space]
                assert min(apart(box, joint.point) for box in near) <= ARM + 1  # the point is rounded
        spare = sum(len(leg.points) + 2 for leg in route.legs)  # each stretch's slack is rounded
        devices = cut_places(coach, order.name, route.legs)
        assert place_joints(coach, route.legs, devices, route.cut_length[2] + spare) == ()


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
