"""Every passage of a coach: those that geometry gives, and those that a person declares."""

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.coach.box import Box
from drawcord.coach.kinds import NATURE
from drawcord.files.home import layouts
from drawcord.files.load import load_ways
from drawcord.ways.passage import pair_id
from drawcord.ways.through_roof import bore
from drawcord.ways.ways import explore
from drawcord.words.faults import BadInput
from sketch import CABLE, CLEARANCES, coach_of, job_data, rig_data

A = Box(1000, 2000, 50, 650, 0, 1800)  # neither reaches the roof
B = Box(2050, 3000, 50, 650, 0, 1800)
TALL = Box(1000, 2000, 50, 650, 0, 2000)
RIG_FILES = sorted(layouts().glob("*/rig.yaml"))
JOB_FILES = sorted(layouts().glob("*/job-*.yaml"))


def entry(box, kind="cabinet", **keys):
    """A space with exactly this box."""
    x0, x1, y0, y1, z0, z1 = box
    return {"kind": kind, "from front": [x0, x1], "left": [y0 - 50, y1 - 50], "up": [z0, z1], **keys}


def at(box):
    """A place with exactly this box."""
    return {key: value for key, value in entry(box).items() if key != "kind"}


def slide_at(box, towards):
    """A slide drawn in that moves out by 300 mm."""
    return {"kind": "slide-out", **at(box), "travel": 300, "towards": towards, "drawn": "in"}


FAR = entry(Box(5000, 5400, 50, 400, 0, 900))
DEVICES = {
    "one": {"kind": "router", "in": "far", "from front": 5100, "left": 50, "up": 300, "terminals": {"t": None}},
    "two": {"kind": "screen", "in": "far", "from front": 5200, "left": 50, "up": 300, "terminals": {"t": None}},
}


def passages(spaces, job=None, **sections):
    entries = {name: entry(value) if isinstance(value, Box) else value for name, value in spaces.items()}
    return explore(coach_of(rig_data(entries, **sections), job)).passages


def ordered(spaces, *, of_rig=None, devices=None, cable=None, **sections):
    """The passages of a rig with a job laid over it."""
    order = job_data(
        {**DEVICES, **(devices or {})}, {"c": {"from": "one.t", "to": "two.t", **(cable or {})}}, **sections
    )
    return passages({**spaces, "far": FAR}, order, **(of_rig or {}))


def refused(make):
    with pytest.raises(BadInput) as caught:
        make()
    return [(p.file, p.path, p.sentence) for p in caught.value.problems]


# --- What geometry gives ---


def test_a_passage_is_called_after_the_spaces_it_joins_and_needs_a_hole():
    found = passages({"zinc": A, "bench": B})
    assert list(found) == ["bench~zinc"] == [pair_id("zinc", "bench")]
    passage = found["bench~zinc"]
    assert (passage.a, passage.b) == ("bench", "zinc")
    assert (passage.opening, passage.hole, passage.source) == ("needs hole", "inner", "geometry")
    assert passage.mouths == ((Box(2050, 2050, 70, 630, 20, 1780), Box(2000, 2000, 70, 630, 20, 1780)),)
    assert not passage.declared
    assert not passage.barred


@pytest.mark.parametrize("kind", [kind for kind in NATURE if kind not in ("roof", "room", "gas locker")])
def test_a_passage_into_what_nobody_can_see_is_unproven(kind):
    # With the shop's chance, whichever of the two is hidden; a cabinet is open to view.
    for spaces in ({"a": A, "b": entry(B, kind)}, {"b": A, "a": entry(B, kind)}):
        passage = passages(spaces)["a~b"]
        hidden = NATURE[kind].hidden
        assert (passage.standing, passage.chance) == (("unproven", 0.6) if hidden else ("proven", 1.0))


