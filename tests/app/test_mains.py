"""Mains circuits through `drawcord circuit`: shore, panel, outlet and inverter on a small job."""

import json

import pytest
from bad import changed, run, write
from test_circuit import POWER, document

from drawcord.files.home import layouts

PLACES = (
    "  shore: {kind: shore inlet, short circuit: 3 kA, in: bay, from front: 600, street: 100, up: -400,\n"
    "    terminals: {ac: }}\n"
    "  panel: {kind: distribution panel, in: bay, from front: 1500, street: 300, up: -300, terminals: {in: , out: }}\n"
    "  socket: {kind: socket outlet, in: bay, from front: 2800, street: 300, up: -300, terminals: {ac: }}\n"
)
CABLE = (
    "class: mains, cores: 3, volts: 120 V,\n"
    "    outside diameter: 12, smallest bend: 60, largest plug: 20, longest piece: 10 m}\n"
)
CABLES = (
    f"  supply: {{from: shore.ac, to: panel.in, amperes: 30 A, {CABLE}"
    f"  branch: {{from: socket.ac, to: panel.out, amperes: 15 A, {CABLE}"
)
MAINS = changed(POWER, "[2.5 mm2, 16 mm2]", "[2.5 mm2, 70 mm2]")
MAINS = changed(changed(MAINS, "cables:\n  pv", f"{PLACES}cables:\n  pv"), "owner: {", f"{CABLES}owner: {{")
THREE = "30 A, class: mains, cores: 3,"


@pytest.fixture
def work(tmp_path):
    def circuits(job):
        write(tmp_path, job=job)
        said = run("circuit", tmp_path / "job.yaml", "--json")
        found = json.loads(said.out)
        return said.status, {one["cable"]: one for one in found["circuits"]}, found["left"]

    return circuits


def rule(one, name):
    return next(each["applies"] for each in one["rules_applied"] if each["name"] == name)


def sentences(one):
    return [finding["sentence"] for finding in one["findings"]]


def test_a_circuit_is_protected_at_its_rating(work):
    # NEC 240.6(A) and table 310.16 (seen): 30 A on 10 AWG, 15 A on 14 AWG at terminals of 60 °C; table 250.122 (seen)
    # gives protective conductors of 10 and 14 AWG. Nothing is added to a rating.
    status, found, left = work(MAINS)
    assert (status, left) == (0, {})
    supply, branch = found["supply"], found["branch"]
    assert (supply["section"], supply["device"]["amperes"]) == ("10 AWG", 30)
    assert (branch["section"], branch["device"]["amperes"]) == ("14 AWG", 15)
    assert [one["device"]["current"] for one in (supply, branch)] == ["AC", "AC"]
    for one in (supply, branch):
        figures = {figure["name"]: figure["value"] for figure in one["figures"]}
        assert figures["protective conductor, at least"] == pytest.approx(
            figures["protective conductor, as a core of the cable"]
        )


def test_the_rules_go_by_what_feeds_and_what_is_fed(work):
    # The branch was drawn from the outlet to the panel: what feeds it is told by the kinds of equipment.
    _, found, _ = work(MAINS)
    assert rule(found["branch"], "ground-fault circuit interrupter")
    assert not rule(found["supply"], "ground-fault circuit interrupter")
    assert rule(found["supply"], "main disconnect")
    assert found["branch"]["where"] == "in panel"
    assert found["supply"]["where"].startswith("at panel, as its main")


def test_an_inverter_may_give_its_rated_output_for_hours(work):
    # 1.25 · 25 A = 31.25 A (NEC 215.3, from memory): 35 A by 240.6(A), which 10 AWG does not allow (240.4(D), seen).
    job = changed(MAINS, "shore: {kind: shore inlet", "shore: {kind: inverter")
    status, found, _ = work(changed(job, "amperes: 30 A, class: mains", "amperes: 25 A, class: mains"))
    assert status == 0
    assert found["supply"]["section"] == "8 AWG"
    assert found["supply"]["device"]["amperes"] == 35


