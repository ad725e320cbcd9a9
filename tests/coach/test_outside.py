"""A slip of the pen must not take a hazard or an obstacle out of the sketch: nothing lies where no vehicle is."""

import pytest

from sketch import coach_of, job_data, problems_of, rig_data

A = {"kind": "cabinet", "from front": "1000..2000", "left": 600, "up": "floor..ceiling"}
SHELL = "(the shell is 6000 mm long and 2500 mm wide)"
HIGH = "outside ground to 1000 mm above the roof, -1000 to 3060 mm"
FLUE = {"kind": "appliance flue", "from front": "5400..5500", "left": 100, "up": "900..roof"}
TANK = {"kind": "tank", "from front": "2000..3000", "left": 600, "up": "bay..belly"}
FAN = {"kind": "vent", "from front": "3000..3300", "centre": 300}
DOOR = {"from front": "3000..3600", "left": 0, "up": "floor..1900"}
SLIDE = {"kind": "slide-out", "from front": "3000..4000", "left": 700, "up": "floor..1900", "travel": 600}
SLIDE |= {"towards": "left", "drawn": "in"}
HOLE = {"between": ["a", "b"], "opening": "exists"}
B = {"kind": "bay", "from front": "1000..2000", "left": 600}


def said(section, entry, spaces=None):
    found = problems_of(rig_data(spaces or {"a": A, "b": B}, **{section: {"it": entry}}))
    return [(problem.path, problem.sentence) for problem in found]


@pytest.mark.parametrize(
    ("section", "entry", "wrong"),
    [
        # Wholly beyond the rear, as `366..369` in a vehicle of 294 inches is.
        ("hazards", {**FLUE, "from front": "7400..7500"}, "shell, 7400 to 7500 mm from the front " + SHELL),
        ("obstructions", {**TANK, "from front": "7400..7500"}, "shell, 7400 to 7500 mm from the front " + SHELL),
        ("hazards", {**FLUE, "left": "2600..2700"}, "shell, 2650 to 2750 mm from the left side " + SHELL),
        # One end of it is a slip of the pen.
        ("hazards", {**FLUE, "from front": "5400..15500"}, "shell, 5400 to 15500 mm from the front " + SHELL),
        ("obstructions", {**TANK, "left": "-3000..600"}, "shell, -2950 to 650 mm from the left side " + SHELL),
        # What lies in a wall stands out of it no farther than its trim.
        ("doors", {**DOOR, "from front": "5700..6300"}, "shell, 5700 to 6300 mm from the front " + SHELL),
        ("windows", {**DOOR, "from front": "5700..6300"}, "shell, 5700 to 6300 mm from the front " + SHELL),
        ("partitions", {**DOOR, "from front": "5700..6300"}, "shell, 5700 to 6300 mm from the front " + SHELL),
        ("moving_parts", {**SLIDE, "from front": "5900..6900"}, "shell, 5900 to 6900 mm from the front " + SHELL),
        # A roof obstacle stands on the roof with all of it.
        (
            "roof_obstacles",
            {**FAN, "from front": "5900..6200"},
            "roof, 5900 to 6200 mm from the front and 1100 to 1400 mm from the left side " + SHELL,
        ),
        (
            "roof_obstacles",
            {"kind": "vent", "from front": "3000..3300", "left": "-100..200"},
            "roof, 3000 to 3300 mm from the front and -100 to 200 mm from the left side " + SHELL,
        ),
        ("passages", {**HOLE, "at": {"from front": "9000..9100", "left": 600}}, "shell, 9000 to 9100 mm from the"),
    ],
)
def test_what_lies_beside_the_vehicle_is_refused_once_at_its_entry(section, entry, wrong):
    ((path, sentence),) = said(section, entry)
    assert path == (section.replace("_", " "), "it")
    assert sentence.startswith(f"it reaches outside the {wrong}")
    assert sentence.endswith(": measure it again")


@pytest.mark.parametrize("place", [{"from front": "9000..9100"}, {"left": "5000..5100"}, {"up": "roof..roof+900"}])
def test_a_way_in_lies_in_the_face_it_opens_and_so_at_the_vehicle(place):
    ((path, sentence),) = said("access", {"into": "b", "kind": "bay hatch", "face": "left", **place})
    assert path == ("access", "it")
    assert sentence == "access.it lies beside the face it should be in: measure it again"


