"""Runs on the roof against independent constructions: brute-force visibility and unit steps."""

from itertools import combinations, pairwise, product
from math import ceil, dist

import networkx as nx
import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from lattice import best, unit_steps

from drawcord.ways.deck import Deck
from drawcord.ways.roof import RoofRuns
from drawcord.ways.stairs import _stairs

HAIR = 1e-5
RECTANGLE = ((0, 0), (24, 0), (24, 14), (0, 14))
# Square but not convex: a notch for a ladder, a narrower front, and a neck one can only pass in the middle.
SQUARE_EDGED = [
    RECTANGLE,
    ((0, 0), (10, 0), (10, 5), (14, 5), (14, 0), (24, 0), (24, 14), (0, 14)),
    ((0, 3), (6, 3), (6, 0), (24, 0), (24, 14), (6, 14), (6, 11), (0, 11)),
    (
        (0, 0),
        (10, 0),
        (10, 6),
        (13, 6),
        (13, 0),
        (24, 0),
        (24, 14),
        (13, 14),
        (13, 9),
        (10, 9),
        (10, 14),
        (0, 14),
    ),
]
# Rounded fronts drawn as slants, a slanting notch, and a corner so sharp that no elbow reaches its tip.
SLANTED = [
    ((0, 4), (4, 0), (24, 0), (24, 14), (4, 14), (0, 10)),
    ((0, 2), (24, 0), (24, 14), (0, 12)),
    ((0, 0), (9, 0), (12, 7), (15, 0), (24, 0), (24, 14), (0, 14)),
    ((0, 0), (24, 6), (24, 14), (20, 14)),
]


@st.composite
def roofs(draw, outlines):
    """An outline, obstacles that may overlap, touch, and reach past it, an edge, and points in and out."""
    obstacles = []
    for _ in range(draw(st.integers(0, 5))):
        x, y = draw(st.integers(-2, 23)), draw(st.integers(-2, 13))
        obstacles.append((x, x + draw(st.integers(0, 9)), y, y + draw(st.integers(0, 9))))
    points = draw(st.lists(st.tuples(st.integers(0, 24), st.integers(0, 14)), min_size=1, max_size=5))
    return draw(st.sampled_from(outlines)), obstacles, draw(st.integers(0, 1)), points


def taken(obstacles):
    """What the obstacles cover, a hair smaller: united first, so that no seam is left between them."""
    return shapely.union_all([shapely.box(x0, y0, x1, y1) for x0, x1, y0, y1 in obstacles]).buffer(-HAIR)


def visibility(area, obstacles, points, weight):
    """Oracle: every pair of corners and points tested with shapely, one after the other."""
    solid, larger = taken(obstacles), area.buffer(HAIR, join_style="mitre")
    spots = {*points, *(tuple(map(round, corner)) for corner in shapely.get_coordinates(area))}
    spots |= {corner for x0, x1, y0, y1 in obstacles for corner in product((x0, x1), (y0, y1))}
    graph = nx.Graph()
    graph.add_nodes_from(
        spot for spot in spots if larger.covers(shapely.Point(spot)) and not solid.intersects(shapely.Point(spot))
    )
    for a, b in combinations(sorted(graph), 2):
        line = shapely.LineString([a, b])
        if larger.covers(line) and not solid.intersects(line):
            graph.add_edge(a, b, weight=weight(a, b))
    return graph


def square_length(a, b):
    return abs(a[0] - b[0]) + abs(a[1] - b[1])


def expected(graph, p, q):
    if p not in graph or q not in graph or not nx.has_path(graph, p, q):
        return None
    return ceil(nx.dijkstra_path_length(graph, p, q))


@settings(max_examples=80, deadline=None)
@given(roofs(SQUARE_EDGED + SLANTED))
def test_straight_lengths_and_paths_equal_brute_force(roof):
    # Euclidean, rounded up; the path is clear, starts and ends where asked, and has that length.
    outline, obstacles, edge, points = roof
    runs = RoofRuns(outline, obstacles, edge, 0, square=False)
    solid, larger = taken(obstacles), runs.area.buffer(HAIR, join_style="mitre")
    graph = visibility(runs.area, obstacles, points, dist)
    for p, row in zip(points, runs.lengths(points), strict=True):
        assert row == [expected(graph, p, q) for q in points]
        for q, length in zip(points, row, strict=True):
            path = runs.path(p, q)
            assert path == runs.path(q, p)[::-1]
            if length is None:
                assert path == ()
                continue
            assert (path[0], path[-1]) == (p, q)
            assert ceil(sum(dist(a, b) for a, b in pairwise(path))) == length
            for line in map(shapely.LineString, pairwise(path)):
                assert larger.covers(line)
                assert not solid.intersects(line)


