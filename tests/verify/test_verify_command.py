"""`drawcord verify` as a person starts it: exit statuses, sentences, and what becomes of files that changed."""

import json
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from drawcord.app.answers import answers, inputs
from drawcord.app.cli import cli
from drawcord.plan.choose import choose
from drawcord.sheets.report import plan_document

ROOT = Path(__file__).parents[2]


def run(path):
    """The command, as a person starts it."""
    return CliRunner().invoke(cli, ["verify", str(path)])


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """The smallest demo job with its rig, and the shop's files, copied; its plan, without pictures, beside them."""
    base = tmp_path_factory.mktemp("shop")
    shutil.copytree(ROOT / "layouts" / "van", base / "van")
    shutil.copytree(ROOT / "shared", base / "own shop")
    loaded, found = answers(base / "van" / "job-open-cabin.yaml", base / "own shop")
    plan = choose(loaded.coach, [answer for _, answer in found], [])
    document = plan_document(plan, [order for order, _ in found], inputs(loaded))
    del document["together"]
    document |= {"circuits": None, "job_file": "../../van/job-open-cabin.yaml", "shop_folder": "../../own shop"}
    (base / "out" / "plan").mkdir(parents=True)
    (base / "out" / "plan" / "plan.json").write_text(json.dumps(document), encoding="utf-8")
    return base


@pytest.fixture
def copied(folder, tmp_path):
    """The same, for one test to spoil."""
    return shutil.copytree(folder, tmp_path / "copy")


def test_a_plan_passes_wherever_its_folder_is_moved_with_its_files(copied):
    """The paths in the plan lead from the plan's own folder, so that a shop's folder can be carried away whole."""
    done = run(copied / "out" / "plan" / "plan.json")
    assert (done.exit_code, done.stderr) == (0, "")
    assert "nothing wrong was found" in done.stdout
    assert "compliant" not in done.stdout


def test_each_fault_is_one_sentence_and_the_status_is_1(copied):
    """A plan with two faults: a wrong sum, and a choice of nothing."""
    path = copied / "out" / "plan" / "plan.json"
    plan = json.loads(path.read_text(encoding="utf-8"))
    plan["cables"][0]["candidates"][0]["length_mm"] += 10
    plan["chosen"]["picture"] = "picture-99"
    path.write_text(json.dumps(plan), encoding="utf-8")
    done = run(path)
    assert (done.exit_code, done.stderr) == (1, "")
    assert len(done.stdout.splitlines()) == 2
    assert "length_mm" in done.stdout
    assert "picture" in done.stdout


FILES = ["van/job-open-cabin.yaml", "van/rig.yaml", "own shop/labour.yaml", "own shop/cables.yaml"]
NO_PLANS = ["", "{", "[]", "{}", '{"job_file": 3}', '{"job_file": "no.yaml", "shop_folder": "."}', '{"a": NaN}']


@pytest.mark.parametrize("name", FILES)
def test_a_file_that_changed_since_is_named_with_status_2(copied, name):
    """A comment is enough: whether it matters is for a new plan to say."""
    with (copied / name).open("a", encoding="utf-8") as file:
        file.write("\n# looked again\n")
    done = run(copied / "out" / "plan" / "plan.json")
    assert (done.exit_code, done.stdout) == (2, "")
    assert name.split("/")[1] in done.stderr
    assert "plan again" in done.stderr


@pytest.mark.parametrize("text", NO_PLANS)
def test_what_is_no_plan_is_answered_with_status_2(tmp_path, text):
    """One sentence that names the file, no traceback."""
    path = tmp_path / "plan.json"
    path.write_text(text, encoding="utf-8")
    done = run(path)
    assert (done.exit_code, done.stdout) == (2, "")
    assert len(done.stderr.splitlines()) == 1
    assert str(tmp_path) in done.stderr


def test_a_missing_plan_and_a_folder_are_answered_with_status_2(tmp_path):
    """A slip of the keyboard."""
    for path in (tmp_path / "nothing.json", tmp_path):
        done = run(path)
        assert (done.exit_code, done.stdout) == (2, "")


def test_every_key_that_the_checker_reads_is_missed_with_a_sentence(copied):
    """A plan without a key is none that can be checked, or has a fault; never a traceback."""
    path = copied / "out" / "plan" / "plan.json"
    plan = json.loads(path.read_text(encoding="utf-8"))
    for key in ("cables", "chosen", "inputs", "job_file", "shop_folder", "format"):
        path.write_text(json.dumps({name: value for name, value in plan.items() if name != key}), encoding="utf-8")
        done = run(path)
        assert done.exit_code in (1, 2), key
        assert done.stdout or done.stderr


@pytest.mark.parametrize("change", ["one less", "one twice", "another hash", "another name"])
def test_the_list_of_inputs_is_held_against_the_files(copied, change):
    """What the plan says it was made from is what lies there."""
    path = copied / "out" / "plan" / "plan.json"
    plan = json.loads(path.read_text(encoding="utf-8"))
    first = plan["inputs"][2]
    plan["inputs"] = {
        "one less": plan["inputs"][:2] + plan["inputs"][3:],
        "one twice": [*plan["inputs"], first],
        "another hash": [{**one, "sha256": "0" * 64} if one is first else one for one in plan["inputs"]],
        "another name": [{**one, "file": "x.yaml"} if one is first else one for one in plan["inputs"]],
    }[change]
    path.write_text(json.dumps(plan), encoding="utf-8")
    assert run(path).exit_code == 2
