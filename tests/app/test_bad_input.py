"""Bad input, through the real command: one sentence a problem, at its place, and nothing else happens."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from bad import JOB, RIG, changed, contents, run, write

from drawcord.files.home import shared

# What is spoilt: the file, a passage of it and what comes in its stead, with a mark where the sentence should point;
# then words that the sentence needs: the value, and what would be right.
SYNTAX = {
    "a tab": ("rig", "  wall: 50", "¦\twall: 50", "a tab stands where only spaces may"),
    "an open bracket": ("rig", "pipe: 50}\n  bay:", "pipe: 50\n  bay¦:", "cannot be read as YAML", "line 19"),
    "a wrong indent": ("rig", "  wall: 50", " ¦wall: 50", "cannot be read as YAML", "look at indents"),
    "no colon": ("rig", "  wall: 50\n  floor", "  wall 50\n  ¦floor", "a key above has no colon after it"),
    "a key twice": ("rig", "  wall: 50", "  wall: 50\n  ¦wall: 60", "`wall`", "second time", "line 9, column 3"),
    "an id twice": ("rig", "  pantry:", "  ¦linen:", "`linen`", "second time", "line 17, column 3"),
    "a control character": ("rig", "name: Sketch", 'name: ¦"Ske\\x07tch"', "control character"),
    "a tag": ("rig", "name: Sketch", "name: ¦!!python/object Sketch", "`!!python/object`", "leave it out"),
    "an alias to nothing": ("rig", "name: Sketch", "name: ¦*that", "`*that` stands for nothing"),
    "an alias to itself": ("rig", "street: 600, up: floor..ceiling", "street: &a [¦*a], up: floor..ceiling", "`*a`"),
    "two documents": ("rig", "units: mm\n", "units: mm\n¦---\n", "second document"),
    "a key that is a list": ("rig", "  wall: 50", "  wall: 50\n  ¦[a]: 3", "a key must be text"),
    "a key without a name": ("job", "cores: 2", ":¦ 2", "a key is missing before the colon"),
}
SCHEMA = {
    "an unknown key": ("rig", "  wall: 50", "  wall: 50\n  ¦paint: red", "`paint` is unknown", "may stand here"),
    "a misspelt key": ("rig", "door: up", "¦dor: up", "`dor` is unknown", "did you mean `door`?"),
    "a misspelt section": ("rig", "hazards:", "¦hazzards:", "`hazzards` is unknown", "did you mean `hazards`?"),
    "an unknown key of a job": ("job", "owner: {", "owner: {¦budget: 3, ", "`budget` is unknown", "excludes"),
    "a key as Python has it": ("rig", "moving parts:", "¦moving_parts:", "did you mean `moving parts`?"),
    "a missing key": (
        "rig",
        "slide: {kind: slide-out,",
        "¦slide: {",
        "`kind` is missing",
        "slide-out, lifting roof, hatch",
    ),
    "a missing key of a job": ("job", "  pv: {from: junction.pv, ", "  ¦pv: {", "`from` is missing", "it starts at"),
    "no format": ("job", "format: 1\njob", "¦job", "`format` is missing"),
    "a later format": ("rig", "format: 1", "format: ¦2", "`2` should be `1`"),
    "an unknown kind": ("rig", "vent stack", "¦vent stak", "`vent stak` should be", "did you mean `vent stack`?"),
    "an id that is none": ("rig", "rig: sketch", "rig: ¦My Rig", "`My Rig` is no id", "small letters"),
    "an unknown side": ("rig", "door: curb}", "door: ¦kerb}", "`kerb` should be", "`curb`"),
    "a day that no month has": ("job", "'2025-05-01'", "¦'2025-02-30'", "`2025-02-30` should be a date"),
    "a truth for a number": ("job", "cores: 2", "cores: ¦true", "`true` should be a whole number"),
    "a number in quotes": ("job", "cores: 2", "cores: ¦'2'", "should be a whole number, without quotes"),
    "a format that is no number": ("rig", "format: 1", "format: ¦true", "`true` should be `1`"),
    "a format in quotes": ("job", "format: 1", "format: ¦'1'", "`1` should be `1`, without quotes"),
    "a date in words": ("job", "'2025-05-01'", "¦'last May'", "`last May` should be"),
    "text for a number": ("job", "cores: 2", "cores: ¦two", "`two` should be a whole number"),
    "text for a length": ("rig", "wall: 50", "wall: ¦thin", "`thin` is no length", "600 mm"),
    "text for a time": ("rig", "face: curb}", "face: curb, minutes: ¦soon}", "`soon` is no time", "15 min"),
    "text for a share": ("rig", "80 %", "¦likely", "`likely` is no share", "60 %"),
    "text for a temperature": ("job", "-20 °C", "¦cold", "`cold` is no temperature", "-20 °C"),
    "text for a current": ("job", "9 A", "¦lots", "`lots` is no current", "12.5 A"),
    "a number for text": ("job", "rig: rig.yaml", "rig: ¦7", "`7` should be text"),
    "a list for a mapping": ("job", "owner: {roof run: square}", "owner: ¦[roof run]", "a list should be a mapping"),
    "nothing for a mapping": ("job", "owner: {roof run: square}", "¦owner:", "an empty value should be a mapping"),
    "a mapping for a length": ("rig", "wall: 50", "wall: ¦{}", "a mapping is no length"),
    "not a number": ("rig", "wall: 50", "wall: ¦.nan", "`.nan` is no length"),
    "not a number in words": ("rig", "wall: 50", "wall: ¦NaN", "`NaN` is no length"),
    "not a number in a range": ("rig", "4000..4500", "¦4000..nan", "`nan` is no length"),
    "not a number as a weight": ("job", "{roof run", "{weights: {minutes: ¦nan}, roof run", "`nan` should be"),
    "infinite": ("rig", "wall: 50", "wall: ¦.inf", "`.inf` is no length"),
    "infinitely negative": ("rig", "ground: -1000", "ground: ¦-.inf", "`-.inf` is no length"),
    "infinite amperes": ("job", "9 A", "¦inf A", "`inf A` is no current"),
    "an exponent": ("rig", "wall: 50", "wall: ¦5e1", "`5e1` is no length", "600 mm"),
    "a negative size": ("rig", "wall: 50", "wall: ¦-50", "`-50` must be more than nothing"),
    "a negative depth": ("rig", "long: 500, street: 600", "long: 500, street: ¦-600", "-600 lies outside the wall"),
    "a negative current": ("job", "9 A", "¦-9 A", "`-9 A` is out of bounds", "more than 0"),
    "nothing as a size": ("rig", "roof: 2060", "roof: ¦0 mm", "`0 mm` must be more than nothing"),
    "a size of kilometres": ("rig", "length: 6000", "length: ¦6 km", "`km` in `6 km` is no unit of length"),
    "a size longer than any vehicle": ("rig", "length: 6000", "length: ¦60 m", "`60 m` is longer than any vehicle"),
    "a place a kilometre away": ("rig", "4000..4500", "¦4000..1000000", "`1000000` is longer than any vehicle"),
    "a size beyond all numbers": ("rig", "length: 6000", "length: ¦99999999999999999999", "`99999999999999999999`"),
    "an unknown unit": ("rig", "units: mm", "units: ¦yards", "`yards` should be `mm`"),
    "a unit twice": ("rig", "wall: 50", "wall: ¦50 mm mm", "`50 mm mm`"),
    "two readings": ("rig", "length: 6000", "length: ¦6,000", "`6,000` can be read in two ways", "6000"),
    "a range that runs backwards": ("rig", "4000..4500", "¦4500..4000", "`4500..4000` runs backwards"),
    "an empty range": ("rig", "4000..4500", "¦4000..4000", "`4000..4000` is empty"),
    "half a range": ("rig", "4000..4500", "¦4000..", "`4000..` is no range", "6.70..7.09 m"),
    "an unknown height": ("rig", "up: floor..900", "up: ¦floor..lid", "`lid` is no height", "ceiling"),
    "a slide that travels nowhere": ("rig", "travel: 600", "travel: ¦0", "`0` must be more than nothing"),
    "a slide that hardly travels": ("rig", "travel: 600", "travel: ¦0.4", "`0.4` must be more than nothing"),
    "a slide that travels backwards": ("rig", "travel: 600", "travel: ¦-600", "`-600` must be more than nothing"),
    "a chance beyond certainty": ("rig", "80 %", "¦180 %", "`180 %` is out of bounds", "between 0 and 100 %"),
    "a share that lacks its sign": ("rig", "80 %", "¦2", "`2` is out of bounds", "write 2 %"),
    "a share beyond any sign": ("rig", "80 %", "¦200", "`200` is out of bounds", "write 60 %"),
    "a negative weight": ("job", "{roof run", "{weights: {minutes: ¦-1}, roof run", "`-1` should be 0 or more"),
    "a limit of no chance at all": ("job", "owner: {", "limits: {chance clear: ¦0 %}\nowner: {", "a chance of 0 %"),
    "shorter than the shortest": ("job", "owner: {", "limits: {times shortest: ¦0.9}\nowner: {", "should be 1 or"),
    "half a hole": ("job", "piece: 10 m", "piece: 10 m, limits: {roof holes: ¦0.5}", "`0.5` should be a whole number"),
    "a limit without a unit": ("job", "owner: {", "limits: {minutes: ¦90}\nowner: {", "90 min"),
    "a limit of nothing known": ("job", "owner: {", "limits: {¦holes: 1}\nowner: {", "`holes`", "`roof holes`"),
    "a weight of nothing known": ("job", "{roof run", "{weights: {¦speed: 1}, roof run", "`speed`", "`minutes`"),
}
REFERENCES = {
    "a plug thinner than its cable": ("job", "plug: 20", "plug: ¦3", "3 mm does not pass pv itself, which is 6 mm"),
    "more usable than there is": ("rig", "door: curb}", "door: curb, usable: {curb: ¦700}}", "it is 600 mm deep"),
    "a slide that moves inwards": ("rig", "towards: curb", "towards: ¦street", "never leaves the shell"),
    "a place after nothing": ("rig", "after: linen", "after: ¦linnen", "no space called linnen to measure from"),
    "a way into nothing": ("rig", "{into: stack", "{into: ¦stak", "panel opens stak, but there is no such space"),
    "a passage to nothing": ("rig", "[linen, bay]", "¦[linen, bey]", "glory_hole joins bey", "no such space"),
    "a passage to itself": ("rig", "[linen, bay]", "¦[linen, linen]", "glory_hole joins linen to itself"),
    "a tolerance for nothing": (
        "rig",
        "hazards:",
        "touching: {¦linen~zink: 80}\nhazards:",
        "linen~zink does not name two",
    ),
    "an id of two things": ("rig", "  fan:", "  ¦stack:", "the id stack is taken already, by spaces.stack"),
    "the id of the roof": ("rig", "  flue:", "  ¦roof:", "the id roof is taken already"),
    "a terminal in no space": ("job", "in: bay", "in: ¦attic", "controller sits in attic, but there is no such space"),
    "a cable to nothing": ("job", "to: controller.pv", "to: ¦control.pv", "control.pv", "controller.pv, junction.pv"),
    "a cable to where it starts": ("job", "to: controller.pv", "to: ¦junction.pv", "ends where it starts"),
    "something found nowhere": ("job", "what: stack", "what: ¦stak", "stak is neither a space nor a passage"),
    "something removed that is not there": ("job", "  found:", "  removed: [¦stak]\n  found:", "nothing called stak"),
    "something excluded that is not there": ("job", "owner: {", "owner: {excludes: [¦stak], ", "excludes stak"),
    "a rig that is not there": ("job", "rig: rig.yaml", "rig: ¦other.yaml", "`other.yaml`", "beside this one"),
    "a rig in another folder": ("job", "rig: rig.yaml", "rig: ¦../rig.yaml", "`../rig.yaml` leads out of the folder"),
    "a rig at the root": ("job", "rig: rig.yaml", "rig: ¦/etc/passwd", "`/etc/passwd` leads out of the folder"),
    "a rig on a drive": ("job", "rig: rig.yaml", "rig: ¦'C:\\rig.yaml'", "leads out of the folder"),
    "a rig that is a folder": ("job", "rig: rig.yaml", "rig: ¦.", "there is no file `.`"),
}
CHEST = "  chest: {kind: cabinet, after: linen, long: 500, street: 600, up: floor..900"
GEOMETRY = {
    "a crossing outline": (
        "rig",
        "length: 6000\n  width: 2500",
        "outline: ¦[[0, 0], [6000, 2500], [6000, 0], [0, 2500]]",
        "crosses itself 3000 mm from the front and 1250 mm from the left side",
    ),
    "an outline of two corners": ("rig", "length: 6000\n  width: 2500", "outline: ¦[[0, 0], [9, 9]]", "three corners"),
    "neither outline nor length": ("rig", "  length: 6000\n  width", "  ¦width", "neither `outline` nor both"),
    "a roof below its ceiling": ("rig", "roof: 2060", "roof: ¦2000", "the roof at 2000 mm is not above the ceiling"),
    "a space beyond the rear": (
        "rig",
        CHEST,
        "  chest: ¦{kind: cabinet, from front: 5500..6100, street: 600, up: floor..900",
        "chest reaches outside the shell in plan, 5500 to 6100 mm from the front",
    ),
    "a space through the roof": (
        "rig",
        CHEST,
        "  chest: ¦{kind: cabinet, after: linen, long: 500, street: 600, up: floor..roof+200",
        "chest reaches from 0 to 2260 mm in height, outside ground to roof, -1000 to 2060 mm",
    ),
    "two spaces that overlap in part": (
        "rig",
        "  linen: {kind: cabinet, from front: 1000..2000",
        (
            "  box: {kind: cabinet, from front: 500..1100, street: 900, up: 900..1000}\n"
            "  linen: ¦{kind: cabinet, from front: 1000..2000"
        ),
        "linen and box overlap in part, by 100 x 600 x 100 mm",
        "one may lie within the other",
    ),
    "a space without depth": (
        "rig",
        CHEST,
        "  chest: ¦{kind: cabinet, after: linen, long: 500, street: 0, up: floor..900",
        "chest has no depth: give it a size above zero",
    ),
    "a space over a step": (
        "rig",
        "  roof skin: aluminium\nspaces:\n  linen: {",
        "  roof skin: aluminium\n  steps: [{from front: 0..1250, floor: 300}]\nspaces:\n  linen: ¦{",
        "linen straddles the step in the floor or ceiling 1250 mm from the front",
    ),
    "a circle of places": (
        "rig",
        "linen: {kind: cabinet, from front: 1000..2000",
        "linen: ¦{kind: cabinet, before: chest, long: 1000",
        "chest from linen from chest are measured in a circle",
    ),
    "a place said twice": (
        "rig",
        CHEST,
        "  chest: {kind: cabinet, after: ¦linen, long: 500, from rear: 0..500, street: 600, up: floor..900",
        "where it is along twice, from rear and after",
    ),
    "a place not said": (
        "rig",
        CHEST,
        "  chest: ¦{kind: cabinet, street: 600, up: floor..900",
        "does not say where it is along: give one of `from front`",
    ),
    "a length not said": (
        "rig",
        CHEST,
        "  chest: {kind: cabinet, after: ¦linen, street: 600, up: floor..900",
        "says `after` but not how `long`: add `long: 400 mm`",
    ),
    "a passage where nothing touches": (
        "rig",
        "glory_hole: {between: [linen, bay]",
        "glory_hole: ¦{between: [chest, stack]",
        "glory_hole joins chest and stack, but they lie 600 mm apart: measure them again",
    ),
    "a terminal outside its space": (
        "job",
        "controller: {kind: charge controller, in: bay, from front: 2500, street: 300, up: -400",
        "controller: ¦{kind: charge controller, in: bay, from front: 2500, street: 300, up: 400",
        "controller.pv, 2500 mm from the front, 350 mm from the left side and 400 mm up, is not inside bay",
    ),
    "a terminal beside the roof": (
        "job",
        "junction: {kind: junction box, in: roof, from front: 2500",
        "junction: ¦{kind: junction box, in: roof, from front: 6001",
        "junction.pv, 6001 mm from the front, 700 mm from the left side and 2060 mm up, is not inside roof",
    ),
    "PV without its current": (
        "job",
        "pv: {from: junction.pv, to: controller.pv, class: PV, cores: 2, amperes: 9 A",
        "pv: ¦{from: junction.pv, to: controller.pv, class: PV, cores: 2",
        "pv carries PV but does not say its amperes: add `amperes:`",
    ),
}
CASES = {**SYNTAX, **SCHEMA, **REFERENCES, **GEOMETRY}


def spoilt(case):
    """The rig and the job with the case's passage replaced."""
    which, old, new, *_ = case
    return (changed(RIG, old, new), JOB) if which == "rig" else (RIG, changed(JOB, old, new))


