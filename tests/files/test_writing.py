"""Writing is whole or not at all, and never over what drawcord did not write."""

import json
import os
import shutil
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from drawcord.files.writing import MANIFEST, expect_folder, write_file, write_folder
from drawcord.words.faults import BadInput, Surroundings

OLD = {"plan.json": b"old", "pictures/roof.svg": b"old roof"}
NEW = {"plan.json": b"new", "tables/legs.csv": b"new legs"}


class Killed(BaseException):
    """Stands for the moment at which somebody stops the program."""


def contents(folder):
    """All files below a folder with their bytes, the manifest left out."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and path.name != MANIFEST
    }


def snapshot(folder):
    return {
        path.relative_to(folder).as_posix(): path.is_file() and path.read_bytes()
        for path in folder.rglob("*")
    }


def kill_at(monkeypatch, number):
    """Let the renaming of this number, from 1, not happen any more."""
    real, count = os.replace, [0]

    def replace(*args, **kwargs):
        count[0] += 1
        if count[0] >= number:
            raise Killed
        real(*args, **kwargs)

    monkeypatch.setattr(os, "replace", replace)


def test_a_file_is_written_and_replaced(tmp_path):
    path = tmp_path / "deep" / "plan.json"
    write_file(path, b"one")
    write_file(path, b"two")
    assert snapshot(tmp_path) == {"deep": False, "deep/plan.json": b"two"}


def test_a_file_keeps_its_mode_and_a_new_one_gets_the_usual_one(tmp_path):
    (tmp_path / "usual").write_bytes(b"")
    write_file(tmp_path / "new", b"")
    assert stat.S_IMODE((tmp_path / "new").stat().st_mode) == stat.S_IMODE(
        (tmp_path / "usual").stat().st_mode
    )
    (tmp_path / "new").chmod(0o640)
    write_file(tmp_path / "new", b"again")
    assert stat.S_IMODE((tmp_path / "new").stat().st_mode) == 0o640


def test_a_link_stays_a_link(tmp_path):
    (tmp_path / "there").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "there" / "file")
    write_file(tmp_path / "link", b"through")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "there" / "file").read_bytes() == b"through"


def test_a_file_whose_writing_is_interrupted_is_as_it_was(tmp_path, monkeypatch):
    path = tmp_path / "plan.json"
    write_file(path, b"one")
    kill_at(monkeypatch, 1)
    with pytest.raises(Killed):
        write_file(path, b"two")
    assert snapshot(tmp_path) == {"plan.json": b"one"}


def test_a_full_disk_leaves_the_file_as_it_was(tmp_path, monkeypatch):
    path = tmp_path / "plan.json"
    write_file(path, b"one")

    def full(_descriptor):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(Surroundings, match=r"plan\.json cannot be written: No space left on device"):
        write_file(path, b"two")
    with pytest.raises(Surroundings, match="out cannot be written: No space left on device"):
        write_folder(tmp_path / "out", NEW, "plan")
    assert snapshot(tmp_path) == {"plan.json": b"one"}


def test_where_nothing_can_be_written_is_the_surroundings_fault(tmp_path):
    # Root may write everywhere, but nobody can make a folder below a file.
    (tmp_path / "file").write_bytes(b"")
    for write in (
        lambda: write_file(tmp_path / "file" / "x", b""),
        lambda: write_folder(tmp_path / "file" / "x", {}, "plan"),
    ):
        with pytest.raises(Surroundings, match="cannot be written"):
            write()
    assert snapshot(tmp_path) == {"file": b""}


def test_a_folder_holds_exactly_its_files_and_their_list(tmp_path):
    folder = tmp_path / "out"
    write_folder(folder, OLD, "plan")
    assert contents(folder) == OLD
    manifest = json.loads((folder / MANIFEST).read_bytes())
    assert manifest["mark"] == "plan"
    assert sorted(manifest["files"]) == sorted(OLD)
    write_folder(folder, NEW, "plan")
    assert contents(folder) == NEW, "what the new run does not write is gone"
    assert [path.name for path in tmp_path.iterdir()] == ["out"], "nothing is left beside it"


def test_the_list_does_not_depend_on_the_order_of_the_files(tmp_path):
    write_folder(tmp_path / "a", OLD, "plan")
    write_folder(tmp_path / "b", dict(reversed(OLD.items())), "plan")
    assert (tmp_path / "a" / MANIFEST).read_bytes() == (tmp_path / "b" / MANIFEST).read_bytes()


def test_an_empty_folder_is_free_to_take(tmp_path):
    (tmp_path / "out").mkdir()
    write_folder(tmp_path / "out", NEW, "plan")
    assert contents(tmp_path / "out") == NEW


def test_files_that_are_missing_are_no_reason_to_refuse(tmp_path):
    write_folder(tmp_path / "out", OLD, "plan")
    (tmp_path / "out" / "plan.json").unlink()
    write_folder(tmp_path / "out", NEW, "plan")
    assert contents(tmp_path / "out") == NEW


def add_file(folder):
    (folder / "notes.txt").write_bytes(b"mine")


def add_deep(folder):
    (folder / "pictures" / "mine.svg").write_bytes(b"mine")


def add_folder(folder):
    (folder / "empty").mkdir()


def change(folder):
    (folder / "plan.json").write_bytes(b"edited")


def add_link(folder):
    (folder / "link").symlink_to(folder)


def link_instead(folder):
    # The same bytes, but they live elsewhere.
    shutil.move(folder / "plan.json", folder.parent / "moved.json")
    (folder / "plan.json").symlink_to(folder.parent / "moved.json")


def lose_list(folder):
    (folder / MANIFEST).unlink()


def spoil_list(folder):
    (folder / MANIFEST).write_bytes(b'{"files": 3}')


@pytest.mark.parametrize(
    ("touch", "named"),
    [
        (add_file, "notes.txt"),
        (add_deep, "pictures/mine.svg"),
        (add_folder, "empty/"),
        (change, "plan.json"),
        (add_link, "link/"),
        (link_instead, "plan.json"),
        (lose_list, "plan.json, pictures/"),
        (spoil_list, ".drawcord, plan.json, pictures/"),
    ],
)
def test_a_folder_with_anything_that_is_not_ours_stays_as_it_is(tmp_path, touch, named):
    folder = tmp_path / "out"
    write_folder(folder, OLD, "plan")
    touch(folder)
    before = snapshot(tmp_path)
    with pytest.raises(BadInput) as caught:
        write_folder(folder, NEW, "plan")
    (problem,) = caught.value.problems
    assert problem.file == str(folder)
    assert problem.sentence.endswith(f": {named}; choose another folder")
    assert snapshot(tmp_path) == before


@pytest.mark.parametrize("touch", [add_file, change, lose_list])
def test_a_folder_that_would_be_refused_is_so_before_there_is_anything_to_write(tmp_path, touch):
    folder = tmp_path / "out"
    expect_folder(folder)
    write_folder(folder, OLD, "plan")
    expect_folder(folder)
    touch(folder)
    before = snapshot(tmp_path)
    with pytest.raises(BadInput, match="choose another folder"):
        expect_folder(folder)
    with pytest.raises(Surroundings, match=r"cannot be written: .* is no folder that you may write into"):
        expect_folder(folder / "plan.json" / "made")
    assert snapshot(tmp_path) == before


def test_a_folder_of_another_kind_stays_as_it_is(tmp_path):
    write_folder(tmp_path / "out", OLD, "demo")
    with pytest.raises(BadInput, match="holds `demo`, not `plan`; choose another folder"):
        write_folder(tmp_path / "out", NEW, "plan")
    assert contents(tmp_path / "out") == OLD


def test_a_long_list_of_foreign_files_is_cut_short(tmp_path):
    for number in range(9):
        (tmp_path / f"{number}").write_bytes(b"")
    with pytest.raises(BadInput, match="changed since: 0, 1, 2 and more; choose"):
        write_folder(tmp_path, NEW, "plan")


def test_a_file_in_the_place_of_a_folder_stays(tmp_path):
    (tmp_path / "out").write_bytes(b"mine")
    with pytest.raises(BadInput, match="a file, not a folder"):
        write_folder(tmp_path / "out", NEW, "plan")
    assert snapshot(tmp_path) == {"out": b"mine"}


@pytest.mark.parametrize("name", ["../x", "/x", "a/../../x", MANIFEST])
def test_names_that_leave_the_folder_are_a_fault_of_ours(tmp_path, name):
    with pytest.raises(ValueError, match="no name for a file"):
        write_folder(tmp_path / "out", {name: b""}, "plan")
    assert snapshot(tmp_path) == {}


@pytest.mark.parametrize("number", [1, 2])
def test_an_interrupted_folder_is_old_or_new_and_never_lost(tmp_path, monkeypatch, number):
    # The first renaming takes the old folder aside, the second brings the new one.
    folder = tmp_path / "out"
    write_folder(folder, OLD, "plan")
    kill_at(monkeypatch, number)
    with pytest.raises(Killed):
        write_folder(folder, NEW, "plan")
    monkeypatch.undo()
    # Where even putting the old one back was stopped, it stands beside, whole.
    kept = folder if folder.exists() else tmp_path / ".out.earlier"
    assert contents(kept) == OLD
    write_folder(folder, NEW, "plan")
    assert contents(folder) == NEW
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_folder_that_cannot_be_brought_into_place_is_put_back(tmp_path, monkeypatch):
    folder = tmp_path / "out"
    write_folder(folder, OLD, "plan")
    real = os.replace

    def replace(source, target):
        if Path(source).parent != tmp_path:
            raise OSError(5, "Input/output error")
        real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    with pytest.raises(Surroundings, match="Input/output error"):
        write_folder(folder, NEW, "plan")
    assert contents(folder) == OLD
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


DIE = """
import os, shutil, sys
from pathlib import Path
from drawcord.files.writing import write_folder