@pytest.mark.parametrize(
    ("section", "entry", "reach"),
    [
        ("hazards", {**FLUE, "up": "900..roof+1001"}, "from 900 to 3061 mm in height"),
        ("obstructions", {**TANK, "up": "ground-1..belly"}, "from -1001 to -60 mm in height"),
        ("roof_obstacles", {**FAN, "up": "roof..roof+1500"}, "from 2060 to 3560 mm in height"),
        ("doors", {**DOOR, "up": "floor..19000"}, "from 0 to 19000 mm in height"),
    ],
)
def test_what_lies_below_the_ground_or_far_above_the_roof_is_refused(section, entry, reach):
    assert said(section, entry) == [
        ((section.replace("_", " "), "it"), f"it reaches {reach}, {HIGH}: measure it again")
    ]


# What vehicles have, up to the last millimetre that is believed.
@pytest.mark.parametrize(
    ("section", "entry"),
    [
        ("hazards", {**FLUE, "up": "900..roof+1000"}),
        ("hazards", {"kind": "exhaust", "from front": "5000..8000", "left": 100, "up": "ground..-800"}),
        ("obstructions", {"kind": "jack", "from front": "-2000..0", "centre": 100, "up": "ground..0"}),
        ("obstructions", {"kind": "step", "from front": "3000..3600", "left": "-600..200", "up": "-800..-100"}),
        ("doors", {**DOOR, "from front": "5400..6100"}),
        ("windows", {"from front": "0..60", "centre": 900, "up": "900..1300"}),
        ("roof_obstacles", {**FAN, "from front": "0..6000", "centre": 2500}),
        # Drawn out it stands beside the vehicle, and in it when it is in.
        ("moving_parts", {**SLIDE, "left": "-600..100", "drawn": "out"}),
        ("moving_parts", {**SLIDE, "kind": "lifting roof", "up": "roof..roof+50", "towards": "up", "travel": 900}),
    ],
)
def test_what_belongs_to_a_vehicle_is_let_be(section, entry):
    assert said(section, entry) == []


def test_the_roof_may_be_any_polygon():
    # The corners of a tapered nose are cut off: an obstacle there would hang in the air.
    nose = [[0, 1000], [1000, 0], [6000, 0], [6000, 2500], [1000, 2500], [0, 1500]]
    outside = {"length": None, "width": None, "outline": nose}
    for along, wrong in (("600..700", False), ("300..400", True)):
        fan = {"kind": "vent", "from front": along, "left": "500..700"}
        assert bool(problems_of(rig_data({"a": A}, outside=outside, roof_obstacles={"fan": fan}))) == wrong


def test_a_vehicles_own_entry_is_refused_in_its_job():
    job = job_data({}, {"c": ("x.t", "y.t")}, differences={"hazards": {"it": {**FLUE, "from front": "7400..7500"}}})
    first, *_ = problems_of(rig_data({"a": A}, hazards={"it": FLUE}), job)
    assert (first.file, first.path) == ("job", ("differences", "hazards", "it"))


def test_lengths_are_told_in_the_unit_of_the_file():
    rig = {**rig_data({"a": A}, hazards={"it": {**FLUE, "from front": "366 in..369 in"}}), "units": "in"}
    rig["shell"] = {key: f"{size} mm" if isinstance(size, int) else size for key, size in rig["shell"].items()}
    rig["spaces"] = {"a": {**A, "from front": "1000..2000 mm", "left": "600 mm"}}
    rig["hazards"]["it"] |= {"left": "100 mm", "up": "900 mm..roof"}
    (problem,) = problems_of(rig)
    assert "30' 6\" to 30' 9\" from the front (the shell is 19' 8 1/4\" long" in problem.sentence


# --- One slip, one sentence ---