def check_refused(said, marks, words=()):
    """What every refusal has in common: its status, its silence, one line a problem, each at a mark."""
    assert said.status == 2, said
    assert said.out == ""
    assert said.places == marks, said.lines
    assert len(said.lines) == len(marks)
    whole = "\n".join(said.lines)
    assert "Traceback" not in whole
    assert "Error" not in whole  # nothing of Python shows through
    for word in words:
        assert word in whole, whole


def test_the_files_that_these_tests_spoil_are_right(tmp_path):
    write(tmp_path)
    for command, name in (("check", "rig.yaml"), ("check", "job.yaml"), ("compare", "job.yaml"), ("ways", "rig.yaml")):
        said = run(command, tmp_path / name)
        assert (said.status, said.lines) == (0, [])
        assert said.out


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_what_is_wrong_is_one_sentence_at_its_place_and_nothing_is_written(case, tmp_path):
    marks = write(tmp_path, *spoilt(case))
    before = contents(tmp_path)
    check_refused(run("check", tmp_path / "job.yaml"), marks, case[3:])
    assert contents(tmp_path) == before
    if case[0] == "rig":  # the rig alone is refused the same way
        check_refused(run("check", tmp_path / "rig.yaml"), marks, case[3:])


def test_a_key_that_is_no_id_is_told_in_plain_words(tmp_path):
    marks = write(tmp_path, changed(RIG, "  pantry:", "  ¦Pan try:"))
    said = run("check", tmp_path / "rig.yaml")
    check_refused(said, marks, ["`Pan try` is no id"])
    assert "Value error" not in said.lines[0]


