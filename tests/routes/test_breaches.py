"""Which rule a route breaks, and by how much: small coaches whose measures can be worked out by hand."""

import sketch
from drawcord.routes.order import Order
from drawcord.routes.why import why
from drawcord.routes.wished import wish_of
from drawcord.ways.ways import explore

CLOSED = {"between": ["one", "other"], "opening": "closed", "standing": "blocked"}


def bay(begins, ends, **more):
    return {"kind": "bay", "from front": [begins, ends], "street": 900, **more}


def asked(spaces, start, end, wanted=(), *, job=None, z="bay+50", through=(), avoid=(), **sections):
    """The answer for a cable from the middle of one space to that of another."""
    equipment = {}
    for device, space in (("router", start), ("screen", end)):
        spot = {"from front": sum(spaces[space]["from front"]) // 2, "street": 400, "up": z}
        equipment[device] = {"kind": "router", "in": space, **spot, "terminals": {"data": None}}
    written = sketch.job_data(equipment, {"data": ("router.data", "screen.data")}, **(job or {}))
    order = Order(explore(sketch.coach_of(sketch.rig_data(spaces, **sections), written)), "data", ())
    return why(order, wish_of(order, wanted, through, avoid))


def sentences(answer):
    assert answer.verdict == "broken"
    return [breach.sentence for breach in answer.breaches]


def test_a_gap():
    """One bay ends at 1000 mm, the other begins at 1300 mm: 300 mm lie between, and 75 mm would do."""
    answer = asked({"one": bay(100, 1000), "other": bay(1300, 2000)}, "one", "other", ["one", "other"])
    apart = "they lie 300 mm from front to rear apart, and no more than 75 mm counts as touching"
    assert sentences(answer) == [f"one and other do not touch: {apart}"]
    assert answer.change is None
    assert answer.opens is None


def test_an_opening_too_small():
    """12 mm where the plug needs 20: 8 mm too small. A plug 8 mm smaller asks less of people than a wider opening."""
    hole = {"between": ["one", "other"], "opening": "exists", "standing": "proven", "size": 12}
    answer = asked(TWO, "one", "other", ["one", "other"], passages={"hole": hole})
    assert sentences(answer) == ["hole: an opening of 12 mm where the plug needs 20 mm, 8 mm too small"]
    assert (answer.change.effort, answer.change.amount) == (2, 8)
    assert answer.change.sentence.startswith("a plug of 12 mm instead of 20 mm")


def test_an_opening_too_small_for_the_cable():
    """The cable is 6 mm thick: with an opening of 5 mm no smaller plug helps, the opening has to be 15 mm wider."""
    hole = {"between": ["one", "other"], "opening": "exists", "standing": "proven", "size": 5}
    answer = asked(TWO, "one", "other", ["one", "other"], passages={"hole": hole})
    assert (answer.change.effort, answer.change.place, answer.change.amount) == (3, "hole", 15)


def test_closed_where_it_stands():
    """A closed passage is named, and opening it makes the only way there is win."""
    answer = asked(TWO, "one", "other", ["one", "other"], passages={"divider": CLOSED})
    assert sentences(answer) == ["divider: it is blocked"]
    assert (answer.change.place, answer.change.sentence) == ("divider", "divider open")


def test_a_clearance_too_wide():
    """A gas line 40 to 60 mm above the floor of a passage 100 mm high: a hole takes a strip of 30 mm.

    Below it 40 mm less the clearance is left, so that 10 mm of clearance would do, and the usual 50 mm is 40 too much.
    """
    low = {"kind": "bay", "from front": [1000, 2000], "street": 900, "up": "bay..bay+100"}
    line = {"kind": "gas line", "from front": [995, 1005], "street": [0, 900], "up": "bay+40..bay+60"}
    answer = asked({"one": bay(100, 1000), "other": low}, "one", "other", ["one", "other"], hazards={"line": line})
    said = "one~other: no place for a hole is left: line (gas line) is in the way, its clearance short by 40 mm"
    assert sentences(answer) == [said]
    assert (answer.change.effort, answer.change.place, answer.change.amount) == (6, "line", 40)
    assert "at 10 mm instead of 50 mm, if its maker and the codes allow that" in answer.change.sentence


def test_what_a_slide_sweeps():
    """A cabinet 500 mm deep; a slide 260 mm deep with 40 mm of margin sweeps 300 mm of it, more than half."""
    spaces = {
        "one": {"kind": "cabinet", "from front": [1000, 2000], "street": 600, "up": "floor..900"},
        "rider": {"kind": "cabinet", "from front": [2000, 3000], "street": 500, "up": "floor..900"},
        "other": {"kind": "cabinet", "from front": [3000, 4000], "street": 600, "up": "floor..900"},
    }
    place = {"from front": [2100, 2900], "street": 260, "up": "floor..1900"}
    slide = {"kind": "slide-out", **place, "travel": 600, "towards": "street", "drawn": "in"}
    answer = asked(spaces, "one", "other", ["rider"], z="floor+100", moving_parts={"slide": slide})
    said = "rider moves with slide, or lies in its way: it sweeps 300 mm of its 500 mm from side to side"
    assert sentences(answer) == [said]
    assert answer.change is None, "no fact tried makes a slide stand still"


def test_no_space_twice():
    """There and back through one space: it is named with both places."""
    answer = asked(TWO, "one", "one", ["one", "other", "one"])
    assert sentences(answer) == ["one is entered more than once, as space 1 and 3: a route enters no space again"]


def test_a_dead_end():
    """A space that touches one other alone cannot be gone through."""
    spaces = {**TWO, "end": bay(2000, 3000)}
    assert sentences(asked(spaces, "one", "other", through=["end"])) == [
        "end is a dead end: to come out again a route would enter a space twice"
    ]


def test_the_only_way_avoided():
    """What keeps out of the only space between has no chain of spaces left."""
    spaces = {**TWO, "end": bay(2000, 3000)}
    said = "no chain of touching spaces keeps out of other, even with nothing in the way"
    assert sentences(asked(spaces, "one", "end", avoid=["other"])) == [said]


def test_the_owner_excludes():
    """An excluded space between: the owner's word opens it."""
    spaces = {**TWO, "end": bay(2000, 3000)}
    answer = asked(spaces, "one", "end", ["other"], job={"owner": {"excludes": ["other"]}})
    assert sentences(answer) == ["other: the owner excludes it"]
    assert (answer.change.effort, answer.change.sentence) == (1, "the owner no longer excludes other")


def test_a_gas_locker_stays_shut():
    """No change of a fact leads a cable through a gas locker."""
    spaces = {**TWO, "gas": {"kind": "gas locker", "from front": [2000, 3000], "street": 900}, "end": bay(3000, 4000)}
    answer = asked(spaces, "one", "end", ["other", "gas"])
    assert sentences(answer) == ["gas: it is a gas locker"]
    assert answer.change is None
    assert answer.opens is None


def test_an_end_in_a_barred_space():
    """A cable that ends in a gas locker is barred there, whatever way is asked about."""
    spaces = {**TWO, "gas": {"kind": "gas locker", "from front": [2000, 3000], "street": 900}}
    for wanted in ({"wanted": ["other"]}, {"through": ["other"]}):
        assert sentences(asked(spaces, "one", "gas", **wanted)) == ["gas: it is a gas locker"]


def test_consent_missing():
    """The cabinet between is one in five likely to be clear; to an owner who minds no raceway, the room is lighter.

    It wins with the weights as they are once the owner has agreed, and that is the smallest change.
    """
    low = {"kind": "cabinet", "street": 600, "up": "floor..900"}
    spaces = {
        "one": {**low, "from front": [1000, 1600]},
        "between": {**low, "from front": [1600, 2000], "standing": "unproven", "chance": "20 %"},
        "other": {**low, "from front": [2000, 2600]},
        "room": {"kind": "room", "from front": [50, 5950]},
    }
    weights = {"in sight": 0, "doubt": 60}
    answer = asked(spaces, "one", "other", z="floor+100", through=["room"], job={"owner": {"weights": weights}})
    assert (answer.verdict, answer.consent, answer.sway.only) == ("efficient", True, "")
    assert {word: answer.sway.weights[word] for word in weights} == weights
    assert answer.change.sentence == "the owner agrees to raceway in sight in room"


TWO = {"one": bay(100, 1000), "other": bay(1000, 2000)}
