"""Conductors that lie together: counted by hand on small ways, and against a walk along every millimetre."""

import math
from itertools import pairwise
from types import SimpleNamespace

from hypothesis import given, settings
from hypothesis import strategies as st

import sketch
from drawcord.plan.beside import CROSSING, NEAR, alone, beside

STEP = 10  # mm, of the ways that are drawn by chance
CLASSES = {"battery DC": 2, "mains": 3, "coax": 1}


def coach_of(**cables):
    """A coach with cables of these classes, by name."""
    dc = {"outside diameter": 8, "smallest bend": 38, "largest plug": 14, "from": "box.a", "to": "box.b"}
    box = {"kind": "junction box", "in": "roof", "from front": 1000, "street": 300, "terminals": {"a": None, "b": None}}
    told = {"battery DC": {"amperes": "10 A", "volts": "12 V"}, "mains": {"amperes": "10 A", "volts": "230 V"}}
    jobbed = {
        name: {**dc, **told.get(carries, {}), "class": carries, "cores": CLASSES[carries]}
        for name, carries in cables.items()
    }
    return sketch.coach_of(sketch.rig_data({}), sketch.job_data({"box": box}, jobbed))


def way(*legs):
    """A candidate whose legs are each a space, its kind and the points in it."""
    found = [
        SimpleNamespace(space=space, kind=kind, points=points, length=sum(span(p, q) for p, q in pairwise(points)))
        for space, kind, points in legs
    ]
    return SimpleNamespace(
        route=SimpleNamespace(legs=found, criteria=SimpleNamespace(length=sum(leg.length for leg in found)))
    )


def span(p, q):
    return sum(abs(u - v) for u, v in zip(p, q, strict=True))


def straight(y, begins=0, ends=2000, *, space="bay", kind="bay"):
    return way((space, kind, ((begins, y, 0), (ends, y, 0))))


def counted(crowds):
    return [[(one.conductors, one.length) for one in leg] for leg in crowds]


def test_cables_drawn_side_by_side_count_for_each_other_as_far_as_they_go():
    # Two pairs 100 mm apart over 1.2 m of the longer one, which ends 150 mm past that: four conductors, then two.
    coach = coach_of(one="battery DC", other="battery DC")
    found = beside(coach, {"one": straight(0), "other": straight(100, 800, 2500)})
    assert counted(found["one"]) == [[(4, 2000 - 800 + NEAR), (2, 2000)]]
    assert counted(found["other"]) == [[(4, 2000 - 800 + NEAR), (2, 1700)]]
    assert found["one"][0][0].others == (("other", 2),)


def test_a_crossing_and_what_runs_further_off_do_not_count():
    # Square across each other, and one hand's breadth and a millimetre apart.
    coach = coach_of(one="battery DC", other="battery DC", third="battery DC")
    across = way(("bay", "bay", ((1000, -900, 0), (1000, 900, 0))))
    found = beside(coach, {"one": straight(0), "other": across, "third": straight(NEAR + 1)})
    assert counted(found["one"]) == [[(2, 2000)]]


def test_another_space_is_behind_a_wall():
    # The same line, but in the next space.
    coach = coach_of(one="battery DC", other="battery DC")
    found = beside(coach, {"one": straight(0), "other": straight(0, space="locker")})
    assert counted(found["one"]) == [[(2, 2000)]]


def test_all_cables_of_one_chase_are_one_bundle_however_wide_it_is():
    # 600 mm apart, which nothing keeps them.
    coach = coach_of(one="battery DC", other="battery DC")
    chased = {"one": straight(0, kind="chase"), "other": straight(600, kind="chase")}
    assert counted(beside(coach, chased)["one"]) == [[(4, 2000), (2, 2000)]]
    short = {"one": straight(0, 0, 90, kind="chase"), "other": straight(600, 0, 90, kind="chase")}
    assert counted(beside(coach, short)["one"]) == [[(4, 90), (2, 90)]]


def test_a_stretch_does_not_fall_apart_where_it_turns_or_slants():
    # The same slanting way twice, of pieces that are each shorter than a crossing.
    coach = coach_of(one="battery DC", other="battery DC")
    slanting = way(("bay", "bay", tuple((101 * n, 37 * n, 0) for n in range(20))))
    whole = round(sum(math.dist(p, q) for p, q in pairwise(slanting.route.legs[0].points)))
    slanting.route.criteria.length = whole
    assert counted(beside(coach, {"one": slanting, "other": slanting})["one"]) == [[(4, whole), (2, whole)]]


