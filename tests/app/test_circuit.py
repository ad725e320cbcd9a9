"""`drawcord circuit` through the real command: every demo job from end to end, and what it refuses."""

import json
from functools import cache

import pytest
from bad import JOB, changed, run, write
from test_array import ARRAY, LAYOUTS

from drawcord.app import folder
from drawcord.files.home import layouts
from drawcord.files.tables import conductors
from planned import known


@cache
def document(job):
    with known():
        said = run("circuit", layouts() / f"{job}.yaml", "--json")
    assert said.status == 0, said.lines
    return json.loads(said.out)


@cache
def text(job):
    with known():
        return run("circuit", layouts() / f"{job}.yaml").out


def value(figures, name):
    return next(one["value"] for one in figures if one["name"] == name)


@pytest.mark.parametrize("job", LAYOUTS)
def test_every_demo_job_carries_circuits_from_end_to_end(job):
    # A section, a device and a drop within its limit for each power cable, and nothing refused.
    found = document(job)
    assert {one["circuit"] for one in found["circuits"]} & {"array"}
    for one in found["circuits"]:
        assert one["section"]
        assert one["device"]["interrupting_amperes"] > one["device"]["amperes"]
        assert not one["device"]["polarised"]
        assert value(one["drop"], "voltage drop of supply") <= value(one["figures"], "largest drop wanted")
    assert found["left"] == {}


@pytest.mark.parametrize("job", LAYOUTS)
def test_each_figure_leads_back_to_formula_and_source(job):
    # Read from the document, which is what other programs get.
    found = document(job)
    figures = [f for one in found["circuits"] for f in (*one["figures"], *one["readings"])]
    figures += [*found["figures"], *found["bonding"].values()]
    assert len(figures) > 20
    assert [one["name"] for one in figures if not (one["formula"] and one["source"])] == []


@pytest.mark.parametrize("job", LAYOUTS)
def test_the_circuits_hold_by_arithmetic_done_apart(job):
    # Imax and the device by NEC 690.8 and 690.9 (2023; examples in the checks of `wire`), the drop by Ohm's law on the
    # likely cut length, each from the document's own inputs and none of the program's functions.
    found = document(job)
    for one in found["circuits"]:
        imax, continuous = value(one["figures"], "Imax"), value(one["figures"], "continuous current")
        # Mains are protected at their rating, but for what an inverter may give for hours (NEC 215.3, from memory).
        own = found["rules"] == "US" and "inverter" in one["where"]
        assert continuous == pytest.approx((1.25 if own or one["circuit"] != "mains" else 1.0) * imax)
        assert one["device"]["amperes"] >= continuous - 1e-6
        assert one["device"]["amperes"] <= value(one["figures"], "largest device the conductor allows")
        metal = "plain" if one["circuit"] == "mains" else "tinned"
        row = next(row for row in conductors() if (row.label, row.metal) == (one["section"], metal))
        cold, alpha = row.reference_celsius, {20.0: 0.00393, 75.0: 0.00323}[row.reference_celsius]
        celsius = {"class-a-mid-roof": 60}.get(found["job"], 75)
        ohms = 2e-6 * one["cut_length_mm"]["likely"] * row.ohm_per_km * (1 + alpha * (celsius - cold))
        assert value(one["drop"], "loop resistance") == pytest.approx(ohms, rel=1e-5)
        if one["circuit"] == "array":
            assert imax == pytest.approx(1.25 * value(one["readings"], "short circuit in full sun"))


@pytest.mark.parametrize("job", LAYOUTS)
def test_the_text_begins_at_a_glance_and_ends_with_what_it_stands_on(job):
    # The order on every circuit, the editions, what is from memory; and never a word that says too much.
    said, found = text(job), document(job)
    flat = " ".join(said.split())
    direct = [one for one in found["circuits"] if one["circuit"] != "mains"]
    assert said.count("battery to controller first, the array after it") == len(direct)
    assert said.count("prove every conductor dead") == len(found["circuits"]) - len(direct)
    for one in found["circuits"]:
        assert f"{one['cable']}, {one['circuit']}, on {one['candidate']}" in said
        assert f"section {one['section']}, {one['type']}" in flat
        device = one["device"]
        kilo = device["interrupting_amperes"] / 1000
        assert f"{device['volts']:g} V {device['current']}, {device['amperes']:g} A, {kilo:g} kA" in flat
    for source in (*found["checked_against"], *found["from_memory"]):
        assert source in flat
    assert "compliant" not in flat.lower()


