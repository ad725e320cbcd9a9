"""The published resistances against what copper, gauge and stranding say on their own."""

import math
from dataclasses import replace
from importlib.resources import files

import pytest

from drawcord.files.tables import KM_PER_KFT, conductors
from drawcord.wire.conductor import awg_area_mm2, awg_number

TABLE = conductors()
AWG = [one for one in TABLE if one.standard == "AWG"]
MM2 = [one for one in TABLE if one.standard == "mm2"]

# Annealed copper at 20 °C [Ω·mm²/km]. NBS Handbook 100 (seen).
RHO = 17.241
MM_PER_INCH = 25.4

# ASTM B8 class B: number of wires and their diameter [in]. Seen in strand tables of wire makers, but 3 AWG
# to four digits from memory (NEC table 8 prints 7 of 0.087).
CLASS_B = {
    "18": (7, 0.0152), "16": (7, 0.0192), "14": (7, 0.0242), "12": (7, 0.0305), "10": (7, 0.0385),
    "8": (7, 0.0486), "6": (7, 0.0612), "4": (7, 0.0772), "3": (7, 0.0867), "2": (7, 0.0974),
    "1": (19, 0.0664), "1/0": (19, 0.0745), "2/0": (19, 0.0837), "3/0": (19, 0.0940),
    "4/0": (19, 0.1055),
}  # fmt: skip

# Class 5: number of wires and their diameter [mm]. Up to 10 mm² as DIN VDE 0295 strand tables print them
# (seen); 16 to 50 mm² as another strand table prints them (seen), 70 mm² and more from memory. The DIN tables, which
# call their numbers not binding, print 128, 200, 280, 400 and 356 for these: up to 1.6 % off.
CLASS_5 = {
    "1.5": (30, 0.25), "2.5": (50, 0.25), "4": (56, 0.30), "6": (84, 0.30), "10": (80, 0.40),
    "16": (126, 0.40), "25": (196, 0.40), "35": (276, 0.40), "50": (396, 0.40), "70": (360, 0.50),
    "95": (475, 0.50), "120": (608, 0.50),
}  # fmt: skip

# How far a printed value may be from its recomputation; three printed digits alone are up to 0.5 % coarse.
TOLERANCE = 0.005


def size(conductor):
    return conductor.label.split()[0]


def wires_mm2(number, diameter_mm):
    return number * math.pi / 4 * diameter_mm**2


def awg_from_strands(conductor):
    """[Ω/km] at 75 °C from the strands: IACS, 2 % for the lay, and ASTM B33-04 table 2 for tin."""
    number, inches = CLASS_B[size(conductor)]
    plain = RHO * (1 + 0.00393 * 55) * 1.02 / wires_mm2(number, inches * MM_PER_INCH)
    # Resistivity [Ω·lb/mile²] of tinned wire by its diameter (seen; of the thickest from memory) over that of annealed
    # copper (memory).
    tin = (929.52 if inches < 0.0201 else 910.15 if inches < 0.1033 else 900.77) / 875.20
    return plain * tin if conductor.metal == "tinned" else plain


def mm2_from_strands(conductor):
    """[Ω/km] at 20 °C from the strands: IACS · K1 K2 K3 over their section, as IEC 228 has it.

    The factors are from memory: K1 for the wire's tolerance and tin, K2 for bunching, K3 for laying up.
    """
    number, mm = CLASS_5[size(conductor)]
    tin = conductor.metal == "tinned"
    if mm <= 0.31:
        k1, k3 = (1.07 if tin else 1.04), 1.05
    else:
        k1, k3 = (1.05 if tin else 1.03), 1.04
    return RHO * k1 * 1.04 * k3 / wires_mm2(number, mm)


def from_strands(conductor):
    return awg_from_strands(conductor) if conductor.standard == "AWG" else mm2_from_strands(conductor)


def agrees(conductor):
    """Whether a conductor's resistance is what its strands make it."""
    return abs(conductor.ohm_per_km / from_strands(conductor) - 1) <= TOLERANCE


def name(conductor):
    return f"{conductor.label} {conductor.metal}"


# --- the rows


