"""Voltage drop against exact arithmetic, its properties, and the smallest conductor against trying all."""

import math
import re
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from pvlib import pvsystem

from drawcord.files.tables import conductors
from drawcord.wire.conductor import COLDEST, HOTTEST
from drawcord.wire.drop import drop, smallest

TABLE = conductors()
TEN_AWG = next(one for one in TABLE if (one.label, one.metal) == ("10 AWG", "plain"))

KINDS = [(standard, metal) for standard in ("AWG", "mm2") for metal in ("plain", "tinned")]


def of_kind(kind):
    return [one for one in TABLE if (one.standard, one.metal) == kind]


# Current [A], supply [V], one way [mm]; copper's temperature [°C].
circuits = st.tuples(st.floats(0.001, 1000), st.floats(1, 1000), st.integers(1, 1_000_000))
degrees = st.floats(COLDEST, HOTTEST)
copper = st.sampled_from(TABLE)


def exact(current, supply, one_way, conductor, celsius):
    """Loop resistance, drop, percent and loss as fractions; the published coefficients typed once more."""
    alpha = {20: Fraction("0.00393"), 75: Fraction("0.00323")}[conductor.reference_celsius]
    hot = 1 + alpha * (Fraction(celsius) - Fraction(conductor.reference_celsius))
    ohms = 2 * Fraction(one_way, 1_000_000) * Fraction(conductor.ohm_per_km) * hot
    lost = Fraction(current) * ohms
    return ohms, lost, 100 * lost / Fraction(supply), Fraction(current) * lost


# --- drop


@given(circuits, copper, degrees)
def test_drop_is_exact_rational_arithmetic(circuit, conductor, celsius):
    # No published formula is bent on the way: twelve digits of the exact value, all four figures.
    truths = exact(*circuit, conductor, celsius)
    for figure, truth in zip(drop(*circuit, conductor, celsius), truths, strict=True):
        assert figure.value == pytest.approx(float(truth), rel=1e-12)


@given(st.floats(5, 60), st.floats(1, 20), st.integers(1, 5), st.integers(1, 5), st.integers(100, 20_000), copper)
def test_drop_of_an_array_is_pvlib_s_ohmic_loss(vmp, imp, series, parallel, one_way, conductor):
    # pvlib (a reference library) has the resistance that loses a percent at Vmp and Imp, and the power lost in it.
    cost = drop(parallel * imp, series * vmp, one_way, conductor, 75)
    ohms = pvsystem.dc_ohms_from_percent(vmp, imp, cost.percent.value, series, parallel)
    assert cost.ohms.value == pytest.approx(ohms, rel=1e-9)
    assert cost.watts.value == pytest.approx(pvsystem.dc_ohmic_losses(ohms, parallel * imp), rel=1e-9)


def worked(formula):
    """The value of a formula's text, its units struck out and its signs made Python's."""
    text = re.sub(r"Ω/km|/K|\b(A|V|m|K)\b|Ω", "", formula).replace("·", "*")
    assert re.fullmatch(r"[0-9e.+\-*/() ]+", text)
    return eval(text)  # noqa: S307 -- digits and signs only, asserted above


@given(circuits, copper, degrees)
def test_the_formula_printed_gives_the_value(circuit, conductor, celsius):
    # A reader with a pocket calculator must arrive at the same figure, to the digits printed.
    for figure in drop(*circuit, conductor, celsius):
        assert worked(figure.formula) == pytest.approx(figure.value, rel=1e-4)


def test_the_figures_say_what_they_are_and_on_whose_word():
    # 20 A over 10 m one way at 60 °C, as a sheet would print it.
    ohms, lost, percent, watts = drop(20, 12, 10_000, TEN_AWG, 60)
    assert ohms.formula == "2 · 10 m · 4.06824 Ω/km / 1000 · (1 + 0.00323/K · (60 - 75) K)"
    assert ohms.source.startswith("NEC chapter 9 table 8, stranded copper; ")
    assert (lost.formula, lost.unit) == ("20 A · 0.0774227 Ω", "V")
    assert (percent.formula, percent.unit) == ("100 · 1.54845 V / 12 V", "%")
    assert (watts.formula, watts.unit) == ("20 A · 1.54845 V", "W")


@given(circuits, st.integers(1, 1_000_000), copper, degrees)
def test_more_length_never_lowers_the_drop(circuit, more, conductor, celsius):
    current, supply, one_way = circuit
    longer = drop(current, supply, one_way + more, conductor, celsius)
    assert longer.volts.value > drop(*circuit, conductor, celsius).volts.value


@given(
    circuits, st.sampled_from([pair for kind in KINDS for pair in combinations(of_kind(kind), 2)]), degrees
)
def test_thicker_copper_never_raises_the_drop(circuit, pair, celsius):
    thin, thick = sorted(pair, key=lambda one: one.area_mm2)
    assert drop(*circuit, thick, celsius).volts.value < drop(*circuit, thin, celsius).volts.value


