"""Types that no maker could mean, through the real command: one sentence at its place, exit status 2."""

import pytest
from bad import JOB, MARK, changed, run, write

TYPES = """\
types:
  modules:
    panel: {name: Panel, voc: 24.6 V, isc: 10.2 A, vmp: 20.5 V, imp: 9.8 A, voc coefficient: -0.27 %/°C,
      pmp coefficient: -0.34 %/°C, series fuse: 20 A, long: 1480, wide: 670, lead: 900, connector: family-a}
  controllers:
    charger: {name: Charger, highest volts: 100 V, short circuit: 35 A, running margin: 1 V, starting margin: 5 V,
      output: 30 A, terminals: [2.5 mm2, 16 mm2], grounding: negative}
  batteries:
    bank: {name: Bank, nominal: 12.8 V, absorption: 14.2 V, short circuit: 4 kA}
  cables:
    sun-10: {name: Cable, serves: [PV], section: 10 AWG, metal: tinned, insulation: 90 °C, outside diameter: 7,
      smallest bend: 35, sunlight resistant: true, zones: [sun, indoors]}
  devices:
    breaker: {name: Breaker, kind: breaker, volts: 150 V, amperes: 20 A, interrupting: 10 kA, poles: 2}
"""
TYPED = JOB.replace("kind: charge controller, ", "kind: charge controller, type: charger, ").replace(
    "class: PV, ", "class: PV, type: sun-10, "
)

# What is spoilt, what comes in its stead with a mark where the sentence should point, and words it needs.
WRONG = {
    "a coefficient without unit": ("-0.27 %/°C", f"{MARK}-0.27", "has no unit: it could be", "%/°C", "V/°C"),
    "a coefficient with the wrong sign": ("-0.27 %/°C", f"{MARK}0.27 %/°C", "-0.27 %/°C with the wrong sign, or the"),
    "a coefficient in another unit": ("-0.27 %/°C", f"{MARK}-0.27 A/°C", "is in %/°C or V/°C or mV/°C"),
    "Isc below Imp": ("isc: 10.2 A", "isc: 9 A", "Imp of 9.8 A is not below Isc of 9 A"),
    "Vmp above Voc": ("vmp: 20.5 V", "vmp: 25 V", "Vmp of 25 V is not below Voc of 24.6 V"),
    "a limit of zero": ("highest volts: 100 V", f"highest volts: {MARK}0 V", "a voltage is more than 0"),
    "a terminal of no section": ("16 mm2", f"{MARK}thick", "a section is such as 10 AWG or 6 mm2"),
    "terminals that run backwards": ("[2.5 mm2, 16 mm2]", "[16 mm2, 2.5 mm2]", "run backwards"),
    "a battery that nothing charges": ("absorption: 14.2 V", "absorption: 12 V", "no current would flow"),
    "more copper than cable": ("outside diameter: 7", "outside diameter: 2", "does not fit into 2 mm"),
    "no interrupting rating": (", interrupting: 10 kA", "", "no interrupting rating at 150 V DC", "10 kA"),
    "an interrupting rating in kA": ("10 kA", "10 A", "is that in kA?"),
    "a fuse that is polarised": ("kind: breaker", "kind: fuse, polarised: true", "a wire melts whichever way"),
}
WRONG |= {
    "a coefficient of Isc with the wrong sign": (
        "series fuse: 20 A", f"isc coefficient: {MARK}-0.05 %/°C, series fuse: 20 A",
        "makes Isc fall with heat", "0.05 %/°C with the wrong sign", "the coefficient of Voc",
    ),
    "an input limit of zero": ("short circuit: 35 A", f"short circuit: {MARK}0 A", "a current is more than 0"),
    "a series fuse of zero": ("series fuse: 20 A", f"series fuse: {MARK}0 A", "a current is more than 0"),
    "an output of zero": ("output: 30 A", f"output: {MARK}0 A", "a current is more than 0"),
    "an interrupting rating of zero": ("10 kA", f"{MARK}0 kA", "a current is more than 0"),
    "a short circuit of zero": ("4 kA", f"{MARK}0 kA", "a current is more than 0"),
    "not a number": ("voc: 24.6 V", f"voc: {MARK}.nan", "`.nan` is no voltage"),
}  # fmt: skip
HOLDERS = {"Isc below Imp": "panel", "Vmp above Voc": "panel", "terminals that run backwards": "charger"} | {
    "a battery that nothing charges": "bank",
    "more copper than cable": "sun-10",
    "no interrupting rating": "breaker",
    "an interrupting rating in kA": "breaker",
    "a fuse that is polarised": "breaker",
}


def test_the_types_are_right_to_begin_with(tmp_path):
    # What the next test spoils is taken as it stands, so that its slip is the only one.
    write(tmp_path, job=TYPED + TYPES)
    assert run("check", tmp_path / "job.yaml").status == 0


