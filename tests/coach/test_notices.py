"""What is said of a coach with nothing wrong: each a slip that nobody would notice, with what to do about it."""

from itertools import combinations

import pytest

from drawcord.coach.build import build
from drawcord.coach.notices import PART, SLIVER, _near_miss, slivers
from drawcord.ways.ways import explore
from drawcord.words.finding import Severity
from random_coaches import random_coach
from sketch import coach_of, job_data, rig_data, shop

A = {"kind": "cabinet", "from front": "1000..2000", "left": 600, "up": "floor..ceiling"}
ROOM = {"kind": "room", "from front": "100..5900"}


def space(along, left=600, up="floor..ceiling", kind="cabinet"):
    return {"kind": kind, "from front": along, "left": left, "up": up}


def found(spaces, job=None, **sections):
    """The place and sentence of every finding."""
    return [(finding.place, finding.sentence) for finding in coach_of(rig_data(spaces, **sections), job).findings]


# --- Near misses: the remedy ---


@pytest.mark.parametrize(
    ("other", "keeps", "closer"),
    [
        (space("2084..2500"), "right", "`after: a` for b"),
        (space("400..916"), "right", "`after: b` for a"),
        (space("1000..2000", "684..900"), "right", "`curb: to a` for b"),
        (space("1000..2000", "684..900"), "left", "`street: to a` for b"),
    ],
)
def test_a_near_miss_says_how_to_join_the_two(other, keeps, closer):
    ((place, sentence),) = found({"a": A, "b": other}, keeps=keeps)
    assert place == "a"
    assert sentence == (
        "a and b lie 84 mm apart and are not joined: "
        f"measure again, write {closer}, or join them with `touching: {{a~b: 90 mm}}`"
    )


def test_near_misses_are_those_of_all_pairs():
    # The oracle looks at every two spaces, however far apart; the ids are in no order along the vehicle.
    told = 0
    for seed in range(8):
        coach = build(*random_coach(60, seed), shop())
        spaces = [space for space in coach.spaces.values() if space.kind not in ("roof", "room")]
        every = {finding for pair in combinations(spaces, 2) for finding in _near_miss(coach, *pair)}
        assert {finding for finding in coach.findings if "are not joined" in finding.sentence} == every
        told += len(every)
    assert told


def test_what_a_near_miss_advises_is_right():
    # Each of the remedies, followed to the letter, leaves nothing to say.
    apart = {"a": A, "b": space("1000..2000", "684..900")}
    assert found(apart)
    assert found(apart, touching={"a~b": "90 mm"}) == []
    assert found({"a": A, "b": {"kind": "cabinet", "from front": "1000..2000", "curb": "to a", "up": "0..900"}}) == []
    along = {"kind": "cabinet", "after": "a", "long": 416, "left": 600, "up": "floor..ceiling"}
    assert found({"a": A, "b": along}) == []


@pytest.mark.parametrize(("gap", "advised"), [(76, "3 in"), (77, "3.5 in"), (84, "3.5 in"), (150, "6 in")])
def test_in_inches_the_advised_tolerance_is_no_less_than_the_gap(gap, advised):
    rig = rig_data({"a": A, "b": space(f"{2000 + gap}..2500 mm")})
    rig["units"] = "in"
    rig["shell"] = {key: f"{size} mm" if isinstance(size, int) else size for key, size in rig["shell"].items()}
    rig["spaces"]["a"] = {**A, "from front": "1000..2000 mm", "left": "600 mm"}
    rig["spaces"]["b"]["left"] = "600 mm"
    (finding,) = coach_of(rig).findings
    assert f"`touching: {{a~b: {advised}}}`" in finding.sentence
    rig["touching"] = {"a~b": advised}
    assert coach_of(rig).findings == ()


# --- Slivers ---


def sliver(spaces, passages=("a~b",)):
    return [finding.sentence for finding in slivers(coach_of(rig_data(spaces)), passages)]


@pytest.mark.parametrize(
    ("other", "face"),
    [
        (space("2000..2500", "557..900"), "43 mm wide"),
        (space("2000..2500", 600, "ceiling-59..ceiling"), None),  # all of the height that b has
        (space("2000..2500", 600, "-59..ceiling", "void"), None),
        (space("1941..2500", "600..900"), "59 mm long"),
        (space("1940..2500", "600..900"), None),
        (space("1500..1900", "600..900", "1941..ceiling"), None),
        (space("2000..2500", 600, "1941..2060"), "59 mm high"),
    ],
)
def test_a_passage_through_a_strip_is_named_with_its_width(other, face):
    expected = (
        f"a~b leads through a face only {face}: measure again, "
        "or rule it out with a passage `{between: [a, b], opening: closed}`"
    )
    assert sliver({"a": A, "b": other}) == ([expected] if face else [])


