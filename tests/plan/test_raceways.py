"""What lies in one raceway: by hand on small ways, and against a walk along every 10 mm."""

import math
from itertools import pairwise
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_beside import coach_of

from drawcord.files.rule_tables import rule_sets
from drawcord.plan.figures import inside
from drawcord.plan.raceways import company, lain

STEP = 10  # mm


def route(*runs, through=0):
    """A route whose legs are raceway in one room, each by its corners."""
    said = {"space": "room", "kind": "room", "in_sight": True, "through_length": through}
    return SimpleNamespace(legs=[SimpleNamespace(points=points, **said) for points in runs])


STRAIGHT = [(0, 0, 1900), (1000, 0, 1900)]


def test_what_shares_a_raceway_by_hand():
    """Two battery circuits lie together for a stretch; the aerial's cable along the same wall needs its own raceway."""
    coach = coach_of(supply="battery DC", other="battery DC", aerial="coax")
    routes = {"supply": route(STRAIGHT), "other": route([(600, 0, 1900), (1500, 0, 1900)]), "aerial": route(STRAIGHT)}
    found = company(coach, routes)
    assert sorted(found["supply"]) == sorted(found["other"]) == [[], [8, 8]]
    assert found["aerial"] == [[], []]
    assert company(coach, {"supply": routes["supply"]}) == {"supply": [[]]}


def test_what_goes_through_a_wall_is_in_no_raceway():
    routes = [route([(0, 0, 1900), (50, 0, 1900), (1000, 0, 1900)], through=50), route([(0, 0, 1900), (50, 0, 1900)])]
    assert lain(routes) == {(("room", 0, (0, 1900)), 50, 1000): (0,), (("room", 0, (0, 1900)), 0, 50): (1,)}


@pytest.mark.parametrize(("beside", "share"), [((), 0.31), ((6,), 0.40), ((6, 8), 0.40)])
def test_the_section_counts_all_that_lies_in_it(beside, share):
    """NEC 2023 chapter 9 table 1: 53 % for one, 31 % for two, 40 % for more; the fullest stretch governs."""
    chosen = SimpleNamespace(cable=SimpleNamespace(diameter_mm=8))
    (figure,) = inside(route(STRAIGHT), 2, chosen, [(), beside], rule_sets()["US"])
    filled = math.pi / 4 * sum(d * d for d in (8, 8, *beside))
    assert figure.value == pytest.approx(max(math.pi / 4 * 128 / 0.31, filled / share))
    assert "chapter 9 table 1" in figure.source


@settings(deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(0, 9), st.integers(0, 9), st.integers(0, 9), st.integers(0, 9)), min_size=1, max_size=4
    )
)
def test_against_a_walk(corners):
    """Each goes along one wall and then along another; walked in steps, as many are met as the pieces say."""
    ways = [
        [(100 * a, 0, 1900), (100 * b, 0, 1900), (100 * b, 100 * c + 100, 1900)] for a, b, c, _ in corners if a != b
    ]
    pieces = lain([route(way) for way in ways])
    walked = {}
    for number, way in enumerate(ways):
        for p, q in pairwise(way):
            axis = 0 if p[0] != q[0] else 1
            for at in range(min(p[axis], q[axis]), max(p[axis], q[axis]), STEP):
                walked.setdefault((axis, p[1 - axis], at), set()).add(number)
    said = {
        (axis, others[0], at): set(group)
        for ((_, axis, others), low, high), group in pieces.items()
        for at in range(low, high, STEP)
    }
    assert said == walked
