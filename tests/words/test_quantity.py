"""Quantities as fields of models, read while the model is built."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from drawcord.words.quantity import (
    BASES,
    Amperes,
    Celsius,
    Fraction,
    Height,
    Length,
    Minutes,
    NotNegative,
    Positive,
    Range,
    Rise,
    Thickness,
    Volts,
    parse_height,
    parse_rise,
)


class Sample(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")

    length: Length | None = Field(None, description="How long it is.")
    positive: Positive | None = None
    not_negative: NotNegative | None = None
    range: Range | None = None
    height: Height | None = None
    rise: Rise | None = None
    minutes: Minutes | None = None
    celsius: Celsius | None = None
    amperes: Amperes | None = None
    volts: Volts | None = None
    fraction: Fraction | None = None


WRITTEN = {
    "length": "-40 mm",
    "positive": "7' 6 1/2\"",
    "not_negative": "0 mm",
    "range": "6.70..7.09 m",
    "height": "floor+900 mm",
    "rise": "floor..ceiling",
    "minutes": "15 min",
    "celsius": "-20 °C",
    "amperes": "12.5 A",
    "volts": "12.8 V",
    "fraction": "60 %",
}


def test_every_type_reads_what_a_person_writes():
    assert Sample.model_validate(WRITTEN) == Sample.model_construct(
        length=-40,
        positive=2299,
        not_negative=0,
        range=(6700, 7090),
        height=Height("floor", 900),
        rise=(Height("floor", 0), Height("ceiling", 0)),
        minutes=900,
        celsius=-20.0,
        amperes=12.5,
        volts=12.8,
        fraction=0.6,
    )


def test_bare_numbers_take_the_unit_of_the_file():
    bare = {"length": 600, "range": [600, 900], "height": 350, "rise": "floor+900..ceiling"}
    sample = Sample.model_validate(bare, context={"unit": "cm"})
    assert (sample.length, sample.range, sample.height) == (6000, (6000, 9000), Height("main", 3500))
    assert sample.rise == (Height("floor", 9000), Height("ceiling", 0))


@pytest.mark.parametrize("context", [None, {}, {"unit": None}, {"unit": ["mm"]}])
def test_bare_numbers_are_refused_where_the_file_states_no_usable_unit(context):
    for field, value in {"length": 600, "range": "1..2", "height": 350, "rise": "0..350"}.items():
        with pytest.raises(ValidationError, match="has no unit"):
            Sample.model_validate({field: value}, context=context)


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("positive", "0 mm", "`0 mm` must be more than nothing"),
        ("positive", "-1 mm", "`-1 mm` must be more than nothing"),
        ("not_negative", "-1 mm", "`-1 mm` must not be less than nothing"),
    ],
)
def test_sizes_keep_to_their_side_of_nothing(field, value, says):
    with pytest.raises(ValidationError, match=says):
        Sample.model_validate({field: value})


@pytest.mark.parametrize(
    ("text", "height"),
    [
        *((base, Height(base, 0)) for base in BASES),
        ("floor+900 mm", Height("floor", 900)),
        ("ceiling - 12 in", Height("ceiling", -305)),
        (" roof -2 cm ", Height("roof", -20)),
        ("350 mm", Height("main", 350)),
        ("-1' 6\"", Height("main", -457)),
    ],
)
def test_a_height_is_a_level_with_or_without_a_length(text, height):
    assert parse_height(text) == height


@pytest.mark.parametrize(
    "text",
    [
        "flor",
        "floor+-40 mm",
        "floor--40 mm",
        "floor+",
        "floor 900 mm",
        "main",
        "floor+ceiling",
        "",
        None,
        "floorboard",
    ],
)
def test_what_is_no_height_is_refused(text):
    with pytest.raises(ValueError, match=r"is no (height|length)"):
        parse_height(text)


@pytest.mark.parametrize(
    ("value", "rise"),
    [
        ("floor..ceiling", (Height("floor", 0), Height("ceiling", 0))),
        ("floor+900 mm..ceiling", (Height("floor", 900), Height("ceiling", 0))),
        ("0..350 mm", (Height("main", 0), Height("main", 350))),
        ("floor+10..floor+35 cm", (Height("floor", 100), Height("floor", 350))),
        ("bay .. belly", (Height("bay", 0), Height("belly", 0))),
        (["bay", "floor"], (Height("bay", 0), Height("floor", 0))),
    ],
)
def test_a_rise_goes_from_one_height_to_another(value, rise):
    assert parse_rise(value) == rise


@pytest.mark.parametrize(
    ("value", "says"),
    [
        ("350..0 mm", "leaves no height"),
        ("ceiling..ceiling", "leaves no height"),
        ("floor+2 m..floor+1 m", "leaves no height"),
        ("floor", "is no range"),
        ("floor..", "is no range"),
        ("floor..flor", "`flor` is no height"),
        ("floor+900..ceiling", "900 has no unit"),  # a word brings no unit that could serve the first
    ],
)
def test_what_is_no_rise_is_refused(value, says):
    with pytest.raises(ValueError, match=says):
        parse_rise(value)


def test_the_json_schema_offers_text_with_examples_that_are_themselves_right():
    # Editors complete files from it: each example must be readable by the very field that shows it.
    properties = Sample.model_json_schema()["properties"]
    for field in WRITTEN:
        examples = properties[field]["anyOf"][0]["examples"]
        assert examples
        for example in examples:
            Sample.model_validate({field: example})
    assert properties["length"]["anyOf"][0]["type"] == ["string", "number"]
    assert properties["length"]["description"] == "How long it is."


@settings(deadline=None)
@given(
    st.sampled_from(sorted(WRITTEN)),
    st.one_of(st.text(max_size=30), st.text("florceiling.+- 12m", max_size=16)),
)
def test_whatever_text_comes_in_gives_a_value_or_a_validation_error(field, text):
    read = None
    try:
        read = Sample.model_validate({field: text})
    except ValidationError as error:
        said = error.errors()
    assert read is not None or said[0]["loc"] == (field,)


@pytest.mark.parametrize(
    ("written", "mm"),
    [("16.3 mm", 17), ("12.5 mm", 13), ("16 mm", 16), ("0.25 in", 7), ("0.01 mm", 1), (6.1, 7), (5, 5)],
)
def test_a_cables_thickness_is_counted_up(written, mm):
    # What has to pass a hole or a gland is never taken narrower than it is; 0.25 in are 6.35 mm.
    class Cable(BaseModel):
        outside: Thickness

    assert Cable.model_validate({"outside": written}, context={"unit": "mm"}).outside == mm


def test_no_cable_without_thickness():
    # A thickness of nothing, or beyond any cable, is a slip of the pen.
    class Cable(BaseModel):
        outside: Thickness

    for written in ("0 mm", "-3 mm", "2 m"):
        with pytest.raises(ValidationError, match=r"more than nothing|thicker than any cable"):
            Cable.model_validate({"outside": written})