POWER = changed(ARRAY, "terminals: {}}\ncables:", "terminals: {dc: }}\ncables:")
POWER = changed(POWER, "terminals: {pv: }}\n  m1", "terminals: {pv: , battery: }}\n  m1")
CHARGE = (
    "  charge: {from: controller.battery, to: bank.dc, class: battery DC, cores: 2, amperes: 30 A, volts: 12.8 V,\n"
    "    outside diameter: 16, smallest bend: 80, largest plug: 20, longest piece: 10 m}\n"
)
POWER = changed(POWER, "owner: {", f"{CHARGE}owner: {{")


def circuits_of(tmp_path, job):
    write(tmp_path, job=job)
    said = run("circuit", tmp_path / "job.yaml", "--json")
    return said.status, json.loads(said.out)


def test_more_current_never_makes_a_conductor_thinner(tmp_path):
    # The same rig and route, the controller's output from 20 to 40 A: the section grows or stays.
    areas = []
    for amperes in (20, 30, 40):
        job = changed(POWER, "output: 30 A", f"output: {amperes} A")
        status, found = circuits_of(tmp_path, changed(job, "[2.5 mm2, 16 mm2]", "[2.5 mm2, 70 mm2]"))
        assert status == 0, found["findings"]
        (charge,) = (one for one in found["circuits"] if one["cable"] == "charge")
        areas.append(next(row.area_mm2 for row in conductors() if row.label == charge["section"]))
    assert areas == sorted(areas)
    assert areas[0] < areas[-1]


def test_a_short_circuit_that_nobody_knows_bars_every_device(tmp_path):
    # NEC 110.9 (from memory): an interrupting rating means nothing against an unknown current.
    status, found = circuits_of(tmp_path, changed(POWER, ", short circuit: 4 kA", ""))
    assert status == 1
    assert [one["device"] for one in found["circuits"]] == [None] * len(found["circuits"])
    said = [f["sentence"] for one in found["circuits"] for f in one["findings"]]
    assert any("nobody knows" in sentence for sentence in said)


def test_what_the_tables_do_not_hold_is_refused_not_extrapolated(tmp_path):
    # 60 °C and 33 K above a sunlit roof are 93 °C; NEC table 310.15(B)(1) ends at 85 °C for insulation of 90 °C.
    status, found = circuits_of(tmp_path, changed(POWER, "hottest: 45 °C", "hottest: 60 °C"))
    assert status == 1
    (pv,) = (one for one in found["circuits"] if one["cable"] == "pv")
    assert pv["section"] is None
    assert any("ends at 85 °C" in sentence for one in pv["tried"] for sentence in one["against"])


def test_a_cable_that_grows_is_planned_again_and_says_so(tmp_path):
    # The type that the job names loses too much; what came instead, why, and what is proven stand in the document.
    job = changed(POWER, "class: battery DC, cores", "class: battery DC, type: thin, cores")
    thin, thick = (
        f"    {name}: {{name: Cable, serves: [battery DC], section: {size} AWG, metal: tinned, insulation: 90 °C,\n"
        f"      outside diameter: {wide}, smallest bend: 80, sunlight resistant: false, zones: [indoors]}}\n"
        for name, size, wide in (("thin", 10, 6), ("thick", 4, 15))
    )
    job = changed(job, "  devices:\n", f"{thin}{thick}  devices:\n")
    _, found = circuits_of(tmp_path, changed(job, "[2.5 mm2, 16 mm2]", "[2.5 mm2, 70 mm2]"))
    (charge,) = (one for one in found["circuits"] if one["cable"] == "charge")
    assert charge["named"] == "thin"
    assert next(one["type"] for one in charge["given_up"]) == "thin"
    assert all(one["against"] for one in charge["given_up"])
    assert charge["largest_plug_mm"] >= 20
    assert charge["proof"].startswith("Proven")
    assert any("thin, which the job names, does not serve" in one["sentence"] for one in charge["findings"])


