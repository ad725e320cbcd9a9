"""What `drawcord new` writes can be used at once, and owns up to every figure that nobody measured."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import get_args

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from typer.testing import CliRunner

from drawcord.app.cli import cli
from drawcord.app.new import VehicleClass
from drawcord.coach.job import Job
from drawcord.coach.rig import Rig
from drawcord.files.document import Document, read_document, validate
from drawcord.files.load import load_ways
from drawcord.files.starters import starter

CLASSES = get_args(get_args(VehicleClass)[0])
A_LENGTH = re.compile(r"\d *(mm|cm|m|in|ft|'|\")(?!\w)")
MARK = re.compile(r"# assumed(:|$)")

every_class = pytest.mark.parametrize("vehicle", CLASSES)


def run(*words: str | Path):
    return CliRunner().invoke(cli, [str(word) for word in words])


@pytest.fixture
def begun(vehicle: str, tmp_path: Path) -> Path:
    """A folder as `drawcord new` leaves it."""
    folder = tmp_path / "My coach, no. 7"
    assert run("new", vehicle, folder).exit_code == 0
    return folder


def leaves(value, path=()):
    """Every single value of a document with its path."""
    if isinstance(value, dict | list):
        for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from leaves(inner, (*path, key))
    else:
        yield path, value


def lines_with_a_length(document: Document) -> set[int]:
    found = (path for path, value in leaves(document.data) if A_LENGTH.search(str(value)))
    return {document.position(path)[0] for path in found}


# A starter is right as it stands, small enough to correct, and no example of spaces that nearly touch.
@every_class
def test_checks_without_a_word_of_complaint(begun: Path):
    assert run("check", begun / "job.yaml").exit_code == 0
    coach = load_ways(begun / "job.yaml")[0].coach
    assert 10 <= len(coach.rig.spaces) <= 16
    assert coach.findings == ()
    assert coach.terminals["junction.pv"].space == "roof"


# Every cable has a way, and the PV cable a choice of ways through different spaces.
@every_class
def test_compare_has_a_choice_to_show(begun: Path):
    result = run("compare", begun / "job.yaml", "--json")
    assert result.exit_code == 0
    cables = {cable["cable"]: cable["candidates"] for cable in json.loads(result.stdout)["cables"]}
    assert all(cables.values())
    assert len({frozenset(candidate["spaces"]) for candidate in cables["pv"]}) >= 2


# A planner sees line by line which lengths are guesses. Even where a file states its unit, every length in it
# carries its own, so that none hides as a bare number: read without that unit, the file is right all the same.
@every_class
@pytest.mark.parametrize("part", ["rig.yaml", "job.yaml"])
def test_every_length_is_marked_as_assumed(begun: Path, part: str):
    document = read_document(begun / part)
    text = (begun / part).read_text("utf-8").splitlines()
    validate(document, Rig if part == "rig.yaml" else Job)
    with_length = lines_with_a_length(document)
    assert len(with_length) >= (30 if part == "rig.yaml" else 10)
    assert [text[line - 1] for line in sorted(with_length) if not MARK.search(text[line - 1])] == []


# What a starter calls proven, or likely, nobody has looked at either.
@every_class
def test_every_standing_is_marked_as_assumed(begun: Path):
    for part in ("rig.yaml", "job.yaml"):
        lines = (begun / part).read_text("utf-8").splitlines()
        said = [line for line in lines if re.search(r"standing:|chance:|into:", line) and line[0] != "#"]
        assert said
        assert [line for line in said if not MARK.search(line)] == []


# A trailer is measured in inches, so its answers come in feet and inches, and the file says what makes them so.
@pytest.mark.parametrize("vehicle", ["travel-trailer"])
@pytest.mark.parametrize("part", ["rig.yaml", "job.yaml"])
def test_the_trailer_is_answered_in_inches(begun: Path, part: str):
    assert load_ways(begun / part)[0].coach.units == "in"
    assert re.search(r"^units: in  # what answers and pictures are in", (begun / part).read_text("utf-8"), re.MULTILINE)


# The search for lengths, on which the test above stands, knows each way of writing one and nothing else.
@pytest.mark.parametrize(
    "value", ["6.35 m", "0..60 mm", "22 1/2 in..ceiling", "25' 6\"", "roof+90 mm", "8 ft", "-2' 2\""]
)
def test_a_length_is_known_as_one(value: str):
    assert A_LENGTH.search(value)


@pytest.mark.parametrize("value", ["6 mm2", "4 min", "10 A", "12.8 V", "60 %", "10 AWG", "floor..ceiling", "-20 °C", 2])
def test_other_figures_are_no_lengths(value: object):
    assert not A_LENGTH.search(str(value))


# Whatever a folder is called, the ids are legal and the name is as typed, less what no file can show.
@given(st.text(max_size=60), st.sampled_from(CLASSES))
@settings(max_examples=25, deadline=None)
@example("", "van")
@example("..", "van")
@example("2019", "motorhome")
@example("null", "van")
@example("true", "fifth-wheel")
@example("$id ${name} $$", "van")
@example('back\\slash, "quotes": # and {braces}\n', "truck-camper")
@example("x" * 200, "travel-trailer")
@example("bytes that are no text \udcff\ufffe\x85", "van")
def test_any_folder_name_makes_legal_files(tmp_path_factory: pytest.TempPathFactory, name: str, vehicle: str):
    folder = tmp_path_factory.mktemp("named")
    for part, data in starter(vehicle, name).items():
        (folder / part).write_bytes(data)
    rig = validate(read_document(folder / "rig.yaml"), Rig)
    job = validate(read_document(folder / "job.yaml"), Job)
    shown = "".join(letter for letter in name if letter.isprintable()).strip()
    assert rig.name == (shown or vehicle)
    assert job.name.startswith(rig.name)
    assert job.job == f"{rig.rig}-solar"


# The id is what a person would have made of the name.
@pytest.mark.parametrize(
    ("name", "identity"),
    [
        ("my-van", "my-van"),
        ("Grüner Bus (2)", "gruner-bus-2"),
        ("2019 coach", "van-2019-coach"),
        ("東京", "van"),
        ("a" * 33 + " b", "a" * 33),
    ],
)
def test_id_resembles_the_name(name: str, identity: str):
    assert f'\nrig: "{identity}"\n'.encode() in starter("van", name)["rig.yaml"]


# The same call writes the same bytes, whatever the seed of the hashes.
def test_same_bytes_under_any_hash_seed():
    code = f"from drawcord.files.starters import starter; print([starter(c, 'One') for c in {CLASSES}])"
    outputs = set()
    for seed in ("0", "1", "4711"):
        env = {**os.environ, "PYTHONHASHSEED": seed}
        outputs.add(subprocess.check_output([sys.executable, "-c", code], env=env))
    assert len(outputs) == 1


# A folder is left as it is if it holds anything of the owner's: a file, a corrected sketch, another class.
@pytest.mark.parametrize("vehicle", ["van"])
@pytest.mark.parametrize("other", ["van", "motorhome"])
@pytest.mark.parametrize("change", ["notes.txt", "rig.yaml", None])
def test_new_overwrites_nothing_of_the_owners(begun: Path, other: str, change: str | None):
    if change:
        with (begun / change).open("a", encoding="utf-8") as file:
            file.write("# measured\n")
    before = {path.name: path.read_bytes() for path in begun.iterdir()}
    result = run("new", other, begun)
    assert result.exit_code == (0 if other == "van" and not change else 2)
    if result.exit_code:
        assert (change or "starter van") in result.output
    assert {path.name: path.read_bytes() for path in begun.iterdir()} == before


# A folder that drawcord never saw is left alone too.
def test_new_leaves_a_strange_folder_alone(tmp_path: Path):
    (tmp_path / "rig.yaml").write_text("mine", "utf-8")
    result = run("new", "van", tmp_path)
    assert result.exit_code == 2
    assert "rig.yaml" in result.output
    assert [path.read_text("utf-8") for path in tmp_path.iterdir()] == ["mine"]
