"""What conductors carry: published examples, the worst leg against working out all, what must always hold."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wire_samples import AWG, EUROPE, MM2, US, cable

from drawcord.files.rule_tables import published
from drawcord.wire.ampacity import Leg, carried, worst
from drawcord.wire.carrying import carrying, smallest_carrying
from drawcord.wire.currents import array_current, continuous_current, rated_current
from drawcord.wire.published import Adjustment

TABLES = published()
NEC, BOATS, IEC = US.method, US.added[0], EUROPE.method
METHODS = [(NEC, AWG, 90), (BOATS, AWG, 105), (IEC, MM2, 90), (IEC, MM2[:8], 120)]


def leg(celsius=30.0, conductors=2, length=5000, **changed):
    return Leg("leg", celsius, conductors, length, **changed)


def amperes(method, section, insulation, where):
    return carried(method, section, insulation, where, US.sunlit).amperes.value


# --- worked examples


def test_four_conductors_of_10_awg():
    # NEC: 10 AWG, 90 °C, four together: 40 · 0.80 = 32 A (seen).
    assert amperes(NEC, "10 AWG", 90, leg(conductors=4)) == pytest.approx(32)


def test_10_awg_at_45_degrees():
    # NEC: 40 · 0.87 = 34.8 A (seen).
    assert amperes(NEC, "10 AWG", 90, leg(celsius=45)) == pytest.approx(34.8)


def test_nec_690_8_with_8_8_amperes():
    # Isc 8.8 A: Imax 11 A, 13.75 A to size by, 14 AWG in the 75 °C column; a 15 A device protects it (seen).
    imax = array_current([8.8], US.brighter)
    assert imax.value == pytest.approx(11)
    assert continuous_current(imax, US.longer).value == pytest.approx(13.75)
    tried = smallest_carrying(US, [cable(size) for size in AWG], imax, [leg()], terminal_celsius=75)
    assert [one.cable.section for one in tried] == ["14 AWG"]
    assert tried[0].device.rating.value == 15


def test_nec_690_8_with_11_2_amperes():
    # Isc 11.2 A: 14.0, 17.5 A; 10 AWG at 45 °C carries 34.8 A, a device of 20 A (seen).
    found = carrying(
        US, cable("10 AWG"), array_current([11.2], US.brighter), [leg(celsius=45)], terminal_celsius=75
    )
    assert found.imax.value == pytest.approx(14.0)
    assert found.continuous.value == pytest.approx(17.5)
    assert found.governing.amperes.value == pytest.approx(34.8)
    assert found.device.rating.value == 20
    assert found.fits


def test_a_current_of_exactly_the_ampacity_is_carried():
    # NEC 310.16, 310.15(B)(1) and (C)(1): 40 A · 0.87 · 0.7 is 24.36 A to the last digit, of which a binary product
    # loses some; no thicker cable for that.
    where = [leg(celsius=45, conductors=7)]
    found = carrying(US, cable("10 AWG"), rated_current(24.36, "it", "test"), where, terminal_celsius=75)
    assert 40 * 0.87 * 0.7 < 24.36
    nec = next(one for one in (found.governing, *found.others) if one.amperes.source == "NEC 2023 310.15")
    assert nec.amperes.value == 24.36


def test_the_second_factor_is_not_combined_with_derating():
    # 22 A in 12 AWG at 45 °C with four together: 30 · 0.87 · 0.8 = 20.9 A is below 22; of 20 A it carries
    # that, and 1.25 · 16 = 20 A in the 60 °C column, though 20.9 A are below 1.25 · 20 A.
    where = [leg(celsius=45, conductors=4)]
    assert not carrying(US, cable("12 AWG"), rated_current(22, "it", "test"), where).fits
    assert carrying(US, cable("12 AWG"), rated_current(16, "it", "test"), where).fits


@pytest.mark.parametrize(
    ("section", "insulation", "conductors", "value"),
    [
        ("10 AWG", 105, 2, 60),
        ("10 AWG", 105, 3, 42),
        ("8 AWG", 105, 6, 48),
        ("2 AWG", 105, 7, 105),
        ("14 AWG", 105, 25, 14),
    ],
)
def test_boats_table_and_bundles(section, insulation, conductors, value):
    # 33 CFR 183.425 table 5 and its bundle factors 0.70, 0.60, 0.50, 0.40 (public law, seen).
    assert amperes(BOATS, section, insulation, leg(conductors=conductors)) == pytest.approx(value)


@pytest.mark.parametrize(
    ("section", "inside"),
    [("18 AWG", 17), ("16 AWG", 21), ("14 AWG", 30), ("12 AWG", 38), ("10 AWG", 51), ("8 AWG", 68),
     ("6 AWG", 102), ("4 AWG", 136), ("3 AWG", 153), ("2 AWG", 178), ("1 AWG", 208), ("1/0 AWG", 242),
     ("2/0 AWG", 280)],
)  # fmt: skip
def test_boats_engine_space_as_a_supplier_prints_it(section, inside):
    # 105 °C insulation inside engine spaces, rounded there to whole amperes (seen).
    assert amperes(BOATS, section, 105, leg(celsius=50)) == pytest.approx(inside, abs=0.51)


@pytest.mark.parametrize(
    ("section", "value"),
    [
        ("1.5 mm2", 30),
        ("2.5 mm2", 41),
        ("4 mm2", 55),
        ("6 mm2", 70),
        ("10 mm2", 98),
        ("16 mm2", 132),
        ("25 mm2", 176),
        ("35 mm2", 218),
    ],
)
def test_en_50618_in_free_air_at_60_degrees(section, value):
    # EN 50618, from memory: the column is for one cable alone.
    assert amperes(IEC, section, 120, leg(celsius=60, free_air=True, conductors=1)) == value
    # Both poles lie side by side: IEC 60364-5-52 table B.52.17 (from memory), 0.80 for two, since each cable of that
    # column counts; where conductors run in pairs, as in every other table, the pair is one circuit.
    assert amperes(IEC, section, 120, leg(celsius=60, free_air=True)) == pytest.approx(0.8 * value)
    assert amperes(IEC, section, 90, leg(celsius=30)) == next(
        row.amperes for row in IEC.enclosed if (row.section, row.insulation) == (section, 90)
    )


# --- which table, which column


def test_insulation_hotter_than_the_table_counts_as_its_hottest_column():
    assert amperes(NEC, "10 AWG", 105, leg()) == amperes(NEC, "10 AWG", 90, leg()) == 40
    assert amperes(NEC, "10 AWG", 80, leg()) == 35


def test_free_air_has_its_own_table():
    # NEC table 310.17: 55 A against 40 A.
    assert amperes(NEC, "10 AWG", 90, leg(free_air=True)) == 55
    # EN 50618 knows only its own cable: insulation of 90 °C falls back to the stricter enclosed table.
    assert amperes(IEC, "4 mm2", 90, leg(free_air=True)) == amperes(IEC, "4 mm2", 90, leg()) == 42


def test_close_above_a_sunlit_roof_33_kelvin_are_added():
    # NEC 310.15(B)(2): 40 + 33 = 73 °C, 0.50 of 40 A; not from 7/8 in (23 mm) up.
    assert amperes(NEC, "10 AWG", 90, leg(celsius=40, roof_gap_mm=10)) == pytest.approx(20)
    assert amperes(NEC, "10 AWG", 90, leg(celsius=40, roof_gap_mm=23)) == pytest.approx(40 * 0.91)


def test_a_short_bundle_does_not_count():
    # NEC 310.15(C)(1): more than 24 in (609.6 mm).
    assert amperes(NEC, "10 AWG", 90, leg(conductors=6, length=609)) == 40
    assert amperes(NEC, "10 AWG", 90, leg(conductors=6, length=610)) == 32
    # Boats' table has no such length.
    assert amperes(BOATS, "10 AWG", 105, leg(conductors=6, length=100)) == 36


def test_iec_counts_circuits_and_an_odd_conductor_is_one():
    assert amperes(IEC, "4 mm2", 90, leg(conductors=2)) == 42
    assert amperes(IEC, "4 mm2", 90, leg(conductors=3)) == pytest.approx(42 * 0.80)
    assert amperes(IEC, "4 mm2", 90, leg(conductors=4)) == pytest.approx(42 * 0.80)


def test_between_two_bands_of_temperature_the_hotter_serves():
    assert amperes(NEC, "10 AWG", 90, leg(celsius=45.1)) == pytest.approx(40 * 0.82)


def test_where_a_bundle_rule_is_disputed_it_says_so():
    assert (
        "disputed (33 CFR 183.435(b))"
        in carried(BOATS, "10 AWG", 105, leg(conductors=4), US.sunlit).adjusted.source
    )


# --- never beyond a table


@pytest.mark.parametrize(
    ("method", "section", "insulation", "where", "sentence"),
    [
        (NEC, "16 AWG", 90, leg(), "NEC 2023 310.15 holds no 16 AWG"),
        (NEC, "6 mm2", 90, leg(), "holds no 6 mm2"),
        (NEC, "10 AWG", 55, leg(), "has columns for 60, 75, 90 °C, none at or below 55 °C"),
        (NEC, "10 AWG", 90, leg(celsius=85.1), "ends at 85 °C for insulation of 90 °C, leg has 85.1 °C"),
        (NEC, "10 AWG", 60, leg(celsius=56), "ends at 55 °C for insulation of 60 °C"),
        (NEC, "10 AWG", 90, leg(celsius=53, roof_gap_mm=0), "leg has 86 °C"),
        (BOATS, "10 AWG", 105, leg(celsius=51), "33 CFR 183.425 ends at 50 °C"),
        (IEC, "4 mm2", 120, leg(celsius=91, free_air=True), "ends at 90 °C for insulation of 120 °C"),
        (IEC, "4 mm2", 90, leg(conductors=41), "ends at 20 together, and leg has 21"),
    ],
)
def test_a_table_asked_beyond_its_range_refuses(method, section, insulation, where, sentence):
    with pytest.raises(ValueError, match=sentence.replace("(", r"\(").replace(")", r"\)")):
        carried(method, section, insulation, where, US.sunlit)


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"celsius": math.nan}, "the temperature around leg must be a number, not nan"),
        ({"conductors": 0}, "the conductors in leg must be 1 or more, not 0"),
        ({"length": -1}, "the length of leg must be 0 mm or more, not -1"),
        ({"roof_gap_mm": -1.0}, "the gap under leg must be 0 mm or more, not -1.0"),
    ],
)
def test_a_leg_that_cannot_be(changed, sentence):
    with pytest.raises(ValueError, match=sentence):
        leg(**changed)


@pytest.mark.parametrize("currents", [[], [0.0], [10.0, -1.0], [math.nan]])
def test_no_array_without_current(currents):
    with pytest.raises(ValueError, match=r"at least one string|a string's Isc must be above 0 A"):
        array_current(currents, US.brighter)


# --- the worst leg

legs = st.builds(
    Leg,
    st.sampled_from(["roof", "chase", "bay"]),
    st.integers(-20, 50).map(float),
    st.integers(1, 40),
    st.integers(0, 5000),
    st.one_of(st.none(), st.floats(0, 100)),
    st.booleans(),
)
thin_to_thick = st.sampled_from(METHODS)


def by_hand(section, where):
    """The oracle for copper in the NEC's 90 °C column, straight from the printed tables."""
    table = TABLES.nec_free_air if where.free_air else TABLES.nec_enclosed
    (base,) = [row.amperes for row in table if row.section == section and row.insulation == 90]
    hot = where.celsius + (33 if where.roof_gap_mm is not None and where.roof_gap_mm < 23 else 0)
    heat = min(
        (row.up_to, row.factor) for row in TABLES.nec_ambient if row.insulation == 90 and row.up_to >= hot
    )[1]
    crowd = min((row.up_to, row.factor) for row in TABLES.nec_bundle if row.up_to >= where.conductors)[1]
    return base * heat * (crowd if where.length_mm > 24 * 25.4 else 1)


