"""What a job used, from the form to the log, and what the next job on that rig takes from it."""

import errno
import json
import os
from fractions import Fraction
from statistics import median

import pytest
from bad import JOB, RIG
from typer.testing import CliRunner

from drawcord.app.cli import cli
from drawcord.coach.history import history
from drawcord.coach.log import Log
from drawcord.files.home import layouts


def ran(*arguments):
    return CliRunner().invoke(cli, [str(argument) for argument in arguments])


@pytest.fixture
def job(tmp_path):
    """The small job and its rig, with no log."""
    (tmp_path / "rig.yaml").write_text(RIG)
    path = tmp_path / "job.yaml"
    path.write_text(JOB + "temperatures: {coldest: -20 °C, hottest: 45 °C}\n" if "temperatures" not in JOB else JOB)
    return path


def log_of(job, *records):
    """Put a log beside the rig."""
    lines = [f"  job_{number}: {record}" for number, record in enumerate(records)]
    job.with_name("rig.log.yaml").write_text("\n".join(["format: 1", "rig: sketch", "jobs:", *lines, ""]))


def compared(job):
    done = ran("compare", job, "--json")
    assert done.exit_code == 0, done.output
    return json.loads(done.output)


def best(document):
    return document["cables"][0]["candidates"][0]


def length(used, found=""):
    return f"{{date: 2026-01-01, cables: {{pv: {{planned: 4 m, used: {used}}}}}, found: {{{found}}}}}"


def filled(job, **words):
    """The form of a job, written and filled in."""
    assert ran("record", job, "--form").exit_code == 0
    form = job.with_name("job.used.yaml")
    text = form.read_text()
    for before, after in words.items():
        text = text.replace(f"{before}:", f"{before}: {after}") if before in ("date", "source") else text
    text = text.replace("mm, used: }", f"mm, used: {words.get('used', '')}}}")
    form.write_text(text)
    return form


def test_a_filled_form_becomes_a_record_and_again_the_same_bytes(job):
    """What the person filled in stands in the log, and recording twice changes no byte of log or plan."""
    before = compared(job)
    filled(job, date="2026-03-04", source="tape", used="9.5 m")
    assert ran("record", job).exit_code == 0
    log = job.with_name("rig.log.yaml")
    first = log.read_bytes()
    assert b"used: 9500 mm" in first
    assert b"date: 2026-03-04" in first
    assert b"stack: clear" in first, "what the job says was found goes along"
    assert ran("record", job).exit_code == 0
    assert log.read_bytes() == first
    after = compared(job)
    assert [one["file"] for one in after.pop("inputs")].count("rig.log.yaml") == 1, "the log is an input"
    before.pop("inputs")
    assert after == before, "a job takes nothing from its own record"


def test_chance_is_weighed_against_the_rigs_own(job):
    """(clear + 2 p) / (n + 2): the rule of succession (Laplace 1814, from memory) where p is one half."""
    log_of(job, length("", "glory_hole: clear"), length("", "glory_hole: blocked"), length("", "glory_hole: clear"))
    line = next(line for line in ran("ways", job).output.splitlines() if line.startswith("glory_hole"))
    assert f"{float((2 + 2 * Fraction(4, 5)) / 5):.0%}" in line
    assert "unproven" in line
    assert "found clear 2 ×, blocked 1 ×, last 2026-01-01, job_2" in ran("compare", job).output, "never silently"


def test_found_clear_elsewhere_raises_and_blocked_lowers(job):
    """A clear finding may never make a place look worse, nor a blocked one better; neither proves anything."""
    chances = []
    for word in ("blocked", "", "clear"):
        log_of(job, length("", f"glory_hole: {word}"))
        line = next(line for line in ran("ways", job).output.splitlines() if line.startswith("glory_hole"))
        assert " unproven " in line
        chances.append(line)
    assert ["53%" in chances[0], "80%" in chances[1], "87%" in chances[2]] == [True] * 3


def test_own_finding_stands_above_the_log(job):
    """What somebody saw in this vehicle is not moved by what others saw in theirs."""
    log_of(job, length("", "stack: blocked"), length("", "stack: blocked"))
    assert "stack" not in ran("compare", job).output.split("From the log")[-1]
    assert not any("stack was found" in one["sentence"] for one in compared(job)["notices"])


def test_what_the_rig_proves_is_in_doubt_once_found_blocked(job):
    """A cabinet that counts as proven, found blocked in one vehicle of two, is unproven: (1 + 2) / (2 + 2)."""
    log_of(job, length("", "linen: blocked"), length("", "linen: clear"))
    notices = " ".join(one["sentence"] for one in compared(job)["notices"])
    assert "in other vehicles of this rig linen was found clear 1 ×, blocked 1 ×, last 2026-01-01, job_1" in notices
    assert "linen" in best(compared(job))["unproven"] or "linen" not in best(compared(job))["spaces"]


