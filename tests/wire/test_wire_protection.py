"""Overcurrent devices, string fuses, distances, disconnects and connectors."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wire_samples import AWG, EUROPE, RULES, US, controller, device, module

from drawcord.wire.currents import shared_current
from drawcord.wire.feedback import string_fuse
from drawcord.wire.placement import (
    connector_findings,
    disconnect_findings,
    distance_findings,
    terminal_findings,
)
from drawcord.wire.protection import Duty, choose, device_ceiling, device_findings, next_rating
from drawcord.words.figure import Figure
from drawcord.words.finding import Severity


def amperes(value):
    return Figure("a current", value, "A", f"{value:g} A", "test")


# --- standard ratings


@pytest.mark.parametrize(
    ("rules", "asked", "fuse", "rating"),
    [
        (US, 17.5, False, 20),  # Isc 11.2 A, NEC 690.8 (seen)
        (US, 13.75, False, 15),  # Isc 8.8 A, NEC 690.8 (seen)
        (US, 20.0, False, 20),
        (US, 20.01, False, 25),
        (US, 5.0, False, 15),
        (US, 5.0, True, 6),
        (US, 351.0, False, 400),
        (EUROPE, 17.5, False, 20),
        (EUROPE, 26.0, False, 32),
        (EUROPE, 11.0, False, 16),
        (EUROPE, 11.0, True, 12),
    ],
)
def test_next_standard_rating(rules, asked, fuse, rating):
    assert next_rating(rules.ratings, asked, fuse=fuse).amperes == rating


@given(st.floats(0.1, 400), st.booleans(), st.sampled_from(sorted(RULES)))
def test_the_next_rating_is_the_least_that_is_enough(asked, fuse, rules):
    ratings = RULES[rules].ratings
    enough = [one.amperes for one in ratings if one.amperes >= asked and (fuse or not one.fuse_only)]
    assert next_rating(ratings, asked, fuse=fuse).amperes == min(enough)


@pytest.mark.parametrize("rules", [US, EUROPE])
def test_past_the_end_of_the_list_is_refused(rules):
    with pytest.raises(ValueError, match=r"standard ratings ends at 400 A, and 400\.1 A are asked for"):
        next_rating(rules.ratings, 400.1, fuse=True)
    with pytest.raises(ValueError, match="ends at nothing"):
        next_rating([], 1, fuse=True)


@pytest.mark.parametrize(
    ("section", "carries", "most"),
    [
        ("14 AWG", 25.0, 15),  # NEC 240.4(D): 15, 20 and 30 A
        ("12 AWG", 30.0, 20),
        ("10 AWG", 34.8, 30),
        ("10 AWG", 21.0, 25),  # NEC 240.4(B): the next standard rating
        ("8 AWG", 42.0, 45),
        ("8 AWG", 45.0, 45),
        ("2/0 AWG", 500.0, 500),  # past the list nothing is next
    ],
)
def test_what_a_conductor_allows_in_the_us(section, carries, most):
    assert device_ceiling(US, section, amperes(carries)).value == most


def test_europe_allows_what_the_conductor_carries():
    # In at most Iz: no next size up, no small-conductor rule.
    assert device_ceiling(EUROPE, "4 mm2", amperes(34.8)).value == 34.8


@given(st.sampled_from(AWG), st.floats(5, 500), st.floats(5, 500))
def test_a_conductor_that_carries_more_never_allows_less(section, one, other):
    less, more = sorted((one, other))
    assert (
        device_ceiling(US, section, amperes(less)).value <= device_ceiling(US, section, amperes(more)).value
    )


def test_a_rating_above_what_the_conductor_allows_does_not_fit():
    assert choose(US, amperes(17.5), amperes(20)).fits
    assert not choose(US, amperes(20.1), amperes(20)).fits


# --- a device for a duty

DUTY = Duty(volts=100.0, least=amperes(17.5), most=amperes(20.0), prospective=4000.0, both_ends=True)


def against(**changed):
    given = {"device": {}, "duty": {}} | changed
    duty = Duty(**{**DUTY.__dict__, **given["duty"]})
    found = device_findings("array", device(**given["device"]), duty)
    assert all(one.severity is Severity.REFUSAL for one in found)
    return [one.sentence for one in found]


def test_a_device_that_may_serve():
    assert against() == []


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"device": {"volts": 60.0}}, "is rated 60 V DC, the circuit reaches 100 V"),
        ({"device": {"polarised": True}}, "is polarised, but current can come from either end"),
        ({"device": {"amperes": 15.0}}, "of 15 A opens on the 17.5 A that may flow for hours"),
        ({"device": {"amperes": 25.0}}, "of 25 A does not protect a conductor that allows 20 A"),
        ({"device": {"interrupting_amperes": 3000.0}}, "interrupts 3000 A, a short circuit draws 4000 A"),
        ({"device": {"interrupting_amperes": None}}, "has no known interrupting rating at 100 V DC"),
        ({"duty": {"prospective": None}}, "may have to interrupt a short-circuit current that nobody knows"),
    ],
)
def test_what_speaks_against_a_device(changed, sentence):
    (only,) = against(**changed)
    assert only == f"breaker {sentence}"


def test_everything_is_said_at_once():
    assert (
        len(against(device={"volts": 60.0, "polarised": True, "amperes": 15.0, "interrupting_amperes": 20.0}))
        == 4
    )


def test_a_polarised_device_may_serve_where_only_one_end_feeds():
    assert against(device={"polarised": True}, duty={"both_ends": False}) == []


def test_a_switch_interrupts_no_short_circuit_but_carries_the_current():
    switch = {"kind": "switch", "interrupting_amperes": None}
    assert against(device=switch) == []
    assert against(device=switch | {"amperes": 16.0}) == [
        "breaker of 16 A does not carry the 17.5 A that may flow for hours"
    ]


# --- string fuses


@pytest.mark.parametrize(("parallel", "back", "needed"), [(2, 11.0, False), (3, 22.0, True)])
def test_nec_string_fuses(parallel, back, needed):
    # Isc 8.8 A, series fuse 15 A (seen): two strings feed back 11 A, three 22 A.
    found = string_fuse(US, module(isc=8.8, imp=8.3, series_fuse=15.0), parallel)
    assert found.feedback.value == pytest.approx(back)
    assert found.needed is needed
    # 1.5625 · 8.8 = 13.75 A, so 15 A, which the module bears.
    assert (found.rating.value if found.rating else None) == (15 if needed else None)


@pytest.mark.parametrize(("parallel", "back", "needed"), [(2, 12.28, False), (4, 36.84, True)])
def test_iec_string_fuses(parallel, back, needed):
    # IEC 62548, Isc 12.28 A, module maximum 20 A (seen): 18.42 < In < 29.47 A, so 20 A.
    found = string_fuse(EUROPE, module(isc=12.28, series_fuse=20.0), parallel)
    assert found.feedback.value == pytest.approx(back)
    assert found.needed is needed
    assert (found.rating.value if found.rating else None) == (20 if needed else None)


def test_iec_ends_of_the_band_are_no_ratings():
    # 1.5 · 8 A is 12 A exactly, which is a rating: the next one serves, since In has to be above.
    assert string_fuse(EUROPE, module(isc=8.0, imp=7.5, series_fuse=20.0), 4).rating.value == 16
    # NEC has "at least": 1.5625 · 9.6 A is 15 A exactly.
    assert string_fuse(US, module(isc=9.6, imp=9.0, series_fuse=20.0), 4).rating.value == 15


@given(st.floats(1, 18), st.integers(2, 30), st.sampled_from(sorted(RULES)))
def test_a_string_s_cable_bears_what_the_others_feed_back(isc, parallel, rules):
    # NEC 690.9(A): what feeds back is held against the conductor too. Its cable is sized for that, so that no fuse is
    # needed for the conductor's sake.
    back = string_fuse(RULES[rules], module(isc=isc, imp=0.95 * isc), parallel).feedback.value
    assert shared_current(isc, 1, parallel, RULES[rules].brighter).value >= back - 1e-9


@given(
    st.floats(1, 18),
    st.floats(18.1, 30),
    st.integers(1, 30),
    st.integers(1, 10),
    st.sampled_from(sorted(RULES)),
)
def test_more_strings_never_remove_the_need_for_a_fuse(isc, fuse, parallel, more, rules):
    one = module(isc=isc, imp=0.95 * isc, series_fuse=fuse)
    fewer = string_fuse(RULES[rules], one, parallel)
    several = string_fuse(RULES[rules], one, parallel + more)
    assert several.needed >= fewer.needed
    assert several.feedback.value > fewer.feedback.value


@given(st.floats(1, 18), st.floats(18.1, 40), st.integers(2, 30), st.sampled_from(sorted(RULES)))
def test_a_fuse_never_exceeds_the_module_nor_opens_in_full_sun(isc, most, parallel, rules):
    found = string_fuse(RULES[rules], module(isc=isc, imp=0.95 * isc, series_fuse=most), parallel)
    if found.rating:
        assert 1.25 * isc < found.rating.value <= most


@pytest.mark.parametrize("rules", [US, EUROPE])
def test_a_single_string_is_fed_by_none(rules):
    found = string_fuse(rules, module(), 1)
    assert (found.feedback.value, found.needed) == (0, False)


def test_no_string_at_all_is_refused():
    with pytest.raises(ValueError, match="the strings in parallel must be 1 or more, not 0"):
        string_fuse(US, module(), 0)


@pytest.mark.parametrize(("mine", "of", "times"), [(1, 1, 1), (1, 2, 1), (2, 2, 2), (1, 3, 2), (2, 3, 2), (3, 3, 3)])
def test_a_fault_behind_a_cable_draws_from_the_other_strings(mine, of, times):
    # NEC 690.8(A)(1): 1.25 · Isc a string (8.8 A makes 11, seen); with three strings a faulty one draws two others.
    assert shared_current(8.8, mine, of, US.brighter).value == pytest.approx(11.0 * times)


def test_no_cable_carries_more_strings_than_there_are():
    with pytest.raises(ValueError, match="a cable carries 1 to 2 strings, not 3"):
        shared_current(8.8, 3, 2, US.brighter)


# --- how far from the source


def distances(along, *, sheathed=False, at_battery=False, rules=US):
    found = distance_findings("battery", rules.distances, along, sheathed=sheathed, at_battery=at_battery)
    return [(one.severity, one.source.partition(",")[0].partition(":")[0]) for one in found]


LAW, PRACTICE, VEHICLES = "33 CFR 183.455(b)(1)", "ABYC E-11", "NEC 2020 552.10(E)(4)"
SHEATHED_LAW = "33 CFR 183.455(b)(2)"


@pytest.mark.parametrize(
    ("along", "how", "broken"),
    [
        # 33 CFR 183.455 (public law) and ABYC E-11 (both seen): 7 in bare.
        (177.8, {}, []),
        (178, {}, [LAW, PRACTICE]),
        (500, {}, [LAW, PRACTICE, VEHICLES]),
        # 40 in in a sheath; 18 in for park trailers (NEC 2020 552.10(E)(4), seen) whatever the sheath.
        (457, {"sheathed": True}, []),
        (1016, {"sheathed": True}, [VEHICLES]),
        (1017, {"sheathed": True}, [VEHICLES, PRACTICE, SHEATHED_LAW]),
        # 72 in for a sheathed conductor on the battery itself, by ABYC alone.
        (1828, {"sheathed": True, "at_battery": True}, [VEHICLES, SHEATHED_LAW]),
        (1829, {"sheathed": True, "at_battery": True}, [VEHICLES, SHEATHED_LAW, PRACTICE]),
        # On the battery, but bare: no more than elsewhere.
        (178, {"at_battery": True}, [LAW, PRACTICE]),
    ],
)
def test_distance_from_the_source(along, how, broken):
    found = distances(along, **how)
    assert sorted(source for _, source in found) == sorted(broken)
    refused = len(broken) == 3
    assert all(severity is (Severity.REFUSAL if refused else Severity.CAUTION) for severity, _ in found)


def test_europe_has_200_millimetres():
    # ISO 10133 (from memory).
    assert distances(200, rules=EUROPE) == [(Severity.CAUTION, "ABYC E-11")]
    assert {severity for severity, _ in distances(201, rules=EUROPE)} == {Severity.REFUSAL}


@given(st.floats(0, 3000), st.floats(0, 3000), st.booleans(), st.booleans())
def test_further_away_never_satisfies_more_rules(one, other, sheathed, at_battery):
    near, far = sorted((one, other))
    how = {"sheathed": sheathed, "at_battery": at_battery}
    assert {source for _, source in distances(near, **how)} <= {source for _, source in distances(far, **how)}


@pytest.mark.parametrize("along", [-1, math.nan])
def test_no_distance_below_nothing(along):
    with pytest.raises(ValueError, match=f"the distance from the source must be 0 mm or more, not {along}"):
        distances(along)


# --- disconnects, connectors, terminals


def test_a_disconnect_opens_every_ungrounded_conductor_under_load():
    one_pole = device(poles=1)
    assert disconnect_findings("array", one_pole, controller()) == []
    (missing,) = disconnect_findings("array", one_pole, controller(grounding="floating"))
    assert "opens 1 pole, controller leaves positive and negative ungrounded" in missing.sentence
    (cold,) = disconnect_findings("array", device(switch_rated=False), controller(grounding="positive"))
    assert "may not be opened under load" in cold.sentence


def test_connectors_mate_within_one_family_only():
    assert connector_findings("roof", ["A", "A", "A"]) == []
    (wrong,) = connector_findings("roof", ["B", "A", "B"])
    assert "families A and B meet" in wrong.sentence
    assert wrong.severity is Severity.REFUSAL


@pytest.mark.parametrize(("copper", "fits"), [(2.4, False), (2.5, True), (16.0, True), (16.1, False)])
def test_terminals_take_what_they_say(copper, fits):
    found = terminal_findings("controller", controller(), "cable", copper)
    assert (found == []) is fits