@given(st.lists(legs, min_size=1, max_size=5), st.sampled_from(AWG))
def test_the_worst_leg_governs(several, section):
    found = worst(NEC, section, 90, several, US.sunlit)
    assert found.amperes.value == pytest.approx(min(by_hand(section, one) for one in several))
    assert by_hand(section, found.leg) == pytest.approx(found.amperes.value)


@given(st.lists(legs, min_size=1, max_size=4), legs, st.sampled_from(AWG))
def test_another_leg_never_raises_what_a_cable_carries(several, another, section):
    before = worst(NEC, section, 90, several, US.sunlit).amperes.value
    assert worst(NEC, section, 90, [*several, another], US.sunlit).amperes.value <= before


def test_a_cable_without_legs_is_refused():
    with pytest.raises(ValueError, match="a cable has at least one leg"):
        worst(NEC, "10 AWG", 90, [], US.sunlit)


# --- what must always hold


def within(method, insulation, where):
    """The leg as hot and crowded as the method's tables go at most."""
    tables = method.free_air if where.free_air else (), method.enclosed
    columns = ([row.insulation for row in table if row.insulation <= insulation] for table in tables)
    column = max(next(filter(None, columns)))
    row = max(row.up_to for row in method.corrections if row.insulation <= column)
    most = min(row - 33, 30 if method is BOATS else row)
    return replace(where, celsius=min(where.celsius, most), conductors=min(where.conductors, 20))


