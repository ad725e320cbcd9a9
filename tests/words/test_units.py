"""Lengths, times, temperatures and shares as people write them."""

import re
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.words.amount import NoUnit
from drawcord.words.units import (
    LONGEST,
    format_length,
    format_lengths,
    format_minutes,
    parse_amperes,
    parse_celsius,
    parse_length,
    parse_minutes,
    parse_percent,
    parse_range,
    parse_volts,
)

# An inch is 25.4 mm and a foot 304.8 mm exactly, by the international agreement of 1959 (from memory).
INCH = Fraction("25.4")

quick = settings(deadline=None)
lengths = st.integers(1 - LONGEST[0], LONGEST[0] - 1)  # the last sixteenth may lie beyond the bound


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("7' 6 1/2\"", 2299),  # 90.5 in = 2298.7 mm
        ("7'6 1/2\"", 2299),
        ("7'-6-1/2\"", 2299),
        ("7′ 6½″", 2299),
        ("7’ 6½”", 2299),
        ("6''", 152),
        ("7 ft 6 in", 2286),
        ("7 FT 6 IN", 2286),
        ("-1' 6\"", -457),  # the sign is that of the whole: -457.2 mm
        ("7ft", 2134),
        ("7.5 ft", 2286),
        ("90 in", 2286),
        ("90 inches", 2286),
        ("6 1/2 in", 165),
        ("1/2 in", 13),
        (".5 in", 13),
        ("23 cm", 230),
        ("2.3 m", 2300),
        ("2,3 m", 2300),
        ("0,125 m", 125),  # no thousand begins with nothing, so this comma has one reading
        ("1234,567 m", None),
        ("-40 mm", -40),
        ("− 40 mm", -40),
        ("+40 mm", 40),
        ("40\u00a0mm", 40),
        ("30 m", 30_000),
    ],
)
def test_a_length_is_read_in_every_way_a_person_writes_it(text, mm):
    if mm is None:  # a kilometre: read rightly, then refused for its size alone
        with pytest.raises(ValueError, match="longer than any vehicle"):
            parse_length(text)
    else:
        assert parse_length(text) == mm


@pytest.mark.parametrize(
    ("value", "says"),
    [
        ("1,234 m", "read in two ways: write 1.234 or 1234"),
        ("1.234,5 m", "is no length"),
        ("7' 14\"", "14 inches beside its feet"),
        ("7' 6", "is no length"),
        ("1 2 mm", "is no length"),
        ("2 m 3 cm", "is no length"),
        ("1/0 in", "divides by nothing"),
        ("6 furlong", "`furlong` in `6 furlong` is no unit of length"),
        ("6 km", "`km` in `6 km` is no unit of length"),
        ("1e3 mm", "is no length"),
        ("12_000 mm", "is no length"),
        ("٣ mm", "is no length"),
        ("nan", "is no length"),
        ("inf m", "is no length"),
        ("", "`` is no length"),
        (None, "an empty value is no length"),
        (True, "`true` is no length"),
        (float("nan"), "is no length"),
        (float("-inf"), "is no length"),
        pytest.param(10**5000, "more than fifteen digits is no length", id="endless"),
        ([], "a list is no length"),
        ({}, "a mapping is no length"),
        ("31 m", r"`31 m` is longer than any vehicle \(30 m\)"),
        ("-31 m", r"`-31 m` is longer than any vehicle \(30 m\)"),
        ("9" * 60, "is no length|has no unit"),
        ("9" * 61, "is no length"),
    ],
)
def test_what_is_no_length_is_refused_with_the_reason(value, says):
    with pytest.raises(ValueError, match=says):
        parse_length(value)


def test_a_bare_number_needs_the_unit_of_its_file():
    # Without one the sentence offers both ways out, with the number as it was written.
    ways_out = "write 600 mm or 600 in, or state `units` once at the top of the file: mm, cm, m, in or ft"
    with pytest.raises(NoUnit, match=re.escape(f"600 has no unit: {ways_out}")) as told:
        parse_length(600)
    assert told.value.what == "length"
    assert parse_length(600, "mm") == 600
    assert parse_length("600", "mm") == 600
    assert parse_length(2.3, "m") == 2300
    assert parse_length("6 1/2", "in") == 165
    assert parse_length("60 cm", "mm") == 600, "a unit of its own comes first"