ONE_OF_EACH = ("a tab", "an unknown key", "a cable to nothing", "two spaces that overlap in part")


@pytest.mark.parametrize("name", ONE_OF_EACH)
@pytest.mark.parametrize(
    "command", ["draw", "ways", "ways --json", "compare", "compare --json", "plan", "check --json"]
)
def test_every_command_refuses_alike_and_writes_nothing(command, name, tmp_path):
    marks = write(tmp_path, *spoilt(CASES[name]))
    before = contents(tmp_path)
    out = ("--out", tmp_path / "made") if command in ("draw", "plan") else ()
    verb, *options = command.split()
    check_refused(run(verb, tmp_path / "job.yaml", *options, *out), marks, CASES[name][3:])
    assert contents(tmp_path) == before


# --- Every problem of a stage at once ---


def test_every_problem_of_the_schema_is_told_at_once_in_both_files(tmp_path):
    rig = changed(RIG, "wall: 50", "wall: ¦thin")
    rig = changed(rig, "kind: vent stack", "kind: ¦vent stak")
    rig = changed(rig, "travel: 600", "travel: ¦0")
    rig = changed(rig, "hazards:", "¦dangers: {}\nhazards:")
    job = changed(JOB, "cores: 2", "cores: ¦two")
    job = changed(job, "45 °C", "¦warm")
    marks = write(tmp_path, rig, job)
    assert len(marks) == 6
    said = run("check", tmp_path / "job.yaml")
    check_refused(said, sorted(marks, key=lambda mark: mark[0] != "job.yaml"))


