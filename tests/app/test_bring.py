"""`drawcord bring` through the real command: bad stock, jobs named twice, what is missing, and the document."""

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from bad import JOB, MARK, RIG, changed, run, write

import answered
from drawcord.files.home import shared
from drawcord.files.load import load_shop
from drawcord.files.stock import load_van
from planned import known

STOCK = """\
format: 1
units: m
keep: 0.5
leads:
  lead: {type: pv-10-awg, length: 3, count: 2}
reels:
  reel: {type: pv-10-awg, length: 40}
store:
  sold: {type: pv-10-awg, length: 30, price: 60}
parts: {clip: 40}
tools:
  bits: {saw: {kind: hole saw, diameter: 25 mm, shank: hex, across: 10 mm}}
  chucks: {drill: {takes: [hex], widest: 13 mm}}
"""
OF_SURE = ("sure", "jobs", "cable_needed", "not_covered")  # parts of the document if a confidence is asked for
TYPED = JOB.replace("class: PV, ", "class: PV, type: pv-10-awg, ")

# What is spoilt, what comes in its stead with a mark where the sentence should point, and words it needs.
WRONG = {
    "a negative length": ("length: 40}", f"length: {MARK}-40}}", "must be more than nothing"),
    "an absurd length": ("length: 40}", f"length: {MARK}40 km}}", "km"),
    "a reel longer than any": ("length: 40}", f"length: {MARK}4000}}", "longer than any reel of cable (500 m)"),
    "a lead longer than any vehicle": ("length: 3,", f"length: {MARK}300,", "longer than any vehicle"),
    "a negative count": ("count: 2", f"count: {MARK}-2", "`-2` should be 0 or more"),
    "half a lead": ("count: 2", f"count: {MARK}2.5", "`2.5` should be a whole number"),
    "more than any van carries": ("count: 2", f"count: {MARK}5000", "`5000` should be 1000 or less"),
    "a negative price": ("price: 60", f"price: {MARK}-60", "`-60` should be 0 or more"),
    "a negative left-over": ("keep: 0.5", f"keep: {MARK}-0.5", "must not be less than nothing"),
    "a negative part": ("clip: 40", f"clip: {MARK}-40", "`-40` should be 0 or more"),
    "cable of no known type": (
        "reel: {type: pv-10-awg", f"reel: {{type: {MARK}pv-10-agw", "no such type of cable (did you mean",
    ),
    "one id for two things": ("  sold: {", f"  {MARK}reel: {{", "reel stands under `reels` as well"),
    "one id twice": ("  lead: {", f"  lead: {{type: pv-10-awg, length: 2}}\n  {MARK}lead: {{", "a second time"),
    "no id": ("  sold: {", f"  {MARK}Sold reel: {{", "is no id"),
    "a part that nobody counts": ("{clip: 40}", f"{{{MARK}clips: 40}}", "is called clips (did you mean `clip`?)"),
    "a key that is unknown": ("count: 2", f"{MARK}amount: 2", "amount"),
    "a saw as wide as a door": ("diameter: 25 mm", f"diameter: {MARK}2 m", "wider than any plug"),
}  # fmt: skip


def shop(folder, stock=STOCK):
    """A folder with the shop's files and this stock; where the marks in it are."""
    shutil.copytree(shared(), folder / "shop")
    lines = stock.splitlines()
    marks = [("stock.yaml", n, line.index(MARK) + 1) for n, line in enumerate(lines, start=1) if MARK in line]
    (folder / "shop" / "stock.yaml").write_text(stock.replace(MARK, ""), encoding="utf-8")
    return marks


def test_the_stock_is_right_to_begin_with(tmp_path):
    # What the next test spoils is taken as it stands, so that its slip is the only one.
    shop(tmp_path)
    write(tmp_path, job=TYPED)
    said = run("bring", tmp_path / "job.yaml", "--shop", tmp_path / "shop")
    assert (said.status, said.lines) == (0, [])
    assert "2 × " in said.out
    assert "order: pv" in said.out


@pytest.mark.parametrize("case", WRONG)
def test_wrong_stock_is_refused_at_its_place(case, tmp_path):
    # One sentence, where it stands, before any search begins.
    old, new, *words = WRONG[case]
    marks = shop(tmp_path, changed(STOCK, old, new))
    write(tmp_path, job=TYPED)
    said = run("bring", tmp_path / "job.yaml", "--shop", tmp_path / "shop")
    assert (said.status, said.out) == (2, "")
    assert marks[0] in said.places, said.lines
    sentence = said.lines[said.places.index(marks[0])]
    assert [word for word in words if word not in sentence] == [], sentence


def test_a_shop_without_stock_says_which_file_is_missing(tmp_path):
    # Other commands need none; this one has nothing to load from.
    shop(tmp_path)
    (tmp_path / "shop" / "stock.yaml").unlink()
    write(tmp_path, job=TYPED)
    said = run("bring", tmp_path / "job.yaml", "--shop", tmp_path / "shop")
    assert said.status == 2
    assert said.lines == [f"{tmp_path / 'shop' / 'stock.yaml'}: there is no such file"]
    assert run("check", tmp_path / "job.yaml", "--shop", tmp_path / "shop").status == 0


