"""From rig, job and shop to a coach: what is taken of each space, what is known of it, what is derived."""

import random

import pytest

from drawcord.coach.box import Box
from drawcord.coach.kinds import NATURE, SpaceKind
from drawcord.files.document import read_document
from drawcord.files.home import layouts
from sketch import CLEARANCES, coach_of, job_data, problems_of, rig_data

A = {"kind": "cabinet", "from front": "1000..2000", "left": 600, "up": "floor..ceiling"}
DEVICES = {
    "top": {"kind": "junction box", "in": "roof", "from front": 5000, "left": 900, "terminals": {"t": None}},
    "low": {
        "kind": "router",
        "in": "far",
        "from front": 5100,
        "left": 50,
        "up": 300,
        "terminals": {"t": None},
    },
}
FAR = {"kind": "cabinet", "from front": "5000..5500", "left": 600, "up": "floor..ceiling"}


def coach(spaces, job=None, **sections):
    return coach_of(rig_data(spaces, **sections), job)


def with_job(spaces, *, of_rig=None, **sections):
    """The coach of a rig with a job laid over it."""
    order = job_data(DEVICES, {"c": ("top.t", "low.t")}, **sections)
    return coach_of(rig_data({**spaces, "far": FAR}, **(of_rig or {})), order)


def taken(entry, **sections):
    return coach({"it": entry}, **sections).spaces["it"].taken


# --- What is taken of a space ---


def test_contents_are_taken_from_a_space_over_its_whole_height_unless_they_say_theirs():
    # A fridge is not a clear chase.
    filled = [
        {"from front": "1000..1300", "left": "100..600"},
        {"from front": "1500..1900", "left": 600, "up": "floor+100..900"},
    ]
    assert taken({**A, "up": "floor..1500", "filled": filled}) == (
        Box(1000, 1300, 150, 650, 0, 1500),
        Box(1500, 1900, 50, 650, 100, 900),
    )


def test_contents_that_reach_out_of_a_space_take_their_part_of_it():
    filled = [{"from front": "1900..2300", "left": "500..900"}]
    assert taken({**A, "filled": filled}) == (Box(1900, 2000, 550, 650, 0, 2000),)


def test_contents_wholly_outside_a_space_are_a_slip_of_the_pen():
    filled = [{"from front": "1900..2300", "left": 600}, {"from front": "3000..3300", "left": 600}]
    (problem,) = problems_of(rig_data({"it": {**A, "filled": filled}}))
    assert problem.path[:4] == ("spaces", "it", "filled", 1)
    assert "this part of what fills it lies outside of it" in problem.sentence


@pytest.mark.parametrize(
    ("keeps", "usable", "free"),
    [
        ("right", {"left": "80 mm"}, Box(1000, 2000, 50, 130, 0, 2000)),
        ("right", {"right": "80 mm"}, Box(1000, 2000, 570, 650, 0, 2000)),
        ("right", {"street": "80 mm"}, Box(1000, 2000, 50, 130, 0, 2000)),
        ("left", {"street": "80 mm"}, Box(1000, 2000, 570, 650, 0, 2000)),
        ("right", {"forward": "80 mm"}, Box(1000, 1080, 50, 650, 0, 2000)),
        ("right", {"aft": "80 mm"}, Box(1920, 2000, 50, 650, 0, 2000)),
        ("right", {"up": "80 mm"}, Box(1000, 2000, 50, 650, 1920, 2000)),
        ("right", {"down": "80 mm"}, Box(1000, 2000, 50, 650, 0, 80)),
        ("right", {"left": "600 mm"}, Box(1000, 2000, 50, 650, 0, 2000)),  # a strip as wide as the space
    ],
)
def test_a_strip_that_is_usable_leaves_the_rest_taken(keeps, usable, free):
    found = coach_of(rig_data({"it": {**A, "usable": usable}}, keeps=keeps)).spaces["it"]
    left = found.box.minus(found.taken)
    assert sum(part.volume for part in left) == free.volume
    assert all(free.contains(part) for part in left)


def test_two_usable_strips_are_both_usable():
    found = coach({"it": {**A, "usable": {"left": "80 mm", "aft": "100 mm"}}}).spaces["it"]
    left = sum(part.volume for part in found.box.minus(found.taken))
    assert left == (80 * 1000 + 100 * 600 - 80 * 100) * 2000


def test_a_vent_stack_is_the_void_beside_its_pipe():
    stack = {"kind": "vent stack", "from front": "1000..1200", "left": 150, "up": "bay..ceiling", "pipe": 51}
    assert taken(stack) == (Box(1075, 1126, 100, 151, -700, 2000),)


