"""Raceway on the walls of a living area, against a walk over unit squares of wall."""

from itertools import pairwise, permutations
from math import prod

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.coach.box import Box
from drawcord.ways.raceway import Raceway

# --- The oracle: every usable unit square of wall, and a walk along their edges, millimetre by millimetre ---


def squares(faces, taken):
    """The usable unit squares: those of a face that no taken box reaches and covers."""
    found = set()
    for face in faces:
        for square in unit_squares(face):
            if not any(covers(box, square) for box in taken):
                found.add(square)
    return sorted(found)


def unit_squares(face):
    for x in range(face.x0, max(face.x1, face.x0 + 1)):
        for y in range(face.y0, max(face.y1, face.y0 + 1)):
            for z in range(face.z0, face.z1):
                if face.x0 == face.x1:
                    yield Box(x, x, y, y + 1, z, z + 1)
                else:
                    yield Box(x, x + 1, y, y, z, z + 1)


def covers(box, square):
    return all(box[low] <= square[low] and square[low + 1] <= box[low + 1] for low in (0, 2, 4))


def corners_of(square):
    return sorted({(x, y, z) for x in square[0:2] for y in square[2:4] for z in square[4:6]})


def edges_of(square):
    """The four unit edges, each as a pair of lattice points that differ by 1 along one axis."""
    return [(a, b) for a in corners_of(square) for b in corners_of(square) if a < b and sum(b) - sum(a) == 1]


def walk(faces, taken):
    """A graph whose nodes are (point, square) with steps of 1 along a square's edges, of 0 across them.

    A point has one node for each square there, so that squares which meet in a point alone stay apart.
    """
    graph = nx.Graph()
    sharing = {}
    for square in squares(faces, taken):
        for a, b in edges_of(square):
            graph.add_edge((a, square), (b, square), weight=1)
            sharing.setdefault((a, b), []).append(square)
    for (a, b), around in sharing.items():
        for one, other in pairwise(around):
            graph.add_edge((a, one), (a, other), weight=0)
            graph.add_edge((b, one), (b, other), weight=0)
    return graph


def walked(graph, points):
    """Least lengths by walking."""
    at = {}
    for node in graph:
        at.setdefault(node[0], []).append(node)
    table = []
    for p in points:
        far = nx.multi_source_dijkstra_path_length(graph, set(at[p])) if p in at else {}
        table.append([min((far[n] for n in at.get(q, []) if n in far), default=None) for q in points])
    return table


def best(graph, p, q):
    """Length, bends and length times depth of the best run, with every unit step and turn tried."""
    unit = 10**6  # a whole number for all three, so that the first always counts before the second
    top = max(point[2] for point, _ in graph)
    turning = nx.DiGraph()
    for (a, one), (b, other), step in graph.edges(data="weight"):
        for start, end in (((a, one), (b, other)), ((b, other), (a, one))):
            for came in "xyz-":
                if not step:
                    turning.add_edge((start, came), (end, came), cost=0)
                    continue
                going = next(name for name, i, j in zip("xyz", start[0], end[0], strict=True) if i != j)
                depth = top - start[0][2] if going != "z" else 0
                turns = came not in (going, "-")
                turning.add_edge((start, came), (end, going), cost=unit**2 + unit * turns + depth)
    starts = {(node, "-") for node in graph if node[0] == p}
    far = nx.multi_source_dijkstra_path_length(turning, starts, weight="cost")
    total = min(cost for ((point, _), _), cost in far.items() if point == q)
    return total // unit**2, total // unit % unit, total % unit


def measured(run, top):
    """Length, bends and length times depth of a run."""
    steps = [(a, b, sum(abs(i - j) for i, j in zip(a, b, strict=True))) for a, b in pairwise(run)]
    level = [(top - a[2]) * step for a, b, step in steps if a[2] == b[2]]
    return sum(step for _, _, step in steps), max(len(run) - 2, 0), sum(level)


