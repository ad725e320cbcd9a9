"""`drawcord why` through the real command: a bad route drawn by hand on each demo rig, its reason checked by hand."""

import json
import os
import subprocess
import sys
from functools import cache
from random import Random

import pytest
from bad import run
from ruamel.yaml import YAML
from test_same_bytes import shuffled

from drawcord.files.home import layouts
from planned import known

CLASS_A = "class-a-three-slides"
ASKED = ("coax", "--avoid", "edge_right")


@cache
def said(job, cable, *form):
    """The text of the answer, on one line up to what is said beside every answer."""
    with known():
        found = run("why", layouts() / f"{job}.yaml", cable, *form)
    assert found.status == 0, found.lines
    return " ".join(found.out.partition("CAUTION")[0].split())


def document(job, cable, *form):
    with known():
        found = run("why", layouts() / f"{job}.yaml", cable, *form, "--json")
    assert found.status == 0, found.lines
    return json.loads(found.out)


def line_of(job, key):
    """The line of a file of a layout on which a key stands."""
    lines = (layouts() / job).read_text(encoding="utf-8").splitlines()
    return next(number for number, text in enumerate(lines, start=1) if text.strip().startswith(key))


def test_class_a_down_the_pantry():
    """The short way down is the pantry: 650 mm deep, and the slide sweeps 900 mm in from the same wall."""
    text = said(f"{CLASS_A}/job-galley-side", "pv", "--spaces", "pantry")
    line = line_of(f"{CLASS_A}/rig.yaml", "pantry:")
    assert "Asked: roof > pantry > bay_mid." in text
    reason = "pantry moves with slide_galley, or lies in its way: it sweeps all of its 650 mm from side to side"
    assert f"It breaks a rule: - {reason} [rig.yaml:{line}]." in text
    assert "No single change opens it." in text


def test_class_a_through_the_shower():
    """Linen ends at 6.36 m and the shower begins at 6.45 m, 90 mm on; and the owner excludes the shower."""
    text = said(f"{CLASS_A}/job-galley-side", "pv", "--spaces", "linen,shower,bay_mid")
    assert "linen and shower do not touch: they lie 90 mm from front to rear apart" in text
    line = line_of(f"{CLASS_A}/job-galley-side.yaml", "excludes:")
    assert f"shower: the owner excludes it [job-galley-side.yaml:{line}]" in text


def test_class_a_down_the_rear():
    """The trim chase was found blocked, and bay_rear begins at 8.10 m, 1200 mm behind bay_c3, which ends at 6.90 m."""
    text = said(f"{CLASS_A}/job-galley-side", "pv", "--spaces", "trim_chase,bay_rear,bay_c3")
    assert "bay_c3 do not touch: they lie 1200 mm from front to rear apart" in text
    line = line_of(f"{CLASS_A}/job-galley-side.yaml", "- {what: trim_chase")
    assert f"trim_chase: it is blocked [job-galley-side.yaml:{line}]" in text


def test_class_a_through_the_living_room():
    """In the room it is longer, in sight and needs three holes more, and is no likelier to be clear: it is beaten."""
    found = document(f"{CLASS_A}/job-galley-side", "pv", "--through", "living")
    assert (found["verdict"], found["rival"]["called"]) == ("beaten", "pv-1")
    assert min(found["more_than_rival"].values()) >= 0
    assert found["more_than_rival"]["inner_holes"] == 3


def test_class_a_behind_the_fridge():
    """No roof hole (4 m) and 15 min less (1.5 m) against 856 mm more and 0.734 nat of doubt: it turns at 6.33 m a nat.

    The chances are those of the cap, 80 %, and of bay_c3~fridge_vent, the usual 60 %: -ln 0.48 = 0.734.
    """
    found = document(f"{CLASS_A}/job-mid-roof", "pv", "--through", "fridge_vent")
    assert found["verdict"] == "efficient"
    assert (found["changed_weight"], found["weights"]["doubt"]) == ("doubt", 6.3)
    assert found["smallest_change"]["sentence"] == "bay_c3~fridge_vent looked into and proven clear"