@pytest.mark.parametrize(
    ("keys", "width"),
    [({"pipe": 50}, 50 + 2 * CLEARANCES["stack cap"]), ({"pipe": 50, "cap": 120}, 120), ({"cap": 121}, 121)],
)
def test_a_stack_that_reaches_the_ceiling_has_a_cap_in_the_way_on_the_roof(keys, width):
    stack = {"kind": "vent stack", "from front": "1000..1200", "left": 200, "up": "floor..ceiling", **keys}
    cap = coach({"it": stack}).obstacles["it"]
    assert cap.box.x1 - cap.box.x0 == cap.box.y1 - cap.box.y0 == width
    assert abs((cap.box.x0 + cap.box.x1) - 2 * 1100) <= 1
    assert abs((cap.box.y0 + cap.box.y1) - 2 * 150) <= 1
    assert cap.keep == cap.box.grow(CLEARANCES["roof obstacles"]["vent"], None, 0)
    short = {**stack, "up": "floor..ceiling-1"}
    assert not coach({"it": short}).obstacles


def test_a_pipe_that_stands_aside_takes_its_cap_with_it():
    # The room for an entry is then on the other side of it.
    stack = {"kind": "vent stack", "from front": "1000..1400", "left": 200, "up": "floor..ceiling", "pipe": 50}
    made = coach({"it": {**stack, "cap": 120, "pipe at": {"from front": 1340, "left": 60}}})
    assert made.spaces["it"].taken == (Box(1315, 1365, 85, 135, 0, 2000),)
    assert made.obstacles["it"].box[:4] == (1280, 1400, 50, 170)


@pytest.mark.parametrize(
    ("keys", "why"),
    [
        ({"pipe": 50, "pipe at": {"from front": 1390, "left": 60}}, "partly outside"),
        ({"pipe": 50, "pipe at": {"from front": 1340, "left": 10}}, "partly outside"),
        ({"pipe at": {"from front": 1340, "left": 60}}, "neither a `pipe` nor a `cap`"),
        ({"pipe": 50, "pipe at": {"from front": 1340}}, "where it is across"),
    ],
)
def test_a_pipe_that_cannot_stand_there_is_refused(keys, why):
    stack = {"kind": "vent stack", "from front": "1000..1400", "left": 200, "up": "floor..ceiling", **keys}
    (problem,) = problems_of(rig_data({"it": stack}))
    assert problem.path[:3] == ("spaces", "it", "pipe at")
    assert why in problem.sentence


def test_what_lies_within_a_space_is_taken_from_it_and_not_the_other_way_round():
    spaces = {
        "big": A,
        "small": {"kind": "cabinet", "from front": "1200..1400", "left": "100..300", "up": "200..500"},
        "stack": {"kind": "vent stack", "from front": "1500..1600", "left": 100, "up": "bay..ceiling"},
    }
    found = coach(spaces).spaces
    assert found["big"].taken == (Box(1200, 1400, 150, 350, 200, 500), Box(1500, 1600, 50, 150, 0, 2000))
    assert found["small"].taken == found["stack"].taken == ()


def test_a_clearance_from_what_is_hot_is_taken_from_the_volume_of_every_space():
    # A flue of 100 mm beside the cabinet's end: the shop keeps 150 mm around it.
    flue = {
        "kind": "appliance flue",
        "from front": "2050..2150",
        "left": "200..300",
        "up": "500..1000",
    }
    found = coach({"it": A}, hazards={"flue": flue})
    assert found.hazards["flue"].keep == Box(1900, 2300, 100, 500, 350, 1150)
    assert found.spaces["it"].taken == (Box(1900, 2000, 100, 500, 350, 1150),)
    nearer = coach({"it": A}, hazards={"flue": {**flue, "clearance": 60}})
    assert nearer.spaces["it"].taken == (Box(1990, 2000, 190, 410, 440, 1060),)
    assert coach({"it": A}, hazards={"flue": {**flue, "clearance": 50}}).spaces["it"].taken == ()


@pytest.mark.parametrize(
    ("kind", "fills"),
    [
        ("tank", True),
        ("duct", True),
        ("axle", True),
        ("jack", True),
        ("step", True),
        ("framing", False),
        ("water line", False),
        ("gas line", False),
        ("wiring", False),
    ],
)
def test_tanks_ducts_and_what_travels_below_fill_a_space_lines_and_framing_bar_only_holes(kind, fills):
    thing = {"kind": kind, "from front": "1900..2300", "left": "100..300", "up": "0..500"}
    found = coach({"it": A}, obstructions={"thing": thing})
    assert found.obstructions["thing"].keep == Box(1875, 2325, 125, 375, -25, 525)
    assert found.spaces["it"].taken == ((Box(1900, 2000, 150, 350, 0, 500),) if fills else ())


