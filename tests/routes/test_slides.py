"""Where the candidates of the demo jobs run, from coordinates alone: no flag of a space or passage is looked at."""

import math
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

import pytest

import answered
from drawcord.coach.box import Box, Point
from drawcord.coach.build import build
from drawcord.coach.coach import Coach, Moving
from drawcord.coach.rig import Rig
from drawcord.files.home import layouts
from drawcord.files.load import load
from drawcord.files.tables import conductors
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.routes.route import Leg
from drawcord.ways.ways import explore

MARGIN = 40  # mm, from shared/clearances.yaml
CONTACT = 75  # mm, from shared/clearances.yaml; a sketch may state another for two spaces
HOLE = 25  # mm, from shared/clearances.yaml
SOLID = ("tank", "duct", "axle", "jack", "step")
NOT_BORED = ("framing", "tank", "duct", "water line", "gas line", "wiring")
GALLEY = "class-a-three-slides/job-galley-side"
# By hand from the sketches, in mm: where each part is drawn and where it goes. A street side wall of the class A
# coach has its inside at y = 45, the curb side's is at 2550 - 45 = 2505, its ceiling at 2100.
BY_HAND = {
    "class-a-three-slides": {
        "slide_galley": (Box(2400, 5800, 45, 945, 0, 2080), Box(2400, 5800, -755, 145, 0, 2080)),
        "slide_dinette": (Box(2700, 4900, 1655, 2505, 0, 1980), Box(2700, 4900, 2405, 3255, 0, 1980)),
        "slide_bed": (Box(8000, 9900, 45, 745, 0, 2080), Box(8000, 9900, -555, 145, 0, 2080)),
    },
    # Drawn up, 460 to 560 mm over the roof at 1980 mm; shut it lies 500 mm lower.
    "van": {"lifting_roof": (Box(1520, 3300, 505, 1545, 2440, 2540), Box(1520, 3300, 505, 1545, 1940, 2040))},
}

Stretch = tuple[Point, Point]


@pytest.mark.parametrize("rig", BY_HAND)
def test_both_positions(rig):
    """The two positions of the parts that the other tests start from are those of the sketch."""
    parts = load(layouts() / rig / "rig.yaml").coach.moving_parts
    for name, positions in BY_HAND[rig].items():
        assert (parts[name].drawn, parts[name].moved) == positions


def test_enters():
    """What the other tests rest on: an open box, met along an edge or not at all, crossed straight or aslant."""
    box = Box(0, 10, 0, 10, 0, 10)
    assert enters(box, ((-5, 5, 5), (15, 5, 5)))
    assert enters(box, ((5, 5, 5), (5, 5, 5)))
    assert enters(box, ((-1, 5, 5), (5, 11, 5)))
    assert not enters(box, ((-1, 9, 5), (1, 11, 5)))
    assert not enters(box, ((-5, 0, 5), (15, 0, 5)))
    assert not enters(box, ((-5, 5, 5), (0, 5, 5)))


@pytest.mark.parametrize("job", answered.JOBS)
def test_clear_of_sweeps(job):
    """No leg enters what a moving part passes through between its two positions, nor the margin around it."""
    coach = answered.coach_of(job)
    swept = [box for part in coach.moving_parts.values() for box in (hull(part), grown(hull(part), MARGIN))]
    assert swept
    assert [found for found in stretches(job) if any(enters(box, found[2]) for box in swept)] == []


@pytest.mark.parametrize("job", answered.JOBS)
def test_clear_of_hazards(job):
    """No leg enters the clearance of what is hot or dangerous, and none on the roof that of an obstacle."""
    coach = answered.coach_of(job)
    hazards = [grown(thing.box, clearance(coach, thing.id, thing.kind)) for thing in coach.hazards.values()]
    assert hazards
    assert [found for found in stretches(job) if any(enters(box, found[2]) for box in hazards)] == []
    kept = [
        grown(thing.box, clearance(coach, thing.id, thing.kind))._replace(z0=thing.box.z0 - 1)
        for thing in coach.obstacles.values()
    ]
    assert kept
    on_roof = [found for found in stretches(job) if found[1].kind == "roof"]
    assert [found for found in on_roof if any(enters(box, found[2]) for box in kept)] == []