def test_the_tables_hold_every_row_once():
    # 15 gauges and 12 sections, plain and tinned, and no label twice within a metal.
    assert len(AWG) == 2 * len(CLASS_B) == 30
    assert len(MM2) == 2 * len(CLASS_5) == 24
    assert len({(one.label, one.metal) for one in TABLE}) == len(TABLE)


@pytest.mark.parametrize("conductor", TABLE, ids=name)
def test_a_row_is_what_its_strands_make_it(conductor):
    # Two independent roads to one number: what the standard prints, and copper times stranding.
    assert agrees(conductor)


@pytest.mark.parametrize("factor", [0.99, 1.01])
@pytest.mark.parametrize("conductor", TABLE, ids=name)
def test_a_row_changed_by_one_percent_is_caught(conductor, factor):
    # A misread digit must not slip through; the reference is not copied from the row.
    assert not agrees(replace(conductor, ohm_per_km=conductor.ohm_per_km * factor))


@pytest.mark.parametrize("conductor", [one for one in AWG if one.metal == "plain"], ids=name)
def test_uncoated_awg_is_iacs_and_two_percent_over_the_gauges_section(conductor):
    # IACS times 1.02 over ASTM B258's section, at 75 °C. 12 AWG is off by 0.503 %: its printed value stands
    # on strands rounded to 30.5 mil, which is why this check is coarser than the one from strands.
    expected = RHO * (1 + 0.00393 * 55) * 1.02 / awg_area_mm2(awg_number(size(conductor)))
    assert conductor.ohm_per_km == pytest.approx(expected, rel=0.006)


@pytest.mark.parametrize("conductor", MM2, ids=name)
def test_class_5_lies_above_bare_copper_of_the_nominal_section(conductor):
    # A maximum for flexible strands: 10 to 19 % above solid IACS copper of the nominal section.
    solid = RHO / conductor.area_mm2
    assert 1.10 < conductor.ohm_per_km / solid < 1.20


@pytest.mark.parametrize("table", [AWG, MM2], ids=["AWG", "mm2"])
def test_tin_adds_two_to_seven_percent(table):
    # ASTM B33-04 table 2 allows 2.4 % for thick to 7.3 % for thin wire (seen); IEC prints 1.8 % up.
    plain = {one.label: one.ohm_per_km for one in table if one.metal == "plain"}
    for one in table:
        if one.metal == "tinned":
            assert 1.015 < one.ohm_per_km / plain[one.label] < 1.07


@pytest.mark.parametrize("metal", ["plain", "tinned"])
@pytest.mark.parametrize("standard", ["AWG", "mm2"])
def test_thicker_rows_resist_less(standard, metal):
    # A row out of place would size a cable wrongly.
    rows = [one for one in TABLE if (one.standard, one.metal) == (standard, metal)]
    assert rows == sorted(rows, key=lambda one: one.area_mm2)
    assert rows == sorted(rows, key=lambda one: -one.ohm_per_km)


def test_stranded_is_not_the_solid_column():
    # NEC chapter 9 table 8 prints these for solid wire (seen); they are often reprinted as stranded.
    solid = {"14 AWG": 3.07, "12 AWG": 1.93, "10 AWG": 1.21, "8 AWG": 0.764}
    for one in AWG:
        if one.metal == "plain" and one.label in solid:
            assert one.ohm_per_km * KM_PER_KFT > solid[one.label] * 1.01


def test_ohms_per_thousand_feet_become_ohms_per_kilometre():
    # 3.14 Ω/kft is 10.3018 Ω/km; NEC table 8 itself prints 10.3 in its metric column (from memory).
    fourteen = next(one for one in AWG if name(one) == "14 AWG plain")
    assert fourteen.ohm_per_km == pytest.approx(3.14 / 0.3048, rel=1e-15)
    assert round(fourteen.ohm_per_km, 1) == 10.3


def test_every_table_is_in_the_sources_and_every_row_names_its_own():
    # Nobody should have to guess whose word a number is.
    folder = files("drawcord") / "tables"
    sources = (folder / "SOURCES.md").read_text(encoding="utf-8")
    tables = [entry.name for entry in folder.iterdir() if entry.name.endswith(".csv")]
    assert tables
    for table in tables:
        assert f"`{table}`" in sources
    assert all(one.source.startswith(("NEC chapter 9 table 8", "IEC 60228:2004")) for one in TABLE)
