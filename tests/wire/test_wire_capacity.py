"""The largest array on a conductor that is there already: published examples turned round, and its own inverse."""

import math
from dataclasses import replace
from itertools import pairwise, product

import pytest
from wire_samples import AWG, EUROPE, MM2, US

from drawcord.wire.ampacity import Leg
from drawcord.wire.cable import CableType
from drawcord.wire.capacity import capacity, most_by_drop
from drawcord.wire.carrying import carrying
from drawcord.wire.currents import array_current
from drawcord.wire.published import Factor
from drawcord.words.figure import Figure

NEC = replace(US, added=())  # the examples of the NEC know nothing of boats
AIR = (20.0, 30.0, 38.0, 45.0, 50.0, 58.0, 70.0)  # °C


def leg(celsius=30.0, conductors=2, length_mm=8000):
    return Leg("wall", celsius, conductors, length_mm)


def volts(value):
    return Figure("supply", value, "V", f"{value:g} V", "the example")


def most(rules, section, insulation=90.0, **where):
    """The largest sum of Isc [A]; none beyond the tables, where nothing may be said to be carried."""
    try:
        return capacity(rules, section, insulation, [leg(**where)]).most.value
    except ValueError:
        return 0.0


def test_ten_gauge_in_the_heat_by_the_worked_example():
    # NEC 690.8, worked example (seen): 10 AWG of 90 °C at 45 °C carries 40 A · 0.87 = 34.8 A, so that Imax may be that
    # and Isc 1/1.25 of it; the example's 11.2 A of Isc make 17.5 A and a device of 20 A.
    found = capacity(NEC, "10 AWG", 90.0, [leg(45.0)])
    assert found.worst.value == pytest.approx(34.8 / 1.25, rel=1e-9)
    assert found.most.value >= 11.2
    assert found.device.value >= 20 / 1.25 / 1.25


def test_four_conductors_together_by_the_worked_example():
    # NEC 310.15(C)(1), worked example (seen): 10 AWG of 90 °C, four conductors, 40 A · 0.80 = 32 A.
    found = capacity(NEC, "10 AWG", 90.0, [leg(30.0, 4)])
    assert found.bearing.governing.amperes.value == pytest.approx(32)
    assert found.worst.value == pytest.approx(32 / 1.25)


def test_fourteen_gauge_by_the_worked_example():
    # NEC 690.8, worked example (seen): Isc 8.8 A make 11 A and 13.75 A, for which 14 AWG in the 75 °C column serves.
    # It carries 20 A there (table 310.16), but NEC 240.4(D) lets it have a device of 15 A at most: 15 / 1.5625 = 9.6 A.
    found = capacity(replace(NEC, terminal_celsius=Factor(75.0, "the example")), "14 AWG", 90.0, [leg()])
    assert found.terminals.value == pytest.approx(20 / 1.5625)
    assert found.most.value == pytest.approx(9.6)
    assert found.most is found.device


@pytest.mark.parametrize(
    ("limit", "supply", "ohms", "amperes"),
    [
        # Lessons in Electric Circuits, vol. I (DC), conductors: 14 AWG, loop 11.301 Ω, 230 V: at most 20.352 A (seen).
        (1.0, 230.0, 11.301, 20.352),
        # The same chapter: 0.2 Ω allowed a wire at 25 A of 230 V, that is 10 V of drop (seen).
        (10 / 230, 230.0, 0.4, 25.0),
        # A published electrician's training text: 24 V, 16 AWG of 4.99 Ω/kft, 100 ft one way, 4 A lose 16.63 % (seen).
        (0.1663, 24.0, 2 * 0.1 * 4.99, 4.0),
        # Trade article (seen): 45 ft one way, 10 AWG, 23 A, 17.4 V lose about 11.9 %; copper of 20 °C by NBS Handbook
        # 100, 5.261 mm² by ASTM B258.
        (0.119, 17.4, 0.017241 * 2 * 45 * 0.3048 / 5.261, 23.0),
    ],
)
def test_the_current_that_a_drop_allows_by_published_examples(limit, supply, ohms, amperes):
    assert most_by_drop(limit, volts(supply), ohms).value == pytest.approx(amperes, rel=2e-3)


@pytest.mark.parametrize(("rules", "sections"), [(US, AWG), (EUROPE, MM2)])
def test_it_is_the_rule_for_new_conductors_turned_round(rules, sections):
    # Beside the closed form stands the search: of currents on a grid, those up to `most` fit by `carrying`, none above.
    checked = 0
    for section, insulation, celsius, together in product(sections, (60.0, 75.0, 90.0), AIR, (2, 4, 8)):
        legs = [leg(celsius, together)]
        cable = CableType("old", section, "plain", insulation, 40.0, True, ("indoors",), 100)
        try:
            found = capacity(rules, section, insulation, legs).most.value
        except ValueError:
            with pytest.raises(ValueError, match=r"ends at|holds no|none at or below"):
                carrying(rules, cable, array_current([1.0], rules.brighter), legs)
            continue
        for amperes in (found * 0.6, found - 1e-6, found + 1e-6, found * 1.4):
            if amperes > 0:
                fits = carrying(rules, cable, array_current([amperes], rules.brighter), legs).fits
                assert fits == (amperes <= found), (section, insulation, celsius, together, amperes)
                checked += 1
    assert checked > 1000


@pytest.mark.parametrize(("rules", "sections"), [(US, AWG), (EUROPE, MM2)])
def test_thicker_never_carries_less_hotter_and_more_together_never_more(rules, sections):
    for insulation, celsius in product((60.0, 75.0, 90.0), AIR):
        by_section = [most(rules, section, insulation, celsius=celsius) for section in sections]
        assert by_section == sorted(by_section), (insulation, celsius)
    fallen = 0
    for section, insulation in product(sections, (60.0, 75.0, 90.0)):
        by_heat = [most(rules, section, insulation, celsius=celsius) for celsius in AIR]
        by_crowd = [most(rules, section, insulation, conductors=count) for count in range(2, 12)]
        assert by_heat == sorted(by_heat, reverse=True)
        assert by_crowd == sorted(by_crowd, reverse=True)
        fallen += by_heat[0] > by_heat[-1]
    assert fallen > 15


def test_longer_never_carries_more():
    found = [most_by_drop(0.02, volts(60.0), 0.008 * metres / 10).value for metres in range(1, 60)]
    assert all(a > b for a, b in pairwise(found))


@pytest.mark.parametrize(("limit", "supply", "ohms"), [(0, 60, 1), (0.02, 0, 1), (0.02, 60, 0), (0.02, 60, math.nan)])
def test_what_no_circuit_has_is_refused(limit, supply, ohms):
    with pytest.raises(ValueError, match="must be above 0"):
        most_by_drop(limit, volts(supply), ohms)
