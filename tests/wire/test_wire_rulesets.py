"""Rule sets are figures with sources, not titles; bonding and the rules that apply or do not."""

from pathlib import Path

import pytest
from wire_samples import AWG, EUROPE, RULES, US

import drawcord.wire
from drawcord.files.rule_tables import rule_sets
from drawcord.wire.ampacity import Method
from drawcord.wire.bonding import bonds
from drawcord.wire.cable import area_mm2
from drawcord.wire.published import Factor
from drawcord.wire.rulesets import Arrayed

BOTH = pytest.mark.parametrize("rules", [US, EUROPE], ids=lambda rules: rules.name)


def test_a_job_chooses_by_name():
    assert sorted(rule_sets()) == ["Europe", "US"]
    assert all(name == rules.name for name, rules in rule_sets().items())


@BOTH
def test_a_rule_set_names_its_editions_and_what_it_leaves_out(rules):
    assert len(rules.editions) >= 2
    assert len(rules.not_covered) >= 3
    assert rules.added_practice


@BOTH
def test_no_rule_set_is_only_a_title(rules):
    # Everything a decision needs is there, and each factor says on whose word.
    factors = [value for value in vars(rules).values() if isinstance(value, Factor)] + list(
        rules.drop_limits.values()
    )
    factors += [rules.fusing.feedback, rules.fusing.least]
    assert len(factors) >= 8
    assert all(one.source and one.value > 0 for one in factors)
    for method in (rules.method, *rules.added):
        assert isinstance(method, Method)
        assert method.enclosed
        assert method.corrections
        assert method.adjustments
    assert rules.ratings
    assert rules.cold_factors
    assert rules.distances
    assert rules.grounding


def test_the_rule_sets_differ_where_the_standards_do():
    # NEC: (N-1) · 1.25 · Isc, 240.6(A), next size up, small conductors. IEC 62548: (N-1) · Isc, 1.5 to 2.4 ·
    # Isc.
    assert (US.fusing.feedback.value, EUROPE.fusing.feedback.value) == (1.25, 1.0)
    assert US.fusing.least.value == pytest.approx(1.25 * 1.25)
    assert (EUROPE.fusing.least.value, EUROPE.fusing.most.value, US.fusing.most) == (1.5, 2.4, None)
    assert {one.amperes for one in US.ratings} != {one.amperes for one in EUROPE.ratings}
    assert US.next_size_up
    assert not EUROPE.next_size_up
    assert US.small
    assert not EUROPE.small


@BOTH
def test_default_drop_limits(rules):
    # Array 2 %, controller to battery 1 %, loads 3 and 10 % by importance (ABYC E-11, seen; the first two
    # practice).
    limits = {name: one.value for name, one in rules.drop_limits.items()}
    assert limits == {
        "array": 0.02,
        "controller to battery": 0.01,
        "important load": 0.03,
        "other load": 0.10,
        "mains": 0.03,
    }


@pytest.mark.parametrize(
    ("rules", "standards"),
    [
        (US, ["690", "310", "551", "NFPA 1192", "ANSI/RVIA LV", "ABYC E-11", "33 CFR 183"]),
        (EUROPE, ["IEC 62548:2016", "IEC 60364-7-712", "IEC 60364-7-721", "EN 50618", "EN 1648-1", "EN 1648-2"]),
    ],
)
def test_each_standard_of_the_field_is_followed_or_named_as_left_out(rules, standards):
    # Silence on a standard that people expect would be read as a yes.
    said = " ".join((*rules.editions, *rules.added_practice, *rules.not_covered))
    assert [one for one in standards if one not in said] == []
    assert all("boats" in one for one in rules.added_practice if "ABYC" in one or "CFR" in one)


def test_loads_of_vehicles_in_europe_go_by_a_european_figure():
    # ISO 10133:2012, 3 % for what is vital (seen in a text on it), 10 % for the rest (from memory).
    for name, value in (("important load", 0.03), ("other load", 0.10)):
        assert EUROPE.drop_limits[name].value == value
        assert EUROPE.drop_limits[name].source.startswith("ISO 10133:2012")


def test_what_is_taken_over_or_remembered_says_so():
    assert "taken over" in EUROPE.longer.source
    assert "from memory" in EUROPE.brighter.source
    assert "from memory" in US.touch.source
    assert "practice, no source" in US.drop_limits["array"].source


# --- bonding


