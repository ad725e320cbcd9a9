"""The faces of a living area that raceway may run on."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.coach.box import Box
from drawcord.files.home import layouts
from drawcord.files.load import load
from drawcord.ways.walls import BACKED, PROUD, faces
from drawcord.ways.ways import explore
from sketch import coach_of, rig_data

ROOM = {"kind": "room", "from front": "50..5950"}
FRONT, REAR, LEFT, RIGHT = 50, 5950, 50, 2450  # the insides of the shell's walls
RIG_FILES = sorted(layouts().glob("*/rig.yaml"))


def place(box):
    """A place with exactly this box."""
    x0, x1, y0, y1, z0, z1 = box
    return {"from front": [x0, x1], "left": [y0 - 50, y1 - 50], "up": [z0, z1]}


def entry(box, kind="cabinet", **keys):
    return {"kind": kind, **place(box), **keys}


def walls(spaces=None, room=None, **sections):
    """The faces of the saloon."""
    made = coach_of(rig_data({"saloon": room or ROOM, **(spaces or {})}, **sections))
    return faces(made.spaces["saloon"], made)


def on(found, point):
    """Whether a point lies well within one of the faces."""
    return any(all(box.span(axis)[0] <= point[axis] <= box.span(axis)[1] for axis in range(3)) for box in found)


# --- What counts as wall ---


def test_an_empty_room_has_the_four_walls_of_the_shell():
    assert walls() == (
        Box(FRONT, FRONT, LEFT, RIGHT, 0, 2000),
        Box(FRONT, REAR, LEFT, LEFT, 0, 2000),
        Box(FRONT, REAR, RIGHT, RIGHT, 0, 2000),
        Box(REAR, REAR, LEFT, RIGHT, 0, 2000),
    )


def test_a_side_that_is_open_to_another_room_is_no_wall():
    found = walls(room={"kind": "room", "from front": "50..3000"})
    assert Box(3000, 3000, LEFT, RIGHT, 0, 2000) not in found
    assert len(found) == 3


@pytest.mark.parametrize("gap", [0, BACKED])
def test_a_side_a_little_off_the_shell_still_is_its_wall_one_further_off_is_not(gap):
    assert len(walls(room={"kind": "room", "from front": [FRONT + gap, 5950]})) == 4
    assert len(walls(room={"kind": "room", "from front": [FRONT + BACKED + 1, 5950]})) == 3


@pytest.mark.parametrize("kind", ["panel wall", "chase", "void", "vent stack", "appliance vent"])
def test_the_sides_of_what_is_fixed_and_hollow_are_walls(kind):
    # It stands in the middle of the room, so that all four sides look into it; top and bottom never count.
    found = walls({"hollow": entry(Box(2000, 2100, 1000, 1500, 0, 1800), kind)})
    assert set(found) >= {
        Box(2000, 2000, 1000, 1500, 0, 1800),
        Box(2100, 2100, 1000, 1500, 0, 1800),
        Box(2000, 2100, 1000, 1000, 0, 1800),
        Box(2000, 2100, 1500, 1500, 0, 1800),
    }
    assert len(found) == 8


@pytest.mark.parametrize("kind", ["cabinet", "bay", "gas locker", "underfloor"])
def test_the_sides_of_cabinets_are_walls_only_where_they_are_marked_plain(kind):
    box = Box(2000, 2600, 1000, 1500, 0, 1800)
    assert len(walls({"it": entry(box, kind)})) == 4
    found = walls({"it": entry(box, kind, plain=["forward", "right", "up"])})
    assert set(found) - set(walls()) == {
        Box(2000, 2000, 1000, 1500, 0, 1800),
        Box(2000, 2600, 1500, 1500, 0, 1800),
    }


def test_the_sides_of_a_partition_are_walls_on_both_sides():
    found = walls(partitions={"screen": place(Box(2000, 2010, 500, 1500, 0, 1800))})
    assert set(found) >= {Box(2000, 2000, 500, 1500, 0, 1800), Box(2010, 2010, 500, 1500, 0, 1800)}


def test_a_partition_behind_the_side_of_a_room_makes_wall_of_the_part_that_it_backs():
    half = {"kind": "room", "from front": "50..3000"}
    found = walls(room=half, partitions={"screen": place(Box(3000, 3010, 500, 1500, 0, 1800))})
    assert Box(3000, 3000, 500, 1500, 0, 1800) in found
    # Further behind than a wall is thick, it backs nothing.
    far = place(Box(3000 + BACKED + 1, 3200, 500, 1500, 0, 1800))
    assert len(walls(room=half, partitions={"screen": far})) == 3


def test_what_moves_is_no_wall_and_takes_what_it_sweeps():
    # A slide in the left wall, with a hollow wall on it.
    slide = {
        "kind": "slide-out",
        **place(Box(2000, 4000, 50, 700, 0, 1900)),
        "travel": 600,
        "towards": "left",
        "drawn": "in",
    }
    found = walls({"fin": entry(Box(3000, 3050, 100, 600, 0, 1800), "panel wall")}, moving_parts={"slide": slide})
    sweep = Box(1960, 4040, -590, 740, -40, 1940)
    assert not any(box.overlap(sweep.grow(0)) or (box.volume == 0 and _within(box, sweep)) for box in found)
    # Before, behind and above the slide the wall stays.
    assert on(found, (1000, LEFT, 1000))
    assert on(found, (5000, LEFT, 1000))
    assert on(found, (3000, LEFT, 1970))
    assert not on(found, (3000, LEFT, 1000))


def _within(face, box):
    """Whether a flat face reaches into the open interior of a box."""
    return all(box.span(axis)[0] < face.span(axis)[1] and face.span(axis)[0] < box.span(axis)[1] for axis in range(3))


# --- What stands in the way ---


@pytest.mark.parametrize("distance", [0, PROUD - 1])
def test_what_stands_against_a_wall_or_nearly_takes_it(distance):
    found = walls({"it": entry(Box(2000, 3000, LEFT + distance, 600, 0, 900))})
    assert not on(found, (2500, LEFT, 450))
    assert on(found, (2500, LEFT, 950))
    assert on(found, (1900, LEFT, 450))


def test_what_stands_far_enough_off_leaves_room_for_raceway_behind_it():
    assert on(walls({"it": entry(Box(2000, 3000, LEFT + PROUD, 600, 0, 900))}), (2500, LEFT, 450))


@pytest.mark.parametrize("section", ["doors", "windows"])
def test_no_raceway_on_a_door_or_window(section):
    # In the wall; flush with its inside; or within its thickness, as a sketch may have it.
    for depth in ((0, 0), (-50, 0), (-40, -20)):
        box = Box(2000, 2800, 50 + depth[0], 50 + depth[1], 0, 1800)
        found = walls(**{section: {"opening": place_flat(box)}})
        assert not on(found, (2400, LEFT, 900))
        # Over it, along the edge of the ceiling, the way round is open.
        assert on(found, (2400, LEFT, 1900))
        assert on(found, (1950, LEFT, 900))


def place_flat(box):
    """A place in a wall, which may have no depth."""
    x0, x1, y0, y1, z0, z1 = box
    depth = 0 if y0 == y1 == 50 else [y0 - 50, y1 - 50]
    return {"from front": [x0, x1], "left": depth, "up": [z0, z1]}


def test_a_door_in_a_partition_takes_it_on_both_sides():
    screen = {"screen": place(Box(2000, 2010, 50, 1500, 0, 2000))}
    doors = {"way": place(Box(1990, 2020, 500, 1100, 0, 1900))}
    found = walls(partitions=screen, doors=doors)
    for x in (2000, 2010):
        assert not on(found, (x, 800, 1000))
        assert on(found, (x, 300, 1000))
        assert on(found, (x, 800, 1950))


def test_no_raceway_within_the_clearance_of_what_is_hot():
    hob = {"kind": "burner", **place(Box(3000, 3300, 100, 400, 850, 900)), "clearance": 150}
    found = walls(hazards={"hob": hob})
    assert not on(found, (3100, LEFT, 900))
    assert not on(found, (2860, LEFT, 900))
    assert on(found, (2840, LEFT, 900))
    assert on(found, (3100, LEFT, 1060))


# --- Against a slow look at every spot ---

solids = st.tuples(
    st.integers(0, 50), st.integers(1, 20), st.integers(0, 20), st.integers(1, 8), st.integers(0, 15), st.integers(1, 9)
).map(
    lambda v: Box(
        50 + 100 * v[0],
        min(50 + 100 * (v[0] + v[1]), REAR),
        50 + 100 * v[2],
        min(50 + 100 * (v[2] + v[3]), RIGHT),
        100 * v[4],
        min(100 * (v[4] + v[5]), 2000),
    )
)


@settings(deadline=None, max_examples=40)
@given(
    cabinets=st.lists(solids, max_size=3),
    hollows=st.lists(solids, max_size=2),
    windows=st.lists(
        st.tuples(st.integers(0, 50), st.integers(1, 15), st.integers(0, 10), st.integers(1, 8)), max_size=2
    ),
)
def test_on_the_shells_walls_every_spot_is_wall_unless_something_stands_there(cabinets, hollows, windows):
    # Spots in the middle of every 100 mm of the left wall: wall if no space begins within 30 mm of it there
    # and there is no window.
    boxes: list[Box] = []
    spaces = {}
    for kind, box in [*(("cabinet", box) for box in cabinets), *(("chase", box) for box in hollows)]:
        if not any(box.overlap(other) for other in boxes):
            boxes.append(box)
            spaces[f"s{len(boxes)}"] = entry(box, kind)
    panes = {
        f"w{number}": {
            "from front": [50 + 100 * x, min(50 + 100 * (x + long), REAR)],
            "left": 0,
            "up": [100 * z, 100 * (z + high)],
        }
        for number, (x, long, z, high) in enumerate(windows)
    }
    found = walls(spaces, windows=panes)
    for x in range(100, 5900, 100):
        for z in range(50, 2000, 100):
            blocked = any(box.x0 < x < box.x1 and box.z0 < z < box.z1 and box.y0 < LEFT + PROUD for box in boxes)
            glazed = any(
                50 + 100 * a < x < 50 + 100 * (a + long) and 100 * b < z < 100 * (b + high)
                for a, long, b, high in windows
            )
            assert on(found, (x, LEFT, z)) == (not blocked and not glazed), (x, z)


@pytest.mark.parametrize("path", RIG_FILES, ids=lambda path: path.parent.name)
def test_on_the_demo_rigs_no_spot_of_wall_is_a_front_a_door_a_window_or_in_the_way_of_a_slide(path):
    # From coordinates alone, at the middle of every face and near its corners.
    coach = load(path).coach
    for room in (space for space in coach.spaces.values() if space.kind == "room"):
        for face in faces(room, coach):
            assert room.box.contains(face)
            for spot in spots(face):
                for part in coach.moving_parts.values():
                    assert not strictly(part.sweep, spot), (room.id, part.id, spot)
                for name, opening in (*coach.doors.items(), *coach.windows.items()):
                    assert not strictly(opening, spot), (room.id, name, spot)
                for hazard in coach.hazards.values():
                    assert not strictly(hazard.keep, spot), (room.id, hazard.id, spot)
                for space in coach.spaces.values():
                    if space.front:
                        front = space.front.face(space.box)
                        assert not inside_flat(front, spot, space.front.axis), (room.id, space.id, spot)


def spots(face):
    """Points of a flat face, none on its edges."""
    spans = [face.span(axis) for axis in range(3)]
    wide = [axis for axis in range(3) if spans[axis][0] < spans[axis][1]]
    middle = [(lo + hi) / 2 for lo, hi in spans]
    yield tuple(middle)
    for u in (0.1, 0.9):
        for v in (0.1, 0.9):
            spot = list(middle)
            for axis, share in zip(wide, (u, v), strict=True):
                lo, hi = spans[axis]
                spot[axis] = lo + share * (hi - lo)
            yield tuple(spot)


def strictly(box, point):
    """Whether a point lies in the open interior of a box, which may be flat."""
    return all(
        low < at < high or low == high == at
        for (low, high), at in zip((box.span(axis) for axis in range(3)), point, strict=True)
    )


def inside_flat(front, point, axis):
    """Whether a point lies on a front, off its edges."""
    return point[axis] == front.span(axis)[0] and all(
        front.span(other)[0] < point[other] < front.span(other)[1] for other in range(3) if other != axis
    )


# --- Through the rooms ---


def test_a_passage_from_a_cabinet_into_a_room_lies_where_raceway_can_run():
    # The cabinet's plain end looks aft into the room, its front to the right: out of its end alone.
    cabinet = entry(Box(2000, 2600, 50, 650, 0, 1800), door="right", plain=["aft"])
    passage = explore(coach_of(rig_data({"it": cabinet, "saloon": ROOM}))).passages["it~saloon"]
    for in_cabinet, in_room in passage.mouths:
        # Raceway comes by the wall or by the plain end; the hole lies there or, round a corner, just beside it.
        assert in_room.span(1) == (LEFT, LEFT) or in_room.span(0) == (2600, 2600)
        assert in_cabinet.grow(20).contains(in_room)
        assert in_cabinet.span(1) != (650, 650)


def test_without_wall_beside_it_a_cabinet_in_the_middle_of_the_room_has_no_way_out_into_it():
    island = entry(Box(2000, 2600, 1000, 1500, 0, 900))
    assert "island~saloon" not in explore(coach_of(rig_data({"island": island, "saloon": ROOM}))).passages
