"""The quick reader of plain YAML reads what it reads as the parser does, event for event, or gives up."""

from random import Random

import pytest

from drawcord.files import plain, syntax
from drawcord.files.events import Event, Scalar
from drawcord.files.home import layouts, shared
from drawcord.words.faults import BadInput

FILES = sorted([*layouts().glob("*/*.yaml"), *shared().glob("*.yaml")])
ROUGH = (
    *("\n", "\n\n", "\n  ", "\n    ", "\n- ", "\n  - ", " ", "  ", ": ", ":", ", ", ",", "{", "}", "[", "]", "- ", "-"),
    *("#", " # x", "\n# x\n", "'", '"', "''", "\\", "|", ">", "&a ", "*a", "!t ", "?", "? ", "%", "@", "`", "~", "\t"),
    *("\r\n", "---", "\n---\n", "\n...\n", "=", "<<: ", "x", "1", "-1", "é", "\xa0", "\x85", "\u2028", "\ufeff"),
)


def of_parser(text: str) -> list[Event]:
    return list(syntax.events(text))


def placed(events: list[Event]) -> list[Event]:
    """Without the places of empty values, which neither reader can know."""
    return [one._replace(at=(0, 0)) if isinstance(one, Scalar) and not one.value else one for one in events]


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_every_file_that_comes_with_drawcord_is_plain_and_read_as_the_parser_reads_it(path):
    text = path.read_text(encoding="utf-8")
    assert placed(plain.events(text)) == placed(of_parser(text))


@pytest.mark.parametrize("seed", range(40))
def test_damaged_text_is_read_as_the_parser_reads_it_or_left_to_it(seed):
    """Pieces of real files with stretches cut out, doubled or mixed with whatever means something in YAML."""
    rng = Random(seed)  # noqa: S311 - any text will do
    read = 0
    for _ in range(150):
        lines = rng.choice(FILES).read_text(encoding="utf-8").splitlines(keepends=True)
        begin = rng.randrange(len(lines))
        text = "".join(lines[begin : begin + rng.randint(1, 6)])
        for _ in range(rng.randint(0, 3)):
            at, to = sorted(rng.randrange(len(text) + 1) for _ in range(2))
            put = rng.choice((*ROUGH, text[at : min(to, at + 12)] * 2))
            text = text[:at] + put + text[at + rng.choice((0, 0, 1)) :]
        try:
            found = plain.events(text)
        except plain.NotPlain:
            continue
        read += 1
        assert placed(found) == placed(of_parser(text)), text
    assert read > 3


@pytest.mark.parametrize("seed", range(20))
def test_text_made_of_nothing_but_signs_is_read_as_the_parser_reads_it_or_left_to_it(seed):
    rng = Random(seed)  # noqa: S311 - any text will do
    read = 0
    for _ in range(3000):
        text = "".join(rng.choice(("a", "b: ", "c: ", "a: ", "x", *ROUGH)) for _ in range(rng.randint(1, 8)))
        try:
            found = plain.events(text)
        except plain.NotPlain:
            continue
        read += 1
        assert placed(found) == placed(of_parser(text)), text
    assert read > 5


@pytest.mark.parametrize(
    "text",
    [
        "",
        "# nothing\n",
        "a: b\n c\n",  # goes on in the next line
        "a: b: c\n",
        "a: |\n  text\n",
        "a: &x b\nc: *x\n",
        "a: !t b\n",
        'a: "\\n"\n',
        "'a': b\n",
        "<<: {a: b}\n",
        "a: {b: c\n",
        "a: [b c: d]\n",
        "a: {b: }}\n",
        "a:\n- b\n",
        "  a: b\n",
        "a: b\n--- \nc: d\n",
        "a: " + "[" * 3000,
    ],
)
def test_what_is_not_plain_is_left_to_the_parser(text):
    with pytest.raises(plain.NotPlain):
        plain.events(text)


def test_the_parser_refuses_what_is_no_yaml():
    """So that the comparisons above cannot pass by both readers taking anything."""
    with pytest.raises(BadInput):
        of_parser("a: b: c\n")