@settings(max_examples=80, deadline=None)
@given(roofs(SQUARE_EDGED))
def test_square_lengths_and_paths_equal_unit_steps_on_the_lattice(roof):
    # Where all edges are square: least length, and a path of it in clear steps with the fewest bends.
    outline, obstacles, edge, points = roof
    runs = RoofRuns(outline, obstacles, edge, 0, square=True)
    solid, larger = taken(obstacles), runs.area.buffer(HAIR, join_style="mitre")
    spots = [(x, y) for x, y in product(range(25), range(15)) if larger.covers(shapely.Point(x, y))]
    clear = {}
    for x, y in spots:
        for axis, there in enumerate([(x + 1, y), (x, y + 1)]):
            line = shapely.LineString([(x, y), there])
            if larger.covers(line) and not solid.intersects(line):
                clear.setdefault((x, y), []).append((there, axis, 0))
                clear.setdefault(there, []).append(((x, y), axis, 0))
    for p, row in zip(points, runs.lengths(points), strict=True):
        usable = p in spots and not solid.intersects(shapely.Point(p))
        least = best(p, lambda spot: clear.get(spot, [])) if usable else {}
        assert row == [least[q][0] if q in least else None for q in points]
        for q in points:
            path = runs.path(p, q)
            assert path == runs.path(q, p)[::-1]
            if q not in least:
                assert path == ()
                continue
            steps = unit_steps(path)
            assert (steps[0], steps[-1], len(steps) - 1) == (p, q, least[q][0])
            assert all(there in {to for to, _, _ in clear[here]} for here, there in pairwise(steps))
            assert len(path) == (least[q][1] + 2 if p != q else 1)


@settings(max_examples=80, deadline=None)
@given(roofs(SLANTED))
def test_square_runs_beside_slanting_edges_keep_their_length(roof):
    # Lengths as by brute force in the square metric; elbows of exactly that length, clear of obstacles,
    # and never a millimetre past a slanting edge.
    outline, obstacles, edge, points = roof
    runs = RoofRuns(outline, obstacles, edge, 0, square=True)
    solid = taken(obstacles)
    graph = visibility(runs.area, obstacles, points, square_length)
    for p, row in zip(points, runs.lengths(points), strict=True):
        assert row == [expected(graph, p, q) for q in points]
        for q, length in zip(points, row, strict=True):
            if length is None:
                assert runs.path(p, q) == ()
                continue
            steps = unit_steps(runs.path(p, q))
            assert (steps[0], steps[-1], len(steps) - 1) == (p, q, length)
            for line in map(shapely.LineString, pairwise(steps)):
                assert not solid.intersects(line)
                assert shapely.hausdorff_distance(runs.area, shapely.union(line, runs.area)) < 1


@settings(max_examples=80, deadline=None)
@given(roofs(SQUARE_EDGED))
def test_stairs_along_a_clear_stretch_are_clear_themselves(roof):
    # What the rounding to whole millimetres promises between obstacles: same length, no side crossed.
    outline, obstacles, edge, points = roof
    deck = Deck(outline, obstacles, edge)
    for p, q in combinations(points, 2):
        ends = np.array([p, q])
        if deck.usable(ends).all() and deck.clear(ends[:1], ends[1:]).all():
            stairs = np.array([p, *_stairs(deck, p, q)])
            assert np.abs(np.diff(stairs, axis=0)).sum() == square_length(p, q)
            assert not np.diff(stairs, axis=0).all(axis=1).any()  # no diagonal step
            assert deck.usable(stairs).all()
            assert deck.clear(stairs[:-1], stairs[1:]).all()