def test_allowances_wait_for_three_jobs(job):
    """Two jobs correct nothing; three do, on a line of its own that names their number."""
    plain = best(compared(job))["cut_length_mm"]
    log_of(job, length("5 m"), length("5 m"))
    assert best(compared(job))["cut_length_mm"] == plain
    log_of(job, length("5 m"), length("5 m"), length("40 m"))
    candidate = best(compared(job))
    lines = {one["name"]: one["value"] for one in candidate["figures"]}
    assert candidate["cut_length_mm"] == {
        "low": plain["low"],
        "likely": plain["likely"] + round(plain["likely"] * 0.25),
        "high": plain["high"] + round(plain["high"] * 0.25),
    }, "the median of 1.25, 1.25 and 10 is 1.25, and the low end does not move up"
    assert lines["correction from 3 jobs, likely"] == round(plain["likely"] * 0.25)
    assert "corrected by what 3 jobs used: 1.250 ×" in ran("compare", job).output


def test_shorter_use_moves_the_low_end_only_down(job):
    """Cable saved elsewhere lowers what is likely, never the length that is surely enough."""
    plain = best(compared(job))["cut_length_mm"]
    log_of(job, *[length("3 m")] * 3)
    cut = best(compared(job))["cut_length_mm"]
    assert cut["high"] == plain["high"]
    assert cut["low"] < plain["low"]
    assert cut["low"] <= cut["likely"] < plain["likely"]


def test_form_states_the_length_without_its_correction(job):
    """A correction that went into the next record would shrink the next correction."""
    plain = best(compared(job))["cut_length_mm"]["likely"]
    log_of(job, *[length("5 m")] * 3)
    assert f"planned: {plain} mm" in filled(job).read_text()


def test_ratio_is_the_median_over_jobs_of_medians():
    """Against the plain definition; one job of many cables counts once."""
    many = {f"c{number}": {"planned": "1 m", "used": "8 m"} for number in range(9)}
    jobs = {"a": {"cables": many}}
    for name, used in (("b", "1.1 m"), ("c", "1.3 m"), ("own", "9 m")):
        jobs[name] = {"cables": {"x": {"planned": "1 m", "used": used}}}
    past = history(Log.model_validate({"format": 1, "rig": "sketch", "jobs": jobs}), "own")
    assert (past.jobs, past.ratio) == (3, median([8, 1.1, 1.3]))


def test_work_is_the_median_over_jobs_of_minutes_used_over_planned():
    """From three jobs on, without the job's own; cables and minutes are counted apart."""
    times = (("a", "60 min", "90 min"), ("b", "100 min", "110 min"), ("c", "50 min", "200 min"), ("own", "1 h", "9 h"))
    jobs = {name: {"minutes": {"planned": planned, "used": used}} for name, planned, used in times}
    jobs["d"] = {"minutes": {"planned": "60 min"}}
    past = history(Log.model_validate({"format": 1, "rig": "sketch", "jobs": jobs}), "own")
    assert (past.work_jobs, past.work_ratio) == (3, median([1.5, 1.1, 4]))
    assert (past.jobs, past.ratio, past.corrects) == (0, 1, False)
    del jobs["a"]
    past = history(Log.model_validate({"format": 1, "rig": "sketch", "jobs": jobs}), "own")
    assert (past.work_jobs, past.work_ratio) == (2, 1)


def test_work_that_took_longer_is_told_and_changes_no_route(job):
    """Never silently, and no route becomes better or worse by a factor that all of them have."""
    plain = compared(job)
    took = "{minutes: {planned: 60 min, used: 75 min}}"
    log_of(job, took, took, took)
    after = compared(job)
    assert "3 jobs took 1.250 × of what was planned" in ran("compare", job).output
    assert after["cables"] == plain["cables"]


def test_circuit_tells_what_it_takes_from_the_log(tmp_path):
    """Corrected lengths lengthen the drop: the command that works it out says so, as compare does."""
    folder = layouts() / "class-a-three-slides"
    for name in ("rig.yaml", "job-galley-side.yaml"):
        (tmp_path / name).write_bytes((folder / name).read_bytes())
    job, log = tmp_path / "job-galley-side.yaml", tmp_path / "rig.log.yaml"
    log_of(job, *[length("5 m")] * 3)
    rig = next(line for line in (tmp_path / "rig.yaml").read_text().splitlines() if line.startswith("rig:"))
    log.write_text(log.read_text().replace("rig: sketch", rig))
    assert "corrected by what 3 jobs used: 1.250 ×" in ran("circuit", job).output
    notices = json.loads(ran("circuit", job, "--json").output)["notices"]
    assert any("corrected by what 3 jobs used" in one["sentence"] for one in notices)


