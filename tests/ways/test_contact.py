"""Where two spaces touch: shared faces within a wall's thickness, and the sides of one nested in another."""

from itertools import permutations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drawcord.coach.box import Box
from drawcord.coach.nesting import nested
from drawcord.ways.contact import LEAST, clear, mouths, slabs
from drawcord.ways.ways import explore
from drawcord.words.faults import BadInput
from sketch import coach_of, rig_data, shop

A = Box(1000, 2000, 50, 650, 0, 2000)
MARGIN = 20  # mm: the working room that tests/sketch.py states


def entry(box, kind="cabinet", **keys):
    """A space with exactly this box."""
    x0, x1, y0, y1, z0, z1 = box
    place = {"from front": [x0, x1], "left": [y0 - 50, y1 - 50], "up": [z0, z1]}
    return {"kind": kind, **place, **keys}


def coach(boxes, *, touching=None, of=None, **sections):
    """A coach of cabinets with these boxes, or of whole entries."""
    spaces = {name: entry(value) if isinstance(value, Box) else dict(value) for name, value in boxes.items()}
    return coach_of(rig_data(spaces, touching=touching or {}, **sections), of=of)


def slabs_of(made, first="a", second="b"):
    return list(slabs(made.spaces[first], made.spaces[second], made))


# --- Shared faces ---


@pytest.mark.parametrize(
    ("other", "axis", "slab"),
    [
        # Flush, and a wall apart, along every axis: the slab is what lies between the faces.
        (Box(2000, 2500, 300, 900, 500, 3000), 0, Box(2000, 2000, 300, 650, 500, 2000)),
        (Box(2075, 2500, 50, 650, 0, 2000), 0, Box(2000, 2075, 50, 650, 0, 2000)),
        (Box(500, 980, 50, 650, 0, 2000), 0, Box(980, 1000, 50, 650, 0, 2000)),
        (Box(1500, 2500, 700, 900, 0, 900), 1, Box(1500, 2000, 650, 700, 0, 900)),
        # A floor apart: 60 mm here.
        (Box(1000, 1500, 50, 650, -700, -60), 2, Box(1000, 1500, 50, 650, -60, 0)),
    ],
)
def test_faces_within_a_walls_or_the_floors_thickness_touch(other, axis, slab):
    high = {"outside": {"ceiling": 3000, "roof": 3060}}
    assert slabs_of(coach({"a": A, "b": other}, **high)) == [(axis, slab)]


@pytest.mark.parametrize(
    "other",
    [
        Box(2076, 2500, 50, 650, 0, 2000),  # further apart than a wall is thick
        Box(1000, 1500, 726, 900, 0, 2000),
        Box(1000, 1500, 50, 650, -700, -61),  # further below than the floor is thick
        Box(2000, 2500, 650, 900, 0, 2000),  # in an edge
        Box(2050, 2500, 700, 900, 0, 2000),  # across a corner
        Box(2000, 2500, 650, 900, -700, -60),
    ],
)
def test_what_is_further_apart_or_meets_at_a_corner_does_not_touch(other):
    assert slabs_of(coach({"a": A, "b": other})) == []


@pytest.mark.parametrize(("tolerance", "touches"), [(119, False), (120, True)])
@pytest.mark.parametrize("key", ["a~b", "b~a"])
def test_a_tolerance_stated_for_a_pair_holds_for_it_alone(tolerance, touches, key):
    boxes = {"a": A, "b": Box(2120, 2500, 50, 650, 0, 2000), "c": Box(1000, 2000, 770, 900, 0, 2000)}
    made = coach(boxes, touching={key: tolerance})
    assert bool(slabs_of(made)) == touches
    assert not slabs_of(made, "a", "c")


def test_a_tolerance_of_nothing_parts_two_that_would_share_a_wall():
    boxes = {"a": A, "b": Box(2010, 2500, 50, 650, 0, 2000)}
    assert slabs_of(coach(boxes))
    assert not slabs_of(coach(boxes, touching={"a~b": 0}))


def test_the_shop_says_how_thick_a_wall_may_be():
    boxes = {"a": A, "b": Box(2050, 2500, 50, 650, 0, 2000)}
    assert slabs_of(coach(boxes, of=shop(contact=50)))
    assert not slabs_of(coach(boxes, of=shop(contact=49)))


@pytest.mark.parametrize(
    ("door_a", "door_b", "touches"),
    [
        (None, None, True),
        ("aft", None, False),  # a's front looks at b
        (None, "forward", False),  # b's front looks at a
        ("forward", "aft", True),  # both open elsewhere
        ("right", "up", True),
    ],
)
def test_a_face_with_a_door_is_no_wall(door_a, door_b, touches):
    b = Box(2020, 2500, 50, 650, 0, 2000)
    spaces = {
        "a": entry(A, **({"door": door_a} if door_a else {})),
        "b": entry(b, **({"door": door_b} if door_b else {})),
    }
    assert bool(slabs_of(coach(spaces))) == touches