@pytest.mark.parametrize(
    ("text", "mm"), [("0.5 mm", 0), ("1.5 mm", 2), ("2.5 mm", 2), ("-0.5 mm", 0), ("-1.5 mm", -2)]
)
def test_a_half_millimetre_rounds_to_the_even_neighbour(text, mm):
    assert parse_length(text) == mm


@quick
@given(
    feet=st.integers(0, 90),
    inches=st.integers(0, 11),
    sixteenths=st.integers(0, 15),
    negative=st.booleans(),
)
def test_feet_and_inches_agree_with_decimal_arithmetic(feet, inches, sixteenths, negative):
    # Sixteenths are exact decimals, so the decimal module serves as an independent reckoner.
    sign = "-" if negative else ""
    exact = (feet * 12 + inches + Decimal(sixteenths) / 16) * Decimal("25.4")
    mm = int(exact.quantize(Decimal(1), ROUND_HALF_EVEN))
    assert parse_length(f"{sign}{feet}' {inches} {sixteenths}/16\"") == (-mm if negative else mm)


@quick
@given(lengths, st.sampled_from(["mm", "m"]))
def test_metric_text_brings_back_the_very_length(mm, style):
    assert parse_length(format_length(mm, style)) == mm


@quick
@given(lengths)
def test_feet_and_inches_text_lies_within_a_thirty_second_of_an_inch(mm):
    text = format_length(mm, "in")
    found = re.fullmatch(r"(-?)(?:(\d+)' )?(?:(\d+) )?(?:(\d+)/(\d+)|(\d+))\"", text)
    assert found, text
    sign, feet, whole, above, below, alone = found.groups()
    inches = (
        int(feet or 0) * 12 + int(whole or alone or 0) + (Fraction(int(above), int(below)) if above else 0)
    )
    exact = inches * INCH * (-1 if sign else 1)
    assert abs(exact - mm) <= INCH / 32
    assert below in (None, "2", "4", "8", "16")
    # Read back it is what the text says, to the nearest millimetre.
    assert parse_length(text) == round(exact)


@pytest.mark.parametrize(
    ("mm", "text"), [(2450, "8' 0 1/2\""), (24, '1"'), (1, '0"'), (-1, '0"'), (304, '1\' 0"'), (-457, "-1' 6\"")]
)
def test_eighths_of_an_inch_are_shown_where_they_are_asked_for(mm, text):
    # 2450 mm are 96.457 in; a length that rounds to nothing has no sign.
    assert format_length(mm, "in", 8) == text


@pytest.mark.parametrize(
    ("mm", "style", "text"),
    [
        (2299, "in", "7' 6 1/2\""),
        (305, "in", "1' 0\""),
        (305, "mm", "305 mm"),
        (13, "in", '1/2"'),
        (0, "in", '0"'),
        (-457, "in", "-1' 6\""),
        (304, "in", '11 15/16"'),
        (2300, "m", "2.3 m"),
        (10_000, "m", "10 m"),
        (-5, "m", "-0.005 m"),
    ],
)
def test_a_length_is_shown_as_a_person_would_write_it(mm, style, text):
    assert format_length(mm, style) == text


@pytest.mark.parametrize(
    ("value", "bare", "ends"),
    [
        ("6.70..7.09 m", None, (6700, 7090)),  # the last unit serves the first number
        ("6.70..7.09 m", "mm", (6700, 7090)),  # even where the file states another
        ("6.7 m .. 709 cm", None, (6700, 7090)),
        ("-40..600 mm", None, (-40, 600)),
        ("1' 6\"..7' 6 1/2\"", None, (457, 2299)),
        ("600..900", "mm", (600, 900)),
        ([600, 900], "mm", (600, 900)),
        (["6.70", "7.09 m"], None, (6700, 7090)),
    ],
)
def test_a_range_is_read_from_its_two_ends(value, bare, ends):
    assert parse_range(value, bare) == ends


@pytest.mark.parametrize(
    ("value", "says"),
    [
        ("7.09..6.70 m", "runs backwards"),
        ("7 m..7 m", "is empty"),
        ("7..7.0001 m", "is empty"),
        ("6.7 m..7", "7 has no unit"),
        ("6..7' 6\"", "6 has no unit"),  # feet or inches? the text does not say
        ("0...7 m", "is no range"),  # could be 0 to 0.7 m
        ("1..2..3 m", "is no range"),
        ("6.7 m", "is no range"),
        ("..7 m", "is no range"),
        ("7 m..", "is no range"),
        ([1, 2, 3], "is no range"),
        (5, "is no range"),
        (None, "is no range"),
        ("0..31 m", "longer than any vehicle"),
    ],
)
def test_what_is_no_range_is_refused_with_the_reason(value, says):
    with pytest.raises(ValueError, match=says):
        parse_range(value)


