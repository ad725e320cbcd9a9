"""Places the way a tape measures them: every key, both sides of traffic, chains and contradictions."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.coach.box import Box
from sketch import coach_of, job_data, problems_of, rig_data

LONG = {"from front": "1000..1400"}
DEEP = {"left": 500}
HIGH = {"up": "floor..ceiling"}
FLOOR, CEILING = 0, 2000
LEFT, RIGHT = 50, 2450  # the insides of the walls
# A raised front floor over the first two metres, with a lower ceiling than it would have.
STEPPED = {"steps": [{"from front": "0..2000", "floor": 300, "ceiling": 1900}]}


def box_of(place, *, keeps="right", others=(), outside=None):
    """The box of a cabinet at a place."""
    spaces = {"it": {"kind": "cabinet", **place}, **dict(others)}
    return coach_of(rig_data(spaces, keeps=keeps, outside=outside)).spaces["it"].box


def sentences(spaces, **sections):
    return [problem.sentence for problem in problems_of(rig_data(spaces, **sections))]


def cabinet(**keys):
    return {
        "kind": "cabinet",
        **DEEP,
        **HIGH,
        **{key.replace("_", " "): value for key, value in keys.items()},
    }


# --- Along the vehicle ---


@pytest.mark.parametrize(
    ("keys", "span"),
    [
        ({"from front": "1000..1400"}, (1000, 1400)),
        ({"from front": [1000, 1400]}, (1000, 1400)),
        ({"from rear": "1000..1400"}, (4600, 5000)),
        ({"after": "front", "long": 300}, (700, 1000)),
        ({"before": "back", "long": 300}, (3700, 4000)),
        ({"between": ["front", "back"]}, (700, 4000)),
        # Between two is between them, whichever is named first.
        ({"between": ["back", "front"]}, (700, 4000)),
    ],
)
def test_a_place_is_measured_along_from_front_rear_or_neighbours(keys, span):
    others = {
        "front": {"kind": "cabinet", "from front": "200..700", **DEEP, **HIGH},
        "back": {"kind": "cabinet", "from front": "4000..4500", **DEEP, **HIGH},
    }
    assert box_of({**DEEP, **HIGH, **keys}, others=others).span(0) == span


# --- Across it ---

ACROSS = [
    ({"left": 600}, (LEFT, 650)),
    ({"left": "200..900"}, (250, 950)),
    ({"left": [200, 900]}, (250, 950)),
    ({"left": "-40..10"}, (10, 60)),  # into the wall
    ({"right": 600}, (1850, RIGHT)),
    ({"right": "200..900"}, (1550, 2250)),
    ({"centre": 1000}, (750, 1750)),
    ({"centre": 1001}, (750, 1751)),  # an odd width stays that wide
    ({}, (LEFT, RIGHT)),  # from side to side
    ({"left": "to island"}, (LEFT, 1150)),
    ({"right": "to island"}, (1350, RIGHT)),
]


@pytest.mark.parametrize(("keys", "span"), ACROSS)
@pytest.mark.parametrize("keeps", ["left", "right"])
def test_left_and_right_are_the_same_whatever_side_traffic_keeps(keys, span, keeps):
    island = {"kind": "cabinet", "from front": "1500..2000", "centre": 200, **HIGH}
    assert box_of({**LONG, **HIGH, **keys}, keeps=keeps, others={"island": island}).span(1) == span


@pytest.mark.parametrize(("keys", "span"), ACROSS)
@pytest.mark.parametrize(
    ("keeps", "named"),
    [("right", {"left": "street", "right": "curb"}), ("left", {"left": "curb", "right": "street"})],
)
def test_the_curb_side_is_the_side_that_traffic_keeps(keys, span, keeps, named):
    island = {"kind": "cabinet", "from front": "1500..2000", "centre": 200, **HIGH}
    said = {named.get(key, key): value for key, value in keys.items()}
    assert box_of({**LONG, **HIGH, **said}, keeps=keeps, others={"island": island}).span(1) == span


def test_things_on_the_roof_are_measured_from_its_edge_not_from_inside_the_wall():
    roof = {"fan": {"kind": "vent", **LONG, "left": "100..300", "clearance": 0}}
    assert coach_of(rig_data({}, roof_obstacles=roof)).obstacles["fan"].box.span(1) == (100, 300)


# --- Up ---


@pytest.mark.parametrize(
    ("keys", "span"),
    [
        ({"up": "floor..ceiling"}, (0, 2000)),
        ({"up": "900..ceiling"}, (900, 2000)),
        ({"up": "floor+100..ceiling-100"}, (100, 1900)),
        ({"up": "bay..belly"}, (-700, -60)),
        ({"up": "ground+50..-60"}, (-950, -60)),
        ({"up": "ceiling..roof"}, (2000, 2060)),
        ({"from floor": "100..900"}, (100, 900)),
        ({"from ceiling": "0..400"}, (1600, 2000)),
    ],
)
def test_a_place_is_measured_up_by_words_from_the_floor_or_down_from_the_ceiling(keys, span):
    assert box_of({**LONG, **DEEP, **keys}).span(2) == span


@pytest.mark.parametrize(
    ("keys", "on_step", "behind"),
    [
        ({"up": "floor..ceiling"}, (300, 1900), (0, 2000)),
        ({"from floor": "100..900"}, (400, 1200), (100, 900)),
        ({"from ceiling": "0..400"}, (1500, 1900), (1600, 2000)),
        ({"up": "ground..belly"}, (-1000, 240), (-1000, -60)),
        # A plain height is above the main floor everywhere.
        ({"up": "350..900"}, (350, 900), (350, 900)),
    ],
)
def test_floor_and_ceiling_are_those_at_that_place(keys, on_step, behind):
    assert box_of({"from front": "1000..1900", **DEEP, **keys}, outside=STEPPED).span(2) == on_step
    assert box_of({"from front": "2000..2900", **DEEP, **keys}, outside=STEPPED).span(2) == behind


def test_a_point_is_measured_like_a_place_and_on_the_step_it_stands_on():
    spaces = {"a": cabinet(from_front="0..1900"), "b": cabinet(from_front="2000..4000")}
    places = {
        "on_step": {"in": "a", "from front": 1000, "street": 100, "from floor": 200},
        "below_it": {"in": "b", "from rear": 3000, "curb": 2300, "from floor": 200},
        "hung": {"in": "a", "from front": 1000, "left": 100, "from ceiling": 200},
        "said": {"in": "a", "from front": 1000, "right": 2300, "up": "ceiling-250"},
        "above": {"in": "roof", "from front": 1000, "street": 100},
    }
    equipment = {name: {"kind": "router", **place, "terminals": {"t": None}} for name, place in places.items()}
    order = job_data(equipment, {"c": ("hung.t", "said.t")})
    coach = coach_of(rig_data(spaces, outside=STEPPED), order)
    assert {name: terminal.point for name, terminal in coach.terminals.items()} == {
        "on_step.t": (1000, 150, 500),
        "below_it.t": (3000, 150, 200),
        "hung.t": (1000, 150, 1700),
        "said.t": (1000, 150, 1650),
        "above.t": (1000, 100, 2060),  # from the edge of the roof, and on it
    }


@pytest.mark.parametrize(("x", "floor"), [(999, 0), (1000, 300), (1999, 300), (2000, 0)])
def test_the_first_millimetre_of_a_step_belongs_to_it_the_one_after_its_last_does_not(x, floor):
    step = {"steps": [{"from front": "1000..2000", "floor": 300}]}
    spaces = {
        "a": cabinet(from_front="500..1000"),
        "b": cabinet(from_front="1000..2000"),
        "c": cabinet(from_front="2000..2500"),
    }
    device = {"kind": "router", "in": "a" if x < 1000 else "b" if x < 2000 else "c", "from front": x, "left": 100}
    order = job_data(
        {"box": {**device, "from floor": 50, "terminals": {"t": None, "u": None}}}, {"c": ("box.t", "box.u")}
    )
    assert coach_of(rig_data(spaces, outside=step), order).terminals["box.t"].point[2] == floor + 50


def test_a_terminal_sits_where_its_device_does_unless_it_says_otherwise():
    device = {"kind": "router", "in": "a", "from front": 1000, "left": 100, "up": 500}
    device["terminals"] = {"own": {"from front": 1100, "left": 200, "up": 600}, "plain": None}
    order = job_data({"box": device}, {"c": ("box.own", "box.plain")})
    points = coach_of(rig_data({"a": cabinet(from_front="900..1900")}), order).terminals
    assert points["box.own"].point == (1100, 250, 600)
    assert points["box.plain"].point == (1000, 150, 500)


# --- Chains ---


@settings(deadline=None, max_examples=30)
@given(st.permutations(["aa", "bb", "cc", "dd", "ee"]), st.lists(st.integers(50, 300), min_size=5, max_size=5))
def test_a_chain_of_neighbours_is_the_sum_of_its_lengths_whatever_their_names(names, longs):
    # The oracle adds up; names are in any order, so that none can rely on being placed first.
    spaces = {names[0]: cabinet(from_front=f"100..{100 + longs[0]}")}
    for before, name, long in zip(names, names[1:], longs[1:], strict=False):
        spaces[name] = cabinet(after=before, long=long)
    coach = coach_of(rig_data(spaces))
    for place, name in enumerate(names):
        assert coach.spaces[name].box.span(0) == (100 + sum(longs[:place]), 100 + sum(longs[: place + 1]))


@pytest.mark.parametrize(
    ("spaces", "chain"),
    [
        ({"a": cabinet(after="a", long=300)}, "a from a"),
        ({"a": cabinet(after="b", long=300), "b": cabinet(before="a", long=300)}, "a from b from a"),
        (
            {
                "a": cabinet(between=["c", "d"]),
                "b": cabinet(after="a", long=200),
                "c": {"kind": "cabinet", "from front": "0..300", "left": "to b", **HIGH},
                "d": cabinet(from_front="4000..4500"),
                # Not in the circle, but measured from it: no problem of its own.
                "e": cabinet(after="b", long=100),
            },
            "a from c from b from a",
        ),
    ],
)
def test_a_circle_of_places_is_one_problem_that_spells_it_out(spaces, chain):
    assert sentences(spaces) == [f"{chain} are measured in a circle: measure one from a wall"]


def test_a_space_without_place_is_one_problem_however_many_are_measured_from_it():
    spaces = {
        "a": cabinet(after="b", long=300),
        "b": cabinet(),
        "c": cabinet(between=["a", "b"]),
        "d": {"kind": "cabinet", "from front": "0..300", "left": "to b", **HIGH},
    }
    doors = {"way_in": {"after": "b", "long": 300, "left": 0}}
    access = {"panel": {"into": "b", "kind": "removable panel", "face": "up"}}
    found = problems_of(rig_data(spaces, doors=doors, access=access))
    assert [problem.path for problem in found] == [("spaces", "b")]


def test_a_problem_stands_in_the_file_of_the_space_that_has_it_not_of_one_measured_from_it():
    # The job's space is measured from one of the rig that has no place.
    order = job_data({}, {"c": ("a.t", "b.t")}, differences={"spaces": {"a": cabinet(after="b", long=300)}})
    (first, *rest) = problems_of(rig_data({"b": cabinet()}), order)
    assert (first.file, first.path) == ("rig", ("spaces", "b"))
    assert all("no such terminal" in problem.sentence for problem in rest)


# --- What is missing, doubled or impossible ---

ALONG = "`from front`, `from rear`, `after`, `before`, `between`"


@pytest.mark.parametrize(
    ("place", "path", "sentence"),
    [
        ({**DEEP, **HIGH}, (), f"spaces.it does not say where it is along: give one of {ALONG}"),
        (
            {**LONG, **DEEP},
            (),
            "spaces.it does not say where it is in height: give one of `up`, `from floor`, `from ceiling`",
        ),
        (
            {**LONG, "from rear": "0..10", **DEEP, **HIGH},
            ("from rear",),
            "spaces.it says where it is along twice, from front and from rear: keep one",
        ),
        (
            {**LONG, "long": 400, **DEEP, **HIGH},
            ("long",),
            "spaces.it says how long it is twice, from front and long: keep one",
        ),
        (
            {**LONG, "street": 500, "curb": 400, **HIGH},
            ("curb",),
            "spaces.it says where it is across twice, street and curb: keep one",
        ),
        (
            {**LONG, "left": 500, "centre": 400, **HIGH},
            ("centre",),
            "spaces.it says where it is across twice, left and centre: keep one",
        ),
        (
            {**LONG, **DEEP, **HIGH, "from floor": "0..100"},
            ("from floor",),
            "spaces.it says where it is in height twice, up and from floor: keep one",
        ),
        (
            {"after": "other", **DEEP, **HIGH},
            ("after",),
            "spaces.it says `after` but not how `long`: add `long: 400 mm`",
        ),
        (
            {"before": "nobody", "long": 5, **DEEP, **HIGH},
            ("before",),
            "spaces.it.before: there is no space called nobody to measure from",
        ),
        (
            {"between": ["other", "nobody"], **DEEP, **HIGH},
            ("between",),
            "spaces.it.between: there is no space called nobody to measure from",
        ),
        (
            {"between": ["other", "other"], **DEEP, **HIGH},
            ("between",),
            "spaces.it: nothing is left between other and other",
        ),
        (
            {**LONG, "right": "to nobody", **HIGH},
            ("right",),
            "spaces.it.right: there is no space called nobody to measure from",
        ),
        ({**LONG, "left": "to other", **HIGH}, ("left",), "spaces.it: other leaves no room on the left side"),
        (
            {**LONG, **DEEP, "up": "ceiling..floor"},
            ("up",),
            "spaces.it ends 2000 mm below where it starts: give the lower height first",
        ),
    ],
)
def test_a_place_that_cannot_be_worked_out_says_why_and_where(place, path, sentence):
    # `other` stands on the left side, far from the rest.
    other = {"kind": "cabinet", "from front": "5000..5500", **DEEP, **HIGH}
    found = problems_of(rig_data({"it": {"kind": "cabinet", **place}, "other": other}))
    assert [(p.file, p.path, p.sentence) for p in found] == [("rig", ("spaces", "it", *path), sentence)]


def test_along_and_across_are_both_complained_of_at_once():
    found = problems_of(rig_data({"it": {"kind": "cabinet", "left": 500, "curb": 400, **HIGH}}))
    assert [problem.path for problem in found] == [("spaces", "it"), ("spaces", "it", "left")]


def test_a_point_that_is_missing_or_doubled_says_why_for_every_axis():
    spots = {
        "empty": {},
        "doubled": {
            "from front": 1000,
            "from rear": 5000,
            "left": 5,
            "curb": 5,
            "up": 500,
            "from floor": 500,
        },
    }
    equipment = {name: {"kind": "router", "in": "a", **spot, "terminals": {"t": None}} for name, spot in spots.items()}
    order = job_data(equipment, {"c": ("empty.t", "doubled.t")})
    found = problems_of(rig_data({"a": cabinet(from_front="900..1900")}), order)
    assert all(problem.file == "job" for problem in found)
    assert [(problem.path, problem.sentence.partition(":")[0]) for problem in found] == [
        (
            ("equipment", "doubled", "from rear"),
            "equipment.doubled says where it is along twice, from front and from rear",
        ),
        (("equipment", "doubled", "left"), "equipment.doubled says where it is across twice, curb and left"),
        (
            ("equipment", "doubled", "from floor"),
            "equipment.doubled says how high it is twice, up and from floor",
        ),
        (("equipment", "empty"), "equipment.empty does not say where it is along"),
        (("equipment", "empty"), "equipment.empty does not say where it is across"),
        (("equipment", "empty"), "equipment.empty does not say how high it is"),
    ]


def test_a_way_in_covers_its_face_or_the_part_of_it_that_it_states():
    spaces = {"a": cabinet(from_front="1000..2000")}
    access = {
        "whole": {"into": "a", "kind": "removable panel", "face": "right"},
        "part": {"into": "a", "kind": "removable panel", "face": "right", "from front": "1200..1300"},
        "low": {"into": "a", "kind": "removable panel", "face": "aft", "from floor": "0..400"},
        "wide": {"into": "a", "kind": "removable panel", "face": "forward", "left": "400..4000"},
    }
    found = {name: one.box for name, one in coach_of(rig_data(spaces, access=access)).openings.items()}
    assert found["whole"] == Box(1000, 2000, 550, 550, 0, 2000)
    assert found["part"] == Box(1200, 1300, 550, 550, 0, 2000)
    assert found["low"] == Box(2000, 2000, 50, 550, 0, 400)
    assert found["wide"] == Box(1000, 1000, 450, 550, 0, 2000)  # cut to the face


def test_a_way_in_beside_its_face_is_a_problem():
    access = {"panel": {"into": "a", "kind": "removable panel", "face": "right", "from front": "3000..3100"}}
    assert sentences({"a": cabinet(from_front="1000..2000")}, access=access) == [
        "access.panel lies beside the face it should be in: measure it again"
    ]