@pytest.mark.parametrize(
    ("device", "section"),
    [(10, "14 AWG"), (15, "14 AWG"), (16, "12 AWG"), (20, "12 AWG"), (30, "10 AWG"), (60, "10 AWG"),
     (61, "8 AWG"), (100, "8 AWG"), (200, "6 AWG"), (300, "4 AWG"), (400, "3 AWG")],
)  # fmt: skip
def test_frames_are_bonded_by_nec_table_250_122(device, section):
    # Seen, in a text with the list 15: 14; 20: 12; 30-60: 10; 70-100: 8; 110-200: 6; 225-300: 4; 350-400: 3.
    assert bonds(US, device, "10 AWG").frames.section == section


@pytest.mark.parametrize(
    ("lead", "section"), [("10 AWG", "8 AWG"), ("8 AWG", "8 AWG"), ("2/0 AWG", "2/0 AWG")]
)
def test_the_chassis_bond_is_8_awg_or_the_unbonded_lead(lead, section):
    # NEC 2008 552.10(C)(4), park trailers (seen).
    assert bonds(US, 20, lead).chassis.section == section


def test_europe_bonds_with_6_mm2():
    # IEC 60364-7-712:2017 (seen in a text about it).
    found = bonds(EUROPE, 400, "50 mm2")
    assert [one.section for one in found] == ["6 mm2", "6 mm2", "50 mm2"]


@BOTH
@pytest.mark.parametrize("lead", ["14 AWG", "2/0 AWG"])
def test_a_larger_device_never_thins_a_bond(rules, lead):
    copper = [
        [one.copper.value for one in bonds(rules, device, lead)]
        for device in (1, 15, 20, 60, 100, 200, 300, 400)
    ]
    assert copper == sorted(copper)
    assert all(one[2] >= round(area_mm2(lead), 3) for one in copper)


def test_a_device_beyond_the_table_is_refused():
    with pytest.raises(ValueError, match="the table of grounding conductors ends at 400 A, not at 401 A"):
        bonds(US, 401, AWG[0])
    with pytest.raises(ValueError, match="the device's rating must be above 0 A, not 0"):
        bonds(US, 0, AWG[0])


# --- applied or not, with the reason


def applied(rules, volts, amperes, strings):
    return {one.name: one.applies for one in rules.rules(Arrayed(volts, amperes, strings))}


@pytest.mark.parametrize(
    ("volts", "amperes", "strings", "arc", "ground"),
    [
        (79.9, 20.0, 2, False, False),
        (80.0, 20.0, 2, True, False),
        (83.2, 20.0, 3, True, True),
        (30.0, 8.0, 3, False, False),
        (30.1, 8.0, 3, False, True),
        (30.0, 8.1, 3, False, True),
    ],
)
def test_nec_690_on_a_vehicle(volts, amperes, strings, arc, ground):
    # NEC 2023 690.11 from 80 V, 690.41(B) above 30 V or 8 A (all from memory), the latter not for up to two strings off
    # buildings (seen); 690.12 is for buildings (seen).
    found = applied(US, volts, amperes, strings)
    assert found.pop("arc-fault protection") is arc
    assert found.pop("ground-fault protection") is ground
    assert found.pop("rapid shutdown") is False
    assert set(found.values()) == {True}


def test_europe_on_a_vehicle():
    # IEC 62548:2016, extra-low voltage up to 60 V (from memory).
    assert applied(EUROPE, 59.9, 30.0, 3)["earth-fault detection"] is False
    assert applied(EUROPE, 60.0, 5.0, 1)["earth-fault detection"] is True


@BOTH
def test_each_of_the_four_questions_is_answered(rules):
    # Bonding, arc faults, rapid shutdown, ground faults: applied or not, each with reason and source.
    for volts in (20.0, 90.0):
        found = rules.rules(Arrayed(volts, 10.0, 2))
        names = " ".join(one.name for one in found)
        assert all(word in names for word in ("frames", "chassis", "arc-fault", "rapid shutdown"))
        assert "ground-fault" in names or "earth-fault" in names
        assert all(one.reason and one.source for one in found)


# --- words


def test_nothing_says_that_it_complies():
    # No output may: the word is nowhere in the layer, nor in its tables.
    folder = Path(drawcord.wire.__file__).parent
    texts = [
        path.read_text(encoding="utf-8") for path in [*folder.glob("*.py"), *folder.parent.glob("tables/*")]
    ]
    assert len(texts) > 20
    assert not any(word in text.casefold() for text in texts for word in ("complian", "complies", "conforms"))


def test_the_rule_sets_are_the_same_every_time():
    assert {name: repr(rules) for name, rules in rule_sets().items()} == {
        name: repr(one) for name, one in RULES.items()
    }