def test_from_bay_to_bay_nobody_knows_what_the_divider_is():
    low = (Box(1000, 2000, 50, 650, -700, -60), Box(2050, 3000, 50, 650, -700, -60))
    passage = passages({"a": entry(low[0], "bay"), "b": entry(low[1], "bay")})["a~b"]
    assert (passage.standing, passage.chance, passage.opening) == ("unproven", 0.6, "needs hole")
    below_cabinet = passages({"a": entry(low[0], "bay"), "b": Box(1000, 2000, 50, 650, 0, 900)})["a~b"]
    assert below_cabinet.standing == "proven"


def test_through_the_floor_the_mouths_lie_on_both_its_faces():
    found = passages({"a": entry(Box(1000, 2000, 50, 650, -700, -60), "bay"), "b": Box(1200, 1800, 50, 650, 0, 900)})
    assert found["a~b"].mouths == ((Box(1220, 1780, 70, 630, -60, -60), Box(1220, 1780, 70, 630, 0, 0)),)


@pytest.mark.parametrize(
    "spaces",
    [
        {"a": A, "gas": entry(B, "gas locker")},
        {"a": A, "b": entry(B, standing="blocked")},
    ],
)
def test_no_passage_leads_where_no_cable_may_run(spaces):
    assert passages(spaces) == {}


def test_no_passage_leads_onto_a_moving_part_or_into_what_the_owner_excludes():
    slide = slide_at(Box(2050, 3000, 50, 750, 0, 1900), "left")
    assert passages({"a": A, "b": B}, moving_parts={"s": slide}) == {}
    assert "a~b" in ordered({"a": A, "b": B})
    assert ordered({"a": A, "b": B}, owner={"excludes": ["b"]}) == {}