def test_a_bit_may_be_half_a_millimetre():
    # Holes for glands end in half a millimetre (EN 60423): rounded to whole ones no saw would ever serve.
    bits = load_van(None, load_shop()[0].types)[0].tools.bits
    assert bits["saw-25-5"].diameter == 25.5


def test_a_shop_without_rules_for_parts_still_loads_its_cable(tmp_path):
    # Pieces and cuts need none of them; the rest is left out, not guessed.
    shop(tmp_path)
    write(tmp_path, job=TYPED)
    arguments = ("bring", tmp_path / "job.yaml", "--shop", tmp_path / "shop")
    assert "BUY, small parts" in run(*arguments).out
    (tmp_path / "shop" / "parts.yaml").unlink()
    said = run(*arguments)
    assert (said.status, said.lines) == (0, [])
    assert "small parts" not in said.out
    assert json.loads(run(*arguments, "--json").out)["gear"] is None


def test_a_job_named_twice_is_refused(tmp_path):
    # Its cables would be loaded twice, and nobody could tell the cuts apart.
    write(tmp_path, job=TYPED)
    said = run("bring", tmp_path / "job.yaml", tmp_path / "job.yaml")
    assert said.status == 2
    assert "the job order is loaded for twice" in said.lines[0]


def test_the_problems_of_all_jobs_are_told_at_once(tmp_path):
    # A week has five jobs; nobody wants to correct them one run at a time.
    for name in ("one", "other"):
        (tmp_path / name).mkdir()
        write(tmp_path / name, job=changed(TYPED, "cores: 2", "cores: two"))
    said = run("bring", tmp_path / "one" / "job.yaml", tmp_path / "other" / "job.yaml")
    assert said.status == 2
    assert len(said.lines) == 2


def test_what_is_missing_ends_in_status_one_and_names_it(tmp_path):
    # A reel that is too short for two cores, nothing to buy, and a bay that no joint can be reached in.
    shop(tmp_path, changed(STOCK, "length: 40", "length: 4").partition("store:")[0])
    write(tmp_path, RIG, TYPED)
    said = run("bring", tmp_path / "job.yaml", "--shop", tmp_path / "shop")
    assert said.status == 1
    assert "NOT ENOUGH" in said.out
    assert "the shortest to buy that would do is 2 ×" in " ".join(said.out.split())


def test_a_cable_without_a_type_of_which_several_serve_is_refused(tmp_path):
    # Ten types of PV cable might be meant, and the drop would be another with each.
    write(tmp_path, job=JOB)
    said = run("bring", tmp_path / "job.yaml")
    assert said.status == 1
    assert "write its `type` into the job" in " ".join(said.out.split())


# The cabinet's passage to the bay is the only way, and eight in ten it is clear.
ONE_WAY = TYPED.replace("standing: proven, source: looked", "standing: blocked, source: looked").replace(
    "roof run: square}", "roof run: square, excludes: [chest]}"
)


@pytest.mark.parametrize("asked", ["0.95", "95", "0%", "100.1%", "-5%", "sure", "", "95 percent", "1e1%", "٩٥%"])
def test_a_confidence_is_a_percentage_and_nothing_else(asked, tmp_path):
    # 0.95 might mean 95 % or less than 1 %: nobody should load by a guess.
    write(tmp_path, job=TYPED)
    said = run("bring", tmp_path / "job.yaml", "--sure", asked)
    assert (said.status, said.out) == (2, "")
    assert said.lines == [f"--sure takes a percentage above 0% and up to 100%, such as 95%, not {asked!r}"]


def test_a_confidence_that_no_load_has_ends_in_status_one_and_says_why(tmp_path):
    # Two in ten there is no way at all, whatever is brought: 80 % can be had, 90 % and 100 % cannot.
    write(tmp_path, job=ONE_WAY)
    for asked, status in (("80%", 0), ("90%", 1), ("100%", 1)):
        said = run("bring", tmp_path / "job.yaml", "--sure", asked)
        out = " ".join(said.out.split())
        assert said.status == status
        assert ("NOT SURE ENOUGH" in out) == ("no load is surer than 80 %" in out) == bool(status)
        assert f"enough with 80 %, asked for {asked.removesuffix('%')} %" in out
        assert "in 20 % some cable has no way at all, whatever is brought: pv 20 %" in out
        assert "1 place unproven" in out
        assert "is an assumption" in out
    sure = run("bring", write_and(tmp_path, TYPED), "--sure", "100%")
    assert sure.status == 0
    assert "enough with 100 %" in sure.out


def write_and(folder, job):
    write(folder, job=job)
    return folder / "job.yaml"