steps, die_at = [0], int(sys.argv[2])

def mortal(step):
    def run(*args, **kwargs):
        steps[0] += 1
        if steps[0] == die_at:
            os._exit(9)
        return step(*args, **kwargs)
    return run

os.replace, os.fsync, shutil.rmtree = mortal(os.replace), mortal(os.fsync), mortal(shutil.rmtree)
write_folder(Path(sys.argv[1]), {"plan.json": b"new", "tables/legs.csv": b"new legs"}, "plan")
"""


def test_a_process_that_dies_at_any_step_loses_nothing(tmp_path):
    # Every fsync, renaming and removal in turn is the last thing that a real process does.
    for step in range(1, 20):
        place = tmp_path / str(step)
        folder = place / "out"
        write_folder(folder, OLD, "plan")
        ended = subprocess.run([sys.executable, "-c", DIE, str(folder), str(step)], check=False, timeout=60)
        if ended.returncode == 0:
            break
        assert ended.returncode == 9
        kept = folder if folder.exists() else place / ".out.earlier"
        assert contents(kept) in (OLD, NEW)
        write_folder(folder, NEW, "plan")
        assert contents(folder) == NEW
        assert not (place / ".out.earlier").exists()
    assert 6 < step < 19, "each of several steps was tried, and the last run came through"


def test_a_folder_of_a_person_that_bears_the_name_of_ours_aside_stays(tmp_path):
    (tmp_path / ".out.earlier").mkdir()
    (tmp_path / ".out.earlier" / "mine").write_bytes(b"mine")
    with pytest.raises(BadInput, match="mine; choose another folder"):
        write_folder(tmp_path / "out", NEW, "plan")
    assert snapshot(tmp_path) == {".out.earlier": False, ".out.earlier/mine": b"mine"}