# --- One nested in another ---


def test_a_nested_space_is_left_by_its_own_side_faces():
    inner = Box(1300, 1600, 200, 400, 500, 900)
    found = slabs_of(coach({"a": A, "b": inner}))
    assert found == [
        (0, Box(1300, 1300, 200, 400, 500, 900)),
        (0, Box(1600, 1600, 200, 400, 500, 900)),
        (1, Box(1300, 1600, 200, 200, 500, 900)),
        (1, Box(1300, 1600, 400, 400, 500, 900)),
        (2, Box(1300, 1600, 200, 400, 500, 500)),
        (2, Box(1300, 1600, 200, 400, 900, 900)),
    ]


def test_a_face_of_a_nested_space_that_lies_in_the_outers_wall_leads_nowhere_within_it():
    inner = Box(1000, 1300, 50, 200, 0, 500)
    assert dict(slabs_of(coach({"a": A, "b": inner}))) == {
        0: Box(1300, 1300, 50, 200, 0, 500),
        1: Box(1000, 1300, 200, 200, 0, 500),
        2: Box(1000, 1300, 50, 200, 500, 500),
    }


def test_the_front_of_a_nested_space_is_no_wall_either():
    inner = entry(Box(1300, 1600, 200, 400, 500, 900), door="up")
    assert [slab.span(2) for axis, slab in slabs_of(coach({"a": A, "b": inner})) if axis == 2] == [(500, 500)]


def test_a_stack_leaves_each_cabinet_it_runs_through_by_its_sides_there():
    stack = entry(Box(1300, 1400, 200, 300, -700, 2000), "vent stack")
    low, high = Box(1000, 2000, 50, 650, 0, 900), Box(1000, 2000, 50, 650, 950, 2000)
    made = coach({"low": low, "high": high, "stack": stack})
    for name, span in (("low", (0, 900)), ("high", (950, 2000))):
        found = slabs_of(made, name, "stack")
        assert len(found) == 4
        assert all(slab.span(2) == span for _, slab in found)


# --- What is clear of a shared face ---


def test_a_third_space_in_the_gap_takes_its_footprint_away():
    # Between a and b, 60 mm apart, a hollow wall stands over the lower part.
    boxes = {"a": A, "b": Box(2060, 2500, 50, 650, 0, 2000), "c": Box(2000, 2060, 50, 650, 0, 1200)}
    made = explore(coach(boxes))
    ((near, far),) = made.passages["a~b"].mouths
    assert near == Box(2000, 2000, 70, 630, 1220, 1980)
    assert far == Box(2060, 2060, 70, 630, 1220, 1980)


@pytest.mark.parametrize(("top", "passes"), [(1970, True), (1971, False), (2000, False)])
def test_too_little_left_beside_a_third_space_is_no_passage(top, passes):
    # No hole is bored into a strip narrower than 30 mm.
    boxes = {"a": A, "b": Box(2060, 2500, 50, 650, 0, 2000), "c": Box(2000, 2060, 50, 650, 0, top)}
    assert ("a~b" in explore(coach(boxes)).passages) == passes
    assert LEAST == 30


def test_a_third_space_that_reaches_into_the_gap_from_the_side_counts_and_one_beside_it_does_not():
    b = Box(2060, 2500, 50, 650, 0, 2000)
    beside = {"a": A, "b": b, "c": Box(1500, 2500, 650, 900, 0, 2000)}
    ((near, _),) = explore(coach(beside)).passages["a~b"].mouths
    assert near == Box(2000, 2000, 70, 630, 20, 1980)


