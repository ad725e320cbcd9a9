"""Temperature coefficients as people copy them from sheets: the unit required, the sign checked."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawcord.wire.coefficient import TemperatureCoefficient, parse_coefficient, units


@pytest.mark.parametrize(
    ("text", "of", "value", "unit"),
    [
        ("-0.27 %/°C", "Voc", -0.27, "%/°C"),
        ("-0.27%/K", "Voc", -0.27, "%/°C"),
        ("\N{MINUS SIGN}0,27 % / °C", "Voc", -0.27, "%/°C"),
        ("-0.13 V/C", "Voc", -0.13, "V/°C"),
        ("-134 mV/°C", "Voc", -134.0, "mV/°C"),
        ("-134 MV per K", "Vmp", -134.0, "mV/°C"),  # nobody has megavolts
        ("+5 mA/°C", "Isc", 5.0, "mA/°C"),
        ("0.05 %/℃", "Isc", 0.05, "%/°C"),
        ("-0.7 W/K", "Pmp", -0.7, "W/°C"),
    ],
)
def test_as_people_type_it(text, of, value, unit):
    assert parse_coefficient(text, of, 40.0) == TemperatureCoefficient(of, value, unit)


@given(st.sampled_from([("Voc", -1), ("Vmp", -1), ("Pmp", -1), ("Isc", 1)]), st.floats(0.01, 500))
def test_what_it_says_is_read_back(of_sign, size):
    # str() is what figures print, so it has to mean the same.
    of, sign = of_sign
    for unit in units(of):
        one = TemperatureCoefficient(of, sign * float(f"{size:g}"), unit)
        assert parse_coefficient(str(one), of, 40.0) == one


def test_all_units_mean_the_same_change():
    # -0.3 %/°C of 40 V is -0.12 V/°C is -120 mV/°C.
    changes = {
        parse_coefficient(text, "Voc", 40.0).per_kelvin(40.0)
        for text in ("-0.3 %/°C", "-0.12 V/°C", "-120 mV/°C")
    }
    assert all(change == pytest.approx(-0.12, rel=1e-12) for change in changes)


@pytest.mark.parametrize(
    ("text", "of", "rated", "readings"),
    [
        # 0.27 % of 49.5 V, or 0.55 %: both are modules that exist.
        ("-0.27", "Voc", 49.5, ("-0.27 %/°C", "-0.27 V/°C")),
        (-0.13, "Voc", 45.8, ("-0.13 V/°C", "-0.13 %/°C")),
        ("-134", "Voc", 49.5, ("-134 mV/°C", "-134 %/°C")),
        ("0.05", "Isc", 10.0, ("0.05 %/°C", "0.05 A/°C")),
        ("5", "Isc", 10.0, ("5 mA/°C", "5 %/°C")),
        # Without its sign as well: the readings come with the right one.
        ("0.27", "Voc", 49.5, ("-0.27 %/°C", "-0.27 V/°C")),
    ],
)
def test_without_a_unit_both_readings_are_named(text, of, rated, readings):
    with pytest.raises(ValueError, match="has no unit: it could be") as refused:
        parse_coefficient(text, of, rated)
    first, second = readings
    assert f"{first} (" in str(refused.value)
    assert f" or {second} (" in str(refused.value)


@pytest.mark.parametrize(
    ("text", "of", "sentence"),
    [
        ("0.27 %/°C", "Voc", "Voc rise with heat: it could be -0.27 %/°C .* or the coefficient of Isc"),
        ("0 V/°C", "Voc", "makes Voc rise with heat"),
        ("0.35 %/°C", "Pmp", "Pmp rise with heat: it could be -0.35 %/°C"),
        ("-0.05 %/°C", "Isc", "Isc fall with heat: it could be 0.05 %/°C .* or the coefficient of Voc"),
    ],
)
def test_the_wrong_sign_is_refused_with_both_readings(text, of, sentence):
    with pytest.raises(ValueError, match=sentence):
        parse_coefficient(text, of, 40.0)


@pytest.mark.parametrize(
    "text",
    ["", "%/°C", "-0.27 %", "-0.27 V", "-0.27 %/°F", "- %/K", "0.27..0.3 %/K", None, True, math.nan, []],
)
def test_what_is_no_coefficient(text):
    with pytest.raises(ValueError, match=r"is no coefficient of Voc: write -0\.27 %/°C"):
        parse_coefficient(text, "Voc", 40.0)


@pytest.mark.parametrize(("of", "unit"), [("Voc", "A/°C"), ("Isc", "V/°C"), ("Pmp", "V/°C"), ("Voc", "")])
def test_a_unit_of_another_quantity_is_refused(of, unit):
    with pytest.raises(ValueError, match=rf"the coefficient of {of} is in %/°C or .*, not '{unit}'"):
        TemperatureCoefficient(of, -0.1, unit)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_coefficient_is_a_number(value):
    with pytest.raises(ValueError, match=f"must be a number, not {value}"):
        TemperatureCoefficient("Voc", value, "%/°C")
