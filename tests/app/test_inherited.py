"""`drawcord array` on cables that were there before: what each carries, why it must go, and what it refuses to read."""

import json

import pytest
from bad import MARK, changed, run, write
from test_array import ARRAY

from drawcord.files.home import layouts

OLD = (
    "inherited:\n"
    "  prewire: {from: junction.pv, to: controller.pv, section: 10 AWG, insulation: 90 °C, length: 8 m, joints: 0,\n"
    "    condition: sound}\n"
)
JOB = changed(ARRAY, "owner: {", f"{OLD}owner: {{")


def inherited(folder, job):
    """The one inherited cable of a job, as `--json` has it, and all that the text says of it."""
    write(folder, job=job)
    said = run("array", folder / "job.yaml", "--json")
    assert said.status == 0, said.lines
    (one,) = json.loads(said.out)["inherited"]
    text = " ".join(run("array", folder / "job.yaml").out.split())
    assert all(sentence in text for sentence in one["verdict"])
    return one


def carried(one):
    return [each["grouping"] for each in one["groupings"] if each["carried"]]


def test_the_demo_prewire_carries_what_a_hand_finds():
    # NEC table 310.16 (seen): 10 AWG of 60 °C carries 30 A, at 45 °C 0.71 of it: 21.3 A, next standard rating 25 A, so
    # 25 / 1.5625 = 16 A of Isc. Two strings of 10.3 A are too many, one is not. 26 ft there and back of plain copper of
    # 1.24 Ω/kft (chapter 9 table 8) are 0.0645 Ω, which take 0.629 V at 9.75 A.
    said = run("array", layouts() / "fifth-wheel/job-front-bay.yaml", "--json")
    (one,) = json.loads(said.out)["inherited"]
    assert one["largest_isc"]["value"] == pytest.approx(16)
    assert carried(one) == ["2s1p", "1s1p"]
    assert one["stays"]
    assert one["verdict"][0].startswith("prewire can stay: it carries 2 of 4 modules as 2s1p")
    two = next(each for each in one["groupings"] if each["grouping"] == "2s1p")
    drop = {figure["name"]: figure["value"] for figure in two["drop"]}
    assert drop["voltage drop"] == pytest.approx(9.75 * 2 * 0.026 * 1.24, rel=1e-3)
    assert any("remake its joints (1)" in finding["sentence"] for finding in one["findings"])


def test_what_would_have_to_change_is_enough_and_the_next_thinner_is_not(tmp_path):
    # For 2s2p the answer names 6 AWG of 60 °C: put in as the inherited cable it carries 2s2p, and 8 AWG does not.
    folder = layouts() / "fifth-wheel"
    text = (folder / "job-front-bay.yaml").read_text(encoding="utf-8")
    (tmp_path / "rig.yaml").write_bytes((folder / "rig.yaml").read_bytes())
    for section, carries in (("6 AWG", True), ("8 AWG", False)):
        (tmp_path / "job.yaml").write_text(changed(text, "section: 10 AWG", f"section: {section}"), encoding="utf-8")
        (one,) = json.loads(run("array", tmp_path / "job.yaml", "--json").out)["inherited"]
        assert ("2s2p" in carried(one)) == carries
    assert "takes 6 AWG with insulation for 60 °C" in one["verdict"][1]


def test_it_carries_all_when_it_is_thick_and_says_nothing_more(tmp_path):
    one = inherited(tmp_path, changed(JOB, "section: 10 AWG, insulation", "section: 6 AWG, insulation"))
    assert one["stays"]
    assert one["verdict"] == [one["verdict"][0]]
    assert one["findings"] == []