def assert_walkable(graph, run):
    """Each unit step of a run goes along a square that joins the one before, never through a mere point."""
    across = nx.Graph(edge for edge in graph.edges if not graph.edges[edge]["weight"])
    across.add_nodes_from(graph)
    here = {node for node in graph if node[0] == run[0]}
    for point in lattice(run)[1:]:
        beside = {near for node in here for near in nx.node_connected_component(across, node)}
        here = {near for node in beside for near in graph[node] if near[0] == point}
        assert here, f"no step to {point}"


def lattice(run):
    """The lattice points of a run that is parallel to the axes throughout."""
    points = [run[0]]
    for goal in run[1:]:
        (axis,) = (axis for axis in range(3) if points[-1][axis] != goal[axis])
        while points[-1] != goal:
            step = 1 if goal[axis] > points[-1][axis] else -1
            points.append(tuple(at + step * (axis == other) for other, at in enumerate(points[-1])))
    return points


# --- Random rooms ---------------------------------------------------------------------------------------


def spans(most):
    """Where something begins and ends within 0..most, with an extent."""
    return st.tuples(st.integers(0, most), st.integers(0, most)).filter(lambda s: s[0] != s[1]).map(sorted)


def solids(size):
    return st.tuples(*map(spans, size)).map(lambda s: Box(*s[0], *s[1], *s[2]))


def flats(size, axes=(0, 1)):
    """Flat boxes across x or y, if not told otherwise: partitions, door leaves, windows."""
    return st.tuples(solids(size), st.sampled_from(axes)).map(lambda drawn: flattened(*drawn))


def flattened(solid, axis):
    bounds = list(solid)
    bounds[2 * axis + 1] = bounds[2 * axis]
    return Box(*bounds)


def shell(size):
    width, depth, height = size
    return (
        Box(0, 0, 0, depth, 0, height),
        Box(width, width, 0, depth, 0, height),
        Box(0, width, 0, 0, 0, height),
        Box(0, width, depth, depth, 0, height),
    )


@st.composite
def rooms(draw, points=6):
    """Faces, taken boxes and points of a small room: shell, partitions anywhere, cabinets, doors, windows."""
    size = draw(st.tuples(st.integers(2, 7), st.integers(2, 5), st.integers(1, 6)))
    faces = shell(size) + tuple(draw(st.lists(flats(size), max_size=3)))
    taken = tuple(draw(st.lists(solids(size) | flats(size), max_size=8)))
    on_walls = sorted(
        {corner for face in faces for square in unit_squares(face) for corner in corners_of(square)}
    )
    anywhere = st.tuples(*(st.integers(0, extent) for extent in size))
    places = draw(st.lists(st.sampled_from(on_walls) | anywhere, min_size=2, max_size=points))
    return faces, taken, places


@settings(max_examples=150, deadline=None)
@given(rooms())
def test_lengths_are_those_of_a_walk(room):
    # The grid-free search finds exactly the lengths of a walk along every unit square; both ways the same.
    faces, taken, points = room
    lengths = Raceway(faces, taken).lengths(points)
    assert lengths == walked(walk(faces, taken), points)
    assert lengths == [list(column) for column in zip(*lengths, strict=True)]


@settings(max_examples=60, deadline=None)
@given(rooms(points=3))
def test_paths_are_the_best_runs_of_a_walk(room):
    # A path is as long as the matrix says, stays on usable wall, and no least run has fewer bends, or with
    # as few lies higher.
    faces, taken, points = room
    raceway, graph = Raceway(faces, taken), walk(faces, taken)
    for p, row in zip(points, raceway.lengths(points), strict=True):
        for q, length in zip(points, row, strict=True):
            run = raceway.path(p, q)
            assert run == raceway.path(q, p)[::-1]
            if length is None:
                assert run == ()
                continue
            assert (run[0], run[-1]) == (p, q)
            assert_walkable(graph, run)
            if p != q:
                found = measured(run, max(point[2] for point, _ in graph))
                assert found == best(graph, p, q)
                assert found[0] == length


