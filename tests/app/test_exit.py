"""How commands end: the five exit statuses, and that nothing but a sentence reaches standard error."""

import errno
import json
import os
import re
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest
from bad import JOB, RIG, changed, contents, run, write

from drawcord.app import demo
from drawcord.files import home, load

CLASS_A = home.layouts() / "class-a-three-slides" / "job-mid-roof.yaml"
MAIN = "from drawcord.app.cli import main; main()"
NO_WAY = changed(JOB, "owner: {", "owner: {excludes: [linen, stack, chest], ")


def program(*arguments, before="", **options):
    """The program as a process of its own."""
    return subprocess.run(
        [sys.executable, "-c", before + MAIN, *map(str, arguments)],
        stderr=subprocess.PIPE,
        encoding="utf-8",
        check=False,
        timeout=120,
        **{"stdout": subprocess.PIPE, **options},
    )


# --- 0: done ---


@pytest.mark.parametrize(
    "arguments",
    [["check", "rig.yaml"], ["check", "job.yaml", "--json"], ["ways", "job.yaml"], ["compare", "job.yaml"], ["--help"]],
)
def test_what_is_done_ends_in_0_with_nothing_on_standard_error(arguments, tmp_path):
    write(tmp_path)
    said = run(*(tmp_path / part if part.endswith(".yaml") else part for part in arguments))
    assert (said.status, said.lines) == (0, [])
    assert said.out


def test_a_plan_that_is_written_holds_only_what_it_says(tmp_path):
    write(tmp_path)
    said = run("plan", tmp_path / "job.yaml", "--out", tmp_path / "made")
    assert (said.status, said.lines) == (0, [])
    assert (tmp_path / "made" / "plan.json").exists()
    # Nothing is left beside it.
    assert {path.name for path in tmp_path.iterdir()} == {"rig.yaml", "job.yaml", "made"}


# --- 1: the answer is no ---


def test_limits_that_no_way_keeps_to_end_in_1_with_what_must_give_way(tmp_path):
    # A metre and a half less than the shortest candidate takes is allowed.
    write(tmp_path)
    shortest = min(
        candidate["length_mm"]
        for candidate in json.loads(run("compare", tmp_path / "job.yaml", "--json").out)["cables"][0]["candidates"]
    )
    write(tmp_path, job=changed(JOB, "owner: {", f"limits: {{length: {shortest - 1500} mm}}\nowner: {{"))
    said = run("compare", tmp_path / "job.yaml")
    assert said.status == 1
    assert "no way from junction.pv to controller.pv keeps to every limit" in " ".join(said.out.split())
    machine = run("compare", tmp_path / "job.yaml", "--json")
    assert machine.status == 1
    (limit,) = json.loads(machine.out)["cables"][0]["unroutable"]["too_tight"]
    opens_at = limit.pop("opens_at")
    assert limit == {"limit": "length", "unit": "mm", "stated": shortest - 1500, "alone": True}
    # What it says opens a way does, and a millimetre less does not.
    for most, status in ((opens_at, 0), (opens_at - 1, 1)):
        write(tmp_path, job=changed(JOB, "owner: {", f"limits: {{length: {most} mm}}\nowner: {{"))
        assert run("compare", tmp_path / "job.yaml").status == status


def test_a_cable_without_a_route_is_an_answer_and_ends_in_1(tmp_path):
    write(tmp_path, RIG, NO_WAY)
    said = run("compare", tmp_path / "job.yaml")
    assert (said.status, said.lines) == (1, [])
    assert "the owner excludes it" in said.out


def test_the_json_of_a_cable_without_a_route_is_complete(tmp_path):
    write(tmp_path, RIG, NO_WAY)
    said = run("compare", tmp_path / "job.yaml", "--json")
    assert (said.status, said.lines) == (1, [])
    document = json.loads(said.out)
    (cable,) = document["cables"]
    assert cable["candidates"] == []
    assert cable["unroutable"]
    assert "linen" in json.dumps(cable["unroutable"])


def test_one_cable_without_a_route_hides_no_other(tmp_path):
    second = changed(NO_WAY, "owner:", SECOND + "owner:")
    second = changed(second, "terminals: {pv: }}\ncables", "terminals: {pv: }}\n" + DEVICE + "cables")
    write(tmp_path, RIG, second)
    said = run("compare", tmp_path / "job.yaml", "--json")
    assert said.status == 1
    assert {cable["cable"]: bool(cable["candidates"]) for cable in json.loads(said.out)["cables"]} == {
        "charge": True,
        "pv": False,
    }


SECOND = (
    "  charge: {from: controller.pv, to: battery.dc, class: data, cores: 2, outside diameter: 6,"
    " smallest bend: 30, largest plug: 20, longest piece: 10 m}\n"
)
DEVICE = "  battery: {kind: battery, in: bay, from front: 1000, street: 300, up: -400, terminals: {dc: }}\n"