GONE = {
    "damaged": (("condition: sound", "condition: damaged"), "it is damaged"),
    "hidden joints": (("joints: 0", "joints: 2, hidden joints: 1"), "1 of its joints lie where no hand reaches"),
    "sunlight": (("joints: 0", "joints: 0, sunlit: true"), "not resistant to sunlight"),
    "too thin for its terminals": (("section: 10 AWG", "section: 16 AWG"), "16 AWG (1.31 mm²) is outside"),
    "too thick for its terminals": (("section: 10 AWG", "section: 2 AWG"), "2 AWG (33.6 mm²) is outside"),
    "too hot for its insulation": (("insulation: 90 °C", "insulation: 50 °C"), "none at or below 50 °C"),
    "too long": (("length: 8 m", "length: 80 m"), "over 2 %"),
    "too many together": (("joints: 0", "joints: 0, together: 60"), "the largest Isc in its worst leg"),
    "no resistance known": (("section: 10 AWG", "section: 7 AWG"), "no table holds the resistance of 7 AWG"),
}


@pytest.mark.parametrize("case", GONE)
def test_it_must_go_and_says_why(case, tmp_path):
    (old, new), why = GONE[case]
    job = JOB.replace(OLD, changed(OLD, old, new))
    if case == "too many together":
        job = changed(job, "hottest: 45 °C", "hottest: 55 °C")
    one = inherited(tmp_path, job)
    assert not one["stays"]
    assert one["verdict"][0].startswith("prewire must go: ")
    assert why in one["verdict"][0]


def test_what_nobody_looked_at_is_said(tmp_path):
    one = inherited(tmp_path, changed(JOB, ", joints: 0,\n    condition: sound", ""))
    said = [finding["sentence"] for finding in one["findings"]]
    assert one["stays"]
    assert any("nobody has tested its insulation" in sentence for sentence in said)
    assert any("nobody knows its joints" in sentence for sentence in said)


def test_each_figure_leads_back_to_formula_and_source(tmp_path):
    one = inherited(tmp_path, JOB)
    figures = [*one["figures"], one["largest_isc"], *(f for each in one["groupings"] for f in each["drop"])]
    assert len(figures) > 12
    assert [figure["name"] for figure in figures if not (figure["formula"] and figure["source"])] == []


@pytest.mark.parametrize("longer", ["9 m", "12 m", "20 m", "40 m"])
def test_a_longer_or_hotter_one_carries_no_more(longer, tmp_path):
    # Of the groupings each carries a part of what the shorter, cooler one carries.
    before = inherited(tmp_path, JOB)
    for old, new in (("length: 8 m", f"length: {longer}"), ("hottest: 45 °C", "hottest: 50 °C")):
        assert set(carried(inherited(tmp_path, changed(JOB, old, new)))) <= set(carried(before))


WRONG = {
    "a terminal that is not there": ("prewire: {from: junction.pv", f"prewire: {{from: {MARK}junction.dc", "no such"),
    "both ends in one": ("controller.pv, section", f"{MARK}junction.pv, section", "ends where it starts"),
    "no section": ("section: 10 AWG, insulation", f"section: {MARK}thick, insulation", "10 AWG or 6 mm2"),
    "no unit": ("insulation: 90 °C, length: 8 m", f"insulation: {MARK}90, length: 8 m", "°C"),
    "no length": ("length: 8 m", f"length: {MARK}0 m", "more than nothing"),
    "fewer than two conductors": ("joints: 0", f"joints: 0, together: {MARK}1", "2"),
    "a key that is not known": ("joints: 0", f"joints: 0, {MARK}joint: 1", "joint"),
    "a condition nobody knows": ("condition: sound", f"condition: {MARK}fine", "damaged"),
    "more hidden joints than joints": ("prewire: {", f"prewire: {MARK}{{hidden joints: 1, ", "more than its 0 joints"),
}


@pytest.mark.parametrize("case", WRONG)
def test_what_cannot_be_meant_is_refused_at_its_place(case, tmp_path):
    old, new, words = WRONG[case]
    marks = write(tmp_path, job=changed(JOB, old, new))
    said = run("array", tmp_path / "job.yaml")
    assert (said.status, said.out) == (2, "")
    assert said.places == marks, said.lines
    assert words in said.lines[0]
