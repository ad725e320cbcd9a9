"""Raceway on the walls of a living area, against a walk over unit squares of wall."""

from itertools import pairwise

import networkx as nx
from drawcord.coach.box import Box
from drawcord.ways.raceway import Raceway
from hypothesis import given, settings
from hypothesis import strategies as st

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
    return [
        (a, b) for a in corners_of(square) for b in corners_of(square) if a < b and sum(b) - sum(a) == 1
    ]


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


def flats(size):
    """Flat upright boxes across x or y: partitions, door leaves, windows."""

    def flat(drawn):
        solid, across_x = drawn
        flat_x, flat_y = (solid.x0, solid.x0), (solid.y0, solid.y0)
        return Box(*flat_x, *solid[2:]) if across_x else Box(*solid[:2], *flat_y, *solid[4:])

    return st.tuples(solids(size), st.booleans()).map(flat)


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
    on_walls = sorted({corner for face in faces for square in unit_squares(face) for corner in corners_of(square)})
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


@settings(max_examples=200, deadline=None)
@given(rooms())
def test_free_is_the_usable_wall_without_overlap(room):
    # Unit square by unit square, the usable rectangles hold each usable square once and nothing else.
    faces, taken, _ = room
    free = Raceway(faces, taken).free
    assert sorted(square for box in free for square in unit_squares(box)) == squares(faces, taken)
    assert list(free) == sorted(free)
    assert free == Raceway(faces[::-1], taken[::-1]).free
