"""What only the reader of the files can say: sizes that no table has, files that are no sketch, where things stand."""

import json

import pytest
from bad import JOB, RIG, changed, run, write

from drawcord.files.load import load, load_ways
from drawcord.files.tables import conductors
from drawcord.words.faults import BadInput

SIZED = changed(JOB, "    outside diameter: 6,", "    conductor: ¦{}, outside diameter: 6,")


# --- Conductors ---


@pytest.mark.parametrize("size", ["11 AWG", "10 gauge", "6 mm", "7 mm2", "'10'", "copper"])
def test_a_conductor_that_no_table_has_is_refused_at_its_value_with_those_they_have(size, tmp_path):
    marks = write(tmp_path, RIG, SIZED.replace("{}", size, 1))
    said = run("check", tmp_path / "job.yaml")
    assert (said.status, said.places) == (2, marks)
    sizes = said.lines[0].partition("take one of ")[2].split(", ")
    assert sizes == list(dict.fromkeys(conductor.label for conductor in conductors()))
    assert {"10 AWG", "1/0 AWG", "6 mm2"} <= set(sizes)


@pytest.mark.parametrize("size", ["10 AWG", "10awg", "6 mm2", "6 mm²", "1/0 AWG"])
def test_a_conductor_of_the_tables_is_taken(size, tmp_path):
    write(tmp_path, RIG, SIZED.replace("{}", size, 1))
    said = run("compare", tmp_path / "job.yaml", "--json")
    assert (said.status, said.lines) == (0, [])
    (cable,) = json.loads(said.out)["cables"]
    assert cable["candidates"][0]["drop_volts"]  # worked out, not left open


def test_conductors_and_references_are_told_at_once(tmp_path):
    job = changed(SIZED.replace("{}", "11 AWG", 1), "to: controller.pv", "to: ¦control.pv")
    marks = write(tmp_path, changed(RIG, "after: linen", "after: ¦linnen"), job)
    said = run("check", tmp_path / "job.yaml")
    assert (said.status, said.places) == (2, marks)


# --- Files that drawcord wrote itself ---


def test_a_plan_or_a_comparison_is_no_sketch(tmp_path):
    write(tmp_path)
    assert run("plan", tmp_path / "job.yaml", "--out", tmp_path / "made").status == 0
    (tmp_path / "compared.json").write_text(run("compare", tmp_path / "job.yaml", "--json").out, encoding="utf-8")
    for name, what in ((tmp_path / "made" / "plan.json", "plan"), (tmp_path / "compared.json", "comparison")):
        said = run("check", name)
        assert (said.status, said.out) == (2, "")
        assert said.lines == [f"{name}: this is a {what} that drawcord wrote, not a rig or a job"]


def test_a_plan_in_a_rigs_stead_is_told_too(tmp_path):
    write(tmp_path, '{"inputs": [], "cables": [], "chosen": {}}')
    said = run("check", tmp_path / "job.yaml")
    assert said.lines == [f"{tmp_path / 'rig.yaml'}: this is a plan that drawcord wrote, not a rig or a job"]


# --- Where a finding's place stands ---


def test_every_place_of_a_finding_is_found_in_its_file(tmp_path):
    job = changed(JOB, "differences:\n", "differences:\n  obstructions:\n    bar: {kind: framing, from front: 9..99}\n")
    write(tmp_path, RIG, job)
    loaded = load(tmp_path / "job.yaml")
    for place, name, text in (
        ("linen", "rig.yaml", "linen:"),
        ("bay~linen", "rig.yaml", "bay:"),
        ("linen.door", "rig.yaml", "linen:"),
        ("fan", "rig.yaml", "fan:"),
        ("bar", "job.yaml", "bar:"),
        ("junction.pv", "job.yaml", "junction:"),
    ):
        file, line, column = loaded.at(place)
        assert file == str(tmp_path / name)
        written = (tmp_path / name).read_text(encoding="utf-8").splitlines()
        assert written[line - 1][column - 1 :].startswith(text)


def test_slivers_are_told_once_the_passages_are_known(tmp_path):
    write(tmp_path, changed(RIG, "after: linen, long: 500, street: 600", "after: linen, long: 500, street: 557..900"))
    assert load(tmp_path / "rig.yaml").coach.findings == ()
    loaded, ways = load_ways(tmp_path / "rig.yaml")
    assert [finding.place for finding in loaded.coach.findings] == ["chest~linen"]
    assert ways.coach is loaded.coach
    assert "chest~linen" in ways.passages


# --- Units ---

SHELL = """\
format: 1
rig: shed
name: Shed
traffic keeps: right
shell: {length: 6 m, width: {}, wall: 50 mm, floor thickness: {}, ceiling: 2 m, roof: 2.1 m, ground: -1 m,
  roof skin: steel}
spaces: {}
"""


def problems(folder, wide, thick, units=None):
    text = SHELL.replace("{}", wide, 1).replace("{}", thick, 1)
    text = text.replace("traffic", f"units: {units}\ntraffic") if units else text
    (folder / "rig.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(BadInput) as error:
        load(folder / "rig.yaml")
    return [(problem.line, problem.column, problem.sentence) for problem in error.value.problems]


def test_one_length_without_a_unit_is_told_where_it_stands(tmp_path):
    ((line, column, sentence),) = problems(tmp_path, "98", "60 mm")
    assert (line, column) == (5, 29)
    ways_out = "write 98 mm or 98 in, or state `units` once at the top of the file: mm, cm, m, in or ft"
    assert sentence == f"`shell.width`: 98 has no unit: {ways_out}"


def test_several_are_one_sentence_at_the_top_that_names_every_unit_and_how_many_there_are(tmp_path):
    ((line, column, sentence),) = problems(tmp_path, "98", "3")
    assert (line, column) == (1, 1)
    assert sentence == (
        "2 lengths in this file have no unit, the first of them `shell.width`: write `units: mm`, `units: cm`, "
        "`units: m`, `units: in` or `units: ft` once at the top, or a unit with each"
    )


def test_other_problems_are_told_beside_it(tmp_path):
    found = problems(tmp_path, "98", "3, ceilin: 4")
    assert [(line, sentence.partition(":")[0]) for line, _, sentence in found] == [
        (1, "2 lengths in this file have no unit, the first of them `shell.width`"),
        (5, "`shell`"),
    ]


def test_a_unit_that_there_is_not_is_the_one_problem_of_many_lengths(tmp_path):
    # It says all there is to say: the lengths are right once the unit is.
    for thick in ("3", "60 mm"):
        ((line, column, sentence),) = problems(tmp_path, "98", thick, units="yards")
        assert (line, column) == (4, 8)
        assert sentence == "`units`: `yards` should be `mm`, `cm`, `m`, `in` or `ft`"