@settings(deadline=None, max_examples=60)
@given(
    st.lists(
        st.tuples(*[st.integers(0, 6)] * 6).map(
            lambda v: Box(*(100 * u for u in (*sorted(v[0:2]), *sorted(v[2:4]), *sorted(v[4:6]))))
        ),
        max_size=5,
    ),
    st.lists(
        st.tuples(*[st.integers(0, 6)] * 6).map(
            lambda v: Box(*(100 * u for u in (*sorted(v[0:2]), *sorted(v[2:4]), *sorted(v[4:6]))))
        ),
        max_size=3,
    ),
)
def test_what_is_clear_is_what_is_clear_cell_by_cell(avoid, filled):
    # Two cabinets of 300 mm, 50 mm apart along x, seen in cells of 100 mm across the gap. A cell is clear if
    # nothing that a hole has to avoid reaches into the gap there and nothing fills either cabinet behind it.
    spaces = {
        "a": entry(Box(100, 300, 50, 650, 0, 600)),
        "b": entry(Box(350, 600, 50, 650, 0, 600)),
    }
    moved = [box.shift(50, 50, 0) for box in avoid]
    contents = [box.shift(50, 50, 0) for box in filled if box.volume]
    for space, box in zip(
        spaces.values(), (Box(100, 300, 50, 650, 0, 600), Box(350, 600, 50, 650, 0, 600)), strict=True
    ):
        space["filled"] = [
            {"from front": [c.x0, c.x1], "left": [c.y0 - 50, c.y1 - 50], "up": [c.z0, c.z1]}
            for c in contents
            if c.overlap(box)
        ]
    made = coach(spaces)
    a, b = made.spaces["a"], made.spaces["b"]
    ((axis, slab),) = slabs(a, b, made)
    parts = clear(a, b, slab, axis, moved)
    assert all(part.span(0) == (300, 350) for part in parts)
    for y in range(50, 650, 100):
        for z in range(0, 600, 100):
            gap = Box(299, 351, y, y + 100, z, z + 100)
            behind = (Box(299, 300, y, y + 100, z, z + 100), Box(350, 351, y, y + 100, z, z + 100))
            free = not any(box.overlap(gap) for box in moved)
            free &= not any(box.overlap(one) for box in contents for one in behind)
            cell = Box(300, 350, y, y + 100, z, z + 100)
            covered = sum(common.volume for part in parts if (common := part.overlap(cell)))
            assert covered == (cell.volume if free else 0), (y, z)


def test_mouths_keep_off_the_corners_and_lie_on_the_two_faces():
    made = coach({"a": A, "b": Box(2050, 2500, 50, 650, 0, 2000)})
    a, b = made.spaces["a"], made.spaces["b"]
    part = Box(2000, 2050, 100, 500, 0, 900)
    assert mouths(a, b, part, 0, MARGIN) == (Box(2000, 2000, 120, 480, 20, 880), Box(2050, 2050, 120, 480, 20, 880))
    assert mouths(b, a, part, 0, MARGIN) == (Box(2050, 2050, 120, 480, 20, 880), Box(2000, 2000, 120, 480, 20, 880))


def test_a_narrow_strip_gives_a_mouth_in_its_middle_and_a_narrower_one_none():
    made = coach({"a": A, "b": Box(2050, 2500, 50, 650, 0, 2000)})
    a, b = made.spaces["a"], made.spaces["b"]
    near, _ = mouths(a, b, Box(2000, 2050, 100, 130, 0, 900), 0, MARGIN)
    assert near.span(1) == (115, 115)
    assert mouths(a, b, Box(2000, 2050, 100, 129, 0, 900), 0, MARGIN) is None


# --- Symmetry ---

# Steps of 70 mm are within a wall's thickness, of 140 mm beyond it.
spans = st.tuples(st.integers(0, 9), st.integers(1, 4)).map(lambda v: (70 * v[0], 70 * (v[0] + v[1])))
solids = st.tuples(spans, spans, spans).map(lambda v: Box(*v[0], *v[1], *v[2]).shift(500, 50, 0))
NAMES = ("aa", "bb", "cc")


@settings(deadline=None, max_examples=80)
@given(
    st.tuples(solids, solids, solids),
    st.tuples(*[st.sampled_from(["cabinet", "chase", "void", "bay"])] * 3),
    st.tuples(*[st.sampled_from([None, "forward", "aft", "left", "right", "up", "down"])] * 3),
)
def test_the_names_of_spaces_never_change_where_they_touch(shapes, kinds, doors):
    # The same three spaces under all six namings: the mouths belong to the same spaces at the same places.
    seen = []
    for naming in permutations(NAMES):
        spaces = {
            name: entry(box, kind, **({"door": door} if door else {}))
            for name, box, kind, door in zip(naming, shapes, kinds, doors, strict=True)
        }
        try:
            found = explore(coach(spaces)).passages
        except BadInput:
            assume(False)
        role = {name: place for place, name in enumerate(naming)}
        seen.append(
            {
                frozenset({(role[p.a], near), (role[p.b], far)})
                for p in found.values()
                if p.hole != "roof"
                for near, far in p.mouths
            }
        )
    assert all(one == seen[0] for one in seen)


@settings(deadline=None, max_examples=200)
@given(solids, solids)
def test_two_boxes_touch_if_and_only_if_some_straight_line_across_a_thin_gap_joins_them(one, two):
    # The oracle: move one box along each axis by every step up to the thickness of a wall (75 mm here, in
    # steps of 70) or of the floor (60 mm: none), and see whether it comes to overlap in area.
    assume(not one.overlap(two))
    made = coach({"a": one, "b": two})
    found = {axis for axis, _ in slabs_of(made)}
    expected = set()
    for axis, most in ((0, 75), (1, 75), (2, 60)):
        for sign in (-1, 1):
            by = [0, 0, 0]
            by[axis] = sign * (most + 1)
            if two.shift(*by).overlap(one):
                expected.add(axis)
    assert found == expected
    assert not nested("cabinet", one, two)