def test_clearances_on_the_roof_are_the_shops_unless_the_rig_states_its_own():
    fan = {"kind": "air conditioner", "from front": "1000..1500", "left": "500..900"}
    assert coach({}, roof_obstacles={"fan": fan}).obstacles["fan"].keep[:4] == (900, 1600, 400, 1000)
    own = coach({}, roof_obstacles={"fan": {**fan, "clearance": 0}})
    assert own.obstacles["fan"].keep[:4] == (1000, 1500, 500, 900)


# --- What is known of a space ---


@pytest.mark.parametrize(
    ("entry", "known"),
    [
        ({}, ("proven", 1.0, "", "sketch")),
        ({"standing": "unproven"}, ("unproven", 0.6, "", "sketch")),  # the shop's chance
        ({"standing": "unproven", "chance": "35 %", "source": "tapped"}, ("unproven", 0.35, "", "tapped")),
        ({"standing": "blocked"}, ("blocked", 0.0, "it is blocked", "sketch")),
        ({"standing": "proven", "source": "looked in"}, ("proven", 1.0, "", "looked in")),
        ({"chance": "35 %"}, ("unproven", 0.35, "", "sketch")),  # a chance says that it is unproven
    ],
)
def test_a_space_carries_its_standing_its_chance_and_whose_word_that_is(entry, known):
    found = coach({"it": {**A, **entry}}).spaces["it"]
    assert (found.standing, found.chance, found.barred, found.source) == known


@pytest.mark.parametrize(
    ("found", "known"),
    [
        (
            {"standing": "proven", "source": "measured", "date": "2025-03-01"},
            ("proven", 1.0, "measured, 2025-03-01"),
        ),
        ({"standing": "blocked"}, ("blocked", 0.0, "job")),
        ({"chance": "80 %", "source": "mirror"}, ("unproven", 0.8, "mirror")),
        ({"standing": "unproven"}, ("unproven", 0.6, "job")),
    ],
)
def test_what_was_found_out_on_this_vehicle_outranks_the_sketch(found, known):
    rig = {"it": {**A, "standing": "unproven", "chance": "10 %", "source": "guess"}}
    space = with_job(rig, differences={"found": [{"what": "it", **found}]}).spaces["it"]
    assert (space.standing, space.chance, space.source) == known
    assert bool(space.barred) == (known[0] == "blocked")


def test_what_was_found_out_about_a_passage_is_kept_for_the_passages():
    found = [{"what": "it~far", "standing": "proven"}, {"what": "it", "standing": "proven"}]
    assert with_job({"it": A}, differences={"found": found}).found == {"far~it": ("proven", 1.0, "job")}


def test_a_space_is_barred_by_its_kind_its_movement_the_owner_or_a_block():
    slide = {
        "kind": "slide-out",
        "from front": "3000..4000",
        "left": 700,
        "up": "floor..1900",
        "travel": 500,
        "towards": "left",
        "drawn": "in",
    }
    spaces = {
        "gas": {"kind": "gas locker", "from front": "1000..1500", "right": 500},
        "pantry": {**A, "from front": "3000..3500", "up": "floor..1800"},
        "drawer": {**A, "from front": "500..900"},
        "free": A,
    }
    found = with_job(spaces, of_rig={"moving_parts": {"slide": slide}}, owner={"excludes": ["drawer", "roof"]}).spaces
    assert {name: space.barred for name, space in found.items()} == {
        "gas": "it is a gas locker",
        "pantry": "it moves with slide, or lies in its way",
        "drawer": "the owner excludes it",
        "roof": "the owner excludes it",
        "free": "",
        "far": "",
    }


# --- What is derived ---


@pytest.mark.parametrize(
    ("up", "tall"),
    [
        ("floor..ceiling", True),
        ("floor+50..ceiling-50", True),
        ("floor+51..ceiling", False),
        ("floor..ceiling-51", False),
        ("bay..roof", True),
    ],
)
def test_a_space_from_floor_to_ceiling_is_recognised_by_its_geometry(up, tall):
    step = {"steps": [{"from front": "0..2500", "floor": 300, "ceiling": 1800}]}
    spaces = {"on": {**A, "up": up}, "off": {**A, "from front": "3000..4000", "up": up}}
    found = coach(spaces, outside=step).spaces
    assert found["on"].tall == found["off"].tall == tall


@pytest.mark.parametrize("kind", SpaceKind.__args__)
def test_a_kind_gives_zone_cover_and_what_is_hidden(kind):
    nature = NATURE[kind]
    entry = {"kind": kind, "from front": "1000..2000", "left": 600, "up": "0..900"}
    found = coach({} if kind == "roof" else {"it": entry}).spaces["roof" if kind == "roof" else "it"]
    assert (found.zone, found.cover, found.hidden) == (nature.zone, nature.cover, nature.hidden)