def test_what_other_jobs_found_is_said_to_count(tmp_path):
    # Four of five on the rig found it clear: (4 + 2 · 0.8) / (5 + 2) = 80 % again, but no longer an assumption alone.
    write(tmp_path, job=ONE_WAY)
    words = ["clear", "clear", "clear", "clear", "blocked"]
    records = "".join(
        f"  job-{n}: {{date: 2025-0{n}-01, found: {{glory_hole: {word}}}}}\n" for n, word in enumerate(words, start=1)
    )
    (tmp_path / "rig.log.yaml").write_text(f"format: 1\nrig: sketch\njobs:\n{records}", encoding="utf-8")
    out = " ".join(run("bring", tmp_path / "job.yaml", "--sure", "80%").out.split())
    assert "For 1 of them, what other jobs on the rig found counts as well" in out
    assert "enough with 80 %" in out


def test_a_load_for_what_may_turn_out_is_the_same_to_the_byte_under_any_hashing(tmp_path):
    # Cases and purchases come out of sets and dicts: their order must not show.
    write(tmp_path, job=ONE_WAY)
    (tmp_path / "other").mkdir()
    write(tmp_path / "other", job=ONE_WAY.replace("job: order", "job: second"))
    jobs = [str(tmp_path / "job.yaml"), str(tmp_path / "other" / "job.yaml")]
    program = "from drawcord.app.cli import main; main()"
    printed = {
        subprocess.run(
            [sys.executable, "-c", program, "bring", *jobs, "--sure", "60%", "--json"],
            capture_output=True,
            check=True,
            env={**os.environ, "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("0", "1", "2")
    }
    assert len(printed) == 1
    document = json.loads(printed.pop())["sure"]
    assert document["chance"] == pytest.approx(0.64)
    assert [one["chance"] for one in document["jobs"]] == [pytest.approx(0.8), pytest.approx(0.8)]


def test_the_document_says_how_sure_and_what_is_not_covered(tmp_path):
    # The keys that contributors are told, and figures that add up: covered and not covered are all there is.
    write(tmp_path, job=ONE_WAY)
    document = json.loads(run("bring", tmp_path / "job.yaml", "--sure", "90%", "--json").out)["sure"]
    assert (document["wanted"], document["enough"]) == (0.9, False)
    assert document["chance"] + sum(one["chance"] for one in document["not_covered"]) == pytest.approx(1)
    (job,) = document["jobs"]
    assert sum(one["chance"] for one in job["cable_needed"]) == pytest.approx(1)
    assert job["no_way_for"] == {"pv": pytest.approx(0.2)}
    told = keys_told()
    assert told["sure"] == set(document)
    assert told["jobs"] == set(job)
    assert told["cable_needed"] == set(job["cable_needed"][0])
    assert told["not_covered"] == set(document["not_covered"][0])


def keys_told():
    """The keys of the document by its parts, as DEVELOPERS.md has them."""
    text = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = text[text.index("| part | keys |") :].split("\n\n")[0].splitlines()[2:]
    told = [re.findall(r"`([^`]*)`", row) for row in rows]
    return {part: set(keys) for part, *keys in told}


def test_the_document_holds_what_the_text_says():
    # The same load for machines: cuts that add up, joints with their reasons, and every file that was read.
    jobs = [answered.JOBS[name] for name in ("fifth-wheel/job-front-bay", "van/job-garage")]
    with known():
        said, text = run("bring", *jobs, "--json"), run("bring", *jobs).out
    assert (said.status, said.lines) == (0, [])
    document = json.loads(said.out)
    assert document["enough"] is document["proved"] is True
    assert document["jobs"] == ["fifth-wheel-front-bay", "van-garage"]
    read = [one["file"] for one in document["inputs"]]
    assert {"job-front-bay.yaml", "job-garage.yaml", "stock.yaml", "cables.yaml"} <= set(read)
    assert read.count("rig.yaml") == 2
    for one in document["cut_from"]:
        assert one["left_mm"] == one["length_mm"] - sum(cut["length_mm"] for cut in one["cuts"])
    for one in document["cables"]:
        assert one["pieces"][-1]["to_mm"] == one["length_mm"]
        assert all(joint["reason"] for joint in one["joints"])
    gear = document["gear"]
    assert any(one["buy"] for one in gear["parts"])
    assert any(one["carry"] for one in gear["parts"])
    for one in gear["parts"]:
        assert one["carry"] + one["buy"] == one["count"]
    for one in gear["tools"]:
        assert (one["lacking"] is None) == (one["bit"] is not None) == (one["chuck"] is not None)
    told = {part: keys for part, keys in keys_told().items() if part not in OF_SURE}
    assert document["sure"] is None
    assert told == {
        "bring": set(document),
        "gear": set(gear),
        "parts": set(gear["parts"][0]),
        "tools": set(gear["tools"][0]),
        "cut_from": set(document["cut_from"][0]),
        "cuts": set(document["cut_from"][0]["cuts"][0]),
        "buy": set(document["buy"]),
        "cables": set(document["cables"][0]),
        "pieces": set(document["cables"][0]["pieces"][0]),
        "joints": {key for one in document["cables"] for joint in one["joints"] for key in joint},
    }
    assert all(one["stock"] in text for one in document["cut_from"])
    assert all(name in text for name in document["carry"])
    assert all(one["part"] in text for one in gear["parts"])
    assert all(one["bit"] in text for one in gear["tools"] if one["bit"])