LESS = " importance: other,"
LOADS = "".join(
    f"  {name}: {{from: bank.dc, to: lamp.dc, class: battery DC, cores: 2, amperes: 5 A, volts: 12.8 V,{more}\n"
    "    outside diameter: 16, smallest bend: 80, largest plug: 20, longest piece: 10 m}\n"
    for name, more in (("vital", ""), ("spare", LESS), ("told", f"{LESS} drop limit: 5 %,"))
)
LAMP = "  lamp: {kind: inverter, in: bay, from front: 2000, street: 300, up: -400, terminals: {dc: }}\n"


def test_each_circuit_has_a_drop_limit_of_its_own(tmp_path):
    # 2 % for the array, 1 % from controller to battery (common practice, no source), 3 % and 10 % for loads by their
    # importance (ABYC E-11, for boats), where the job says nothing; the array's of hot Vmp at Imp, in the worst place.
    job = changed(changed(POWER, "owner: {", f"{LOADS}owner: {{"), "\ncables:\n  pv", f"\n{LAMP}cables:\n  pv")
    _, found = circuits_of(tmp_path, changed(job, "[2.5 mm2, 16 mm2]", "[2.5 mm2, 70 mm2]"))
    limits = {one["cable"]: value(one["figures"], "largest drop wanted") for one in found["circuits"]}
    assert limits == {"pv": 2, "charge": 1, "vital": 3, "spare": 10, "told": 5}
    roles = {one["cable"]: one["circuit"] for one in found["circuits"]}
    assert (roles["vital"], roles["spare"], roles["told"]) == ("important load", "other load", "other load")
    (pv,) = (one for one in found["circuits"] if one["cable"] == "pv")
    drop, supply = value(pv["drop"], "voltage drop"), value(pv["figures"], "string's hot Vmp")
    assert value(pv["drop"], "voltage drop of supply") == pytest.approx(100 * drop / supply, rel=1e-4)
    # Imp is 9.8 A; the likely cut length is that of one core.
    strings = round(value(pv["readings"], "short circuit in full sun") / 10.2)
    assert drop == pytest.approx(9.8 * strings * value(pv["drop"], "loop resistance"), rel=1e-4)
    said = " ".join(run("circuit", tmp_path / "job.yaml").out.split())
    (charge,) = (one for one in found["circuits"] if one["cable"] == "charge")
    volts = value(charge["drop"], "voltage drop")
    assert f"drop {volts:.3f} V" in said
    assert "ends absorption early" in said


def test_a_plan_draws_the_circuits_where_the_job_has_them(tmp_path, monkeypatch):
    # And where it has none, or no grouping fits, it says so, and writes all the rest.
    # A circuit that does not stand is a no, as a cable without a route is. Sheets are laid out, and not drawn.
    monkeypatch.setattr(folder, "pictures", undrawn)
    whole = changed(POWER, "[2.5 mm2, 16 mm2]", "[2.5 mm2, 70 mm2]")
    for name, job, status, words in (
        ("whole", whole, 0, ""),
        ("no-battery", JOB, 0, "No one-line diagram: the job has no battery"),
        ("no-grouping", changed(POWER, "highest volts: 100 V", "highest volts: 20 V"), 1, "no grouping of the modules"),
    ):
        (tmp_path / name).mkdir()
        write(tmp_path / name, job=job)
        out = tmp_path / name / "plan"
        said = run("plan", tmp_path / name / "job.yaml", "--out", out)
        assert said.status == status, said.lines
        drawn = {path.name for path in out.glob("one-line.*")}
        assert drawn == (set() if words else {"one-line.png", "one-line.svg"}), name
        assert words in said.out
        assert (out / "pv-route.svg").is_file()


def undrawn(stem, figures):
    return {f"{stem}.{kind}": b"" for _ in figures for kind in ("svg", "png")}
