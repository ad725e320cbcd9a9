"""Moving parts: what each sweeps, what moves with it by geometry alone, and what loses only a part to it."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.coach.box import Box
from drawcord.ways.runs import OnRoof
from drawcord.words.finding import Severity
from sketch import coach_of, job_data, problems_of, rig_data, shop

LEFT, RIGHT = 50, 2450  # the insides of the walls
MARGIN = 40  # as the shop of these tests has it
# Drawn in it stands against the left wall, 2 m long and 700 mm deep, under a header; it moves out 600 mm.
SLIDE = {
    "kind": "slide-out",
    "from front": "2000..4000",
    "left": 700,
    "up": "floor..ceiling-100",
    "travel": 600,
    "towards": "left",
    "drawn": "in",
}
SWEEP = Box(1960, 4040, LEFT - 600 - MARGIN, LEFT + 700 + MARGIN, -MARGIN, 1900 + MARGIN)


def cabinet(along, left, up="floor..ceiling", kind="cabinet"):
    return {"kind": kind, "from front": along, "left": left, "up": up}


def coach(spaces, slide=SLIDE, **sections):
    return coach_of(rig_data(spaces, moving_parts={"slide": slide}, **sections))


# --- The sweep ---


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ({"towards": "up"}, "a slide-out goes level"),
        ({"towards": "right"}, "never leaves the shell"),
        ({"towards": "aft"}, "never leaves the shell"),
        ({"left": "100..800", "drawn": "out", "travel": 50}, "never leaves the shell"),
        ({"kind": "lifting roof"}, "a lifting roof goes `up`"),
        ({"kind": "lifting roof", "towards": "down"}, "a lifting roof goes `up`"),
    ],
)
def test_a_part_that_could_not_move_like_that_is_refused(changed, why):
    # A slip in one word would sweep the aisle instead of the outside, and nothing else would tell.
    (problem,) = problems_of(rig_data({}, moving_parts={"slide": {**SLIDE, **changed}}))
    assert problem.path == ("moving parts", "slide", "towards")
    assert why in problem.sentence


@settings(deadline=None, max_examples=60)
@given(
    drawn=st.sampled_from(["in", "out"]),
    travel=st.integers(60, 900),  # past the wall, or a slide-out would never leave the shell
    margin=st.integers(0, 80),
    keeps=st.sampled_from(["left", "right"]),
    opens=st.sampled_from([("slide-out", "left"), ("lifting roof", "up")])  # a slide-out as one that is drawn in
    | st.tuples(
        st.just("hatch"), st.sampled_from(["forward", "aft", "left", "right", "street", "curb", "up", "down"])
    ),
)
def test_the_sweep_is_what_all_positions_between_cover(opens, drawn, travel, margin, keeps):
    # The oracle moves the part in twenty steps from where it is drawn to the other end of its travel: the
    # sweep is the least box around all of these, grown by the margin.
    kind, towards = opens
    drawn = "in" if kind == "slide-out" else drawn
    part = {**SLIDE, "kind": kind, "towards": towards, "drawn": drawn, "travel": travel}
    made = coach_of(rig_data({}, keeps=keeps, moving_parts={"part": part}), of=shop(moving=margin))
    moved = made.moving_parts["part"]
    named = {"street": "left", "curb": "right"} if keeps == "right" else {"street": "right", "curb": "left"}
    way = {
        "forward": (-1, 0, 0),
        "aft": (1, 0, 0),
        "left": (0, -1, 0),
        "right": (0, 1, 0),
        "up": (0, 0, 1),
        "down": (0, 0, -1),
    }[named.get(towards, towards)]
    # A hatch is part of the roof, measured from its edge; the others from inside the wall.
    side = 0 if kind == "hatch" else LEFT
    start = (2000, 4000, side, side + 700, 0, 1900)
    positions = []
    for step in range(21):
        share = Fraction(step, 20) * travel * (1 if drawn == "in" else -1)
        positions.append([value + share * way[index // 2] for index, value in enumerate(start)])
    around = [(min, max)[index % 2](values) for index, values in enumerate(zip(*positions, strict=True))]
    assert moved.drawn == start
    assert list(moved.moved) == positions[-1]
    assert list(moved.sweep) == [value + (-margin if index % 2 == 0 else margin) for index, value in enumerate(around)]


def test_a_part_drawn_out_sweeps_the_same_as_one_drawn_in():
    out = {**SLIDE, "left": "-600..100", "drawn": "out"}
    drawn_in, drawn_out = coach({}).moving_parts["slide"], coach({}, out).moving_parts["slide"]
    assert drawn_in.sweep == drawn_out.sweep == SWEEP
    assert (drawn_in.drawn, drawn_in.moved) == (drawn_out.moved, drawn_out.drawn)


# --- What rides ---


@pytest.mark.parametrize("name", ["pantry", "fixed_wall", "x", "slide_2"])
@pytest.mark.parametrize("kind", ["cabinet", "chase", "void", "bay", "panel wall", "vent stack", "underfloor"])
def test_what_stands_on_a_slide_moves_whatever_its_name_and_kind(name, kind):
    # A tall pantry of 1880 mm, which does not touch the ceiling.
    found = coach({name: cabinet("2500..3000", 600, "floor..1880", kind)})
    assert found.spaces[name].moving == "slide"
    assert found.spaces[name].barred == "it moves with slide, or lies in its way"
    assert found.moving_parts["slide"].riders == (name,)


@pytest.mark.parametrize(
    ("place", "moves"),
    [
        (cabinet("2500..3000", 600, "floor..1880"), True),
        # Drawn where the slide is when out: the sweep covers it all the same.
        (cabinet("2500..3000", "-600..-100", "floor..1880"), True),
        (cabinet("2500..3000", "750..1300"), False),  # in front of it, across the aisle
        (cabinet("4100..4600", 600), False),  # just aft of it
        (cabinet("2500..3000", 600, "ceiling-50..ceiling"), False),  # the header above: structure
        (cabinet("2500..3000", 600, "bay..belly", "bay"), False),  # below it
        # Half of it in the way is enough to take it along; a millimetre less is not.
        (cabinet("3540..4540", 600, "floor..1900"), True),
        (cabinet("3541..4541", 600, "floor..1900"), False),
    ],
)
def test_what_lies_in_the_sweep_by_half_or_more_moves(place, moves):
    found = coach({"it": place})
    assert found.spaces["it"].moving == ("slide" if moves else "")
    assert found.moving_parts["slide"].riders == (("it",) if moves else ())


def test_the_margin_alone_takes_no_neighbour_but_is_taken_from_it():
    found = coach({"next": cabinet("4010..4600", 600)}).spaces["next"]
    assert not found.moving
    assert found.taken == (Box(4010, 4040, 50, 650, 0, 1940),)


def test_a_room_never_moves_but_loses_the_sweep():
    found = coach({"saloon": {"kind": "room", "from front": "1900..4100"}}).spaces["saloon"]
    assert not found.moving
    assert not found.barred
    assert SWEEP.overlap(found.box) in found.taken


# --- What lies partly in the way ---


def test_a_space_partly_in_the_way_loses_that_part_alone_and_it_is_said():
    found = coach({"long": cabinet("3500..6000", "100..500")})
    space = found.spaces["long"]
    assert not space.moving
    assert not space.barred
    assert space.taken == (Box(3500, 4040, 150, 550, 0, 1940),)
    (finding,) = found.findings
    assert finding.severity is Severity.CAUTION
    assert finding.place == "long"
    said = "long lies partly in the way of slide: that part of it is not used"
    assert finding.sentence == f"{said}; measure both again if it should be clear"


def test_a_space_between_two_slides_loses_a_part_to_each():
    other = {**SLIDE, "from front": "4500..5500"}
    spaces = {"long": cabinet("3000..6000", "700..900")}
    found = coach_of(rig_data(spaces, moving_parts={"slide": SLIDE, "other": other}))
    assert not found.spaces["long"].moving
    assert found.spaces["long"].taken == (
        Box(3000, 4040, 750, 790, 0, 1940),
        Box(4460, 5540, 750, 790, 0, 1940),
    )
    assert len(found.findings) == 2


def test_a_rider_may_reach_outside_the_shell_a_fixed_space_may_not():
    place = cabinet("2500..3000", "-600..-100", "floor..1880")
    assert coach({"it": place}).spaces["it"].moving == "slide"
    (problem,) = problems_of(rig_data({"it": place}))
    assert "outside the shell" in problem.sentence


def test_a_coach_without_slides_moves_nothing():
    found = coach_of(rig_data({"it": cabinet("2500..3000", 600)}))
    assert not found.moving_parts
    assert not found.spaces["it"].moving
    assert not found.spaces["it"].taken


# --- Lifting roofs and hatches ---

LIFTING = {
    "kind": "lifting roof",
    "from front": "1000..3000",
    "centre": 1200,
    "up": "ceiling-10..roof+60",
    "travel": 500,
    "towards": "up",
    "drawn": "in",
}


def test_a_lifting_roof_sweeps_upwards_and_leaves_the_cabin_below():
    spaces = {
        "edge": cabinet("900..3100", "700..1100", "ceiling-100..ceiling", "void"),
        "under": cabinet("1200..1800", "1000..1400", "floor..900"),
    }
    found = coach(spaces, LIFTING)
    assert found.moving_parts["slide"].sweep == Box(960, 3040, 610, 1890, 1950, 2660)
    assert not found.spaces["under"].taken
    # The void at the ceiling loses the 50 mm that the sunk part of the roof and its margin reach down.
    assert found.spaces["edge"].taken == (Box(960, 3040, 750, 1150, 1950, 2000),)


def test_no_cable_on_the_roof_crosses_a_roof_that_lifts():
    # Straight over it, from one point before it to one behind, the way would be 3 m.
    before, behind = (500, 1250, 2060), (3500, 1250, 2060)
    fixed, lifting = OnRoof(coach_of(rig_data({}))), OnRoof(coach({}, LIFTING))
    assert fixed.lengths([before, behind])[0][1] == 3000
    assert lifting.lengths([before, behind])[0][1] > 3000
    at_roof = coach({}, LIFTING).moving_parts["slide"].sweep._replace(z0=2059, z1=2061)
    path = lifting.path(before, behind)
    assert path
    assert not any(at_roof.meets_segment(p, q) for p, q in pairwise(path))


def test_what_hangs_on_a_hatch_moves_with_it_and_its_place_is_measured_from_the_edge_of_the_roof():
    hatch = {
        "kind": "hatch",
        "from front": "1000..1500",
        "left": "1000..1500",
        "up": "ceiling..roof",
        "travel": 300,
        "towards": "up",
        "drawn": "in",
    }
    fan = cabinet("1050..1450", "1000..1400", "ceiling..roof", "void")
    found = coach({"fan": fan}, hatch)
    assert found.moving_parts["slide"].sweep == Box(960, 1540, 960, 1540, 1960, 2400)
    assert found.spaces["fan"].moving == "slide"


# --- This vehicle's own ---


def test_a_part_that_this_vehicle_does_not_have_moves_nothing():
    spaces = {"pantry": cabinet("2500..3000", 600, "floor..1880"), "fixed": cabinet("4500..5000", 600)}
    equipment = {
        name: {
            "kind": "router",
            "in": name,
            "from front": at,
            "left": 100,
            "up": 500,
            "terminals": {"t": None},
        }
        for name, at in (("pantry", 2600), ("fixed", 4600))
    }
    data = rig_data(spaces, moving_parts={"slide": SLIDE})
    ends = {"c": ("pantry.t", "fixed.t")}
    # Equipment and spaces share no ids, so that the two may be called alike.
    with_slide = coach_of(data, job_data(equipment, ends))
    without = coach_of(data, job_data(equipment, ends, differences={"removed": ["slide"]}))
    assert with_slide.spaces["pantry"].moving == "slide"
    assert not without.spaces["pantry"].moving
    assert not without.moving_parts


def test_a_longer_travel_of_this_vehicle_takes_along_what_the_rig_leaves_alone():
    # Drawn out in the rig, so that a longer travel reaches further in.
    out = {**SLIDE, "left": "-600..100", "drawn": "out"}
    spaces = {"table": cabinet("2500..3000", "760..1100", "floor..900"), "far": cabinet("5000..5500", 600)}
    equipment = {
        "box": {
            "kind": "router",
            "in": "far",
            "from front": 5100,
            "left": 9,
            "up": 9,
            "terminals": {"t": None},
        },
        "top": {"kind": "antenna", "in": "roof", "from front": 5100, "left": 900, "terminals": {"t": None}},
    }
    changed = {"moving parts": {"slide": {**out, "travel": 900}}}
    data = rig_data(spaces, moving_parts={"slide": out})
    ends = {"c": ("box.t", "top.t")}
    assert not coach_of(data, job_data(equipment, ends)).spaces["table"].moving
    assert coach_of(data, job_data(equipment, ends, differences=changed)).spaces["table"].moving == "slide"
