"""Devices that a job places: their distance from the source, reach, and what the job may not say of them."""

import json

import pytest
from bad import RIG, changed, run, write
from test_array import LAYOUTS
from test_circuit import POWER, document

# The charge cable is 1600 mm long, in a bay that opens to the street.
FITS = changed(POWER, "[2.5 mm2, 16 mm2]", "[2.5 mm2, 70 mm2]")


@pytest.fixture
def circuit(tmp_path):
    def work(device):
        write(tmp_path, job=changed(FITS, "owner: {", f"devices:\n  mine: {{{device}}}\nowner: {{"))
        said = run("circuit", tmp_path / "job.yaml", "--json")
        return said.status, {one["cable"]: one for one in json.loads(said.out)["circuits"]}

    return work


def findings(one):
    far = [finding for finding in one["findings"] if "from its source" in finding["sentence"]]
    return {(finding["severity"], finding["source"].partition(",")[0]) for finding in far}


LAW, PRACTICE, VEHICLES = "33 CFR 183.455(b)(1)", "ABYC E-11", "NEC 2020 552.10(E)(4)"


@pytest.mark.parametrize(
    ("device", "found"),
    [
        # 7 in is 177.8 mm (33 CFR 183.455 and ABYC E-11, seen), 18 in 457.2 mm (NEC 2020 552.10(E)(4), seen).
        ("from: bank.dc, along: 177 mm", set()),
        ("from: controller.battery, along: 1450 mm", set()),
        ("from: bank.dc, along: 178 mm", {("caution", LAW), ("caution", PRACTICE)}),
        ("from: controller.battery, along: 1142 mm", {("refusal", LAW), ("refusal", PRACTICE), ("refusal", VEHICLES)}),
        # In a sheath 40 in by the law and 72 in on a battery by ABYC (seen): 18 in stays what it is.
        ("from: bank.dc, along: 1000 mm, sheathed: true", {("caution", VEHICLES)}),
        ("from: bank.dc, along: 1020 mm, sheathed: true", {("caution", VEHICLES), ("caution", "33 CFR 183.455(b)(2)")}),
    ],
)
def test_distance_from_the_battery_along_the_route(circuit, device, found):
    status, circuits = circuit(f"on: charge, {device}")
    assert findings(circuits["charge"]) == found
    assert status == any(severity == "refusal" for severity, _ in found)


def test_the_place_is_told_in_figures(circuit):
    _, circuits = circuit("on: charge, from: controller.battery, along: 1500 mm")
    (place,) = circuits["charge"]["places"]
    # The controller stands at 2500 mm, the battery at 900 mm, both 300 mm from the inside of the street wall.
    assert place == {"name": "mine", "type": None, "from": "bank.dc", "along_mm": 100, "space": "bay",
                     "point_mm": [1000, 350, -400], "opening": "bay.door"}  # fmt: skip


def test_without_a_place_one_is_proposed_at_the_source(circuit):
    _, circuits = circuit("on: pv, from: controller.pv, along: 100 mm")
    (place,) = circuits["charge"]["places"]
    assert (place["name"], place["along_mm"], place["opening"]) == (None, 0, "bay.door")


def test_an_arrays_device_on_the_roof_is_refused(circuit):
    # Common practice: between the roof entry and the controller; NEC 690.13 (from memory): readily accessible.
    status, circuits = circuit("on: pv, from: junction.pv, along: 50 mm")
    said = [f["sentence"] for f in circuits["pv"]["findings"] if f["severity"] == "refusal"]
    assert status == 1
    assert any("mine sits 50 mm from junction.pv in roof, where no hand reaches it" in one for one in said)
    assert any("it belongs between the entry and the controller" in one for one in said)


def test_a_device_in_a_chase_is_refused_whatever_opens_it(tmp_path):
    # Down through the linen closet it may sit behind the door; if that is a chase, it is hidden with its two joints.
    placed = changed(FITS, "owner: {", "devices:\n  mine: {on: pv, from: controller.pv, along: 2 m}\nowner: {")
    for kind, said in (("cabinet", []), ("chase", ["in linen, and no chase may hide it"])):
        write(tmp_path, rig=changed(RIG, "linen: {kind: cabinet", f"linen: {{kind: {kind}"), job=placed)
        circuits = json.loads(run("circuit", tmp_path / "job.yaml", "--json").out)["circuits"]
        told = [f for one in circuits for f in one["findings"] if "mine sits" in f["sentence"]]
        assert [f["sentence"].partition("junction.pv ")[2] for f in told if f["severity"] == "refusal"] == said


def test_a_device_past_the_end_of_its_cable_is_refused(circuit):
    status, circuits = circuit("on: charge, from: bank.dc, along: 3 m")
    assert status == 1
    assert any("along a cable of 1600 mm" in f["sentence"] for f in circuits["charge"]["findings"])


def test_the_type_that_the_job_places_is_the_one_that_is_judged(circuit):
    status, circuits = circuit("on: charge, type: fuse-40, from: bank.dc, along: 100 mm")
    assert (status, circuits["charge"]["device"]["name"]) == (0, "Fuse 40 A")
    # 1.25 · 30 A = 37.5 A: a breaker of 20 A opens on what flows for hours.
    status, circuits = circuit("on: charge, type: breaker, from: bank.dc, along: 100 mm")
    assert (status, circuits["charge"]["device"]) == (1, None)
    assert any("opens on the 37.5 A" in f["sentence"] for f in circuits["charge"]["findings"])


@pytest.mark.parametrize(
    ("device", "sentence"),
    [
        ("on: charg, from: bank.dc, along: 1 m", "mine sits on charg, but there is no such cable"),
        ("on: charge, from: junction.pv, along: 1 m", "charge goes from controller.battery to bank.dc"),
        ("on: charge, type: fuse-1, from: bank.dc, along: 1 m", "there is no fuse-1 among the devices"),
    ],
)
def test_what_a_job_may_not_say_of_a_device(tmp_path, device, sentence):
    write(tmp_path, job=changed(FITS, "owner: {", f"devices:\n  mine: {{{device}}}\nowner: {{"))
    said = run("circuit", tmp_path / "job.yaml")
    assert said.status == 2
    assert any(sentence in line for line in said.lines)


@pytest.mark.parametrize("job", LAYOUTS)
def test_every_battery_circuit_of_the_demo_jobs_has_a_place_near_its_source(job):
    # 7 in or 178 mm by the strictest figure to hand, within reach.
    for one in document(job)["circuits"]:
        if one["circuit"] in ("controller to battery", "important load"):
            assert one["places"][0]["along_mm"] <= 177
            assert one["places"][0]["opening"]