def test_neutral_counts_and_the_protective_conductor_does_not(work):
    # Three loaded cores of four and four of five: 33 CFR 183.425 note 2 (seen), 70 and 60 %, governs as the stricter.
    for cores, factor in ((3, 1.0), (4, 0.7), (5, 0.6)):
        _, found, _ = work(changed(MAINS, THREE, THREE.replace(" 3,", f" {cores},")))
        figures = [one for one in found["supply"]["figures"] if one["name"].startswith("adjustment")]
        assert [one["value"] for one in figures] == [factor]


def test_what_nobody_knows_of_mains_is_an_error(work):
    # NEC 110.9 (from memory): a breaker for 10 kA means nothing against an unknown current.
    status, found, _ = work(changed(MAINS, "short circuit: 3 kA, in", "in"))
    assert status == 1
    assert any("nobody knows" in one for one in sentences(found["supply"]))
    status, found, _ = work(changed(MAINS, "short circuit: 3 kA, in", "short circuit: 12 kA, in"))
    assert status == 1
    assert any("a short circuit draws" in one for one in sentences(found["supply"]))


def test_two_cores_have_no_protective_conductor(work):
    status, found, _ = work(changed(MAINS, THREE, THREE.replace(" 3,", " 2,")))
    assert status == 1
    assert any("line, neutral and protective conductor are 3" in one for one in sentences(found["supply"]))


def test_a_cable_from_nowhere_is_left_with_the_reason(work):
    _, found, left = work(changed(MAINS, "panel: {kind: distribution panel", "panel: {kind: router"))
    assert "branch" not in found
    assert "nothing is known of its source" in left["branch"]


def test_only_what_feeds_mains_has_a_short_circuit_current(tmp_path):
    panel = "kind: distribution panel,"
    write(tmp_path, job=changed(MAINS, panel, f"{panel} short circuit: 1 kA,"))
    said = run("circuit", tmp_path / "job.yaml")
    assert said.status == 2
    assert any("only shore inlet, generator, inverter feed mains" in line for line in said.lines)


def test_a_device_of_mains_may_have_a_place_too(work):
    # Behind the inlet the main sits at the panel, so that its place is told from there; no distance rule is to hand.
    place = "devices:\n  main: {on: supply, from: shore.ac, along: 10 mm, type: mains-breaker-30-2p}\nowner: {"
    status, found, _ = work(changed(MAINS, "owner: {", place))
    (one,) = found["supply"]["places"]
    assert (status, one["from"], found["supply"]["device"]["poles"]) == (0, "panel.in", 2)
    assert one["along_mm"] == 900 + 200 + 100 - 10  # from (600, 100, -400) to (1500, 300, -300), less what is told
    assert found["branch"]["places"] == []


def test_an_inverter_too_weak_to_open_a_breaker_is_told(tmp_path):
    # IEC 60898-1, type B: 3 to 5 times the rating (seen); 5 · 10 A is more than 49 A. The van has such a circuit.
    van = layouts() / "van"
    (tmp_path / "rig.yaml").write_bytes((van / "rig.yaml").read_bytes())
    for amperes, told in ((50, False), (49, True)):
        job = (van / "job-garage.yaml").read_text(encoding="utf-8")
        (tmp_path / "job.yaml").write_text(changed(job, "short circuit: 60 A", f"short circuit: {amperes} A"), "utf-8")
        found = json.loads(run("circuit", tmp_path / "job.yaml", "--json").out)
        (mains,) = (one for one in found["circuits"] if one["circuit"] == "mains")
        assert any("opens at once from 50 A" in one for one in sentences(mains)) is told


def test_europe_opens_both_live_conductors():
    # BS 7671 721.411.1 (seen): 30 mA, all live conductors. The van's inverter feeds its panel.
    (mains,) = (one for one in document("van/job-garage")["circuits"] if one["circuit"] == "mains")
    assert mains["device"]["poles"] == 2
    assert rule(mains, "residual-current device of 30 mA")
    assert mains["section"] == "1.5 mm2"