def test_a_log_without_newer_keys_opens(job):
    """A record of an older version, with no more than its lengths, still counts."""
    log_of(job, *["{cables: {pv: {planned: 4 m, used: 5 m}}}"] * 3)
    assert "correction from 3 jobs, likely" in json.dumps(compared(job))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("format: 1\nrig: sketch\njobs: {a: {cables: {pv: {planned: 4 m, used: -5 m}}}}\n", "rig.log.yaml:3:"),
        ("format: 2\nrig: sketch\njobs: {}\n", "rig.log.yaml:1:9"),
        ("format: 1\nrig: other\njobs: {}\n", "this is the log of other, but lies beside sketch"),
        ("format: 1\nrig: sketch\njobs: {a: {found: {stack: perhaps}}}\n", "rig.log.yaml:3:"),
        ("format: 1\nrig: ske", "rig.log.yaml:2:"),
        ("", "rig.log.yaml:1:1: the file is empty"),
    ],
)
def test_a_log_that_cannot_be_used_is_one_sentence(job, text, said):
    """Negative, newer, of another rig, a wrong word, cut short, empty: one sentence with its place, status 2."""
    job.with_name("rig.log.yaml").write_text(text)
    for command in (("check", job), ("record", job)):
        done = ran(*command)
        assert done.exit_code == 2
        assert said in done.output
        assert "Traceback" not in done.output
    assert job.with_name("rig.log.yaml").read_text() == text, "nothing is written over it"


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("job: order", "job: other", "this form is of other, not of order"),
        ("  pv:", "  pw:", "the job has no cable pw"),
        ("stack: clear", "stick: clear", "stick is neither a space nor a passage here"),
        ("used: 5 m", "used: 0 m", "must be more than nothing"),
        ("used: 5 m", "used: 5", "has no unit"),
        ("stack: clear", "stack: maybe", "clear"),
        ("date:", "date: yesterday", "should be a date such as"),
    ],
)
def test_a_wrong_form_is_refused_and_writes_nothing(job, before, after, said):
    """Each slip of the pen is told with its line, and no log appears."""
    form = filled(job, used="5 m")
    text = form.read_text()
    assert before in text
    form.write_text(text.replace(before, after, 1))
    done = ran("record", job)
    assert (done.exit_code, said in done.output, "job.used.yaml:" in done.output) == (2, True, True), done.output
    assert not job.with_name("rig.log.yaml").exists()


def test_no_form_an_empty_one_and_one_that_is_there(job):
    """Recording needs a form with something in it, and a form that a person may have filled is not written over."""
    assert "there is no such file" in ran("record", job).output
    form = filled(job)
    form.write_text(form.read_text().replace("stack: clear", "stack:"))
    assert "nothing is filled in" in ran("record", job).output
    again = ran("record", job, "--form")
    assert (again.exit_code, "is there already" in again.output) == (2, True)


def test_full_disk_leaves_the_old_log(job, monkeypatch):
    """The log is the old one, byte for byte, where the disk is full."""
    log_of(job, length("5 m"))
    before = job.with_name("rig.log.yaml").read_bytes()
    filled(job, used="5 m")

    def full(_):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("drawcord.files.writing.os.fsync", full)
    done = ran("record", job)
    assert (done.exit_code, "No space left" in done.output) == (3, True)
    assert job.with_name("rig.log.yaml").read_bytes() == before
    assert not [path for path in job.parent.iterdir() if path.name.startswith(".drawcord-")]


def test_picture_has_a_row_for_each_length_and_no_overlap(job, tmp_path):
    """Every recorded cable is a row with its ratio, whatever it is, and no two texts of the sheet lie on each other."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg  # noqa: PLC0415

    from drawcord.sheets.used_sheet import used_sheets  # noqa: PLC0415

    wide = {"c" * 40: {"planned": "1 m", "used": "90 m"}, "d": {"planned": "4 m", "used": "5 m"}}
    wide["e"] = {"planned": "1 m"}
    jobs = {f"{'j' * 38}{number:02}": {"date": "2026-01-01", "cables": wide} for number in range(30)}
    sheets = used_sheets("Sketch", Log.model_validate({"format": 1, "rig": "sketch", "jobs": jobs}), "mm")
    ratios = 0
    for figure in sheets:
        renderer = FigureCanvasAgg(figure).get_renderer()
        boxes = [(one.get_text(), one.get_window_extent(renderer)) for axes in figure.axes for one in axes.texts]
        ratios += sum(text.endswith((": 90.00 ×", ": 1.25 ×")) for text, _ in boxes)
        shrunk = [(text, box.shrunk(0.98, 0.98)) for text, box in boxes]
        assert not [(a, b) for i, (a, p) in enumerate(shrunk) for b, q in shrunk[:i] if p.overlaps(q)]
    assert (len(sheets), ratios) == (2, 60)
    filled(job, used="5 m")
    assert ran("record", job, "--out", tmp_path / "out").exit_code == 0
    assert {path.name for path in (tmp_path / "out").iterdir()} >= {"used.svg", "used.png"}
