"""Voltage drops that others have published, each with its source, in the units they print."""

import math

import pytest

from drawcord.files.tables import KM_PER_KFT, conductors
from drawcord.wire.conductor import Conductor, awg_area_mm2, awg_number, resistance
from drawcord.wire.drop import drop, smallest

MM_PER_FOOT = 304.8
MM2_PER_CIRCULAR_MIL = math.pi / 4 * 0.0254**2


def feet(length):
    return round(length * MM_PER_FOOT)


def wire(ohm_per_km, label="a wire", area_mm2=1.0):
    """A wire whose resistance the publication states, at the temperature it means."""
    return Conductor(label, area_mm2, ohm_per_km, 20.0, "plain", "AWG", "the publication")


def of_circular_mils(mils, ohm_cmil_per_foot, label="a wire"):
    """A wire by its section, for the publications that reckon in Ω·cmil/ft."""
    return wire(ohm_cmil_per_foot / mils / MM_PER_FOOT * 1e6, label, mils * MM2_PER_CIRCULAR_MIL)


def single(ohm_per_kft, amperes, length):
    """Volts lost in one wire, half of there and back."""
    return drop(amperes, 28, feet(length), wire(ohm_per_kft / KM_PER_KFT), 20).volts.value / 2


# --- FAA AC 43.13-1B change 1 (27 September 2001), page 11-22; seen


@pytest.mark.parametrize(
    ("ohm_per_kft", "length", "volts"),
    [(0.44, 107, 0.942), (0.28, 90, 0.504), (3.06, 100, 6.12)],
)
def test_faa_table_11_7(ohm_per_kft, length, volts):
    # Single-wire drops at 20 A, to the three digits printed.
    assert single(ohm_per_kft, 20, length) == pytest.approx(volts, abs=0.0006)


def test_faa_table_11_7_third_row_is_rounded_coarsely():
    # 2.02 Ω/kft over 88 ft at 20 A makes 3.555 V; printed is 3.60.
    assert single(2.02, 20, 88) == pytest.approx(3.5552, abs=0.0001)
    assert single(2.02, 20, 88) == pytest.approx(3.60, rel=0.013)


@pytest.mark.parametrize(("length", "volts"), [(39, 0.98), (156, 3.93), (273, 6.88)])
def test_faa_table_11_8(length, volts):
    # No. 10 at 1.26 Ω/kft and 20 A, to the two decimals printed.
    assert single(1.26, 20, length) == pytest.approx(volts, abs=0.005)


def test_faa_table_11_8_second_row_is_an_erratum():
    # Printed 0.366 V for 19.5 ft, half of the 39 ft that make 0.98 V: 0.491 V is right. Pinned as an erratum.
    assert single(1.26, 20, 19.5) == pytest.approx(0.491, abs=0.0005)
    assert single(1.26, 20, 19.5) > 1.3 * 0.366


# --- Lessons in Electric Circuits, volume I (DC), the chapter on conductors (edition not named); seen

AWG_CIRCULAR_MILS = {
    size: awg_area_mm2(awg_number(size)) / MM2_PER_CIRCULAR_MIL
    for size in ("14", "12", "10", "8", "6", "4", "2", "1", "1/0", "2/0", "3/0", "4/0")
}


def test_lessons_the_wire_for_an_allowed_resistance():
    # 230 V, 25 A, 2300 ft, 0.2 Ω allowed a wire, 10.09 Ω·cmil/ft: 116 035 cmil, so 2/0.
    allowed = 100 * 2 * 0.2 * 25 / 230
    exactly = drop(25, 230, feet(2300), of_circular_mils(116_035, 10.09), 20)
    assert exactly.ohms.value / 2 == pytest.approx(0.2, rel=1e-5)
    table = [of_circular_mils(mils, 10.09, size) for size, mils in AWG_CIRCULAR_MILS.items()]
    found = smallest(table, 25, 230, feet(2300), 20, limit_percent=allowed, standard="AWG", metal="plain")
    assert found.conductor is not None
    assert found.conductor.label == "2/0"


def test_lessons_the_same_run_in_14_awg():
    # The book's table gives 14 AWG 4107 cmil: 5.651 Ω a wire, 11.301 Ω the loop, at most 20.352 A.
    assert AWG_CIRCULAR_MILS["14"] == pytest.approx(4107, abs=0.5)
    loop = drop(25, 230, feet(2300), of_circular_mils(4107, 10.09), 20).ohms.value
    assert loop / 2 == pytest.approx(5.651, abs=0.0005)
    assert loop == pytest.approx(11.301, abs=0.0005)
    assert 230 / loop == pytest.approx(20.352, abs=0.0005)


def test_lessons_a_warmer_cable():
    # 14 V, two wires of 15 Ω at 20 °C, 250 Ω load: from 20 to 35 °C the load falls from 12.5 to 12.42 V and
    # each wire rises from 0.75 to 0.79 V. The book takes 0.004041/K; ours, 0.00393, gives the same digits.
    cable = wire(15.0)
    for celsius, load, each in ((20, 12.5, 0.75), (35, 12.42, 0.79)):
        amperes = 14 / (250 + 2 * resistance(cable, celsius))
        lost = drop(amperes, 14, 1_000_000, cable, celsius).volts.value
        assert 14 - lost == pytest.approx(load, abs=0.005)
        assert lost / 2 == pytest.approx(each, abs=0.005)


