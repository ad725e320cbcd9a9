"""Mains: protective conductors, and which rules apply to which circuit."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wire_samples import AWG, EUROPE, US

from drawcord.wire.cable import area_mm2
from drawcord.wire.mains import Supplied
from drawcord.wire.supply import GENERATOR, INVERTER, OUTLET, PANEL, SHORE

BOTH = pytest.mark.parametrize("rules", [US, EUROPE], ids=lambda rules: rules.name)


@pytest.mark.parametrize(("section", "least"), [(1.5, 1.5), (6, 6), (16, 16), (25, 16), (35, 16), (50, 25), (70, 35)])
def test_iec_protective_conductors_follow_the_section(section, least):
    # IEC 60364-5-54: the same up to 16 mm², 16 up to 35, then half (seen in two public texts).
    assert EUROPE.mains.protective(16, section, section).value == least


@pytest.mark.parametrize(("device", "section", "least"), [(15, "14 AWG", "14 AWG"), (20, "12 AWG", "12 AWG"),
    (30, "10 AWG", "10 AWG"), (40, "8 AWG", "10 AWG"), (50, "6 AWG", "10 AWG")])  # fmt: skip
def test_nec_protective_conductors_follow_the_device(device, section, least):
    # NEC table 250.122 (seen): 14 AWG to 15 A, 12 to 20, 10 to 60.
    copper = area_mm2(section)
    assert US.mains.protective(device, copper, copper).value == pytest.approx(area_mm2(least))


def test_nec_protective_conductors_grow_with_conductors_that_grew_for_drop():
    # NEC 250.122(B) (from memory): in proportion. 50 A on 6 AWG takes 10 AWG; on 4 AWG, 21.151 / 13.302 as much, which
    # is 8 AWG, since the gauge is a geometric series.
    grown = US.mains.protective(50, area_mm2("4 AWG"), area_mm2("6 AWG")).value
    assert grown == pytest.approx(area_mm2("8 AWG"), rel=1e-3)


@given(st.integers(1, 400), st.sampled_from(AWG), st.sampled_from(AWG))
def test_a_protective_conductor_is_never_thicker_than_its_circuit(device, one, other):
    # NEC 250.122(A) (from memory), and IEC 60364-5-54 by its rule.
    needed, section = sorted((area_mm2(one), area_mm2(other)))
    for rules in (US, EUROPE):
        assert 0 < rules.mains.protective(device, section, needed).value <= section


def test_beyond_the_table_is_refused():
    with pytest.raises(ValueError, match="the table of grounding conductors does not reach 401 A"):
        US.mains.protective(401, 100, 100)
    for rules, device, section in ((US, 0, 10), (EUROPE, 10, math.nan)):
        with pytest.raises(ValueError, match="must be above 0"):
            rules.mains.protective(device, section, 10)


def applied(rules, source, load, *, several=False):
    return {one.name for one in rules.mains.rules(Supplied(source, load, several)) if one.applies}


NEUTRAL, TRANSFER = "bond of the neutral to the protective conductor", "transfer between sources"


@pytest.mark.parametrize(
    ("source", "load", "names"),
    [
        (SHORE, PANEL, {"main disconnect"}),
        (PANEL, OUTLET, {"ground-fault circuit interrupter"}),
        (INVERTER, PANEL, {NEUTRAL}),
        (GENERATOR, PANEL, {NEUTRAL}),
    ],
)
def test_nec_551_for_each_circuit(source, load, names):
    # NEC 2020 551.40 asks for the interrupter (seen); main and neutral from memory.
    assert applied(US, source, load) == names
    assert applied(US, source, load, several=True) == names | {TRANSFER}


def test_every_circuit_of_a_caravan_has_30_milliamperes_and_opens_all_live_conductors():
    # IEC 60364-7-721 by way of BS 7671 721.411.1 (seen): 30 mA, all live conductors; the main switch by its edition of
    # 2017 (seen in its abstract).
    always = {"residual-current device of 30 mA", "overcurrent device that opens all live conductors"}
    assert applied(EUROPE, PANEL, OUTLET) == always
    assert applied(EUROPE, SHORE, PANEL) == always | {"main isolating switch"}
    assert applied(EUROPE, INVERTER, PANEL) == always | {NEUTRAL}


@BOTH
def test_silence_is_no_answer(rules):
    # The same questions are answered for every circuit, each with a reason and a source.
    asked = {
        tuple(one.name for one in rules.mains.rules(Supplied(source, load, several=False)))
        for source in (SHORE, GENERATOR, INVERTER, PANEL)
        for load in (PANEL, OUTLET)
    }
    assert len(asked) == 1
    assert all(one.reason and one.source for one in rules.mains.rules(Supplied(SHORE, PANEL, several=True)))