def test_every_problem_of_references_and_geometry_is_told_at_once_in_both_files(tmp_path):
    rig = changed(RIG, "{into: stack", "{into: ¦stak")
    rig = changed(
        rig, "pantry: {", "wide: ¦{kind: cabinet, from front: 5500..6100, curb: 90, up: floor..9}\n  pantry: {"
    )
    rig = changed(rig, "roof: 2060", "roof: ¦2000")
    job = changed(JOB, "to: controller.pv", "to: ¦control.pv")
    job = changed(job, "owner: {", "owner: {excludes: [¦stak], ")
    marks = write(tmp_path, rig, job)
    check_refused(run("check", tmp_path / "job.yaml"), marks)


def test_every_slip_of_the_pen_that_still_parses_is_told_at_once(tmp_path):
    rig = changed(RIG, "  wall: 50", "  wall: 50\n  ¦wall: 60\n  ¦wall: 70")
    rig = changed(rig, "name: Sketch", "name: ¦!new Sketch")
    marks = write(tmp_path, rig)
    check_refused(run("check", tmp_path / "rig.yaml"), marks)


def test_bare_numbers_in_a_file_that_states_no_unit_are_one_problem_not_thirty(tmp_path):
    for name, lengths in (("rig.yaml", 31), ("job.yaml", 8)):  # a job does not take the unit of its rig
        rig, job = (changed(text, "units: mm\n", "") if name == file else text for text, file in BOTH)
        write(tmp_path, rig, job)
        said = run("check", tmp_path / "job.yaml")
        check_refused(said, [(name, 1, 1)], [f"{lengths} lengths in this file have no unit", "write `units: mm`"])


