"""What a newcomer meets first: the help, the version, the classes of vehicle, and notices with their places."""

import json
import re
from importlib.metadata import version

import pytest
from bad import JOB, MARK, RIG, changed, run, write

from drawcord.app import check, compare, demo, draw, new, plan, ways

COMMANDS = (new, check, draw, ways, compare, plan, demo)


def test_the_help_says_of_each_command_what_it_does_in_a_whole_line():
    said = run("--help")
    listed = said.out.partition("Commands:")[2]
    assert "..." not in listed
    for module in COMMANDS:
        first = module.command.__doc__.splitlines()[0]
        assert len(first) < 50
        assert re.search(rf"^  {module.NAME} +{re.escape(first)}$", listed, re.MULTILINE)


@pytest.mark.parametrize("module", COMMANDS, ids=lambda module: module.NAME)
def test_the_help_of_a_command_shows_an_example(module):
    assert f"Example: drawcord {module.NAME}" in run(module.NAME, "--help").out


def test_the_help_of_draw_says_where_the_pictures_go_if_nobody_says(tmp_path, monkeypatch):
    assert "default: (RIG-picture" in run("draw", "--help").out
    write(tmp_path)
    monkeypatch.chdir(tmp_path)
    assert run("draw", "rig.yaml").status == 0
    assert (tmp_path / "sketch-picture" / "rig.svg").exists()


def test_the_version_is_that_of_the_package():
    said = run("--version")
    assert (said.status, said.out) == (0, f"drawcord {version('drawcord')}\n")


@pytest.mark.parametrize(
    ("typed", "taken"),
    [
        ("class C", "motorhome"),
        ("Class A", "motorhome"),
        ("class_c", "motorhome"),
        ("coach", "motorhome"),
        ("bus", "motorhome"),
        ("trailer", "travel-trailer"),
        ("caravan", "travel-trailer"),
        ("5th wheel", "fifth-wheel"),
        ("truck camper", "truck-camper"),
        ("class B", "van"),
        ("camper-van", "van"),
    ],
)
def test_what_people_call_a_vehicle_leads_to_its_class(typed, taken, tmp_path):
    said = run("new", typed, tmp_path / "mine")
    assert said.status == 2
    assert f"for '{typed}' take {taken}: drawcord new {taken} FOLDER" in said.lines[-1]
    assert not (tmp_path / "mine").exists()


@pytest.mark.parametrize("typed", ["class", "camper", "boat", ""])
def test_what_is_no_class_is_answered_with_all_of_them(typed, tmp_path):
    said = run("new", typed, tmp_path / "mine")
    assert said.status == 2
    assert f"'{typed}' is no class of vehicle here: take motorhome (class A or C, coach, bus)" in said.lines[-1]
    assert all(kind in said.lines[-1] for kind in new.CALLED.values())
    assert "Value error" not in said.lines[-1]


def test_a_class_may_be_typed_with_capitals(tmp_path):
    assert run("new", "Van", tmp_path / "mine").status == 0


STRIP = "{kind: cabinet, after: linen, long: 500, street: 557..900"  # meets linen in 43 mm
WIDE = "{kind: vent, from front: 3000..3300}"  # without a side
NEAR = "{kind: junction box, in: roof, from front: 2980"  # within the fan's clearance


def test_notices_say_where_they_are_as_text_and_as_json(tmp_path):
    # In the rig, in the job, and of a passage: at the id of the entry, so that an editor jumps to it.
    apart = f"  {MARK}apart: {{kind: cabinet, from front: 2600..2900, street: 900, up: 0..900}}\n"
    rig = changed(RIG, "  pantry:", apart + "  pantry:")
    rig = changed(rig, "  chest: {kind: cabinet, after: linen, long: 500, street: 600", f"  {MARK}chest: {STRIP}")
    rig = changed(rig, "  fan: {kind: vent, from front: 3000..3300, centre: 300}", f"  {MARK}fan: {WIDE}")
    job = changed(JOB, "  junction: {kind: junction box, in: roof, from front: 2500", f"  {MARK}junction: {NEAR}")
    marks = write(tmp_path, rig, job)
    said = run("check", tmp_path / "job.yaml")
    assert (said.status, said.lines) == (0, [])
    told = [re.match(r"  (.*?):(\d+):(\d+): (notice|caution): (.*)", line) for line in said.out.splitlines()]
    found = sorted((one[1], int(one[2]), int(one[3])) for one in told if one)
    assert found == sorted((str(tmp_path / name), line, column) for name, line, column in marks)
    document = json.loads(run("check", tmp_path / "job.yaml", "--json").out)
    assert sorted((one["file"], one["line"], one["column"]) for one in document["notices"]) == sorted(marks)
    assert [one["sentence"] for one in document["notices"]] == [one[5] for one in told if one]