@pytest.mark.parametrize("job", answered.JOBS)
def test_clear_of_solids(job):
    """No leg runs through a tank, a duct, or what an axle, a jack or a step needs."""
    coach = answered.coach_of(job)
    solids = [thing.box for thing in coach.obstructions.values() if thing.kind in SOLID]
    assert solids
    assert [found for found in stretches(job) if any(enters(box, found[2]) for box in solids)] == []


@pytest.mark.parametrize("job", answered.JOBS)
def test_holes_clear_of_framing(job):
    """No new hole that any route could use, from face to face, comes nearer than the shop allows to framing, tanks,
    ducts, lines and wiring."""
    ways = answered.ways_of(job)
    kept = [grown(thing.box, HOLE) for thing in ways.coach.obstructions.values() if thing.kind in NOT_BORED]
    assert kept
    holes = [(s.id, tuple(s.mouths.values())) for s in ways.stations.values() if ways.passages[s.passage].hole]
    assert len(holes) > 50
    assert [(name, hole) for name, hole in holes if any(enters(box, hole) for box in kept)] == []


@pytest.mark.parametrize("job", answered.JOBS)
def test_not_across_doors(job):
    """Raceway in sight crosses no door and no window."""
    coach = answered.coach_of(job)
    flat = [grown(box, 1) for box in (*coach.doors.values(), *coach.windows.values())]
    in_rooms = [found for found in stretches(job) if found[1].kind == "room"]
    assert [found for found in in_rooms if any(enters(box, found[2]) for box in flat)] == []


@pytest.mark.parametrize("job", answered.JOBS)
def test_legs_join(job):
    """Legs lead from terminal to terminal, each from where the last one ended, along the axes but for straight
    runs on the roof; each stays in its space once it has come through the wall."""
    coach = answered.coach_of(job)
    straight = coach.job.owner.roof_run == "straight"
    for order, candidate in answered.candidates(job):
        legs = candidate.route.legs
        ends = [coach.terminals[end].point for end in (order.cable.start, order.cable.end)]
        assert [legs[0].points[0], legs[-1].points[-1]] == ends
        for before, leg in pairwise(legs):
            assert before.points[-1] == leg.points[0]
        for leg in legs:
            through, inside = split(leg)
            for p, q in (*through, *inside):
                turned = sum(u != v for u, v in zip(p, q, strict=True))
                assert turned == 1 or (leg.kind == "roof" and straight and (p, q) in inside and p[2] == q[2])
            box = coach.spaces[leg.space].box
            assert all(box.holds(point) for stretch in inside for point in stretch), (leg.space, leg.points)


@pytest.mark.parametrize("job", answered.JOBS)
def test_walls_are_thin(job):
    """What a leg crosses before its space is no thicker than a wall, a floor or a roof, and in line; only at the cap
    of a vent may it run aside."""
    coach = answered.coach_of(job)
    ceiling = min(coach.levels.ceiling, *(step.ceiling for step in coach.levels.steps), coach.levels.roof)
    thick = (CONTACT, CONTACT, max(coach.levels.floor_thickness, coach.levels.roof - ceiling))
    stated = max(coach.touching.values(), default=0)
    for _, candidate in answered.candidates(job):
        for before, leg in pairwise(candidate.route.legs):
            through, _ = split(leg)
            for p, q in through:
                sizes = [abs(u - v) for u, v in zip(p, q, strict=True)]
                caps = [
                    grown(coach.obstacles[name].box, 200)
                    for name in (before.space, leg.space)
                    if name in coach.obstacles
                ]
                at_cap = any(box.x0 <= p[0] <= box.x1 and box.y0 <= p[1] <= box.y1 for box in caps)
                assert at_cap or all(size <= max(most, stated) for size, most in zip(sizes, thick, strict=True))
            assert through == [] or leg.through_length == sum(map(square, through))