def test_only_passages_that_there_are_are_told():
    spaces = {"a": A, "b": space("2000..2500", "557..900")}
    assert sliver(spaces, ()) == []
    assert sliver(spaces, ("a_hole",)) == []  # which a person declared, and so has looked at


@pytest.mark.parametrize(("share", "told"), [(44, True), (45, False), (60, False)])
def test_a_thin_space_that_meets_the_other_with_most_of_itself_is_meant(share, told):
    # A hollow wall of 60 mm that stands against a cabinet.
    wall = space("2000..2500", f"{600 - share}..{660 - share}", kind="panel wall")
    assert SLIVER * PART == 45
    assert bool(sliver({"a": A, "b": wall})) == told


# --- On the roof ---

FAN = {"kind": "vent", "from front": "3000..3300", "centre": 300}


def test_obstacles_that_overlap_are_told_of_the_later():
    other = {"kind": "skylight", "from front": "3200..3500", "centre": 200}
    assert found({"a": A}, roof_obstacles={"dome": other, "fan": FAN}) == [
        ("fan", "dome and fan overlap on the roof, by 100 x 200 mm (along x across): measure them again")
    ]
    beside = {**other, "from front": "3300..3500"}
    assert found({"a": A}, roof_obstacles={"dome": beside, "fan": FAN}) == []


def test_the_cap_of_a_stack_may_lie_under_what_is_drawn_over_it():
    stack = {"kind": "vent stack", "from front": "1000..1300", "left": 200, "up": "bay..ceiling", "pipe": 50}
    cap = {"kind": "vent", "from front": "1050..1250", "left": "50..250"}
    assert found({"stack": stack}, roof_obstacles={"cap": cap}) == []


def test_an_obstacle_without_a_side_is_told_to_span_the_roof():
    sentence = (
        "fan gives no side, so that it spans the whole width of the roof: "
        "give one of `street`, `curb`, `left`, `right`, `centre`"
    )
    assert found({"a": A}, roof_obstacles={"fan": {"kind": "vent", "from front": "3000..3300"}}) == [("fan", sentence)]
    for side in ("street", "curb", "left", "right", "centre"):
        assert found({"a": A}, roof_obstacles={"fan": {"kind": "vent", "from front": "3000..3300", side: 300}}) == []


# --- Stacks ---


def test_a_stack_without_its_pipe_is_told_to_count_as_free():
    stack = {"kind": "vent stack", "from front": "1000..1500", "left": 200, "up": "bay..ceiling"}
    sentence = "stack is a vent stack without a pipe, so that all of it counts as free: give its `pipe`"
    assert found({"stack": stack}) == [("stack", sentence)]
    assert found({"stack": {**stack, "pipe": 50}}) == []
    assert found({"stack": {**stack, "kind": "chase"}}) == []


# --- Doors and windows ---


@pytest.mark.parametrize(
    ("door", "told"),
    [
        ({"from front": "3000..3600", "up": "floor..1900"}, True),  # its side was left out
        ({"from front": "3000..3060", "up": "floor..1900"}, True),  # a wall that is not there
        ({"from front": "3000..3600", "left": "900..940", "up": "floor..1900"}, True),
        ({"from front": "3000..3600", "left": 0, "up": "floor..1900"}, False),
        ({"from front": "3000..3600", "right": 0, "up": "floor..1900"}, False),
        ({"from rear": "0..50", "centre": 600, "up": "floor..1900"}, False),
        ({"from front": "1000..1600", "left": "590..620", "up": "floor..1900"}, False),  # the face of a cabinet
        ({"from front": "4000..4030", "left": "200..800", "up": "floor..1900"}, False),  # a partition
        ({"from front": "5000..5040", "left": "200..800", "up": "floor..1900"}, False),  # a hollow wall
    ],
)
@pytest.mark.parametrize("section", ["doors", "windows"])
def test_a_door_stands_in_a_wall(section, door, told):
    spaces = {"a": A, "room": ROOM, "wall": {"kind": "panel wall", "from front": "5000..5040"}}
    partition = {"from front": "4000..4030", "left": 1500, "up": "floor..ceiling"}
    sentence = (
        "it stands across the room, in no wall: "
        "give the side that it lies in, with a depth of nothing, such as `curb: 0 mm`"
    )
    told_of = found(spaces, partitions={"screen": partition}, **{section: {"it": door}})
    assert told_of == ([("it", sentence)] if told else [])