@given(thin_to_thick, legs, st.data())
def test_a_thicker_conductor_never_lowers_ampacity(kind, where, data):
    method, sections, insulation = kind
    thin, thick = sorted(data.draw(st.lists(st.integers(0, len(sections) - 1), min_size=2, max_size=2)))
    spot = within(method, insulation, where)
    assert amperes(method, sections[thick], insulation, spot) >= amperes(
        method, sections[thin], insulation, spot
    )


@given(thin_to_thick, legs, st.floats(0, 40))
def test_hotter_air_never_raises_ampacity(kind, where, more):
    method, sections, insulation = kind
    spot = within(method, insulation, where)
    cooler = replace(spot, celsius=spot.celsius - more)
    assert amperes(method, sections[2], insulation, spot) <= amperes(method, sections[2], insulation, cooler)


@given(thin_to_thick, legs, st.integers(0, 18))
def test_more_company_never_raises_ampacity(kind, where, more):
    method, sections, insulation = kind
    spot = within(method, insulation, where)
    lonelier = replace(spot, conductors=max(1, spot.conductors - more))
    assert amperes(method, sections[2], insulation, spot) <= amperes(
        method, sections[2], insulation, lonelier
    )


@given(legs, st.sampled_from(AWG))
def test_a_roof_close_by_never_raises_ampacity(where, section):
    away = replace(where, roof_gap_mm=None)
    assert amperes(NEC, section, 90, where) <= amperes(NEC, section, 90, away)