def test_what_must_keep_apart_and_what_carries_no_power_does_not_count():
    # Mains beside battery cables are told to keep apart; coax heats nothing; of three cores of mains two carry current.
    coach = coach_of(one="battery DC", cord="mains", lead="mains", picture="coax")
    found = beside(coach, dict.fromkeys(("one", "cord", "lead", "picture"), straight(0)))
    assert counted(found["one"]) == [[(2, 2000)]]
    assert counted(found["cord"]) == [[(4, 2000), (2, 2000)]]
    assert "picture" not in found


def test_what_lies_together_in_several_legs_adds_up():
    # 400 mm in each of two spaces beside two others, in the second beside a third as well.
    coach = coach_of(one="battery DC", other="battery DC", third="battery DC")
    both = way(("bay", "bay", ((0, 0, 0), (400, 0, 0))), ("locker", "bay", ((400, 0, 0), (800, 0, 0))))
    found = beside(coach, {"one": both, "other": both, "third": straight(0, 400, 800, space="locker")})
    assert counted(found["one"]) == [[(4, 800), (2, 800)], [(6, 400), (4, 800), (2, 800)]]


def test_without_others_the_own_conductors_keep_together_all_the_way():
    # As every cable counts by itself.
    coach = coach_of(cord="mains")
    assert counted(alone(coach.job.cables["cord"], straight(0).route)) == [[(2, 2000)]]


moves = st.lists(st.tuples(st.integers(0, 2), st.integers(-40, 40).filter(bool)), min_size=1, max_size=5)


@st.composite
def ways(draw):
    """A square way through one or two spaces, on a grid of STEP."""
    at = tuple(STEP * draw(st.integers(-20, 20)) for _ in range(3))
    legs = []
    for space in draw(st.sampled_from((("bay",), ("locker",), ("bay", "locker")))):
        points = [at]
        for axis, by in draw(moves):
            at = tuple(value + STEP * by * (side == axis) for side, value in enumerate(at))
            points.append(at)
        legs.append((space, "bay", tuple(points)))
    return way(*legs)


def places(candidate):
    """The middle of every STEP of a way, with its space and leg."""
    for number, leg in enumerate(candidate.route.legs):
        for p, q in pairwise(leg.points):
            count = span(p, q) // STEP
            for n in range(count):
                share = (2 * n + 1) / (2 * count)
                yield number, leg.space, tuple(u + (v - u) * share for u, v in zip(p, q, strict=True))


def within(point, p, q):
    """Whether a point is no further than NEAR from a stretch, on every axis."""
    return all(min(u, v) - NEAR <= x <= max(u, v) + NEAR for x, u, v in zip(point, p, q, strict=True))


def walked(mine, others):
    """For every STEP of a way its leg and how many of the others lie beside it, for longer than they cross."""
    steps = list(places(mine))
    flags = []
    for other in others:
        runs = [(leg.space, p, q) for leg in other.route.legs for p, q in pairwise(leg.points)]
        beside_it = [any(space == s and within(at, p, q) for s, p, q in runs) for _, space, at in steps]
        for n in range(len(steps)):
            low = high = n
            while beside_it[n] and low and beside_it[low - 1]:
                low -= 1
            while beside_it[n] and high + 1 < len(steps) and beside_it[high + 1]:
                high += 1
            flags.append(beside_it[n] and (high - low + 1) * STEP > CROSSING)
    rows = [flags[k * len(steps) : (k + 1) * len(steps)] for k in range(len(others))]
    return [(step[0], sum(row[n] for row in rows)) for n, step in enumerate(steps)]


@settings(max_examples=60, deadline=None)
@given(st.lists(ways(), min_size=2, max_size=4))
def test_counts_and_lengths_are_those_of_a_walk_along_the_cable(found):
    # The slow way: at every step of a cable, which others are near; NEAR and the steps are whole steps of the grid.
    names = [f"c{n}" for n in range(len(found))]
    coach = coach_of(**dict.fromkeys(names, "battery DC"))
    crowds = beside(coach, dict(zip(names, found, strict=True)))
    steps = walked(found[0], found[1:])
    for number, leg in enumerate(crowds["c0"]):
        most = max(count for at, count in steps if at == number)
        wanted = {}
        for level in {count for _, count in steps} | {0}:
            if level <= most:
                length = sum(STEP for _, count in steps if count >= level) if level else found[0].route.criteria.length
                wanted[2 + 2 * level] = length
        assert {one.conductors: one.length for one in leg} == wanted
        assert [one.conductors for one in leg] == sorted(wanted, reverse=True)