@pytest.mark.parametrize("case", WRONG)
def test_a_wrong_type_is_refused_at_its_place(case, tmp_path):
    # Where two keys of an entry contradict each other, neither is the wrong one: the entry itself is pointed at.
    old, new, *words = WRONG[case]
    types = changed(TYPES, old, new)
    if case in HOLDERS:
        types = changed(types, f"{HOLDERS[case]}: {{", f"{HOLDERS[case]}: {MARK}{{")
    marks = write(tmp_path, job=TYPED + types)
    said = run("check", tmp_path / "job.yaml")
    assert said.status == 2
    assert said.out == ""
    assert said.places == marks, said.lines
    assert [word for word in words if word not in said.lines[0]] == []


NAMED = {
    "a type that is not there": ("type: charger", f"type: {MARK}charged", "no charged among the controllers"),
    "a cable's type that is not there": ("type: sun-10", f"type: {MARK}sun-8", "no sun-8 among the cables", "sun-10"),
    "a type of what has none": ("kind: junction box, ", f"kind: junction box, type: {MARK}panel, ", "no types"),
    "a plane of what lies in none": ("kind: junction box, ", f"kind: junction box, plane: {MARK}top, ", "only a solar"),
    "a cable that its type is not for": ("class: PV", "class: battery DC", "sun-10 is for PV"),
    "a type and another conductor": ("cores: 2", "cores: 2, conductor: 8 AWG", "sun-10, 10 AWG", "8 AWG", "keep one"),
}


@pytest.mark.parametrize("case", NAMED)
def test_a_type_named_amiss_is_refused_at_its_place(case, tmp_path):
    # The types themselves are right; what names them is not.
    old, new, *words = NAMED[case]
    job = changed(TYPED, old, new)
    if MARK not in job:
        job = changed(job, "type: sun-10", f"type: {MARK}sun-10")
    marks = write(tmp_path, job=job + TYPES)
    said = run("check", tmp_path / "job.yaml")
    assert (said.status, said.places) == (2, marks), said.lines
    assert [word for word in words if word not in said.lines[0]] == []


def test_a_shop_without_types_plans_all_the_same(tmp_path):
    # A shop may lack the files of types, and the sharing table: then the one that comes with drawcord holds.
    from drawcord.files.home import shared  # noqa: PLC0415

    shop = tmp_path / "shop"
    shop.mkdir()
    for name in ("clearances", "labour", "allowances", "preferences"):
        (shop / f"{name}.yaml").write_bytes((shared() / f"{name}.yaml").read_bytes())
    write(tmp_path)
    assert run("check", tmp_path / "job.yaml", "--shop", shop).status == 0
    (shop / "modules.yaml").write_text("format: 1\nmodules: {panel: {}}\n", encoding="utf-8")
    said = run("check", tmp_path / "job.yaml", "--shop", shop)
    assert said.status == 2
    assert {place[0] for place in said.places} == {"modules.yaml"}


ARRAY_OF_ONE = """\
  module: {kind: solar module, type: panel, in: roof, from front: 2000, street: 900, terminals: {}}
  battery: {kind: battery, type: bank, in: bay, from front: 900, street: 300, up: -400, terminals: {}}
"""
# Of the job itself, not of its types; the last three are told by the commands that ask a table for them.
WORKED = {
    "the coldest hotter than the hottest": (
        "temperatures: {coldest: -20 °C", f"temperatures: {MARK}{{coldest: 50 °C",
        "the coldest, 50 °C, is hotter than the hottest, 45 °C",
    ),
    "a drop limit of zero": ("class: PV,", f"class: PV, drop limit: {MARK}0 %,", "a drop limit of 0 %", "such as 2 %"),
    "copper outside its table": (
        "hottest: 45 °C", f"hottest: 45 °C, conductor: {MARK}300 °C", "300 °C is out of bounds", "-40 and 120 °C",
    ),
    "colder than the table": ("coldest: -20 °C", f"coldest: {MARK}-60 °C", "known from -40 to 25 °C, not at -60 °C"),
    "cells hotter than the table": ("hottest: 45 °C", f"hottest: 45 °C, cell: {MARK}150 °C", "25 to 100 °C, not 150"),
    "air too hot for the cells' table": ("hottest: 45 °C", f"hottest: {MARK}70 °C", "25 to 100 °C, not 105 °C"),
}  # fmt: skip


@pytest.mark.parametrize("case", WORKED)
@pytest.mark.parametrize("command", ["array", "circuit", "plan"])
def test_what_no_circuit_can_be_worked_out_with_is_refused_at_its_place(case, command, tmp_path):
    # One sentence, where it stands, status 2; and nothing is written.
    old, new, *words = WORKED[case]
    equipment = changed(TYPED, "\ncables:\n", f"\n{ARRAY_OF_ONE}cables:\n")
    marks = write(tmp_path, job=changed(equipment, old, new) + TYPES)
    out = ["--out", tmp_path / "plan"] if command == "plan" else []
    said = run(command, tmp_path / "job.yaml", *out)
    assert (said.status, said.out, said.places) == (2, "", marks), said.lines
    assert [word for word in words if word not in said.lines[0]] == []
    assert not (tmp_path / "plan").exists()
