"""Every slip in a file becomes one plain sentence at the place where it was made."""

from pathlib import Path
from typing import Annotated, Literal, NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel, ConfigDict, Field, StringConstraints, model_validator

from drawcord.files.compose import Place
from drawcord.files.document import Document, read_document, validate
from drawcord.files.sentences import MOST_PROBLEMS
from drawcord.words.faults import BadInput
from drawcord.words.quantity import Length, Range, Rise

Id = Annotated[str, StringConstraints(pattern=r"^[a-z]+$")]


class Closed(BaseModel):
    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        populate_by_name=True,
        alias_generator=lambda name: name.replace("_", " "),
    )


class Cabinet(Closed):
    kind: Literal["cabinet"]
    from_front: Range = Field(description="Along the vehicle, from the front.")
    curb: Length | Literal["full"] = 0
    up: Rise | None = None


class Chase(Closed):
    kind: Literal["chase"]
    chance: float = Field(0.5, ge=0, le=1, allow_inf_nan=False)
    blocked: bool = False

    @model_validator(mode="after")
    def _make_sense(self):
        if self.blocked and self.chance:
            raise ValueError("a blocked chase has no chance: write `chance: 0`")
        return self


class Sun(Closed):
    kind: Literal["sun"]
    cabinet: None = None


class Rig(Closed):
    format: Literal[1]
    side: Literal["left", "right"] = "left"
    spaces: dict[Id, Annotated[Cabinet | Chase | Sun, Field(discriminator="kind")]] = {}
    corners: list[tuple[int, int]] = Field([], max_length=3)
    roof: Literal["flat"] | Chase = "flat"
    note: str = Field("", max_length=5)


class Slip(NamedTuple):
    """One line added to a file that is right otherwise, and the problem it makes there."""

    line: str
    column: int
    sentence: str


SLIPS = [
    Slip("sdie: left", 1, "the key `sdie` is unknown; did you mean `side`?"),
    Slip(
        "xyz: left",
        1,
        "the key `xyz` is unknown; what may stand here: `side`, `spaces`, `corners`, `roof` or `note`",
    ),
    Slip("side: lefft", 7, "`side`: `lefft` should be `left` or `right` (did you mean `left`?)"),
    Slip("side:", 1, "`side`: an empty value should be `left` or `right`"),
    Slip("note: 12", 7, "`note`: `12` should be text (in quotes if it looks like a number)"),
    Slip("note: longer", 7, "`note`: `longer` should be text of no more than 5 characters"),
    Slip("note: {a: 1}", 7, "`note`: a mapping should be text (in quotes if it looks like a number)"),
    Slip("spaces: [a]", 9, "`spaces`: a list should be a mapping of keys to values"),
    Slip("spaces: {a: }", 10, "`spaces.a`: an empty value should be a mapping of keys to values"),
    Slip(
        "spaces: {a: {kind: cabinett}}",
        20,
        "`spaces.a.kind`: `cabinett` should be `cabinet`, `chase` or `sun` (did you mean `cabinet`?)",
    ),
    Slip("spaces: {a: {}}", 10, "`spaces.a`: the key `kind` is missing: one of cabinet, chase, sun"),
    Slip(
        "spaces: {a: {kind: cabinet}}",
        10,
        "`spaces.a`: the key `from front` is missing: along the vehicle, from the front",
    ),
    Slip("spaces: {B: {kind: chase}}", 10, "`spaces`: the key `B` should be text of the form `^[a-z]+$`"),
    Slip(
        "spaces: {a: {kind: cabinet, from front: 2..1 m}}",
        41,
        "`spaces.a.from front`: `2..1 m` runs backwards: the first end must be less than the last",
    ),
    # Among several kinds of space only the keys of this kind are offered.
    Slip(
        "spaces: {a: {kind: chase, from frnt: 1}}",
        27,
        "`spaces.a`: the key `from frnt` is unknown; what may stand here: `chance` or `blocked`",
    ),
    # In a file a key has one spelling, whatever Python calls the field.
    Slip(
        "spaces: {a: {kind: cabinet, from front: 1..2 m, from_front: 1..2 m}}",
        49,
        "`spaces.a`: the key `from_front` is unknown; what may stand here: `curb` or `up`",
    ),
    Slip(
        "spaces: {a: {kind: cabinet, from front: 1..2 m, curb: hull}}",
        55,
        "`spaces.a.curb`: `hull` is no length: write 600 mm, 60 cm, 2.3 m, 90 in or 7' 6 1/2\"; "
        "or `hull` should be `full` (did you mean `full`?)",
    ),
    # The comma of 2,3 m ends the value between braces: both halves are reported, and why.
    Slip(
        "spaces: {a: {kind: cabinet, from front: 1..2 m, curb: 0 mm, 3 m}}",
        61,
        "`spaces.a`: the key `3 m` is unknown; "
        "between braces a comma ends a value, so write a point in the number or put it in quotes",
    ),
    # A key that bears the name of a kind does not mislead the search for the place.
    Slip("spaces: {a: {kind: sun, cabinet: 7}}", 34, "`spaces.a.cabinet`: `7` should be left empty"),
    Slip("spaces: {a: {kind: chase, chance: .nan}}", 35, "`spaces.a.chance`: `.nan` should be a number"),
    Slip("spaces: {a: {kind: chase, chance: nan}}", 35, "`spaces.a.chance`: `nan` should be a finite number"),
    Slip("spaces: {a: {kind: chase, chance: 2}}", 35, "`spaces.a.chance`: `2` should be 1 or less"),
    Slip(
        "spaces: {a: {kind: chase, blocked: perhaps}}",
        36,
        "`spaces.a.blocked`: `perhaps` should be true or false",
    ),
    Slip(
        "spaces: {a: {kind: chase, blocked: true}}",
        13,
        "`spaces.a`: a blocked chase has no chance: write `chance: 0`",
    ),
    Slip("corners: [[1, 2], [3]]", 19, "`corners.1`: entry 2 of the list is missing"),
    Slip("corners: [[1, 2], [3, 4, 5]]", 19, "`corners.1`: a list should be no more than 2 entries long"),
    Slip("corners: [[1, x]]", 15, "`corners.0.1`: `x` should be a whole number"),
    Slip("corners: [[1, 2.5]]", 15, "`corners.0.1`: `2.5` should be a whole number"),
    Slip(
        "corners: [[1, 2], [1, 2], [1, 2], [1, 2]]",
        10,
        "`corners`: a list should be no more than 3 entries long",
    ),
    Slip("corners: 5", 10, "`corners`: `5` should be a list"),
    # A word or a mapping may stand here: a slip inside the mapping is the whole story ...
    Slip("roof: {kind: chase, chanse: 1}", 21, "`roof`: the key `chanse` is unknown; did you mean `chance`?"),
    # ... and a wrong word is told of both.
    Slip("roof: bent", 7, "`roof`: `bent` should be `flat` or a mapping of keys to values"),
]


