"""PV connectors along the chain: each pair of one family (IEC 62852, from memory), and no silence where nobody told."""

import json

import pytest
from bad import changed, run, write
from test_circuit import POWER

FITS = changed(POWER, "[2.5 mm2, 16 mm2]", "[2.5 mm2, 70 mm2]")
JUNCTION, CHARGER, CABLE = "junction: {kind: junction box,", "controller: {kind: charge controller,", "class: PV,"
BREAKER = "interrupting: 10 kA, poles: 2}"


@pytest.fixture
def said(tmp_path):
    def work(*changes):
        job = FITS
        for old, new in changes:
            job = changed(job, old, new)
        write(tmp_path, job=job)
        found = json.loads(run("circuit", tmp_path / "job.yaml", "--json").out)
        about = [one for one in found["findings"] if "connectors" in one["sentence"]]
        places = [one["place"] for one in about if one["severity"] == "refusal"]
        return places, " ".join(one["sentence"] for one in about)

    return work


def family(key, name):
    return key, f"{key} connector: {name},"


def ends(start, end):
    return CABLE, f"{CABLE} connectors: [{start}, {end}],"


@pytest.mark.parametrize(
    ("changes", "refused"),
    [
        # The modules of the job are of family-a and plug in at the junction, where the PV cable begins.
        ([family(JUNCTION, "family-a")], []),
        ([family(JUNCTION, "family-b")], ["junction"]),
        ([ends("family-b", "none")], ["junction"]),
        ([ends("family-a", "family-b"), family(CHARGER, "family-a")], ["controller"]),
        # A cable with two families is an adapter.
        ([ends("family-a", "family-b"), family(CHARGER, "family-b")], []),
        ([ends("family-b", "family-b"), family(CHARGER, "family-c")], ["controller", "junction"]),
        # The type's family holds for both ends, unless the job says that they are bare.
        ([("sun-10: {name: Cable,", "sun-10: {name: Cable, connector: family-b,")], ["junction"]),
        ([("sun-10: {name: Cable,", "sun-10: {name: Cable, connector: family-b,"), ends("none", "none")], []),
    ],
)
def test_each_pair_is_of_one_family(said, changes, refused):
    assert said(*changes)[0] == refused


def test_a_device_in_the_line_has_to_fit_its_cable(said):
    place = ("owner: {", "devices:\n  inline: {on: pv, type: breaker, from: controller.pv, along: 1 m}\nowner: {")
    for own, refused in (("family-a", []), ("family-b", ["inline"])):
        device = (BREAKER, BREAKER.replace("}", f", connector: {own}}}"))
        assert said(ends("family-a", "family-a"), device, place)[0] == refused


def test_where_nobody_told_nothing_is_claimed(said):
    assert "not checked at controller, junction" in said()[1]
    assert "not checked at controller:" in said(ends("family-a", "none"))[1]


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("m1: {kind: solar module,", "m1: {kind: solar module, connector: x,", "its connector stands in its type"),
        ("class: battery DC,", "class: battery DC, connectors: [a, b],", "only PV cables have PV connectors"),
    ],
)
def test_connectors_where_there_are_none(tmp_path, old, new, sentence):
    write(tmp_path, job=changed(FITS, old, new))
    found = run("circuit", tmp_path / "job.yaml")
    assert found.status == 2
    assert any(sentence in line for line in found.lines)