@settings(max_examples=100, deadline=None)
@given(rooms())
def test_free_is_the_usable_wall_without_overlap(room):
    # Unit square by unit square, the usable rectangles hold each usable square once and nothing else.
    faces, taken, _ = room
    free = Raceway(faces, taken).free
    assert sorted(square for box in free for square in unit_squares(box)) == squares(faces, taken)
    assert list(free) == sorted(free)
    assert free == Raceway(faces[::-1], taken[::-1]).free


@settings(max_examples=100, deadline=None)
@given(rooms(), flats((7, 5, 6), axes=(0, 1, 2)))
def test_patches_are_where_a_face_meets_usable_wall(room, face):
    # Unit by unit: rectangles are the usable squares in the face; lines (with the edges of the rectangles)
    # are the edges in the face of usable squares that stand across it.
    faces, taken, _ = room
    usable = squares(faces, taken)
    patches = Raceway(faces, taken).patches(face)
    areas = [patch for patch in patches if extents(patch) == 2]
    lines = [patch for patch in patches if extents(patch) == 1]
    assert len(areas) + len(lines) == len(patches)

    in_face = [square for square in usable if covers(face, square)]
    assert sorted(square for area in areas for square in unit_squares(area)) == in_face

    (axis,) = (axis for axis in range(3) if face.span(axis)[0] == face.span(axis)[1])
    across = [square for square in usable if square.span(axis)[0] != square.span(axis)[1]]
    meeting = {edge for square in across for edge in edges_of(square) if all(map(face.holds, edge))}
    of_lines = [edge for line in lines for edge in pairwise(lattice((line[0::2], line[1::2])))]
    assert len(of_lines) == len(set(of_lines))
    assert set(of_lines) <= meeting
    assert meeting <= set(of_lines) | {edge for square in in_face for edge in edges_of(square)}


@settings(max_examples=100, deadline=None)
@given(rooms(), flats((7, 5, 6), axes=(0, 1, 2)))
def test_patches_are_few(room, face):
    # No patch lies within another, and no two make up one larger box.
    faces, taken, _ = room
    for one, other in permutations(Raceway(faces, taken).patches(face), 2):
        assert not one.contains(other)
        if extents(one) == extents(other) == extents(one.hull(other)):
            assert measure(one.hull(other)) > measure(one) + measure(other)


def extents(box):
    return sum(low < high for low, high in map(box.span, range(3)))


def measure(box):
    """Length of a line, area of a rectangle."""
    return prod(high - low for low, high in map(box.span, range(3)) if low < high)


# --- Cases worked out by hand, in a room 8 m long, 2.4 m wide and 2 m high --------------------------------

LENGTH, WIDTH, HEIGHT = 8000, 2400, 2000
FRONT, REAR, LEFT, RIGHT = shell((LENGTH, WIDTH, HEIGHT))


def test_a_door_as_high_as_the_wall_sends_the_run_round_the_room():
    # Nothing crosses a doorway: from one side of it to the other the run goes round the whole room, without
    # either of the ways over or under the door.
    door = Box(3000, 3700, 0, 0, 0, HEIGHT)
    raceway = Raceway((FRONT, REAR, LEFT, RIGHT), (door,))
    p, q = (2900, 0, 1000), (3800, 0, 1000)
    assert raceway.lengths([p, q])[0][1] == 2900 + WIDTH + LENGTH + WIDTH + 4200
    assert Raceway((LEFT,), (door,)).lengths([p, q])[0][1] is None
    assert Raceway((LEFT,), (door,)).path(p, q) == ()


def test_a_door_below_the_ceiling_leaves_the_way_over_it():
    # The run follows the door's head, whose edge is usable.
    door = Box(3000, 3700, 0, 0, 0, 1900)
    raceway = Raceway((LEFT,), (door,))
    p, q = (2900, 0, 1000), (3800, 0, 1000)
    assert raceway.lengths([p, q])[0][1] == 900 + 2 * 900
    run = raceway.path(p, q)
    assert measured(run, HEIGHT)[0] == 2700
    assert max(z for _, _, z in run) == 1900