def test_a_space_past_the_rear_is_one_problem_whatever_hangs_on_it():
    spaces = {
        "a": A,
        "past": {**A, "from front": "1500..9000"},  # would overlap, too
        "next": {"kind": "cabinet", "after": "past", "long": 400, "left": 600, "up": "floor..ceiling"},
        "last": {"kind": "cabinet", "after": "next", "long": 400, "left": 600, "up": "floor..ceiling"},
        "beside": {"kind": "bay", "from front": "1500..2000", "right": "to next"},
    }
    job = job_data(
        {"box": {"kind": "router", "in": "past", "from front": 1600, "left": 10, "up": 5, "terminals": {"t": None}}},
        {"c": {"from": "box.t", "to": "box.u"}},
        differences={"found": [{"what": "past", "standing": "proven"}]},
        owner={"excludes": ["past"]},
    )
    job["equipment"]["box"]["terminals"]["u"] = None
    (problem,) = problems_of(
        rig_data(
            spaces,
            access={"door": {"into": "past", "kind": "cabinet door", "face": "right"}},
            hazards={"flue": {**FLUE, "after": "next", "long": 100, "from front": None}},
            passages={"hole": {"between": ["past", "a"], "opening": "exists"}},
            moving_parts={"slide": {**SLIDE, "after": "last", "long": 400, "from front": None}},
            touching={"a~past": 100},
        ),
        job,
    )
    assert problem.path == ("spaces", "past")
    assert problem.sentence == (
        "past reaches outside the shell in plan, 1500 to 9000 mm from the front and 50 to 650 mm from the left side "
        f"{SHELL}: measure it again"
    )


def test_a_space_outside_in_plan_and_height_is_one_problem_too():
    (problem,) = problems_of(rig_data({"past": {**A, "from front": "5500..6500", "up": "floor..5000"}}))
    assert "in plan, 5500 to 6500 mm" in problem.sentence
    assert ", and from 0 to 5000 mm in height, outside ground to roof" in problem.sentence


@pytest.mark.parametrize(
    ("outside", "key"),
    [
        ({"ceiling": 2286}, "roof"),  # `ceiling: 90 in` below a roof at 84: which of them is wrong nobody knows
        ({"roof": 206}, "roof"),
        ({"ground": 1000}, "ground"),  # without its minus
        ({"bay": 700}, "bay"),
    ],
)
def test_a_wrong_height_of_the_shell_is_the_one_problem(outside, key):
    spaces = {"a": A, "b": B, "under": {"kind": "underfloor", "from front": "2000..3000", "up": "-500..belly"}}
    step = {"steps": [{"from front": "0..900", "floor": 300}]}
    rig = rig_data(spaces, outside={**outside, **step}, hazards={"flue": FLUE}, roof_obstacles={"fan": FAN})
    assert [problem.path for problem in problems_of(rig)] == [("shell", key)]


def test_a_step_beyond_the_shell_is_refused():
    outside = {"steps": [{"from front": "0..900", "floor": 300}, {"from front": "5000..6001", "floor": 200}]}
    (problem,) = problems_of(rig_data({"a": A}, outside=outside))
    assert problem.path == ("shell", "steps", 1)
    assert problem.sentence == (
        "the step reaches outside the shell, 5000 to 6001 mm from the front: the shell is 6000 mm long and 2500 mm wide"
    )


# --- Pipes ---


@pytest.mark.parametrize(("pipe", "fits"), [(50, True), (200, True), (201, False)])
def test_a_pipe_is_no_wider_than_its_stack(pipe, fits):
    stack = {"kind": "vent stack", "from front": "1000..1500", "left": 200, "up": "bay..ceiling", "pipe": pipe}
    found = [(p.path, p.sentence) for p in problems_of(rig_data({"stack": stack}))]
    wrong = f"the pipe of stack does not fit: it is {pipe} mm wide, in a space of 200 mm"
    assert found == ([] if fits else [(("spaces", "stack", "pipe"), wrong)])


def test_every_entry_in_place_leaves_no_problem():
    # The other tests change one thing in what stands here.
    coach = coach_of(
        rig_data(
            {"a": A, "b": B},
            hazards={"flue": FLUE},
            obstructions={"tank": TANK},
            roof_obstacles={"fan": FAN},
            doors={"door": DOOR},
            moving_parts={"slide": SLIDE},
        )
    )
    assert coach.written["flue"] == ("rig", ("hazards", "flue"))