def test_a_plan_without_a_route_writes_what_it_can_and_ends_in_1(tmp_path):
    write(tmp_path, RIG, NO_WAY)
    said = run("plan", tmp_path / "job.yaml", "--out", tmp_path / "made")
    assert (said.status, said.lines) == (1, [])
    assert (tmp_path / "made" / "plan.json").exists()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        # A terminal within the clearance of what stands on the roof.
        ("from front: 2500, street: 700, terminals", "from front: 3150, street: 1250, terminals"),
        # A plug that no bore over any space lands with.
        ("largest plug: 20", "largest plug: 100"),
        # Nowhere near anything.
        ("street: 700, terminals", "curb: 60, terminals"),
    ],
)
def test_what_can_be_asked_but_not_done_is_answered_never_a_fault(old, new, tmp_path):
    write(tmp_path, RIG, changed(JOB, old, new))
    said = run("compare", tmp_path / "job.yaml", "--json")
    assert said.status in (0, 1)
    assert said.lines == []
    (cable,) = json.loads(said.out)["cables"]
    assert bool(cable["candidates"]) == (said.status == 0)
    assert bool(cable["unroutable"]) == (said.status == 1)


# --- 2: bad input: test_bad_input ---


def test_a_folder_with_the_files_of_a_person_is_not_written_over(tmp_path):
    write(tmp_path)
    (tmp_path / "made").mkdir()
    (tmp_path / "made" / "notes.txt").write_text("mine")
    before = contents(tmp_path)
    for arguments in (
        ("plan", tmp_path / "job.yaml", "--out"),
        ("draw", tmp_path / "rig.yaml", "--out"),
        ("new", "van"),
    ):
        said = run(*arguments, tmp_path / "made")
        assert (said.status, said.out) == (2, "")
        assert len(said.lines) == 1
        assert "notes.txt" in said.lines[0]
        assert "choose another folder" in said.lines[0]
    assert contents(tmp_path) == before


def test_a_file_in_the_place_of_the_folder_is_not_written_over(tmp_path):
    write(tmp_path)
    before = contents(tmp_path)
    said = run("plan", tmp_path / "job.yaml", "--out", tmp_path / "rig.yaml")
    assert (said.status, said.out) == (2, "")
    assert said.lines == [f"{tmp_path / 'rig.yaml'}: this is a file, not a folder; choose another name"]
    assert contents(tmp_path) == before


# --- 3: the surroundings ---


def writers(folder):
    """Every command that writes, each with a folder that cannot be."""
    out = folder / "rig.yaml" / "made"  # below a file
    return {
        "plan": ("plan", folder / "job.yaml", "--out", out),
        "draw": ("draw", folder / "rig.yaml", "--out", out),
        "new": ("new", "van", out),
        "demo": ("demo", "--out", out),
    }


@pytest.mark.parametrize("command", ["plan", "draw", "new", "demo"])
def test_a_folder_that_cannot_be_written_ends_in_3_and_leaves_nothing(command, tmp_path, monkeypatch):
    # The demo is a small one here.
    (tmp_path / demo.RIG).mkdir()
    write(tmp_path / demo.RIG)
    (tmp_path / demo.RIG / "job.yaml").rename(tmp_path / demo.RIG / demo.JOB)
    monkeypatch.setattr(home, "layouts", lambda: tmp_path)
    write(tmp_path)
    before = contents(tmp_path)
    said = run(*writers(tmp_path)[command])
    assert (said.status, said.out) == (3, "")
    assert len(said.lines) == 1
    assert "cannot be written" in said.lines[0]
    assert str(tmp_path / "rig.yaml" / "made") in said.lines[0]
    assert contents(tmp_path) == before


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="for whom folders can be read-only")
def test_a_folder_that_is_read_only_ends_in_3(tmp_path):
    write(tmp_path)
    (tmp_path / "locked").mkdir(mode=0o500)
    said = run("draw", tmp_path / "rig.yaml", "--out", tmp_path / "locked" / "made")
    assert (said.status, said.out) == (3, "")
    assert "Permission denied" in said.lines[0]


def test_a_disk_that_is_full_ends_in_3_and_leaves_nothing(tmp_path, monkeypatch):
    write(tmp_path)

    def full(_):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    before = contents(tmp_path)
    said = run("new", "van", tmp_path / "made")
    assert (said.status, said.out) == (3, "")
    assert said.lines == [f"{tmp_path / 'made'} cannot be written: {os.strerror(errno.ENOSPC)}"]
    assert contents(tmp_path) == before


def test_a_file_that_cannot_be_read_ends_in_3(tmp_path, monkeypatch):
    write(tmp_path)
    real = Path.open

    def locked(self, *arguments, **keys):
        if self.name == "rig.yaml":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(self))
        return real(self, *arguments, **keys)

    monkeypatch.setattr(Path, "open", locked)
    said = run("check", tmp_path / "rig.yaml")
    assert (said.status, said.out) == (3, "")
    assert said.lines == [f"{tmp_path / 'rig.yaml'} cannot be read: {os.strerror(errno.EACCES)}"]


