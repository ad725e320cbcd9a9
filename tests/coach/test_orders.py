"""A job held against its coach, and against belief: names that lead nowhere, facts said twice, slips of the unit."""

import pytest
from pydantic import ValidationError

from drawcord.coach.job import Cable, Found, Temperatures
from drawcord.coach.rig import Passage, Space
from sketch import CABLE, coach_of, job_data, model, problems_of, rig_data

SPACES = {
    "galley": {"kind": "cabinet", "from front": "1000..2000", "left": 600, "up": "floor..ceiling"},
    "linen": {"kind": "cabinet", "from front": "2000..3000", "left": 600, "up": "floor..ceiling"},
}
HOLE = {"between": ["galley", "linen"], "opening": "exists"}
DEVICES = {
    name: {"kind": "router", "in": name, "from front": along, "left": 50, "up": 300, "terminals": {"data": None}}
    for name, along in (("galley", 1500), ("linen", 2500))
}


def said(found=(), rig=None, **sections):
    job = job_data(DEVICES, {"c": ("galley.data", "linen.data")}, differences={"found": list(found)}, **sections)
    return [(p.path, p.sentence) for p in problems_of(rig_data(SPACES, passages={"hole": HOLE}, **(rig or {})), job)]


# --- What was found ---


def test_a_passage_is_found_whichever_of_its_spaces_is_named_first():
    for name in ("galley~linen", "linen~galley", "linen ~ galley"):
        assert model(Found, {"what": name, "standing": "proven"}).what == "galley~linen"


@pytest.mark.parametrize(
    ("first", "second", "called"),
    [("linen", "linen", "linen"), ("hole", "hole", "hole"), ("galley~linen", "linen~galley", "galley~linen")],
)
def test_what_was_found_about_one_thing_stands_there_once(first, second, called):
    facts = [{"what": first, "standing": "proven"}, {"what": "galley"}, {"what": second, "standing": "blocked"}]
    sentence = f"what was found about {called} stands here a second time, after entry 1: keep one"
    assert said(facts) == [(("differences", "found", 2, "what"), sentence)]


@pytest.mark.parametrize(
    ("what", "hint"),
    [
        ("linnen", " (did you mean `linen`?)"),
        ("holes", " (did you mean `hole`?)"),
        ("galley~linnen", " (did you mean `linen`?)"),
        ("attic", ""),
    ],
)
def test_what_was_found_about_nothing_says_what_was_meant(what, hint):
    sentence = f"{what} is neither a space nor a passage here{hint}: passages are called as in `bay~linen`"
    assert said([{"what": what}]) == [(("differences", "found", 0, "what"), sentence)]


def test_a_pair_has_one_tolerance():
    for keys in ({"galley~linen": 90}, {"linen~galley": 90}):
        assert coach_of(rig_data(SPACES, touching=keys)).touching == {("galley", "linen"): 90}
    found = said(rig={"touching": {"galley~linen": 90, "linen~galley": 80}})
    assert found == [(("touching", "linen~galley"), "linen~galley gives these two spaces a second tolerance: keep one")]


# --- Names that lead nowhere ---

BOX = {"kind": "router", "from front": 1500, "left": 50, "up": 300, "terminals": {"t": None}}
SPOT = {"from front": "5000..5100", "left": 300}


@pytest.mark.parametrize(
    ("section", "entry", "sentence"),
    [
        ("hazards", {"kind": "burner", "after": "galey", "long": 9, "left": 9}, "no space called galey to measure"),
        ("hazards", {"kind": "burner", "before": "linnen", "long": 9, "left": 9}, "no space called linnen to measure"),
        ("doors", {"between": ["galley", "linnen"], "left": 9}, "there is no space called linnen to measure from"),
        ("windows", {"from front": "0..9", "right": "to linnen"}, "there is no space called linnen to measure from"),
        ("access", {"into": "linnen", "kind": "bay hatch", "face": "left"}, "it opens linnen, but there is no such"),
        ("passages", {"between": ["galley", "linnen"], "opening": "exists"}, "it joins linnen, but there is no such"),
        ("touching", {"galley~linnen": 90}, "galley~linnen does not name two spaces"),
    ],
)
def test_a_name_of_the_rig_that_is_unknown_brings_the_nearest(section, entry, sentence):
    sketched = {section: entry if section == "touching" else {"it": entry}}
    (problem,) = problems_of(rig_data(SPACES, **sketched))
    assert sentence in problem.sentence
    assert f"(did you mean `{'galley' if 'galey' in sentence else 'linen'}`?)" in problem.sentence