# --- single cases


def test_training_text_16_awg_at_24_volts():
    # An electrician's training text: NEC table 8, 16 AWG uncoated, 100 ft one way, 4 A: 4.0 V (seen). It
    # prints 16.7 % of 24 V, having rounded before it divided; 3.992 V are 16.63 %. Uses the packaged row.
    sixteen = next(one for one in conductors() if (one.label, one.metal) == ("16 AWG", "plain"))
    cost = drop(4, 24, feet(100), sixteen, 75)
    assert cost.volts.value == pytest.approx(4.0, abs=0.01)
    assert cost.volts.value == pytest.approx(3.992, abs=0.0005)
    assert cost.percent.value == pytest.approx(16.7, abs=0.07)


@pytest.mark.parametrize(("percent", "mils"), [(3, 6271), (10, 1881)])
def test_abyc_e_11_worked_example(percent, mils):
    # ABYC E-11 (edition not named by the text seen): 12 V, 10 A, 11 + 10 ft there and back, K = 10.75.
    # 10.5 ft one way is 3200.4 mm, taken as whole millimetres.
    cost = drop(10, 12, feet(10.5), of_circular_mils(mils, 10.75), 20)
    assert cost.percent.value == pytest.approx(percent, rel=5e-4)


def test_bs_7671_millivolts_per_ampere_and_metre():
    # A BS 7671 course example: 2.5 mm², 18 mV/A/m there and back, 16 A, 18 m: 5.18 V (seen).
    assert drop(16, 230, 18_000, wire(9.0), 20).volts.value == pytest.approx(5.18, abs=0.005)


def test_octave_exercise():
    # A published GNU Octave exercise set: 24 V, 50 m, 1 mm², 2 A, 0.01786 Ω·mm²/m: loop 1.786 Ω, load
    # 20.428 V, 14.883 % (seen).
    cost = drop(2, 24, 50_000, wire(17.86), 20)
    assert cost.ohms.value == pytest.approx(1.786, abs=0.0005)
    assert 24 - cost.volts.value == pytest.approx(20.428, abs=0.0005)
    assert cost.percent.value == pytest.approx(14.883, abs=0.0005)


def test_trade_article_10_awg_at_17_volts():
    # A trade article: 45 ft one way, 10 AWG, 23 A, 17.4 V: about 11.9 %, 2.07 V (seen). Solid wire at 20 °C.
    solid = wire(17.241 / awg_area_mm2(awg_number("10")))
    cost = drop(23, 17.4, feet(45), solid, 20)
    assert cost.volts.value == pytest.approx(2.07, abs=0.005)
    assert cost.percent.value == pytest.approx(11.9, abs=0.05)


# --- ABYC E-11, 12 V, 3 % (seen; edition not named by the text seen)

# SAE minimum conductor areas [circular mils], thin to thick.
SAE = {
    "18": 1537, "16": 2336, "14": 3702, "12": 5833, "10": 9343, "8": 14810, "6": 24538, "4": 37360,
    "2": 62450, "1": 77790, "1/0": 98980, "2/0": 125100,
}  # fmt: skip

ROUND_TRIP_FEET = (10, 15, 20, 25, 30, 40, 50, 60, 80, 100)
ABYC = {
    5: "18 16 14 12 12 10 10 10 8 6",
    10: "14 12 10 10 10 8 6 6 6 4",
    15: "12 10 10 8 8 6 6 6 4 2",
    20: "10 10 8 6 6 6 4 4 2 2",
    25: "10 8 6 6 6 4 4 2 2 1",
}
MISPRINT = (15, 60)


def abyc_by_formula(amperes, round_trip, sections):
    """The size that CM = K I L / E asks for, by the product: K = 10.75 Ω·cmil/ft, 3 % of 12 V."""
    table = [of_circular_mils(mils, 10.75, size) for size, mils in sections.items()]
    found = smallest(
        table, amperes, 12, feet(round_trip / 2), 20, limit_percent=3, standard="AWG", metal="plain"
    )
    assert found.conductor is not None
    return found.conductor.label


@pytest.mark.parametrize(
    ("amperes", "round_trip", "printed"),
    [
        (amperes, length, size)
        for amperes, row in ABYC.items()
        for length, size in zip(ROUND_TRIP_FEET, row.split(), strict=True)
        if (amperes, length) != MISPRINT
    ],
)
def test_abyc_e_11_table(amperes, round_trip, printed):
    # 49 of the 50 printed sizes, with SAE's sections.
    assert abyc_by_formula(amperes, round_trip, SAE) == printed


def test_abyc_e_11_misprint():
    # 15 A over 60 ft: the print has 6, the formula 26 875 cmil and so 4: printed a size too thin.
    assert 24_538 < 10.75 * 15 * 60 / 0.36 < 37_360
    assert abyc_by_formula(*MISPRINT, SAE) == "4"


def test_abyc_e_11_needs_the_sae_sections():
    # With AWG sections many entries differ, so the table does check which sections were used.
    differing = sum(
        abyc_by_formula(amperes, length, AWG_CIRCULAR_MILS | {"18": 1624, "16": 2583}) != size
        for amperes, row in ABYC.items()
        for length, size in zip(ROUND_TRIP_FEET, row.split(), strict=True)
    )
    assert differing >= 5