def test_a_window_is_passed_below_or_above_and_above_where_both_are_as_long():
    # From 800 mm up, below is shorter; from the middle of the window both ways are equal and the higher one
    # is taken, as raceway shows least at the ceiling.
    window = Box(3000, 4000, 0, 0, 700, 1300)
    raceway = Raceway((LEFT,), (window,))
    assert raceway.path((2500, 0, 800), (4500, 0, 800)) == (
        (2500, 0, 800),
        (2500, 0, 700),
        (4500, 0, 700),
        (4500, 0, 800),
    )
    assert raceway.lengths([(2500, 0, 800), (4500, 0, 800)])[0][1] == 2200
    assert {z for _, _, z in raceway.path((2500, 0, 1000), (4500, 0, 1000))} == {1000, 1300}


def test_a_run_is_the_same_both_ways_where_two_are_as_good():
    # Over two panels that overlap, rise, level, rise and level, rise, level both have two bends, and 600 mm
    # run 1800 mm below the top just as 1800 mm run 600 mm below it. From p the first goes on to lesser
    # coordinates, from q it would be the other.
    raceway = Raceway((Box(0, 1200, 0, 0, 0, 1200), Box(600, 1800, 0, 0, 600, 1800)), ())
    p, q = (0, 0, 0), (1800, 0, 1800)
    assert raceway.path(p, q) == (p, (0, 0, 1200), (1800, 0, 1200), q)
    assert raceway.path(q, p) == raceway.path(p, q)[::-1]


def test_a_rising_run_rises_first():
    # One bend either way: the level part runs along the ceiling edge, not along the floor.
    run = Raceway((LEFT,), ()).path((1000, 0, 0), (3000, 0, HEIGHT))
    assert run == ((1000, 0, 0), (1000, 0, HEIGHT), (3000, 0, HEIGHT))


def test_a_change_of_level_falls_into_the_corner_of_the_room():
    # Under a cupboard the run cannot rise yet, over a counter it must have risen. Turning from one wall to
    # the next is a bend anyhow, so rising just there saves one.
    cupboard, counter = Box(600, 2000, 0, 300, 800, HEIGHT), Box(0, 500, 600, 2000, 0, 1200)
    run = Raceway((LEFT, FRONT), (cupboard, counter)).path((1000, 0, 500), (0, 1000, 1500))
    assert run == ((1000, 0, 500), (0, 0, 500), (0, 0, 1500), (0, 1000, 1500))


def test_a_plain_end_joins_the_wall_it_stands_on():
    # A wardrobe stands against the wall, its end is plain: a run goes from the end to the wall beside it.
    # The wardrobe is drawn back from its end by 1 mm, since a solid takes its own sides.
    end = Box(1600, 1600, 0, 500, 0, HEIGHT)
    p, beside, before = (1600, 400, 1000), (2600, 0, 1500), (500, 0, 1000)
    raceway = Raceway((LEFT, end), (Box(1000, 1599, 0, 500, 0, HEIGHT),))
    assert raceway.lengths([p, beside, before])[0] == [0, 400 + 1000 + 500, None]
    assert raceway.path(p, beside) == (p, (1600, 400, 1500), (1600, 0, 1500), beside)
    own = Raceway((LEFT, end), (Box(1000, 1600, 0, 500, 0, HEIGHT),))
    assert own.lengths([p]) == [[None]]


def test_a_run_turns_round_the_outer_corners_of_a_partition():
    # A partition 40 mm thick reaches 1500 mm into the room: from one side to the other the run goes round
    # its end, since the wall behind it is taken.
    near, far = Box(5000, 5000, 0, 1500, 0, HEIGHT), Box(5040, 5040, 0, 1500, 0, HEIGHT)
    end, behind = Box(5000, 5040, 1500, 1500, 0, HEIGHT), Box(5000, 5040, 0, 0, 0, HEIGHT)
    raceway = Raceway((LEFT, near, far, end), (behind,))
    p, q = (4500, 0, 1200), (5540, 0, 1200)
    assert raceway.lengths([p, q])[0][1] == 500 + 1500 + 40 + 1500 + 500
    assert raceway.path(p, q) == (
        p,
        (5000, 0, 1200),
        (5000, 1500, 1200),
        (5040, 1500, 1200),
        (5040, 0, 1200),
        q,
    )