@given(circuits, copper, degrees, degrees)
def test_hotter_copper_never_lowers_the_drop(circuit, conductor, one, other):
    cold, hot = sorted((one, other))
    warmed = drop(*circuit, conductor, hot).volts.value
    assert warmed >= drop(*circuit, conductor, cold).volts.value


@pytest.mark.parametrize(("current", "one_way"), [(0, 5000), (10, 0)])
def test_no_current_or_no_length_costs_nothing(current, one_way):
    assert drop(current, 12, one_way, TEN_AWG, 75).volts.value == 0


def test_a_drop_above_the_supply_is_told_not_hidden():
    # 100 A over 100 m of 10 AWG from 12 V: the caller has to see that the cable cannot do it.
    assert drop(100, 12, 100_000, TEN_AWG, 75).percent.value > 100


@pytest.mark.parametrize("value", [-1, -0.001, math.nan, math.inf])
def test_an_impossible_current_is_refused(value):
    with pytest.raises(ValueError, match=f"a current is zero or more amperes, not {value}"):
        drop(value, 12, 5000, TEN_AWG, 75)


@pytest.mark.parametrize("value", [0, -12, math.nan, math.inf])
def test_an_impossible_supply_is_refused(value):
    with pytest.raises(ValueError, match=f"no percentage of it exists, not {value}"):
        drop(10, value, 5000, TEN_AWG, 75)


@pytest.mark.parametrize("value", [-1, math.nan, math.inf])
def test_an_impossible_length_is_refused(value):
    with pytest.raises(ValueError, match=f"a cable's length is zero or more millimetres, not {value}"):
        drop(10, 12, value, TEN_AWG, 75)


def test_a_drop_outside_the_range_of_temperature_is_refused():
    with pytest.raises(ValueError, match="linear from -40 to 120 °C, not at 150"):
        drop(10, 12, 5000, TEN_AWG, 150)


# --- smallest


@given(circuits, degrees, st.floats(0.01, 100), st.sampled_from(KINDS), st.permutations(TABLE))
def test_smallest_is_what_trying_all_exactly_finds(circuit, celsius, limit, kind, table):
    # The oracle works out every conductor in fractions; the order of the table must not matter.
    costs = {one: exact(*circuit, one, celsius)[2] for one in of_kind(kind)}
    assume(all(abs(cost - Fraction(limit)) > 1e-9 * limit for cost in costs.values()))
    keeping = [one for one, cost in costs.items() if cost <= Fraction(limit)]
    standard, metal = kind
    found = smallest(table, *circuit, celsius, limit_percent=limit, standard=standard, metal=metal)
    assert found.conductor == min(keeping, key=lambda one: one.area_mm2, default=None)


def test_what_was_tried_runs_from_thin_to_the_one_that_keeps():
    # 20 A at 24 V over 10 m, 3 %: 0.72 V over 20 m allows 1.8 Ω/km, so 16 mm² at 75 °C (1.21 · 1.216).
    found = smallest(TABLE, 20, 24, 10_000, 75, limit_percent=3, standard="mm2", metal="plain")
    assert found.conductor is not None
    assert found.conductor.label == "16 mm2"
    tried = ["1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2", "10 mm2", "16 mm2"]
    assert [one.label for one, _ in found.tried] == tried
    assert [cost.percent.value <= 3 for _, cost in found.tried] == [False] * 5 + [True]


def test_none_keeps_the_limit_and_all_were_tried():
    # 200 A at 12 V over 30 m: even 120 mm² is far above 1 %, and the answer shows each attempt.
    found = smallest(TABLE, 200, 12, 30_000, 75, limit_percent=1, standard="mm2", metal="tinned")
    assert found.conductor is None
    assert found.tried[-1][0].label == "120 mm2"
    assert len(found.tried) == 12
    assert all(cost.percent.value > 1 for _, cost in found.tried)


def test_a_drop_exactly_at_the_limit_keeps_it():
    # 10 A over 50 m of 1 Ω/km from 10 V drops exactly 1 V, which is 10 %.
    round_number = replace(TEN_AWG, ohm_per_km=1.0)
    found = smallest([round_number], 10, 10, 50_000, 75, limit_percent=10, standard="AWG", metal="plain")
    assert found.conductor is round_number


@pytest.mark.parametrize("limit", [0, -3, 100.1, math.nan, math.inf])
def test_a_limit_that_is_none_is_refused(limit):
    with pytest.raises(ValueError, match=f"a drop limit is above 0 and at most 100 %, not {limit}"):
        smallest(TABLE, 10, 12, 5000, 75, limit_percent=limit, standard="AWG", metal="plain")


def test_a_table_without_such_copper_is_refused():
    # An empty choice is a mistake of the caller, not "no conductor keeps the limit".
    plain = [one for one in TABLE if one.metal == "plain"]
    with pytest.raises(ValueError, match="the table holds no tinned copper in AWG"):
        smallest(plain, 10, 12, 5000, 75, limit_percent=3, standard="AWG", metal="tinned")