def test_the_zone_that_the_sketch_states_outranks_that_of_the_kind():
    belly = {"kind": "underfloor", "from front": "1000..2000", "up": "-300..belly"}
    assert coach({"it": belly}).spaces["it"].zone == "wet and stony"
    assert coach({"it": {**belly, "zone": "indoors"}}).spaces["it"].zone == "indoors"


@pytest.mark.parametrize(
    ("kind", "span"),
    [("room", (0, 2000)), ("panel wall", (0, 2000)), ("bay", (-700, -60)), ("gas locker", (-700, -60))],
)
def test_a_kind_that_says_its_height_needs_none(kind, span):
    assert coach({"it": {"kind": kind, "from front": "1000..2000"}}).spaces["it"].box.span(2) == span


def test_the_roof_is_there_by_itself_as_a_flat_space_over_the_whole_outline():
    found = coach({}).spaces
    assert list(found) == ["roof"]
    assert found["roof"].box == Box(0, 6000, 0, 2500, 2060, 2060)


@pytest.mark.parametrize(
    ("kind", "door", "opening", "seconds"),
    [
        ("cabinet", "right", "cabinet door", 60),
        ("bay", "left", "bay hatch", 120),
        ("void", "down", "removable panel", 480),
    ],
)
def test_a_door_is_a_way_to_reach_in_over_its_whole_face(kind, door, opening, seconds):
    entry = {**A, "kind": kind, "up": "0..900", "door": door}
    found = coach({"it": entry}).openings["it.door"]
    box = Box(1000, 2000, 50, 650, 0, 900)
    face = {
        "right": box._replace(y0=650),
        "left": box._replace(y1=50),
        "down": box._replace(z1=0),
    }[door]
    assert (found.into, found.kind, found.box, found.seconds) == ("it", opening, face, seconds)


def test_a_way_in_takes_the_shops_minutes_unless_it_states_its_own():
    panel = {"into": "it", "kind": "removable panel", "face": "up"}
    found = coach({"it": A}, access={"shop": panel, "own": {**panel, "minutes": "90 s"}}).openings
    assert (found["shop"].seconds, found["own"].seconds) == (480, 90)


@pytest.mark.parametrize(("keeps", "front"), [("right", (1, 1)), ("left", (1, -1))])
def test_a_door_and_plain_faces_are_named_by_the_side_that_traffic_keeps(keeps, front):
    entry = {**A, "door": "curb", "plain": ["street", "up"]}
    found = coach_of(rig_data({"it": entry}, keeps=keeps)).spaces["it"]
    assert found.front == front
    assert found.plain == tuple(sorted([(1, -front[1]), (2, 1)]))


# --- This vehicle's differences ---


def test_an_entry_of_the_job_replaces_the_rigs_or_is_added_to_it():
    changed = {**A, "up": "floor..900"}
    added = {"kind": "cabinet", "after": "it", "long": 500, "left": 300, "up": "floor..900"}
    found = with_job({"it": A}, differences={"spaces": {"it": changed, "more": added}}).spaces
    assert found["it"].box.z1 == 900
    # What is measured from a changed entry follows it.
    assert found["more"].box.span(0) == (2000, 2500)


def test_what_this_vehicle_does_not_have_is_gone():
    of_rig = {
        "roof_obstacles": {"fan": {"kind": "vent", "from front": "1000..1500", "left": "500..900"}},
        "access": {"panel": {"into": "it", "kind": "removable panel", "face": "up"}},
    }
    before = with_job({"it": A}, of_rig=of_rig)
    assert (set(before.obstacles), set(before.openings)) == ({"fan"}, {"panel"})
    removed = with_job({"it": A}, of_rig=of_rig, differences={"removed": ["it", "fan", "panel"]})
    assert removed.obstacles == removed.openings == {}
    assert "it" not in removed.spaces


# --- Order does not matter ---


def shuffled(value, seed):
    """The same contents with every mapping in another order."""
    if isinstance(value, dict):
        keys = list(value)
        seed.shuffle(keys)
        return {key: shuffled(value[key], seed) for key in keys}
    return [shuffled(part, seed) for part in value] if isinstance(value, list) else value


@pytest.mark.parametrize("name", ["class-a-three-slides", "truck-camper", "fifth-wheel", "van"])
def test_the_order_of_entries_in_a_file_changes_nothing(name):
    # Not even the order in which dictionaries are walked, on which results could come to depend.
    data = read_document(layouts() / name / "rig.yaml").data
    first = coach_of(data)
    for seed in range(3):
        again = coach_of(shuffled(data, random.Random(seed)))  # noqa: S311 (an order, not a secret)
        for field in ("spaces", "moving_parts", "obstacles", "hazards", "obstructions", "openings"):
            assert list(getattr(first, field).items()) == list(getattr(again, field).items()), field
        assert first.findings == again.findings