def test_an_island_is_reached_by_nothing():
    # A column in the room shares no edge with a wall; its own sides are joined.
    column = (Box(4000, 4000, 1200, 1300, 0, HEIGHT), Box(4000, 4100, 1200, 1200, 0, HEIGHT))
    raceway = Raceway((LEFT, RIGHT, *column), ())
    assert raceway.lengths([(4000, 1300, 0), (4100, 1200, 0), (4000, 0, 0)]) == [
        [0, 200, None],
        [200, 0, None],
        [None, None, 0],
    ]


def test_no_run_squeezes_between_two_things_that_touch():
    # Neither up the seam of two cabinets side by side, nor through the point where a counter's corner meets
    # an overhead cabinet's.
    seam = Raceway((LEFT,), (Box(0, 4000, 0, 600, 500, 1500), Box(4000, LENGTH, 0, 600, 500, 1500)))
    assert seam.lengths([(4000, 0, 0), (4000, 0, HEIGHT)])[0][1] is None
    point = Raceway((LEFT,), (Box(0, 4000, 0, 600, 0, 900), Box(4000, LENGTH, 0, 300, 900, HEIGHT)))
    assert point.lengths([(3000, 0, 1000), (5000, 0, 800)])[0][1] is None


def test_what_stands_off_the_wall_takes_nothing_of_it():
    # A cabinet a millimetre off the wall's plane, or a shelf board without thickness, leaves the wall whole.
    near, shelf = Box(1000, 2000, 1, 600, 0, 900), Box(3000, 4000, 0, 600, 900, 900)
    assert Raceway((LEFT,), (near, shelf)).free == (LEFT,)


def test_a_cabinets_side_meets_the_wall_beside_it_in_a_line():
    # A cable comes through the cabinet's side close to the wall and starts on that line, below the window.
    cabinet, window = Box(1000, 1600, 0, 600, 0, 900), Box(1500, 3000, 0, 0, 700, 1300)
    raceway = Raceway((LEFT,), (cabinet, window))
    assert raceway.patches(Box(1600, 1600, 0, 600, 0, 900)) == (Box(1600, 1600, 0, 0, 0, 700),)
    # Its top meets the wall above it in a line, its back is all taken.
    assert raceway.patches(Box(1000, 1600, 0, 600, 900, 900)) == (Box(1000, 1500, 0, 0, 900, 900),)
    assert raceway.patches(Box(1000, 1600, 0, 0, 0, 900)) == ()


def test_a_line_meets_the_wall_it_lies_on():
    # Where a passage between two rooms is a mere line, it is still found on the second room's wall.
    line = Box(0, 0, 0, 0, 300, 3000)
    assert Raceway((LEFT, FRONT), ()).patches(line) == (Box(0, 0, 0, 0, 300, HEIGHT),)


def test_points_off_the_wall_reach_nothing():
    # In the room's middle, behind a cabinet, or where there is no wall at all; not even themselves.
    raceway = Raceway((LEFT,), (Box(1000, 2000, 0, 600, 0, 900),))
    off = [(4000, 1200, 500), (1500, 0, 500), (-1, 0, 0)]
    assert raceway.lengths([*off, (0, 0, 0)]) == [[None] * 4] * 3 + [[None] * 3 + [0]]
    assert [raceway.path(point, point) for point in off] == [()] * 3
    assert raceway.path((0, 0, 0), (0, 0, 0)) == ((0, 0, 0),)
    assert Raceway((), ()).lengths(off) == [[None] * 3] * 3
    assert Raceway((), ()).patches(LEFT) == ()