@pytest.mark.parametrize(
    ("parse", "value", "result"),
    [
        (parse_minutes, "15 min", 900),
        (parse_minutes, "90 s", 90),
        (parse_minutes, "0.5 h", 1800),
        (parse_minutes, "2 minutes", 120),
        (parse_celsius, "-20 °C", -20.0),
        (parse_celsius, "-20C", -20.0),
        # Points where both scales are known by heart: water freezes and boils, the scales meet.
        (parse_celsius, "32 °F", 0.0),
        (parse_celsius, "212 F", 100.0),
        (parse_celsius, "-40 ℉", -40.0),
        (parse_celsius, "14 °F", -10.0),
        (parse_amperes, "12.5 A", 12.5),
        (parse_volts, "12,8 V", 12.8),
        (parse_percent, "60 %", 0.6),
        (parse_percent, "60%", 0.6),
        (parse_percent, 0.6, 0.6),
        (parse_percent, "0.6", 0.6),
        (parse_percent, 1, 1.0),
        (parse_percent, "0 %", 0.0),
    ],
)
def test_other_quantities_are_read_in_their_units(parse, value, result):
    assert parse(value) == result


@pytest.mark.parametrize(
    ("parse", "value", "says"),
    [
        (parse_minutes, 15, "15 has no unit: write 15 min"),
        (parse_minutes, "-3 min", "out of bounds"),
        (parse_minutes, "3 m", "no unit of time"),  # metres
        (parse_minutes, "10000 h", "out of bounds"),
        (parse_celsius, 20, "20 has no unit: write 20 °C"),
        (parse_celsius, "-300 °C", "out of bounds"),
        (parse_celsius, "-500 °F", "out of bounds"),
        (parse_amperes, 10, "10 has no unit: write 10 A"),
        (parse_amperes, "12 V", "no unit of current"),
        (parse_amperes, "0 A", "out of bounds"),
        (parse_volts, 12, "12 has no unit: write 12 V"),
        (parse_volts, "0 V", "out of bounds"),  # a drop in percent of nothing has no meaning
        (parse_volts, "-12 V", "out of bounds"),
        (parse_volts, "12 kV", "no unit of voltage"),
        (parse_percent, 2, "write 2 %"),  # a bare number is a fraction, so 2 is meant as a percentage
        (parse_percent, 160, "0.6 as a fraction"),
        (parse_percent, "101 %", "out of bounds"),
        (parse_percent, -0.1, "out of bounds"),
        (parse_percent, "half", "is no share"),
        (parse_percent, float("nan"), "is no share"),
        (parse_percent, True, "is no share"),
    ],
)
def test_other_quantities_are_refused_with_the_reason(parse, value, says):
    with pytest.raises(ValueError, match=says):
        parse(value)


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(0, "0 min"), (45, "45 s"), (60, "1 min"), (90, "90 s"), (900, "15 min"), (910, "15 min")],
)
def test_a_time_is_shown_in_minutes_unless_these_are_too_coarse(seconds, text):
    assert format_minutes(seconds) == text


@quick
@given(
    st.sampled_from(
        [parse_length, parse_range, parse_minutes, parse_celsius, parse_amperes, parse_volts, parse_percent]
    ),
    st.one_of(
        st.text(max_size=80),
        st.text("0123456789.,/'\"- +ftinmc°%V", max_size=20),
        st.integers(),
        st.floats(),
        st.lists(st.floats(), max_size=3),
    ),
)
def test_whatever_comes_in_gives_a_value_or_one_sentence(parse, value):
    said = "nothing wrong"
    try:
        parse(value)
    except ValueError as error:
        said = str(error)
    assert said
    assert "\n" not in said


# Several lengths share a unit that is said once; feet and inches are part of each.
@pytest.mark.parametrize(
    ("values", "style", "between", "text"),
    [
        ((5, 60), "mm", " to ", "5 to 60 mm"),
        ((-100, 0, 900), "mm", " x ", "-100 x 0 x 900 mm"),
        ((500, 1250), "m", " and ", "0.5 and 1.25 m"),
        ((254, 305), "in", " to ", '10" to 1\' 0"'),
        ((7,), "mm", " to ", "7 mm"),
    ],
)
def test_several_lengths_are_written_with_their_unit_once(values, style, between, text):
    assert format_lengths(values, style, between) == text