def test_elbows_reach_into_a_sharp_corner():
    # No least run of elbows stays inside; the millimetre steps that lead there keep the length.
    tip, far = (0, 0), (24, 12)
    runs = RoofRuns(SLANTED[-1], [], 0, 0, square=True)
    steps = unit_steps(runs.path(tip, far))
    assert len(steps) - 1 == runs.lengths([tip, far])[0][1] == 36
    assert all(runs.area.distance(shapely.Point(step)) < 1 for step in steps)


@settings(max_examples=50, deadline=None)
@given(roofs(SQUARE_EDGED + SLANTED), st.randoms(use_true_random=False))
def test_the_order_of_obstacles_changes_nothing(roof, random):
    # The same roof gives the same lengths and the same paths, however its file lists things.
    outline, obstacles, edge, points = roof
    shuffled = random.sample(obstacles, len(obstacles))
    for square in (False, True):
        one, other = (RoofRuns(outline, order, edge, 0, square) for order in (obstacles, shuffled))
        lengths = one.lengths(points)
        assert lengths == other.lengths(points)
        assert [list(column) for column in zip(*lengths, strict=True)] == lengths
        assert one.path(points[0], points[-1]) == other.path(points[0], points[-1])


@pytest.mark.parametrize(
    ("square", "length", "path"),
    [
        # By hand: two hypotenuses over 300 by 400 and 20 along the rail's end; or 400 there and 400 back.
        (False, 1020, ((0, 0), (300, 400), (320, 400), (620, 0))),
        (True, 1420, ((0, 0), (0, 400), (620, 400), (620, 0))),
    ],
)
def test_a_rail_is_gone_around(square, length, path):
    outline = [(-500, -500), (2000, -500), (2000, 900), (-500, 900)]
    runs = RoofRuns(outline, [(300, 320, -600, 400)], 10, 0, square)
    assert runs.lengths([(0, 0), (620, 0)]) == [[0, length], [length, 0]]
    assert runs.path((0, 0), (620, 0)) == path


def test_a_run_may_touch_a_corner():
    # The straight line from end to end passes through the corner at (300, 400) and meets no interior.
    runs = RoofRuns([(0, 0), (1000, 0), (1000, 900), (0, 900)], [(100, 300, 100, 400)], 0, 0, square=False)
    assert runs.path((0, 800), (600, 0)) == ((0, 800), (600, 0))
    assert runs.lengths([(0, 800), (600, 0)])[0][1] == 1000


def test_an_obstacle_drawn_as_two_is_one():
    # An L of two rectangles that touch leaves no way through the seam; a gap of a millimetre does.
    outline = [(0, 0), (1000, 0), (1000, 500), (0, 500)]
    ends = [(100, 250), (900, 250)]
    two = [(400, 600, -10, 250), (400, 600, 250, 510)]
    assert RoofRuns(outline, two, 0, 0, square=True).lengths(ends)[0][1] is None
    assert RoofRuns(outline, [two[0], (400, 600, 251, 510)], 0, 0, square=True).lengths(ends)[0][1] == 800


def test_a_point_where_three_obstacles_meet_is_inside_them():
    # Found by a property test: it is inside none of them alone.
    three = [(0, 40, 0, 10), (40, 50, 0, 10), (0, 50, 10, 20)]
    assert RoofRuns([(0, 0), (240, 0), (240, 140), (0, 140)], three, 0, 0, square=True).lengths([(40, 10)]) == [[None]]


def test_an_obstacle_without_size_is_nothing():
    # Nor does it push the side that it touches.
    outline, ends = [(0, 0), (1000, 0), (1000, 500), (0, 500)], [(0, 250), (1000, 250)]
    flat = (400, 600, 250, 250)
    assert RoofRuns(outline, [flat, (400, 600, 0, 250)], 0, 0, square=True).lengths(ends)[0][1] == 1000


def test_a_roof_eaten_up_by_its_edge_reaches_nothing():
    # No area is left; that is an answer.
    runs = RoofRuns([(0, 0), (100, 0), (100, 80), (0, 80)], [], 50, 0, square=True)
    assert runs.area.is_empty
    assert runs.lengths([(50, 40), (60, 40)]) == [[None, None], [None, None]]
    assert runs.path((50, 40), (60, 40)) == ()
    assert runs.lengths([]) == []