@pytest.mark.parametrize(
    ("job", "hint"),
    [
        (job_data({"box": {**BOX, "in": "galey"}}, {"c": ("box.t", "box.t")}), "(did you mean `galley`?)"),
        (job_data({"box": {**BOX, "in": "rooof"}}, {"c": ("box.t", "box.t")}), "(did you mean `roof`?)"),
        (job_data(DEVICES, {"c": ("galley.data", "linnen.data")}), "(did you mean `linen.data`?)"),
        (job_data(DEVICES, {"c": ("galley.data", "linen")}), "(did you mean `linen.data`?)"),
        (
            job_data(DEVICES, {"c": ("galley.data", "linen.data")}, owner={"excludes": ["galey"]}),
            "(did you mean `galley`?)",
        ),
        (
            job_data(DEVICES, {"c": ("galley.data", "linen.data")}, differences={"removed": ["holle"]}),
            "(did you mean `hole`?)",
        ),
    ],
)
def test_a_name_of_the_job_that_is_unknown_brings_the_nearest(job, hint):
    first, *_ = problems_of(rig_data(SPACES, passages={"hole": HOLE}), job)
    assert hint in first.sentence


# --- Beyond belief ---


def cable(**changed):
    return {**CABLE, "from": "a.t", "to": "b.t", **{key.replace("_", " "): value for key, value in changed.items()}}


@pytest.mark.parametrize(
    ("key", "most", "beyond", "wrong"),
    [
        ("outside diameter", "60 mm", "6.5 m", "`6.5 m` is thicker than any cable (60 mm)"),
        ("outside diameter", "60 mm", "61 mm", "`61 mm` is thicker than any cable (60 mm)"),
        ("largest plug", "100 mm", "101 mm", "`101 mm` is wider than any plug (100 mm)"),
        ("smallest bend", "1 m", "1001 mm", "`1001 mm` is wider than any cable's bend (1 m)"),
        ("amperes", "1000 A", "1001 A", "1001 A is out of bounds: the current of a cable in a vehicle is between 0"),
        ("volts", "1000 V", "1001 V", "the voltage of a cable in a vehicle is between 1 and 1000 V"),
        ("volts", "1 V", "0.9 V", "0.9 V is out of bounds: the voltage of a cable"),
    ],
)
def test_a_cable_is_no_larger_than_anybody_believes(key, most, beyond, wrong):
    assert model(Cable, cable(**{key: most}))
    with pytest.raises(ValidationError) as error:
        model(Cable, cable(**{key: beyond}))
    (detail,) = error.value.errors()
    assert detail["loc"] == (key,)
    assert wrong in str(detail["ctx"]["error"])


# Where copper's resistance is known, wire.conductor says: a job that asks for more would end in a fault.
@pytest.mark.parametrize(("at", "known"), [(-41, False), (-40, True), (120, True), (121, False), (200, False)])
def test_the_conductors_temperature_is_one_at_which_copper_is_known(at, known):
    written = {"coldest": "-20 °C", "hottest": "45 °C", "conductor": f"{at} °C"}
    if known:
        assert model(Temperatures, written).conductor == at
    else:
        with pytest.raises(ValidationError, match="copper's resistance is known is between -40 and 120 °C"):
            model(Temperatures, written)


@pytest.mark.parametrize(
    ("written", "called"),
    [
        ("10 AWG", "10 AWG"),
        ("10awg", "10 AWG"),
        (" 1/0  AWG ", "1/0 AWG"),
        ("6 mm2", "6 mm2"),
        ("6 mm²", "6 mm2"),
        ("1.5mm²", "1.5 mm2"),
        ("10 gauge", "10 gauge"),  # which no table has: the reader of the files says so
    ],
)
def test_a_conductor_is_called_as_in_the_tables(written, called):
    assert model(Cable, cable(conductor=written)).conductor == called


@pytest.mark.parametrize("standing", ["proven", "blocked"])
@pytest.mark.parametrize(
    ("of", "entry"), [(Found, {"what": "linen"}), (Passage, HOLE), (Space, {"kind": "cabinet", "from front": "1..2"})]
)
def test_what_is_certain_has_no_chance(of, entry, standing):
    assert model(of, {**entry, "chance": "60 %"}).chance == 0.6
    assert model(of, {**entry, "standing": "unproven", "chance": "60 %"}).chance == 0.6
    with pytest.raises(ValidationError) as error:
        model(of, {**entry, "standing": standing, "chance": "60 %"})
    (detail,) = error.value.errors()
    assert detail["loc"] == ("chance",)
    assert f"what is {standing} has no chance: write `standing: unproven`" in str(detail["ctx"]["error"])


@pytest.mark.parametrize("date", ["2026-05-04", "2026-12-31", "1999-01-01"])
def test_a_date_is_taken_as_written(date):
    assert model(Found, {"what": "linen", "date": date}).date == date


@pytest.mark.parametrize("date", ["last May", "4.5.2026", "2026-5-4", "2026-13-01", "2026-00-10", "2026-01-32", 2026])
def test_what_is_no_date_is_answered_with_one(date):
    with pytest.raises(ValidationError, match=f"`{date}` should be a date such as 2026-05-04"):
        model(Found, {"what": "linen", "date": date})