BOTH = ((RIG, "rig.yaml"), (JOB, "job.yaml"))


def test_an_open_quote_is_told_where_the_file_ends_with_the_line_where_it_began(tmp_path):
    write(tmp_path, changed(RIG, "  wall: 50", "  wall: '50"))
    said = run("check", tmp_path / "rig.yaml")
    assert (said.status, said.places) == (2, [("rig.yaml", RIG.count("\n") + 1, 1)])
    assert "a quoted scalar from line 9" in said.lines[0]


def test_a_job_that_is_wrong_does_not_hide_what_is_wrong_with_its_rig_or_the_shop(tmp_path):
    shop = tmp_path / "shop"
    shop.mkdir()
    for path in shared().glob("*.yaml"):
        (shop / path.name).write_bytes(path.read_bytes())
    (shop / "labour.yaml").write_text("format: 1\n")
    write(tmp_path, changed(RIG, "wall: 50", "wall: thin"), changed(JOB, "cores: 2", "cores: two"))
    said = run("check", tmp_path / "job.yaml", "--shop", shop)
    assert said.status == 2
    assert {Path(place[0]).name for place in said.places} == {"labour.yaml", "rig.yaml", "job.yaml"}


# --- Files that are no sketch ---

WHOLE = {
    "nothing": (b"", 1, 1, "the file is empty"),
    "only a comment": (b"# to do\n\n", 1, 1, "the file is empty"),
    "only a mark": (b"\xef\xbb\xbf", 1, 1, "the file is empty"),
    "a list": (b"# rigs\n- 1\n", 2, 1, "the file holds a list; it should hold keys with values"),
    "a word": (b"rig", 1, 1, "the file holds `rig`"),
    "a number": (b"7\n", 1, 1, "the file holds `7`"),
    "every byte": (bytes(range(256)), 2, 118, "no UTF-8 text: it holds the byte 0x80"),
    "a picture": (b"\x89PNG\r\n\x1a\n\x00\x00", 1, 1, "no UTF-8 text: it holds the byte 0x89"),
    "latin-1": ("name: Skétch".encode("latin-1"), 1, 9, "no UTF-8 text: it holds the byte 0xe9"),
    "utf-16": ("name: Sketch".encode("utf-16"), 1, 1, "no UTF-8 text: it holds the byte 0xff"),
    "zeros": (b"\0" * 100, 1, 1, "control character"),
    "lists in lists without end": (b"[" * 100_000, 1, 33, "nests deeper than 32 levels"),
    "mappings in mappings": (b"{a: " * 5000, 1, 129, "nests deeper than 32 levels"),
}