@pytest.mark.parametrize(
    ("library", "text"), [("shapely", ""), ("pydantic", ""), ("ruamel.yaml", "format: &one 1\n")]
)
def test_a_library_that_is_missing_ends_in_3_and_is_named(library, text, tmp_path):
    # Of the parser of YAML only what is not plain has need.
    path = tmp_path / "rig.yaml" if text else CLASS_A
    if text:
        path.write_text(text)
    done = program("compare", path, before=f"import sys; sys.modules[{library!r}] = None; ")
    assert (done.returncode, done.stdout) == (3, "")
    (line,) = done.stderr.splitlines()
    assert library.partition(".")[0] in line


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device that is always full")
@pytest.mark.parametrize(
    "arguments",
    [["check", CLASS_A], ["ways", CLASS_A, "--json"], ["--help"]],
)
def test_output_that_cannot_be_written_ends_in_3(arguments):
    with Path("/dev/full").open("w") as full:
        done = program(*arguments, stdout=full)
    assert done.returncode == 3
    assert len(done.stderr.splitlines()) == 1
    assert os.strerror(errno.ENOSPC) in done.stderr


# --- 70: a fault of ours ---


def broken(*_):
    raise ZeroDivisionError("a corner nobody thought of")


@pytest.mark.parametrize("command", ["check", "ways", "compare", "plan"])
def test_a_fault_of_ours_ends_in_70_with_one_sentence_that_says_where_the_details_are(command, tmp_path, monkeypatch):
    monkeypatch.setattr(load, "explore", broken)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    write(tmp_path)
    out = ("--out", tmp_path / "made") if command == "plan" else ()
    said = run(command, tmp_path / "job.yaml", *out)
    assert (said.status, said.out) == (70, "")
    (line,) = said.lines
    found = re.fullmatch(r"drawcord failed, and that is our fault, not yours: the details are in (.+)", line)
    assert found
    details = Path(found[1]).read_text(encoding="utf-8")
    assert "Traceback (most recent call last)" in details
    assert "a corner nobody thought of" in details
    assert not (tmp_path / "made").exists()


def test_a_fault_of_ours_is_still_one_sentence_where_the_details_cannot_be_written(tmp_path, monkeypatch):
    monkeypatch.setattr(load, "explore", broken)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "gone"))
    write(tmp_path)
    said = run("check", tmp_path / "job.yaml")
    assert (said.status, said.out) == (70, "")
    assert said.lines == [
        "drawcord failed, and that is our fault, not yours: the details could not be written anywhere"
    ]


@pytest.mark.parametrize("error", [RecursionError, MemoryError, KeyError, AssertionError])
def test_no_kind_of_error_shows_a_traceback(error, tmp_path, monkeypatch):
    def explode(*_):
        raise error

    monkeypatch.setattr(load, "explore", explode)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    write(tmp_path)
    said = run("check", tmp_path / "rig.yaml")
    assert (said.status, said.out, len(said.lines)) == (70, "", 1)


# --- Readers that go away, and people who stop the program ---


@pytest.mark.skipif(os.name != "posix", reason="pipes as POSIX has them")
@pytest.mark.parametrize("arguments", [["check"], ["ways", "--json"], ["ways"], ["compare"], ["compare", "--json"]])
@pytest.mark.parametrize("taken", [0, 20])
def test_a_reader_that_goes_away_is_no_error(arguments, taken):
    # As `drawcord ways JOB --json | head -c 20` does; what it leaves unread is more than a pipe holds.
    ours, theirs = os.pipe()
    command = [sys.executable, "-c", MAIN, arguments[0], CLASS_A, *arguments[1:]]
    process = subprocess.Popen(command, stdout=theirs, stderr=subprocess.PIPE)
    os.close(theirs)
    if taken:
        os.read(ours, taken)
    os.close(ours)
    _, complaint = process.communicate(timeout=120)
    assert (process.returncode, complaint) == (0, b"")


@pytest.mark.skipif(os.name != "posix", reason="signals as POSIX has them")
def test_who_stops_the_program_sees_no_traceback():
    # It says that it has begun, and then waits: no clock decides whether the signal comes in time.
    # A run of the tests in the background hands down that its signal is to be ignored, which no terminal does.
    before = (
        "import signal, sys, time\n"
        "from drawcord.files import load\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "def wait(*_):\n"
        "    sys.stderr.write('begun\\n'); sys.stderr.flush(); time.sleep(100)\n"
        "load.explore = wait\n"
    )
    process = subprocess.Popen(
        [sys.executable, "-c", before + MAIN, "check", CLASS_A],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stderr
    assert process.stderr.readline() == "begun\n"
    process.send_signal(signal.SIGINT)
    out, complaint = process.communicate(timeout=60)
    assert process.returncode == 128 + signal.SIGINT
    assert out == ""
    assert "Traceback" not in complaint


def test_where_the_terminal_knows_only_ascii_everything_is_printed_all_the_same(tmp_path):
    write(tmp_path, changed(RIG, "name: Sketch", "name: Pärlchen ½"))
    environment = {**os.environ, "LC_ALL": "C", "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    done = program("check", tmp_path / "rig.yaml", env=environment)
    assert (done.returncode, done.stderr) == (0, "")
    assert "Pärlchen ½" in done.stdout