def test_fifth_wheel_down_the_rear_chase():
    """The chase at the rear begins at 396 in, the front bay ends at 142 in: 254 in, 21 ft 2 in, lie between."""
    text = said("fifth-wheel/job-front-bay", "pv", "--spaces", "rear_chase")
    assert "rear_chase and front_bay do not touch: they lie 21' 2\" from front to rear apart" in text
    assert 'no more than 3" counts as touching' in text


def test_truck_camper_across():
    """The vent is 6 in deep at the street side, the battery box 20 in at the curb side of 80 in: 4 ft 6 in between."""
    text = said("truck-camper/job-rear-junction", "pv", "--spaces", "fridge_vent")
    assert "they lie 4' 6\" from side to side apart" in text


def test_van_by_the_sill():
    """Through the cabin and the sill the supply is longer, in sight and needs three holes: the winner beats it."""
    text = said("van/job-garage", "supply", "--spaces", "cabin,sill_right")
    assert "supply-1 beats it: in no criterion does it ask for more, and in some for less." in text
    assert "inner holes 3 0 3 more" in text


def test_van_in_sight():
    """Who minds 895 mm in sight enough takes the pillar: 400 mm less, but 11 min and 1.02 nat of doubt more."""
    found = document("van/job-open-cabin", "coax", "--avoid", "cabin")
    assert found["verdict"] == "efficient"
    assert found["changed_weight"] == "in sight"
    assert found["best"]["spaces"] == ["roof", "edge_left", "overhead_left"]


def test_the_winner_itself():
    """Asked about the winner, the answer says so and proposes nothing."""
    text = said("van/job-garage", "charge", "--spaces", "garage")
    assert "It is the winner, charge-1." in text
    assert "change" not in text


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        (("coaxx", "--avoid", "cabin"), "has no cable coaxx (did you mean `coax`?)"),
        (("pv", "--spaces", "wardrob"), "there is no space wardrob here (did you mean `wardrobe`?)"),
        (("pv",), "say which route is meant"),
        (("pv", "--spaces", "cabin", "--avoid", "fridge"), "--spaces says the whole route"),
        (("pv", "--through", "cabin", "--avoid", "cabin"), "cannot go through cabin and avoid it too"),
        (("pv", "--avoid", "roof"), "no route of it can avoid roof"),
        (("pv", "--through", "cabin,"), "the id of a space is missing"),
    ],
)
def test_what_cannot_be_asked(form, sentence):
    """Bad input ends in status 2 with one sentence, and nothing on standard output."""
    found = run("why", layouts() / "van/job-garage.yaml", *form)
    assert found.status == 2
    assert not found.out
    assert any(sentence in line for line in found.lines)


def test_a_rig_has_no_routes():
    """Asked of a rig file, the answer says what is needed."""
    found = run("why", layouts() / "van/rig.yaml", "pv", "--avoid", "cabin")
    assert found.status == 2
    assert "a route is asked about in a job file" in found.lines[0]


def test_same_bytes(tmp_path):
    """Another process with the entries of the files in another order says the same in the same order."""
    path = layouts() / "van/job-garage.yaml"
    for name in ("rig.yaml", path.name):
        moved = shuffled(YAML(typ="safe").load(path.with_name(name)), Random(name))  # noqa: S311 - any order will do
        (tmp_path / name).write_text(json.dumps(moved, ensure_ascii=False), encoding="utf-8")
    first = document("van/job-garage", *ASKED)
    other = printed(tmp_path / path.name, 2)
    assert first.pop("inputs") != other.pop("inputs")
    assert json.dumps(first) == json.dumps(other)


def printed(job, seed):
    program = "from drawcord.app.cli import main; main()"
    words = [sys.executable, "-c", program, "why", job, *ASKED, "--json"]
    environment = {**os.environ, "PYTHONHASHSEED": str(seed)}
    return json.loads(subprocess.run(words, capture_output=True, check=True, env=environment).stdout)