# --- sizing


@given(st.floats(1, 150), st.lists(legs, min_size=1, max_size=3), st.sampled_from([60, 75, 90]))
def test_the_smallest_is_what_trying_all_finds(current, several, terminal):
    cables = [cable(size) for size in AWG]
    imax = rated_current(current, "it", "test")
    every = [carrying(US, one, imax, several, terminal_celsius=terminal) for one in cables]
    fitting = [one.cable for one in every if one.fits]
    tried = smallest_carrying(US, reversed(cables), imax, several, terminal_celsius=terminal)
    assert [one.cable for one in tried] == cables[: len(tried)]
    assert [tried[-1].cable] == fitting[:1] if fitting else not tried[-1].fits


@given(st.floats(1, 150), legs, st.sampled_from(AWG))
def test_what_fits_carries_both_currents_behind_its_device(current, where, section):
    found = carrying(US, cable(section), rated_current(current, "it", "test"), [where], terminal_celsius=75)
    if found.fits:
        assert found.governing.amperes.value >= current
        assert found.terminals.value >= 1.25 * current
        assert 1.25 * current <= found.device.rating.value <= found.device.ceiling.value


def test_the_stricter_method_governs_and_the_other_is_shown():
    # 10 AWG, six together at 30 °C: NEC 40 · 0.8 = 32 A; boats' 90 °C column 55 · 0.6 = 33 A.
    found = carrying(US, cable("10 AWG"), rated_current(10, "it", "test"), [leg(conductors=6)])
    assert found.governing.amperes.value == pytest.approx(32)
    assert [one.amperes.value for one in found.others] == [pytest.approx(33)]
    # Three together count for boats (55 · 0.7 = 38.5 A), not for the NEC (40 A).
    crowded = carrying(US, cable("10 AWG"), rated_current(10, "it", "test"), [leg(conductors=3)])
    assert crowded.governing.amperes.value == pytest.approx(55 * 0.7)
    assert "disputed" in crowded.governing.adjusted.source


def test_a_method_that_cannot_answer_is_named_not_dropped():
    found = carrying(US, cable("10 AWG"), rated_current(10, "it", "test"), [leg(celsius=60)])
    assert found.others == ()
    assert found.beyond == ("33 CFR 183.425 ends at 50 °C for insulation of 90 °C, leg has 60 °C",)


def test_terminals_that_say_nothing_bear_what_the_rule_set_says():
    # NEC 110.14(C): 60 °C, 30 A for 10 AWG; Europe 70 °C, 32 A for 4 mm².
    us = carrying(US, cable("10 AWG"), rated_current(10, "it", "test"), [leg()])
    europe = carrying(EUROPE, cable("4 mm2"), rated_current(10, "it", "test"), [leg()])
    assert (us.terminals.value, europe.terminals.value) == (30, 32)


def test_coax_carries_no_power():
    coax = cable(name="coax", section=None, metal=None, loss_db_per_m=0.2)
    with pytest.raises(ValueError, match="coax is no power cable: it has no section"):
        carrying(US, coax, rated_current(1, "it", "test"), [leg()])


def test_the_chain_multiplies_to_what_it_says():
    found = carried(NEC, "10 AWG", 90, leg(celsius=45, conductors=4), US.sunlit)
    assert found.amperes.formula == "40 A · 0.87 · 0.8"
    assert found.tabled.value * found.corrected.value * found.adjusted.value == found.amperes.value


def test_three_rows_are_a_method():
    # Tables are arguments: a test, or a shop, may pass its own.
    own = replace(NEC, adjustments=(Adjustment(2, 1.0, "own"), Adjustment(4, 0.5, "own")))
    assert amperes(own, "10 AWG", 90, leg(conductors=3)) == 20