def test_a_window_in_the_roof_is_no_door_across_the_room():
    dome = {"from front": "3000..3600", "centre": 600, "up": "ceiling..roof"}
    assert found({"room": ROOM}, windows={"dome": dome}) == []


# --- Terminals that nothing reaches ---

TAIL = ": no cable starts or ends there, so move it"
ON_ROOF = {"kind": "junction box", "in": "roof", "terminals": {"t": None}}
IN_BAY = {"kind": "battery", "in": "bay", "terminals": {"t": None}}
BAY = {"kind": "bay", "from front": "3000..5000", "left": 1000}
SLIDE = {"kind": "slide-out", "from front": "3000..4000", "left": 700, "up": "floor..1900", "travel": 600}
SLIDE |= {"towards": "left", "drawn": "in"}


def cautions(device, spaces=None, **sections):
    spaces = {"a": A, "bay": BAY, **(spaces or {})}
    other = {"kind": "screen", "in": "a", "from front": 1500, "left": 300, "up": 300, "terminals": {"t": None}}
    rig = rig_data(spaces, **sections)
    coach = coach_of(rig, job_data({"box": device, "other": other}, {"c": ("box.t", "other.t")}))
    found = [finding for finding in coach.findings if finding.severity is Severity.CAUTION and "." in finding.place]
    assert all(finding.place == "box.t" for finding in found)
    # The search itself is the oracle: a point that reaches not even itself is covered.
    terminal = coach.terminals["box.t"]
    runs = explore(coach).runs[terminal.space]
    assert (runs.lengths([terminal.point])[0][0] is None) == bool(found)
    return [finding.sentence for finding in found]


@pytest.mark.parametrize(
    ("along", "covered"),
    [(2950, False), (2951, True), (3150, True), (3349, True), (3350, False)],  # a fan keeps 50 mm clear
)
def test_a_terminal_within_the_clearance_of_an_obstacle_is_told(along, covered):
    device = {**ON_ROOF, "from front": along, "left": 1250}
    expected = "box.t lies within what is kept clear around fan (vent)" + TAIL
    assert cautions(device, roof_obstacles={"fan": FAN}) == ([expected] if covered else [])


def test_a_terminal_by_a_flue_or_under_a_lifting_roof_is_told():
    device = {**ON_ROOF, "from front": 3500, "left": 300}
    flue = {"kind": "appliance flue", "from front": "3600..3700", "left": "250..350", "up": "900..roof"}
    assert cautions(device, hazards={"flue": flue}) == [
        "box.t lies within what is kept clear around flue (appliance flue)" + TAIL
    ]
    low = {**flue, "up": "100..900"}  # far below the roof
    assert cautions(device, hazards={"flue": low}) == []
    roof = {**SLIDE, "kind": "lifting roof", "up": "roof..roof+50", "towards": "up"}
    assert cautions(device, moving_parts={"top": roof}) == ["box.t lies in the way of top" + TAIL]


TANK = {"kind": "tank", "from front": "3900..4200", "left": "200..600", "up": "bay..belly"}


@pytest.mark.parametrize(
    ("sections", "covered"),
    [
        ({"obstructions": {"tank": TANK}}, "in tank (tank)"),
        ({"hazards": {"pipe": {**TANK, "kind": "exhaust"}}}, "within what is kept clear around pipe (exhaust)"),
        ({"moving_parts": {"jack": {**SLIDE, "up": "bay..belly"}}}, "in the way of jack"),
        (
            {"spaces": {"box_in_bay": {**space("3900..4200", "200..600", "bay..belly"), "kind": "gas locker"}}},
            "in box_in_bay, which is a space of its own within bay",
        ),
        ({"spaces": {"bay": {**BAY, "filled": [{"from front": "3900..4200", "left": 1000}]}}}, "in what fills bay"),
        ({"obstructions": {"beam": {**TANK, "kind": "framing"}}}, None),  # bars holes, not cables
        ({}, None),
    ],
)
def test_a_terminal_in_what_fills_its_space_is_told_with_what_that_is(sections, covered):
    device = {**IN_BAY, "from front": 3950, "left": 400, "up": -300}
    if "moving_parts" in sections:
        device["left"] = 250
        device["from front"] = 3500
    assert cautions(device, **sections) == ([f"box.t lies {covered}{TAIL}"] if covered else [])


def test_a_terminal_on_the_side_of_what_fills_its_space_can_be_reached():
    device = {**IN_BAY, "from front": 3900, "left": 400, "up": -300}
    assert cautions(device, obstructions={"tank": TANK}) == []
