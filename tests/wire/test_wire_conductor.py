"""The wire gauge and copper's change with temperature, against those who publish either."""

import math
from dataclasses import replace

import pytest

from drawcord.files.tables import conductors
from drawcord.wire.conductor import (
    COEFFICIENTS,
    COLDEST,
    HOTTEST,
    Conductor,
    awg_area_mm2,
    awg_diameter_mm,
    awg_number,
    resistance,
)

MM_PER_INCH = 25.4
MM2_PER_KCMIL = 1000 * math.pi / 4 * (MM_PER_INCH / 1000) ** 2

# NEC chapter 9 table 8, kcmil (seen; 18 and 16 AWG in two texts of the same table).
KCMIL = {
    "18": 1.62, "16": 2.58, "14": 4.11, "12": 6.53, "10": 10.38, "8": 16.51, "6": 26.24, "4": 41.74,
    "3": 52.62, "2": 66.36, "1": 83.69, "1/0": 105.6, "2/0": 133.1,
    "3/0": 167.8, "4/0": 211.6,
}  # fmt: skip

# --- the gauge


@pytest.mark.parametrize(
    ("gauge", "mm2"),
    [
        ("14", 2.081), ("12", 3.309), ("10", 5.261), ("8", 8.366), ("6", 13.302), ("4", 21.151),
        ("2", 33.631), ("1", 42.408), ("1/0", 53.475), ("2/0", 67.431),
        ("3/0", 85.029), ("4/0", 107.219),
    ],
)  # fmt: skip
def test_section_of_a_gauge(gauge, mm2):
    # ASTM B258-02, four and five digits (recomputed).
    assert awg_area_mm2(awg_number(gauge)) == pytest.approx(mm2, abs=0.0006)


@pytest.mark.parametrize(("gauge", "kcmil"), KCMIL.items())
def test_section_agrees_with_circular_mils(gauge, kcmil):
    # NEC chapter 9 table 8 prints the same sections in kcmil, to three or four digits.
    assert awg_area_mm2(awg_number(gauge)) == pytest.approx(kcmil * MM2_PER_KCMIL, rel=0.003)


def test_the_gauge_is_fixed_at_its_two_ends():
    # ASTM B258-02 defines 4/0 as 0.4600 in and 36 as 0.0050 in.
    assert awg_diameter_mm(awg_number("4/0")) == pytest.approx(0.46 * MM_PER_INCH, rel=1e-12)
    assert awg_diameter_mm(awg_number("36")) == pytest.approx(0.005 * MM_PER_INCH, rel=1e-12)


@pytest.mark.parametrize("gauge", ["", "5/0", "0/0", "0", "-1", "45", "2.5", "ten", "1_0", " 10", "²"])
def test_what_is_no_gauge_is_refused(gauge):
    # Python reads some of these as numbers; the gauge does not.
    with pytest.raises(ValueError, match="a wire gauge is 4/0 to 1/0 or 1 to 44, not"):
        awg_number(gauge)


# --- temperature

RHO = 17.241  # annealed copper at 20 °C [Ω·mm²/km], NBS Handbook 100 (seen)
IACS = Conductor("1 mm2", 1.0, RHO, 20.0, "plain", "mm2", "NBS Handbook 100")


@pytest.mark.parametrize("celsius", [20, 40, 60, 75, 90, 105, 120])
def test_heat_shortens_a_run_as_the_faa_says(celsius):
    # FAA AC 43.13-1B change 1, paragraph 11-66b(4): L2 = 254.5 L1 / (234.5 + T2), for copper (seen).
    assert resistance(IACS, celsius) == pytest.approx(RHO * (234.5 + celsius) / 254.5, rel=2e-4)


@pytest.mark.parametrize(
    ("celsius", "kt"),
    [(5, 1.064), (10, 1.042), (30, 0.962), (50, 0.893), (75, 0.820), (90, 0.781), (100, 0.758)],
)
def test_reduction_to_20_degrees_as_iec_60228_says(celsius, kt):
    # Factors printed with IEC 60228 (seen); they follow its rounded 250 / (230 + T), hence 0.5 %.
    assert RHO / resistance(IACS, celsius) == pytest.approx(kt, rel=0.005)


@pytest.mark.parametrize(
    ("celsius", "pure"),
    [
        (0, 15.43), (25, 17.12), (100, 22.2),  # CRC Handbook, wire tables (seen)
        (-23.15, 13.87), (76.85, 20.63),  # CRC Handbook, 250 K and 350 K (from memory)
        # The range's ends, between 200 K and 250 K and between 350 K and 400 K (from memory).
        (COLDEST, 10.46 + (13.87 - 10.46) * 33.15 / 50),
        (HOTTEST, 20.63 + (24.02 - 20.63) * 43.15 / 50),
    ],
)  # fmt: skip
def test_copper_is_linear_over_the_stated_range(celsius, pure):
    # Impurities add the same at any temperature (Matthiessen's rule), so annealed copper gains what pure
    # copper [Ω·mm²/km, 16.78 at 20 °C] gains.
    assert resistance(IACS, celsius) == pytest.approx(RHO + pure - 16.78, rel=0.002)


def test_both_coefficients_are_one_straight_line():
    # 0.00393 at 20 °C becomes 0.00393 / (1 + 0.00393 · 55) at 75 °C, which NEC prints as 0.00323.
    referred = COEFFICIENTS[20.0].per_kelvin / (1 + COEFFICIENTS[20.0].per_kelvin * 55)
    assert round(referred, 5) == COEFFICIENTS[75.0].per_kelvin


@pytest.mark.parametrize("conductor", conductors(), ids=lambda one: f"{one.label} {one.metal}")
def test_at_the_reference_the_table_stands_as_printed(conductor):
    assert resistance(conductor, conductor.reference_celsius) == conductor.ohm_per_km


@pytest.mark.parametrize("celsius", [-40.1, 120.1, 1000, -274, math.nan, math.inf])
def test_no_temperature_outside_the_range(celsius):
    # Never extrapolated; NaN must not pass as a temperature either.
    with pytest.raises(ValueError, match=f"linear from -40 to 120 °C, not at {celsius}"):
        resistance(IACS, celsius)


@pytest.mark.parametrize("reference", [0.0, 25.0, 90.0, math.nan])
def test_no_reference_without_a_published_coefficient(reference):
    with pytest.raises(ValueError, match=f"known for tables at 20 or 75 °C, not at {reference}"):
        replace(IACS, reference_celsius=reference)


@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf])
@pytest.mark.parametrize(("field", "word"), [("area_mm2", "section"), ("ohm_per_km", "resistance")])
def test_no_conductor_without_copper(field, word, value):
    with pytest.raises(ValueError, match=f"the {word} of 1 mm2 must be above zero, not {value}"):
        replace(IACS, **{field: value})