def problems_of(tmp_path, text, model=Rig):
    path = tmp_path / "rig.yaml"
    path.write_text(text)
    document = read_document(path)
    with pytest.raises(BadInput) as caught:
        validate(document, model)
    assert all(problem.file == str(path) for problem in caught.value.problems)
    return caught.value.problems


@pytest.mark.parametrize("slip", SLIPS, ids=[slip.line for slip in SLIPS])
def test_each_slip_is_one_sentence_at_its_place(tmp_path, slip):
    (problem,) = problems_of(tmp_path, f"format: 1\n{slip.line}\n")
    assert (problem.line, problem.column, problem.sentence) == (2, slip.column, slip.sentence)


def test_all_slips_of_a_file_come_at_once_in_its_order(tmp_path):
    spaces = "spaces:\n  a: {kind: chase, chance: 7}\n  B: {kind: chasm}\n"
    text = f"format: 2\nsdie: left\n{spaces}corners: 5\nnote: 3\n"
    found = problems_of(tmp_path, text)
    assert [(problem.line, problem.column) for problem in found] == [
        (1, 9),
        (2, 1),
        (4, 28),
        (5, 3),
        (5, 13),
        (6, 10),
        (7, 7),
    ]


def test_a_missing_key_at_the_top_stands_at_the_top(tmp_path):
    (problem,) = problems_of(tmp_path, "# remark\nside: left\n")
    assert (problem.line, problem.column, problem.sentence) == (2, 1, "the key `format` is missing: write `1`")


def test_what_is_right_comes_back_as_a_model_with_the_unit_of_its_file(tmp_path):
    path = tmp_path / "rig.yaml"
    path.write_text("format: 1\nspaces:\n  a: {kind: cabinet, from front: 100..200, curb: full}\n")
    rig = validate(read_document(path), Rig, {"unit": "cm"})
    assert rig.spaces["a"].from_front == (1000, 2000)
    assert rig.spaces["a"].curb == "full"


def test_a_file_full_of_slips_is_cut_short_and_says_so(tmp_path):
    lines = "".join(f"x{number}: 1\n" for number in range(MOST_PROBLEMS + 100))
    found = problems_of(tmp_path, "format: 1\n" + lines)
    assert len(found) == MOST_PROBLEMS + 1
    assert found[0].sentence == f"of {MOST_PROBLEMS + 100} problems in this file, {MOST_PROBLEMS} are listed"


words = st.sampled_from(
    [
        "format",
        "side",
        "left",
        "spaces",
        "kind",
        "cabinet",
        "chase",
        "a",
        "from front",
        "curb",
        "corners",
        "roof",
        "up",
        "[key]",
    ]
)
values = st.recursive(
    st.none() | st.booleans() | st.integers(-3, 3) | words | st.floats() | st.text(max_size=4),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(words, inner, max_size=5),
    max_leaves=25,
)
rigs = st.dictionaries(
    st.sampled_from(["format", "side", "spaces", "corners", "roof", "note", "other"]), values
)


@settings(deadline=None, max_examples=300)
@given(rigs)
def test_whatever_the_data_are_there_is_a_model_or_sentences_without_jargon(data):
    document = Document(Path("rig.yaml"), data, "", Place((1, 1), (1, 1)))
    found = None
    try:
        found = validate(document, Rig)
    except BadInput as error:
        sentences = [problem.sentence for problem in error.problems]
    assert found is not None or all(
        sentence
        and not any(jargon in sentence for jargon in ("Input", "Value error", "function-", "literal["))
        for sentence in sentences
    )