@pytest.mark.parametrize(("data", "line", "column", "words"), WHOLE.values(), ids=WHOLE)
@pytest.mark.parametrize("name", ["rig.yaml", "job.yaml"])
def test_a_file_that_is_no_sketch_is_refused_as_a_whole(data, line, column, words, name, tmp_path):
    write(tmp_path)
    (tmp_path / name).write_bytes(data)
    check_refused(run("check", tmp_path / name), [(name, line, column)], [words])
    if name == "rig.yaml":
        check_refused(run("compare", tmp_path / "job.yaml"), [(name, line, column)], [words])


def bomb(levels, width):
    """YAML that stands for width ** levels values: each line nine times the line above."""
    lines = ["a0: &a0 [" + ", ".join(["x"] * width) + "]"]
    lines += [f"a{n}: &a{n} [" + ", ".join([f"*a{n - 1}"] * width) + "]" for n in range(1, levels)]
    return "\n".join(lines)


@pytest.mark.parametrize(("levels", "width", "line"), [(9, 9, 6), (30, 9, 6), (5, 100, 3)])
def test_yaml_that_expands_without_end_is_stopped_where_it_grows_too_large(levels, width, line, tmp_path):
    write(tmp_path, bomb(levels, width))
    said = run("check", tmp_path / "rig.yaml")
    assert said.status == 2
    assert said.out == ""
    assert [place[:2] for place in said.places] == [("rig.yaml", line)]
    assert "the file grows beyond 200000 values here, counting what aliases stand for" in said.lines[0]


def test_a_file_that_is_too_large_is_not_read_to_its_end(tmp_path):
    write(tmp_path, RIG + "# " + "x" * 2_000_000)
    said = run("check", tmp_path / "rig.yaml")
    assert (said.status, said.out) == (2, "")
    assert said.lines == [f"{tmp_path / 'rig.yaml'}: the file is larger than 2 MB; a sketch is a thousandth of that"]