@pytest.mark.parametrize("job", answered.JOBS)
def test_lengths_add_up(job):
    """The length of a leg is that of its stretches, straight ones rounded up; the route's is theirs together."""
    for _, candidate in answered.candidates(job):
        legs, criteria = candidate.route.legs, candidate.route.criteria
        for leg in legs:
            through, inside = split(leg)
            run = math.ceil(sum(math.dist(*stretch) for stretch in inside) - 1e-6)
            assert leg.length == run + sum(map(square, through))
            assert leg.in_sight == (leg.kind == "room")
        assert criteria.length == sum(leg.length for leg in legs)
        assert criteria.in_sight == sum(leg.length - leg.through_length for leg in legs if leg.kind == "room")
        assert candidate.route.spaces == tuple(leg.space for leg in legs)
        assert len(set(candidate.route.spaces)) == len(legs), "a route enters a space once"


def test_ignoring_the_slide_would_win_wrongly():
    """At the galley the way down through the pantry, which rides on the slide, would win if the slide were ignored."""
    rightly = next(answer for order, answer in answered.answers(GALLEY) if order.name == "pv").candidates
    assert not any("pantry" in candidate.route.spaces for candidate in rightly)
    still = explore(without_moving_parts(answered.coach_of(GALLEY)))
    wrongly = compare(Order(still, "pv", conductors())).candidates
    assert "pantry" in wrongly[0].route.spaces
    assert wrongly[0].score < rightly[0].score


def without_moving_parts(coach: Coach) -> Coach:
    """The coach of the same sketch without its moving parts."""
    rig = Rig.model_construct(**{**dict(coach.rig), "moving_parts": {}})
    return build(rig, coach.job, coach.shop)


def stretches(job: str) -> Iterator[tuple[str, Leg, Stretch]]:
    """Every straight stretch of every leg of every candidate of a job."""
    for _, candidate in answered.candidates(job):
        for leg in candidate.route.legs:
            for stretch in pairwise(leg.points):
                yield candidate.id, leg, stretch


def split(leg: Leg) -> tuple[list[Stretch], list[Stretch]]:
    """A leg's stretches up to `through_length`, which lie in a wall, and those after it, in its space."""
    left = leg.through_length
    through, inside = [], []
    for p, q in pairwise(leg.points):
        size = square((p, q))
        if left >= size:
            through.append((p, q))
        elif left > 0:
            x, y, z = (u + (v > u) * left - (v < u) * left for u, v in zip(p, q, strict=True))
            through.append((p, (x, y, z)))
            inside.append(((x, y, z), q))
        else:
            inside.append((p, q))
        left = max(0, left - size)
    return through, inside


def square(stretch: Stretch) -> int:
    return sum(abs(u - v) for u, v in zip(*stretch, strict=True))


def hull(part: Moving) -> Box:
    """What a part passes through: it moves along one axis, so the least box around both positions."""
    one, other = part.drawn, part.moved
    return Box(*((min, max)[side % 2](one[side], other[side]) for side in range(6)))


def grown(box: Box, by: int) -> Box:
    return Box(*(at + by * (1 if side % 2 else -1) for side, at in enumerate(box)))


def clearance(coach: Coach, name: str, kind: str) -> int:
    """What the job, the rig or else the shop wants kept clear [mm]; a stack's cap counts as a vent."""
    for section in ("hazards", "roof_obstacles"):
        stated = {**getattr(coach.rig, section), **getattr(coach.job.differences, section)}
        if name in stated and stated[name].clearance is not None:
            return stated[name].clearance
    return {**coach.shop.clearances.hazards, **coach.shop.clearances.roof_obstacles}[kind]


def enters(box: Box, stretch: Stretch) -> bool:
    """Whether a straight stretch, or a point, meets the inside of a box; exact."""
    begins, ends = Fraction(0), Fraction(1)
    for axis, (start, end) in enumerate(zip(*stretch, strict=True)):
        low, high = box.span(axis)
        if start == end:
            if not low < start < high:
                return False
            continue
        first, last = sorted((Fraction(low - start, end - start), Fraction(high - start, end - start)))
        begins, ends = max(begins, first), min(ends, last)
    return begins < ends