@pytest.mark.parametrize(
    ("section", "thing", "grow"),
    [
        ("doors", {}, 10),
        ("windows", {}, 10),
        *(("obstructions", {"kind": kind}, CLEARANCES["hole"]) for kind in ("framing", "tank", "duct")),
        *(("obstructions", {"kind": kind}, CLEARANCES["hole"]) for kind in ("water line", "gas line", "wiring")),
        *(("hazards", {"kind": kind}, grow) for kind, grow in CLEARANCES["hazards"].items()),
        ("hazards", {"kind": "burner", "clearance": 15}, 15),
    ],
)
def test_doors_windows_framing_lines_and_heat_are_taken_from_the_mouth(section, thing, grow):
    # In the wall between two cabinets, over its whole height and from y = 300 to 320.
    found = passages({"a": A, "b": B}, **{section: {"thing": {**thing, **at(Box(2000, 2050, 300, 320, 0, 1800))}}})
    spans = sorted(near.span(1) for near, _ in found["a~b"].mouths) if found else []
    free = [span for span in ((50, 300 - grow), (320 + grow, 650)) if span[1] - span[0] >= 30]
    assert spans == [(lo + by, hi - by) for lo, hi in free for by in [min(20, (hi - lo) // 2)]]


@pytest.mark.parametrize("kind", ["axle", "jack", "step"])
def test_what_travels_below_bars_no_hole_of_its_own_but_fills_the_space(kind):
    below = entry(Box(1000, 2000, 50, 650, -700, -60), "underfloor")
    thing = {"kind": kind, **at(Box(1000, 1500, 50, 650, -300, -60))}
    ((near, _),) = passages({"a": below, "b": Box(1000, 2000, 50, 650, 0, 900)}, obstructions={"t": thing})[
        "a~b"
    ].mouths
    assert near.span(0) == (1520, 1980)


def test_a_mouth_ends_where_a_moving_part_sweeps():
    # A slide in front of both, whose sweep with its margin reaches 190 mm into them.
    slide = slide_at(Box(1500, 2500, 500, 2450, 0, 1900), "right")
    ((near, _),) = passages({"a": A, "b": B}, moving_parts={"s": slide})["a~b"].mouths
    assert near.span(1) == (70, 440)


def test_contents_behind_the_wall_are_taken_from_the_mouth_those_further_in_are_not():
    behind = entry(B, filled=[at(Box(2050, 2100, 50, 650, 0, 900))])
    further = entry(B, filled=[at(Box(2060, 2100, 50, 650, 0, 900))])
    assert passages({"a": A, "b": behind})["a~b"].mouths[0][0].span(2) == (920, 1780)
    assert passages({"a": A, "b": further})["a~b"].mouths[0][0].span(2) == (20, 1780)


def test_two_rooms_side_by_side_are_open_to_each_other_where_raceway_can_pass():
    rooms = {"front": {"kind": "room", "from front": "0..3000"}, "rear": {"kind": "room", "from front": "3000..6000"}}
    passage = passages(rooms)["front~rear"]
    assert (passage.opening, passage.hole, passage.standing) == ("exists", "", "proven")
    # Along the walls on both sides, not through the middle of the air.
    assert {near.span(1) for near, _ in passage.mouths} == {(50, 50), (2450, 2450)}


def test_across_the_shell_nothing_touches():
    # Two lockers back to back are apart by the shell only if one lies outside it: refused before.
    spaces = {"a": entry(Box(1000, 2000, 50, 650, 0, 900)), "b": entry(Box(1000, 2000, -600, 0, 0, 900))}
    (problem,) = refused(lambda: passages(spaces))
    assert problem[1] == ("spaces", "b")
    assert "outside the shell" in problem[2]


# --- What was found out ---


@pytest.mark.parametrize(
    ("found", "known"),
    [
        ({"standing": "proven", "source": "looked"}, ("proven", 1.0, "looked", "")),
        ({"chance": "25 %"}, ("unproven", 0.25, "job", "")),
        ({"standing": "blocked", "date": "2025-01-02"}, ("blocked", 0.0, "2025-01-02", "it is blocked")),
    ],
)
def test_what_was_found_out_about_a_derived_passage_outranks_geometry(found, known):
    passage = ordered({"a": A, "b": entry(B, "chase")}, differences={"found": [{"what": "a~b", **found}]})["a~b"]
    assert (passage.standing, passage.chance, passage.source, passage.barred) == known


def test_a_finding_about_a_passage_that_does_not_exist_is_a_problem():
    unknown = "is neither a space nor a passage here: passages are called as in `bay~linen`"
    apart = "is no passage: they lie 3000 mm apart: measure them again; a thin gap is bridged under `touching`"
    for what, why in (("a~far", apart), ("a~nothing", unknown), ("nothing", unknown), ("a~b~far", unknown)):
        found = [{"what": "a~b", "standing": "proven"}, {"what": what}]
        (problem,) = refused(lambda found=found: ordered({"a": A, "b": B}, differences={"found": found}))
        sentence = f"{what} {why}"
        assert problem == ("job", ("differences", "found", 1, "what"), sentence)


def test_a_finding_about_a_passage_may_name_its_spaces_in_either_order_but_only_once():
    spaces = {"a": A, "b": B}
    found = [{"what": "b~a", "standing": "blocked"}]
    assert ordered(spaces, differences={"found": found})["a~b"].barred == "it is blocked"
    twice = [{"what": "a~b", "standing": "proven"}, *found]
    (problem,) = refused(lambda: ordered(spaces, differences={"found": twice}))
    assert problem[:2] == ("job", ("differences", "found", 1, "what"))
    assert "a second time" in problem[2]


def test_a_finding_about_a_passage_into_a_barred_space_is_let_be():
    # What the owner excludes later is still known.
    found = [{"what": "a~b", "standing": "proven"}]
    assert ordered({"a": A, "b": B}, differences={"found": found}, owner={"excludes": ["b"]}) == {}


# --- What a person declares ---


def declared(passage, spaces=None, **sections):
    return passages(spaces or {"a": A, "b": B}, passages={"known": {"between": ["b", "a"], **passage}}, **sections)


def test_a_declared_passage_replaces_the_derived_one_over_the_same_faces():
    found = declared({"opening": "exists", "size": 40})
    assert list(found) == ["known"]
    passage = found["known"]
    assert passage.mouths == passages({"a": A, "b": B})["a~b"].mouths
    assert (passage.a, passage.b, passage.size, passage.declared, passage.hole) == ("a", "b", 40, True, "")


@pytest.mark.parametrize(
    ("written", "hidden", "known"),
    [
        ({"opening": "exists"}, False, ("proven", 1.0, "sketch")),
        # An opening that exists has been seen, even into what is hidden.
        ({"opening": "exists"}, True, ("proven", 1.0, "sketch")),
        ({"opening": "exists", "standing": "unproven"}, False, ("unproven", 0.6, "sketch")),
        ({"opening": "exists", "chance": "70 %"}, False, ("unproven", 0.7, "sketch")),
        ({"opening": "needs hole"}, False, ("proven", 1.0, "sketch")),
        ({"opening": "needs hole"}, True, ("unproven", 0.6, "sketch")),
        ({"opening": "needs hole", "standing": "proven", "source": "endoscope"}, True, ("proven", 1.0, "endoscope")),
        ({"opening": "exists", "standing": "blocked"}, False, ("blocked", 0.0, "sketch")),
    ],
)
def test_a_declared_passage_carries_its_standing(written, hidden, known):
    passage = declared(written, {"a": A, "b": entry(B, "void" if hidden else "cabinet")})["known"]
    assert (passage.standing, passage.chance, passage.source) == known
    assert passage.hole == ("inner" if written["opening"] == "needs hole" else "")
    assert passage.barred == ("it is blocked" if known[0] == "blocked" else "")


def test_a_closed_passage_bars_and_replaces_the_whole_face():
    found = declared({"opening": "closed"})
    assert list(found) == ["known"]
    assert found["known"].barred == "it is closed"


def test_a_passage_with_a_place_stands_beside_what_geometry_gives():
    place = at(Box(1900, 2100, 100, 200, 300, 400))
    found = declared({"opening": "exists", "at": place})
    assert set(found) == {"a~b", "known"}
    assert found["known"].mouths == ((Box(2000, 2000, 100, 200, 300, 400), Box(2050, 2050, 100, 200, 300, 400)),)
    assert found["a~b"].mouths == passages({"a": A, "b": B})["a~b"].mouths


def test_a_place_at_the_side_of_a_nested_space_says_which_side():
    inner = Box(1300, 1600, 200, 400, 500, 900)
    place = at(Box(1290, 1310, 250, 300, 600, 700))
    found = declared({"opening": "exists", "at": place}, {"a": A, "b": inner})
    assert found["known"].mouths == ((Box(1300, 1300, 250, 300, 600, 700),) * 2,)


def test_a_place_in_the_roof_for_a_new_entry_takes_only_the_entries_that_lie_there():
    place = {"from front": [1000, 1400], "left": [0, 400]}
    hole = {"between": ["roof", "tall"], "opening": "needs hole", "at": place}
    found = passages({"tall": TALL}, passages={"hole": hole})
    inside = [spot for spot in roof_points(found["roof~tall"]) if spot[0] <= 1400 and spot[1] <= 400]
    assert roof_points(found["hole"]) == inside
    assert inside
    assert inside != roof_points(found["roof~tall"])


def test_a_place_may_be_given_on_either_face_or_flat():
    for box in (Box(2000, 2000, 100, 200, 300, 400), Box(2050, 2050, 100, 200, 300, 400)):
        found = declared({"opening": "exists", "at": {**at(box), "from front": [box.x0 - 5, box.x1 + 5]}})
        assert found["known"].mouths[0][0] == Box(2000, 2000, 100, 200, 300, 400)


APART = "lie 1000 mm apart: measure them again; a thin gap is bridged under `touching`"


@pytest.mark.parametrize(
    ("spaces", "passage", "why"),
    [
        ({"a": A, "b": Box(3000, 3500, 50, 650, 0, 900)}, {"opening": "exists"}, APART),
        ({"a": A, "b": B}, {"opening": "exists", "at": at(Box(1900, 2100, 700, 800, 300, 400))}, "do not touch there"),
        ({"a": A, "b": Box(3000, 3500, 50, 650, 0, 900)}, {"opening": "needs hole"}, APART),
    ],
)
def test_a_declared_passage_between_spaces_that_do_not_touch_is_a_problem(spaces, passage, why):
    sentence = f"known joins a and b, but they {why}"
    assert refused(lambda: declared(passage, spaces)) == [("rig", ("passages", "known"), sentence)]


@pytest.mark.parametrize("passage", [{"opening": "closed"}, {"opening": "exists", "standing": "blocked"}])
def test_what_geometry_closes_already_may_be_declared_closed(passage):
    assert declared(passage, {"a": A, "b": Box(3000, 3500, 50, 650, 0, 900)}) == {}


def test_a_declared_passage_of_the_job_that_cannot_be_is_a_problem_of_the_job():
    changes = {"passages": {"known": {"between": ["a", "far"], "opening": "exists"}}}
    (problem,) = refused(lambda: ordered({"a": A}, differences=changes))
    assert problem[:2] == ("job", ("differences", "passages", "known"))


def test_a_declared_passage_into_a_barred_space_is_none():
    assert ordered({"a": A, "b": B}, of_rig={"passages": {"p": {"between": ["a", "b"], "opening": "exists"}}},
        owner={"excludes": ["a"]}) == {}  # fmt: skip


def test_a_declared_passage_may_be_found_blocked_and_keeps_replacing_the_derived_one():
    of_rig = {"passages": {"p": {"between": ["a", "b"], "opening": "exists"}}}
    found = ordered({"a": A, "b": B}, of_rig=of_rig, differences={"found": [{"what": "p", "standing": "blocked"}]})
    assert [(name, passage.barred) for name, passage in found.items()] == [("p", "it is blocked")]


def test_an_opening_into_a_face_that_contents_fill_leads_nowhere():
    spaces = {"a": A, "b": entry(B, filled=[at(B._replace(x1=2400))])}
    assert passages(spaces) == {}
    (problem,) = refused(lambda: declared({"opening": "exists"}, spaces))
    assert problem[2] == "known joins a and b, but they do not touch"


# --- Through the roof ---


def roof_points(passage):
    """Where the mouths of an entry lie on the roof, having checked that they are points one above the other."""
    points = []
    for pair in passage.mouths:
        on_roof, inside = pair if passage.a == "roof" else pair[::-1]
        assert on_roof.span(2) == (2060, 2060)
        assert on_roof[:4] == inside[:4]
        assert inside.volume == 0
        points.append((on_roof.x0, on_roof.y0))
    return points


def test_a_space_under_the_roof_gets_entries_that_need_a_hole():
    passage = passages({"tall": TALL})["roof~tall"]
    assert (passage.opening, passage.hole, passage.standing) == ("needs hole", "roof", "proven")
    assert roof_points(passage)


@pytest.mark.parametrize(("top", "under"), [(2000, True), (1925, True), (1924, False)])
def test_a_space_that_ends_a_walls_thickness_below_the_ceiling_or_lower_is_not_under_the_roof(top, under):
    assert ("roof~tall" in passages({"tall": TALL._replace(z1=top)})) == under


def test_no_entry_leads_into_a_room_unless_the_owner_consents():
    room = {"saloon": {"kind": "room", "from front": "1000..4000"}}
    assert "roof~saloon" not in ordered(room)
    assert "roof~saloon" in ordered(room, owner={"consents": ["roof into room"]})


def test_no_entry_where_the_owner_excludes_the_roof():
    assert "roof~tall" in ordered({"tall": TALL})
    assert "roof~tall" not in ordered({"tall": TALL}, owner={"excludes": ["roof"]})


@pytest.mark.parametrize(("width", "fits"), [(42, True), (41, False)])
def test_the_bore_has_to_land_inside_the_space_by_the_measuring_error(width, fits):
    # A plug of 20 mm takes a bore of 22 mm; with 10 mm on each side for the error that makes 42 mm.
    narrow = entry(Box(1000, 2000, 300, 300 + width, 0, 2000), "panel wall")
    assert CABLE["largest plug"] + CLEARANCES["plug"] + 2 * CLEARANCES["measuring error"] == 42
    assert ("narrow~roof" in ordered({"narrow": narrow})) == fits


def test_the_largest_plug_of_the_job_decides_the_bore():
    narrow = entry(Box(1000, 2000, 300, 350, 0, 2000), "panel wall")
    assert "narrow~roof" in ordered({"narrow": narrow})
    assert "narrow~roof" not in ordered({"narrow": narrow}, cable={"largest plug": 30})


EDGE, FLANGE = CLEARANCES["roof edge"], CLEARANCES["flange"]
boxes = st.tuples(st.integers(0, 30), st.integers(1, 10), st.integers(0, 24), st.integers(1, 10)).map(
    lambda v: (100 * v[0], 100 * (v[0] + v[1]), 100 * v[2], min(100 * (v[2] + v[3]), 2500))
)


@settings(deadline=None, max_examples=60)
@given(
    space=st.tuples(st.integers(0, 20), st.integers(1, 6), st.integers(0, 20), st.integers(1, 6)),
    fans=st.lists(boxes, max_size=3),
    filled=st.lists(boxes, max_size=2),
    beams=st.lists(boxes, max_size=2),
)
def test_every_entry_fits_with_its_flange_and_its_bore_and_there_is_one_if_any_fits(space, fans, filled, beams):
    # Checked with plain rectangles: the bore lies in the usable top of the space by half its size and the
    # error, clear of framing by what holes keep; the flange on the roof clear of obstacles and of the edge.
    # Whether any place fits is tried at every 10 mm.
    x, long, y, deep = space
    tall = Box(100 * x, 100 * (x + long), 50 + 100 * y, min(50 + 100 * (y + deep), 2450), 0, 2000)
    contents = [Box(f[0], f[1], f[2], f[3], 500, 2000) for f in filled]
    found = passages(
        {"tall": entry(tall, filled=[at(box) for box in contents if box.overlap(tall)])},
        roof_obstacles={
            f"fan_{n}": {"kind": "vent", "from front": list(f[:2]), "left": list(f[2:])} for n, f in enumerate(fans)
        },
        obstructions={f"beam_{n}": {"kind": "framing", **at(Box(*f, 2000, 2060))} for n, f in enumerate(beams)},
    )
    lands, hole, keep = 13 + 10, CLEARANCES["hole"], CLEARANCES["roof obstacles"]["vent"]

    def fits(px, py):
        inside = tall.x0 + lands <= px <= tall.x1 - lands and tall.y0 + lands <= py <= tall.y1 - lands
        half = FLANGE // 2
        on_roof = EDGE + half <= px <= 6000 - EDGE - half and EDGE + half <= py <= 2500 - EDGE - half
        clear = not any(near(px, py, f, keep + half) for f in fans)
        clear &= not any(near(px, py, f[:4], lands) for f in contents)
        clear &= not any(near(px, py, f, lands + hole) for f in beams)
        return inside and on_roof and clear

    points = roof_points(found["roof~tall"]) if found else []
    assert all(fits(*point) for point in points)
    grid = [(px, py) for px in range(tall.x0, tall.x1, 10) for py in range(tall.y0, tall.y1, 10)]
    assert points or not any(fits(*spot) for spot in grid)


def near(x, y, plan, by):
    """Whether a point lies nearer to a rectangle than `by`, measured square."""
    x0, x1, y0, y1 = plan
    return x0 - by < x < x1 + by and y0 - by < y < y1 + by


def test_an_entry_is_offered_straight_below_or_above_a_terminal():
    # One on the roof over the cabinet, one within it; both where an entry fits.
    devices = {
        "one": {**DEVICES["one"], "in": "roof", "from front": 1500, "left": 300, "up": "roof"},
        "two": {**DEVICES["two"], "in": "tall", "from front": 1700, "left": 350, "up": 500},
    }
    points = roof_points(ordered({"tall": TALL}, devices=devices)["roof~tall"])
    assert points[:2] == [(1500, 300), (1700, 400)]


def test_without_a_job_the_bore_is_that_of_a_common_plug():
    assert bore(coach_of(rig_data({}))) == 25 + CLEARANCES["plug"]


STACK = entry(Box(1000, 1200, 300, 500, -700, 2000), "vent stack", pipe=50, cap=120)


def test_a_stack_whose_cap_covers_its_void_has_no_entry_of_its_own():
    # The cap and its clearance take 220 mm, more than the stack is wide.
    assert "roof~stack" not in passages({"stack": STACK})
    wide = {**STACK, "from front": "1000..1800"}
    assert "roof~stack" in passages({"stack": wide})


def test_a_cap_that_is_there_lets_a_cable_in_at_each_of_its_sides():
    found = passages({"stack": STACK}, passages={"cap": {"between": ["stack", "roof"], "opening": "exists"}})
    passage = found["cap"]
    assert (passage.a, passage.b, passage.hole) == ("roof", "stack", "")
    sides = {(near.x0, near.y0) for near, _ in passage.mouths}
    assert sides == {(990, 400), (1210, 400), (1100, 290), (1100, 510)}  # on the edge of its clearance
    for _, inside in passage.mouths:
        # Beside the pipe, at the top of the stack.
        assert inside.span(2) == (2000, 2000)
        assert STACK["from front"][0] <= inside.x0 <= STACK["from front"][1]
        assert not Box(1075, 1125, 375, 425, 1999, 2001).holds((inside.x0, inside.y0, 2000)) or (
            inside.x0 in (1075, 1125) or inside.y0 in (375, 425)
        )


def test_a_place_at_a_cap_says_at_which_side():
    place = {"from front": [1150, 1250], "left": [350, 450]}
    declared_cap = {"between": ["stack", "roof"], "opening": "exists", "at": place}
    passage = passages({"stack": STACK}, passages={"cap": declared_cap})["cap"]
    assert [(near.x0, near.y0) for near, _ in passage.mouths] == [(1210, 400)]


def test_a_cap_lets_no_cable_in_at_a_side_that_lies_within_the_clearance_of_a_flue():
    flue = {"kind": "appliance flue", **at(Box(1000, 1010, 390, 410, 900, 2060))}
    cap = {"between": ["stack", "roof"], "opening": "exists"}
    found = passages({"stack": {**STACK, "pipe": 20}}, passages={"cap": cap}, hazards={"flue": flue})
    assert {(near.x0, near.y0) for near, _ in found["cap"].mouths} == {(1210, 400)}


def test_no_cable_on_the_roof_passes_within_the_clearance_of_a_flue():
    # Straight past the flue it would be 2 m.
    flue = {"kind": "appliance flue", **at(Box(3000, 3100, 1200, 1300, 900, 2060))}
    ways = explore(coach_of(rig_data({}, hazards={"flue": flue})))
    assert ways.roof.lengths([(2000, 1250, 2060), (4000, 1250, 2060)])[0][1] > 2000


def gland(space, **keys):
    """An opening in the roof, 20 mm square, and a space under it."""
    place = {"from front": [1500, 1520], "left": [300, 320], **keys}
    return passages({"it": space}, passages={"gland": {"between": ["roof", "it"], "opening": "exists", "at": place}})


def test_an_opening_in_the_roof_leads_straight_down_where_it_is():
    found = gland(TALL)
    # Measured from the edge of the roof, though the cabinet is measured from inside the wall.
    assert found["gland"].mouths == ((Box(1510, 1510, 310, 310, 2000, 2000), Box(1510, 1510, 310, 310, 2060, 2060)),)
    assert set(found) == {"gland", "it~roof"}


def test_an_opening_in_the_roof_may_be_where_no_new_entry_would_fit():
    # In a wall too narrow to hit blind.
    assert "gland" in gland(entry(Box(1000, 2000, 300, 320, 0, 2000), "panel wall"))


@pytest.mark.parametrize(
    ("space", "keys"),
    [
        (TALL._replace(z1=900), {}),  # the space ends far below the roof
        (TALL, {"from front": [3000, 3020]}),  # it lies elsewhere
        (TALL, {"left": [1300, 1320]}),
    ],
)
def test_an_opening_in_the_roof_that_does_not_lie_over_its_space_is_a_problem(space, keys):
    (problem,) = refused(lambda: gland(space, **keys))
    assert problem == ("rig", ("passages", "gland"), "gland joins it and roof, but they do not touch there")


# --- The demo rigs ---


@pytest.mark.parametrize("path", [*RIG_FILES, *JOB_FILES], ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_on_the_demo_rigs_every_mouth_lies_in_the_faces_of_its_spaces_and_clear_of_what_bars_it(path):
    # From coordinates alone: in the box of its space, not within what is taken of it, nor in a sweep, nor
    # where a hole must not be.
    loaded, ways = load_ways(path)
    coach = loaded.coach
    barred = [part.sweep for part in coach.moving_parts.values()]
    barred += [hazard.keep for hazard in coach.hazards.values()]
    kept = [t.keep for t in coach.obstructions.values() if t.kind not in ("axle", "jack", "step")]
    for passage in ways.passages.values():
        assert passage.mouths
        for mouth, name in (
            (m, name) for pair in passage.mouths for m, name in zip(pair, (passage.a, passage.b), strict=True)
        ):
            space = coach.spaces[name]
            assert not space.barred
            assert space.box.contains(mouth), (passage.id, name)
            middle = tuple((lo + hi) // 2 for lo, hi in (mouth.span(axis) for axis in range(3)))
            assert not any(strictly(box, middle) for box in (*space.taken, *barred)), (passage.id, name)
            if passage.opening == "needs hole" and passage.hole != "roof":
                assert not any(strictly(box, middle) for box in kept), (passage.id, name)


def strictly(box, point):
    """Whether a point lies in the open interior of a box."""
    return all(box.span(axis)[0] < point[axis] < box.span(axis)[1] for axis in range(3))


@pytest.mark.parametrize("path", RIG_FILES, ids=lambda path: path.parent.name)
def test_on_the_demo_rigs_entries_lie_on_the_roof_off_its_edge_and_its_obstacles(path):
    loaded, ways = load_ways(path)
    coach = loaded.coach
    area = shapely.Polygon(coach.outline).buffer(-coach.shop.clearances.roof_edge, join_style="mitre")
    half = coach.shop.clearances.flange / 2
    for passage in ways.passages.values():
        if passage.hole == "roof":
            for x, y in ((near.x0, near.y0) for pair in passage.mouths for near in pair):
                flange = shapely.box(x - half, y - half, x + half, y + half)
                assert area.buffer(1).covers(flange), passage.id
                for thing in coach.obstacles.values():
                    x0, x1, y0, y1 = thing.keep[:4]
                    assert not (x0 < x + half and x - half < x1 and y0 < y + half and y - half < y1), thing.id