def test_a_file_that_is_not_there_is_said_so(tmp_path):
    said = run("check", tmp_path / "none.yaml")
    assert (said.status, said.out) == (2, "")
    assert said.lines == [f"{tmp_path / 'none.yaml'}: there is no such file"]


def test_a_folder_is_no_file(tmp_path):
    said = run("check", tmp_path)
    assert (said.status, said.out) == (2, "")
    assert said.lines == [f"{tmp_path}: this is a folder; name a file in it"]


def test_a_name_too_long_for_any_file_system_is_said_so(tmp_path):
    said = run("check", tmp_path / ("x" * 5000))
    assert said.status in (2, 3)
    assert len(said.lines) == 1


@pytest.mark.skipif(os.name != "posix", reason="links as POSIX has them")
def test_a_link_that_leads_out_of_the_folder_of_the_job_is_not_followed(tmp_path):
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "here").mkdir()
    write(tmp_path / "elsewhere")
    write(tmp_path / "here")
    (tmp_path / "here" / "rig.yaml").unlink()
    (tmp_path / "here" / "rig.yaml").symlink_to(tmp_path / "elsewhere" / "rig.yaml")
    said = run("check", tmp_path / "here" / "job.yaml")
    assert (said.status, said.places) == (2, [("job.yaml", 5, 6)])
    assert "leads out of the folder" in said.lines[0]


def test_a_rig_where_a_job_is_needed_is_said_so(tmp_path):
    write(tmp_path)
    for command in ("compare", "plan"):
        out = ("--out", tmp_path / "made") if command == "plan" else ()
        said = run(command, tmp_path / "rig.yaml", *out)
        assert (said.status, said.out) == (2, "")
        assert said.lines == [
            f"{tmp_path / 'rig.yaml'}: this is a rig file; a comparison needs a job file, with cables"
        ]
    assert not (tmp_path / "made").exists()


def test_a_candidate_that_does_not_exist_is_said_so(tmp_path):
    write(tmp_path)
    said = run("plan", tmp_path / "job.yaml", "--out", tmp_path / "made", "--take", "pv-99")
    assert (said.status, said.out) == (2, "")
    assert "pv-99" in said.lines[0]
    assert not (tmp_path / "made").exists()


# --- What is legal, and what is only a notice ---


def test_one_space_within_another_and_a_stack_through_several_are_legal(tmp_path):
    more = "  drawer: {kind: cabinet, from front: 1500..1900, street: 100..400, up: 100..400}\n  pantry:"
    write(tmp_path, changed(RIG, "  pantry:", more))
    assert run("check", tmp_path / "rig.yaml").status == 0


def test_two_spaces_that_nearly_touch_are_a_notice(tmp_path):
    apart = changed(RIG, "after: linen, long: 500", "from front: 2100..2600")
    write(tmp_path, apart)
    said = run("check", tmp_path / "rig.yaml")
    assert (said.status, said.lines) == (0, [])
    assert "notice: chest and linen lie 100 mm apart and are not joined" in said.out


# --- As a whole process ---


def program(*arguments, cwd):
    return subprocess.run(
        [sys.executable, "-c", "from drawcord.app.cli import main; main()", *map(str, arguments)],
        cwd=cwd,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        timeout=120,
    )


@pytest.mark.parametrize("name", ONE_OF_EACH)
def test_the_program_itself_refuses_with_status_2_and_the_name_as_given(name, tmp_path):
    # From another folder, with the file's name as it was typed, so that an editor jumps to it.
    write(tmp_path, *spoilt(CASES[name]))
    (tmp_path / "deep").mkdir()
    done = program("check", "../job.yaml", cwd=tmp_path / "deep")
    assert done.returncode == 2
    assert done.stdout == ""
    (line,) = done.stderr.splitlines()
    assert line.startswith(f"..{os.sep}{CASES[name][0]}.yaml:")
    assert all(word in line for word in CASES[name][3:])


@pytest.mark.parametrize(
    "arguments", [["check"], ["plan", "job.yaml"], ["chek", "x"], ["check", "a", "--no"], ["--no"]]
)
def test_a_command_typed_wrongly_ends_in_status_2_without_traceback(arguments, tmp_path):
    write(tmp_path)
    done = program(*arguments, cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    assert contents(tmp_path).keys() == {"rig.yaml", "job.yaml"}
