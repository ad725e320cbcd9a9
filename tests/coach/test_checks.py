"""What is wrong, or worth saying, about a placed coach: every problem at once, at the place that has it."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.coach.box import Box
from drawcord.coach.nesting import RUNS_THROUGH, nested
from drawcord.words.finding import Severity
from sketch import coach_of, job_data, problems_of, rig_data

A = {"kind": "cabinet", "from front": "1000..2000", "left": 600, "up": "floor..ceiling"}


def space(along, left=600, up="floor..ceiling", kind="cabinet"):
    return {"kind": kind, "from front": along, "left": left, "up": up}


def said(spaces, job=None, **sections):
    """The file, path and sentence of every problem."""
    return [(p.file, p.path, p.sentence) for p in problems_of(rig_data(spaces, **sections), job)]


def notices(spaces, **sections):
    return coach_of(rig_data(spaces, **sections)).findings


# --- Spaces that share room ---

LEGAL = "one may lie within the other, or run through it as a stack does, but they may not share a corner"


def test_an_overlap_in_part_names_both_spaces_and_its_size():
    # The later in order of id carries the problem, whichever stands first in the file.
    spaces = {"zz": space("1900..2500", "100..700"), "aa": A}
    ((file, path, sentence),) = said(spaces)
    assert (file, path) == ("rig", ("spaces", "zz"))
    assert sentence.startswith("zz and aa overlap in part, by 100 x 500 x 2000 mm")
    assert sentence.endswith(LEGAL)


def test_two_spaces_in_the_same_place_overlap():
    ((file, path, sentence),) = said({"a": A, "b": A})
    assert (file, path) == ("rig", ("spaces", "b"))
    assert sentence.startswith("b and a overlap in part, by 1000 x 600 x 2000 mm")


def test_an_overlap_between_rig_and_job_is_told_of_the_later_id_in_its_own_file():
    order = job_data({}, {"c": ("x.t", "y.t")}, differences={"spaces": {"b": space("1900..2500")}})
    first, *_ = said({"a": A}, order)
    assert first[:2] == ("job", ("differences", "spaces", "b"))


@pytest.mark.parametrize(
    "spaces",
    [
        # One within another, its sides touching or not.
        {"a": A, "b": space("1200..1500", "100..300", "200..900")},
        {"a": A, "b": space("1000..1500", 600, "floor..900")},
        # A stack, a chase or a hollow wall that runs through several cabinets and the floor.
        {
            "low": space("1000..2000", 600, "floor..900"),
            "high": space("1000..2000", 600, "900..1900"),
            "tank_room": space("1000..2000", 600, "bay..belly", "bay"),
            "stack": space("1200..1300", "100..200", "bay..ceiling", "vent stack"),
        },
        {"a": A, "b": space("800..2200", "100..150", "200..250", "void")},
        # Spaces that touch share no room.
        {"a": A, "b": space("2000..2500"), "c": space("1000..2000", "600..900")},
        # A room is around everything in it.
        {"a": A, "saloon": {"kind": "room", "from front": "500..5500"}},
    ],
)
def test_nesting_stacks_and_touching_are_legal(spaces):
    assert said(spaces) == []


@pytest.mark.parametrize("kind", ["cabinet", "bay", "underfloor", "room"])
def test_only_hollows_run_through_others(kind):
    through = space("1200..1300", "100..200", "bay..ceiling", kind)
    (problem,) = said({"a": A, "b": through})
    assert problem[2].startswith("b and a overlap in part, by 100 x 100 x 2000 mm")


def test_a_stack_that_is_within_on_one_axis_alone_overlaps_in_part():
    (problem,) = said({"a": A, "b": space("1900..2100", "500..700", "200..900", "vent stack")})
    assert problem[2].startswith("b and a overlap in part, by 100 x 100 x 700 mm")


boxes = st.tuples(*[st.integers(0, 4)] * 6).map(lambda v: Box(*(sorted(v[0:2]) + sorted(v[2:4]) + sorted(v[4:6]))))


@settings(max_examples=400)
@given(inner=boxes, outer=boxes, kind=st.sampled_from(["cabinet", *RUNS_THROUGH]))
def test_nested_is_what_the_rule_says_cell_by_cell(inner, outer, kind):
    # The oracle counts unit cells: within on an axis if no cell of the inner's span lies beyond the outer's.
    def cells(box, axis):
        return set(range(*box.span(axis)))

    shared = all(cells(inner, axis) & cells(outer, axis) for axis in range(3))
    within = sum(cells(inner, axis) <= cells(outer, axis) for axis in range(3))
    rule = shared and inner != outer and (within == 3 or (kind in RUNS_THROUGH and within == 2))
    assert nested(kind, inner, outer) == rule


# --- The shell ---

ALONG = "`from front`, `from rear`, `after`, `before`, `between`"


@pytest.mark.parametrize(
    ("place", "start"),
    [
        (space("5900..6001"), "a reaches outside the shell in plan, 5900 to 6001 mm from the front and 50"),
        (space("-1..600"), "a reaches outside the shell in plan, -1 to 600 mm from the front"),
        (
            space("1000..2000", "-51..100"),
            "a reaches outside the shell in plan, 1000 to 2000 mm from the front and -1 ",
        ),
        (space("1000..2000", "2300..2451"), "a reaches outside the shell in plan"),
        (
            space("1000..2000", 600, "floor..roof+1"),
            "a reaches from 0 to 2061 mm in height, outside ground to roof",
        ),
        (
            space("1000..2000", 600, "ground-1..belly"),
            "a reaches from -1001 to -60 mm in height, outside ground",
        ),
    ],
)
def test_a_space_outside_the_shell_says_where_it_reaches(place, start):
    ((file, path, sentence),) = said({"a": place})
    assert (file, path) == ("rig", ("spaces", "a"))
    assert sentence.startswith(start)


def test_a_space_may_fill_the_shell_and_its_walls():
    whole = {"kind": "void", "from front": "0..6000", "left": "-50..2450", "up": "ground..roof"}
    assert said({"a": whole}) == []


# A nose that tapers: its corners are cut off over the first metre.
TAPERED = {
    "length": None,
    "width": None,
    "outline": [[0, 1000], [1000, 0], [6000, 0], [6000, 2500], [1000, 2500], [0, 1500]],
}


@pytest.mark.parametrize(
    ("along", "across", "outside"),
    [
        ("1000..2000", (0, 500), False),
        ("0..500", (0, 500), True),  # within the bounds, but in the corner that is cut off
        ("500..900", (500, 600), False),
        ("499..900", (500, 600), True),
        ("0..100", (1000, 1500), False),
        ("500..5900", (400, 600), True),
    ],
)
def test_the_shell_may_be_any_polygon(along, across, outside):
    # Sides are measured from the inside of the wall at the widest place.
    place = {
        "kind": "cabinet",
        "from front": along,
        "left": f"{across[0] - 50}..{across[1] - 50}",
        "up": "floor..900",
    }
    assert bool(said({"a": place}, outside=TAPERED)) == outside


@pytest.mark.parametrize(
    ("corners", "why"),
    [
        (
            [[0, 0], [6000, 2500], [6000, 0], [0, 2500]],
            "crosses itself 3000 mm from the front and 1250 mm from the left side",
        ),
        ([[0, 0], [6000, 2500]], "has fewer than three corners"),
        ([], "has fewer than three corners"),
        ([[0, 0], [6000, 0], [3000, 0]], "crosses itself"),
        ([[0, 0], [0, 0], [0, 0]], "crosses itself"),
    ],
)
def test_an_outline_that_encloses_nothing_or_crosses_itself_is_the_one_problem(corners, why):
    # The spaces within are not blamed for it, even those that lie outside what it encloses.
    found = said({"a": A}, outside={"length": None, "width": None, "outline": corners})
    ((file, path, sentence),) = found
    assert (file, path) == ("rig", ("shell", "outline"))
    assert sentence.startswith(f"the outline {why}")
    assert sentence.endswith(": list its corners once round")


def test_an_outline_may_run_either_way_round():
    corners = [[0, 0], [0, 2500], [6000, 2500], [6000, 0]]
    for outline in (corners, corners[::-1]):
        assert said({"a": A}, outside={"length": None, "width": None, "outline": outline}) == []


@pytest.mark.parametrize(
    ("outside", "path", "sentence"),
    [
        (
            {"length": None},
            ("shell",),
            "the shell gives neither `outline` nor both `length` and `width`: give one or the other",
        ),
        (
            {"width": None, "outline": [[0, 0], [6000, 0], [6000, 2500], [0, 2500]]},
            ("shell", "length"),
            "the shell gives both `outline` and `length`: keep `outline` alone",
        ),
        (
            {"roof": 2000},
            ("shell", "roof"),
            "the roof at 2000 mm is not above the ceiling at 2000 mm",
        ),
        (
            {"ground": 50, "bay": None},
            ("shell", "ground"),
            "the ground at 50 mm is not below the floor: heights below it are negative",
        ),
        (
            {"bay": -1200},
            ("shell", "bay"),
            "the bays' floor at -1200 mm is not between the ground at -1000 mm and the floor",
        ),
        (
            {"steps": [{"from front": "0..1000", "floor": 2100}]},
            ("shell", "steps", 0),
            "between its floor at 2100 mm and the roof at 2060 mm a ceiling at 2000 mm does not fit",
        ),
        (
            {"steps": [{"from front": "0..500", "floor": 0}, {"floor": 300}]},
            ("shell", "steps", 1),
            f"shell.steps.1 does not say where it is along: give one of {ALONG}",
        ),
    ],
)
def test_a_shell_that_contradicts_itself_says_where(outside, path, sentence):
    assert ("rig", path, sentence) in said({}, outside=outside)


STEP = {"steps": [{"from front": "0..1500", "floor": 300}]}


def test_a_space_over_the_edge_of_a_step_has_to_be_two():
    ((_, path, sentence),) = said({"a": A}, outside=STEP)
    assert path == ("spaces", "a")
    assert sentence.startswith("a straddles the step in the floor or ceiling 1500 mm from the front")


@pytest.mark.parametrize("kind", ["underfloor", "void", "bay"])
def test_what_lies_below_a_floor_may_run_under_a_step(kind):
    assert said({"a": space("1000..2000", 600, "-300..-60", kind)}, outside=STEP) == []


@pytest.mark.parametrize("along", ["1500..2500", "500..1500", "1425..2500", "500..1575"])
def test_a_space_may_reach_over_a_step_by_the_thickness_of_a_wall(along):
    assert said({"a": space(along)}, outside=STEP) == []


@pytest.mark.parametrize(
    ("place", "what"),
    [
        ({"kind": "cabinet", "from front": "0..500", "left": 0, "up": "floor..ceiling"}, "depth"),
        ({"kind": "cabinet", "from front": "0..500", "left": 50, "up": "ceiling..2000"}, "height"),
        ({"kind": "void", "from front": "0..500", "left": 0, "up": "900..floor+900"}, "depth and no height"),
    ],
)
def test_a_space_without_size_says_which_is_missing(place, what):
    assert said({"a": place}) == [("rig", ("spaces", "a"), f"a has no {what}: give it a size above zero")]


def test_a_second_roof_is_refused():
    assert said({"a": space("0..500", kind="roof")}) == [
        ("rig", ("spaces", "a", "kind"), "a is of kind roof, but the roof is there by itself: leave it out")
    ]


# --- Ids ---


def test_an_id_stands_for_one_thing_across_all_sections():
    door = {"from front": "0..100", "left": 0}
    found = problems_of(rig_data({"a": A}, doors={"a": door}, windows={"b": door}, partitions={"b": door}))
    assert [(p.path, p.on_key, p.sentence) for p in found] == [
        (("doors", "a"), True, "the id a is taken already, by spaces.a: give this one another id"),
        (("partitions", "b"), True, "the id b is taken already, by windows.b: give this one another id"),
    ]


def test_nothing_else_may_be_called_roof():
    sentence = "the id roof is taken already, by the roof itself: give this one another id"
    assert said({"roof": A}) == [("rig", ("spaces", "roof"), sentence)]
    assert said({}, doors={"roof": {"from front": "0..100", "left": 0}}) == [("rig", ("doors", "roof"), sentence)]


DEVICES = {
    "top": {"kind": "junction box", "in": "roof", "from front": 3000, "left": 900, "terminals": {"t": None}},
    "low": {"kind": "router", "in": "a", "from front": 1100, "left": 50, "up": 300, "terminals": {"t": None}},
}
ENDS = {"c": ("top.t", "low.t")}


def order(devices=None, cables=None, **sections):
    return job_data({**DEVICES, **(devices or {})}, {**ENDS, **(cables or {})}, **sections)


def test_a_job_may_not_reuse_an_id_of_another_section_or_the_roofs():
    changes = {"spaces": {"way_in": space("3000..3500"), "roof": space("4000..4500")}}
    found = said({"a": A}, order(differences=changes), doors={"way_in": {"from front": "0..100", "left": 0}})
    assert [path for _, path, _ in found[:2]] == [("differences", "spaces", "roof"), ("doors", "way_in")]
    assert all("is taken already" in sentence for *_, sentence in found[:2])


# --- References ---


def test_a_whole_job_has_no_problems():
    assert said({"a": A}, order()) == []


NOWHERE = {"kind": "router", "from front": 1100, "left": 50, "up": 300, "terminals": {"t": None}}


@pytest.mark.parametrize(
    ("job", "path", "sentence"),
    [
        (
            order({"box": {**NOWHERE, "in": "attic"}}),
            ("equipment", "box", "in"),
            "box sits in attic, but there is no such space",
        ),
        (
            order({"box": {**NOWHERE, "in": "a", "from front": 900}}),
            ("equipment", "box"),
            "box.t, 900 mm from the front, 100 mm from the left side and 300 mm up, is not inside a",
        ),
        (
            order({"box": {**NOWHERE, "in": "roof", "from front": 6100}}),
            ("equipment", "box"),
            "box.t, 6100 mm from the front, 50 mm from the left side and 300 mm up, is not inside roof",
        ),
        (
            order(cables={"d": ("top.t", "low.x")}),
            ("cables", "d", "to"),
            "d goes to low.x, but there is no such terminal (did you mean `low.t`?): the terminals are low.t, top.t",
        ),
        (
            order(cables={"d": ("low", "top.t")}),
            ("cables", "d", "from"),
            "d goes from low, but there is no such terminal (did you mean `low.t`?): the terminals are low.t, top.t",
        ),
        (
            order(cables={"d": ("low.t", "low.t")}),
            ("cables", "d", "to"),
            "d ends where it starts, at low.t",
        ),
        (
            order(cables={"d": {"from": "low.t", "to": "top.t", "class": "PV", "amperes": "9 A"}}),
            ("cables", "d"),
            "d carries PV but does not say its volts: add `volts:`",
        ),
        (
            order(owner={"excludes": ["a", "attic"]}),
            ("owner", "excludes", 1),
            "the owner excludes attic, but there is no such space",
        ),
        (
            order(differences={"removed": ["attic"]}),
            ("differences", "removed", 0),
            "the rig has nothing called attic to remove",
        ),
    ],
)
def test_a_name_or_place_of_the_job_that_does_not_fit_the_rig_says_what_is_wrong(job, path, sentence):
    assert said({"a": A}, job) == [("job", path, sentence)]


@pytest.mark.parametrize("space_id", ["lost", "a"])
def test_a_terminal_whose_place_is_wrong_is_not_called_missing_too(space_id):
    # In a space that cannot be placed, or without a place of its own.
    lost = {"kind": "cabinet", "left": 600, "up": "floor..ceiling"}
    spaces = {"a": A, "lost": lost} if space_id == "lost" else {"a": A}
    box = {**NOWHERE, "in": space_id}
    if space_id == "a":
        del box["up"]
    found = said(spaces, order({"box": box}, {"d": ("box.t", "top.t")}))
    assert len(found) == 1
    assert found[0][:2] == (("rig", ("spaces", "lost")) if space_id == "lost" else ("job", ("equipment", "box")))


@pytest.mark.parametrize(
    ("section", "entry", "path", "sentence"),
    [
        (
            "access",
            {"into": "attic", "kind": "bay hatch", "face": "left"},
            ("into",),
            "it opens attic, but there is no such space",
        ),
        (
            "passages",
            {"between": ["a", "attic"], "opening": "exists"},
            ("between",),
            "it joins attic, but there is no such space",
        ),
        (
            "passages",
            {"between": ["a", "a"], "opening": "exists"},
            ("between",),
            "it joins a to itself",
        ),
        (
            "roof_obstacles",
            {"kind": "vent", "after": "attic", "long": 100, "left": 300},
            ("after",),
            "roof obstacles.it.after: there is no space called attic to measure from",
        ),
    ],
)
def test_a_name_in_the_rig_that_does_not_exist_says_so(section, entry, path, sentence):
    found = said({"a": A}, **{section: {"it": entry}})
    assert found == [("rig", (section.replace("_", " "), "it", *path), sentence)]


@pytest.mark.parametrize("key", ["a~attic", "a", "a~a", "a~a~b"])
def test_a_tolerance_for_a_pair_names_two_spaces(key):
    (problem,) = problems_of(rig_data({"a": A, "b": space("3000..3500")}, touching={key: 100}))
    assert problem.path == ("touching", key)
    assert problem.on_key
    assert problem.sentence == f"{key} does not name two spaces: write it as `linen~shower: 120 mm`"


def test_a_tolerance_holds_whichever_space_it_names_first():
    spaces = {"a": A, "b": space("2120..2500")}
    for key in ("a~b", "b~a", "b ~ a"):
        assert coach_of(rig_data(spaces, touching={key: 130})).touching == {("a", "b"): 130}


def test_all_problems_are_told_at_once():
    # Of references and of geometry, of the rig and of the job.
    spaces = {"a": A, "b": space("1900..2500"), "c": space("5900..6100"), "d": {"kind": "void"}}
    found = said(
        spaces,
        order({"box": {**NOWHERE, "in": "attic"}}, owner={"excludes": ["attic"]}),
        passages={"p": {"between": ["a", "attic"], "opening": "exists"}},
        outside={"roof": 1900, "outline": [[0, 0], [6000, 2500], [6000, 0], [0, 2500]]},
    )
    places = {(file, *path[:2]) for file, path, _ in found}
    assert places >= {
        ("rig", "shell", "length"),
        ("rig", "shell", "width"),
        ("rig", "shell", "roof"),
        ("rig", "shell", "outline"),
        ("rig", "spaces", "b"),
        ("rig", "spaces", "c"),
        ("rig", "spaces", "d"),
        ("rig", "passages", "p"),
        ("job", "equipment", "box"),
        ("job", "owner", "excludes"),
    }


# --- Near misses ---


@pytest.mark.parametrize(
    ("gap", "told"),
    [(0, False), (75, False), (76, True), (150, True), (151, False)],
)
def test_two_spaces_that_nearly_touch_are_a_notice_not_a_problem(gap, told):
    # Up to the 75 mm of this shop they share a wall; beyond 150 mm they are apart on purpose.
    found = notices({"a": A, "b": space(f"{2000 + gap}..2500")})
    said_so = [finding.sentence.partition(":")[0] for finding in found]
    assert said_so == ([f"a and b lie {gap} mm apart and are not joined"] if told else [])
    assert all(finding.severity is Severity.NOTICE and finding.place == "a" for finding in found)


def test_a_near_miss_is_told_across_too_but_not_at_a_corner():
    assert notices({"a": A, "b": space("1000..2000", "700..900")})
    assert not notices({"a": A, "b": space("2100..2500", "700..900")})


def test_two_one_above_the_other_are_no_near_miss():
    assert not notices({"a": space("1000..2000", 600, "floor..900"), "b": space("1000..2000", 600, "1000..1900")})


def test_no_near_miss_where_a_third_space_lies_between():
    third = {"wall": space("2020..2080", 600, kind="panel wall")}
    spaces = {"a": A, "b": space("2100..2500")}
    assert notices(spaces)
    assert not notices({**spaces, **third})


def test_no_near_miss_where_the_pair_has_a_tolerance_of_its_own():
    spaces = {"a": A, "b": space("2100..2500")}
    assert not notices(spaces, touching={"b~a": 100})
    assert notices(spaces, touching={"b~a": 99})


def test_a_pair_told_to_be_apart_is_told_no_more_within_its_tolerance():
    # A tolerance of nothing makes a near miss of what would otherwise share a wall.
    assert notices({"a": A, "b": space("2050..2500")}, touching={"a~b": 0})
