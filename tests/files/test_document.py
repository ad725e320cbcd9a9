"""Reading a file that a person wrote: within bounds, with positions, and never a traceback."""

import hashlib
import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.files.compose import DEEPEST, MOST_NODES, Place, compose
from drawcord.files.document import MOST_BYTES, Document, placed, read_document, resolve_inside
from drawcord.words.faults import BadInput, Problem, Surroundings

quick = settings(deadline=None)

RIG = """\
format: 1
# A comment moves nothing.
spaces:
  linen: {kind: cabinet, from front: 6.70..7.09 m}
  shower:
    kind: chase
    corners:
      - [1, 2]
      - [3, 4]
"""


@pytest.fixture
def write(tmp_path):
    def write(contents, name="rig.yaml"):
        path = tmp_path / name
        path.write_bytes(contents if isinstance(contents, bytes) else contents.encode())
        return path

    return write


def refused(path):
    with pytest.raises(BadInput) as caught:
        read_document(path)
    return caught.value.problems


def test_a_document_knows_its_path_its_data_and_the_hash_of_its_bytes(write):
    path = write(RIG)
    document = read_document(path)
    assert document.path == path
    assert document.sha256 == hashlib.sha256(RIG.encode()).hexdigest()
    assert document.data["spaces"]["linen"] == {"kind": "cabinet", "from front": "6.70..7.09 m"}
    assert document.data["spaces"]["shower"]["corners"] == [[1, 2], [3, 4]]


@pytest.mark.parametrize(
    ("path", "on_key", "position"),
    [
        (("format",), False, (1, 9)),
        (("format",), True, (1, 1)),
        (("spaces", "linen"), False, (4, 10)),
        (("spaces", "linen"), True, (4, 3)),
        (("spaces", "linen", "from front"), True, (4, 26)),
        (("spaces", "shower", "corners", 1, 0), False, (9, 10)),
        (("spaces", "linen", "curb"), False, (4, 3)),  # missing: the key of what would hold it
        (("spaces", "galley", "curb", 3), True, (3, 1)),
        (("nowhere",), False, (1, 1)),
        ((), False, (1, 1)),
    ],
)
def test_every_value_and_key_has_a_position_and_what_is_missing_that_of_its_holder(
    write, path, on_key, position
):
    assert read_document(write(RIG)).position(path, on_key=on_key) == position


@pytest.mark.parametrize(
    "word",
    [
        "2024-05-01",
        "12:30",
        "010",
        "0o17",
        "0x1F",
        "1e3",
        "1_000",
        "yes",
        "no",
        "on",
        "off",
        "y",
        ".inf",
        ".nan",
        "1.",
        "=",
    ],
)
def test_words_that_other_readers_turn_into_something_else_stay_text(word):
    assert compose(f"value: {word}")[0] == {"value": word}


@pytest.mark.parametrize(
    ("word", "value"),
    [
        ("12", 12),
        ("-40", -40),
        ("0", 0),
        ("6.70", 6.7),
        (".5", 0.5),
        ("true", True),
        ("null", None),
        ("~", None),
        ("", None),
    ],
)
def test_decimal_numbers_truth_and_nothing_are_themselves(word, value):
    found = compose(f"value: {word}")[0]["value"]
    assert found == value
    assert type(found) is type(value)


def test_quotes_keep_text_and_keys_are_always_text():
    assert compose("'12': '12'\n12.5: \"true\"\nnull: ~\n")[0] == {"12": "12", "12.5": "true", "null": None}


def test_a_number_too_long_to_be_one_stays_text():
    # Python refuses to turn some thousand digits into a number, and a float of them is infinite.
    for word in ("9" * 5000, "9" * 400 + ".5"):
        assert compose(f"value: {word}")[0] == {"value": word}


names = st.text(
    st.characters(min_codepoint=32, max_codepoint=0xFFFD, exclude_categories=["Cs", "Cc"]),
    min_size=1,
    max_size=8,
)
scalars = st.none() | st.booleans() | st.integers(-(10**14), 10**14) | names
nested = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(names, inner, max_size=4),
    max_leaves=20,
)


@quick
@given(st.dictionaries(names, nested, max_size=5))
def test_json_is_read_as_json_reads_it_with_every_position_right(data):
    # JSON is a subset of YAML 1.2 and Python's own reader of it an independent reference. A position is right
    # if the value, as JSON writes it, stands there.
    text = json.dumps(data, indent=1)
    contents, place = compose(text)
    assert contents == data
    lines = text.splitlines()
    document = Document(Path("x"), contents, "", place)

    def check(value, path):
        line, column = document.position(path)
        start = json.dumps(value)[0] if isinstance(value, dict | list) else json.dumps(value)
        assert lines[line - 1][column - 1 :].startswith(start)
        for key, inner in (
            value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
        ):
            if isinstance(key, str):
                line, column = document.position((*path, key), on_key=True)
                assert lines[line - 1][column - 1 :].startswith(json.dumps(key))
            check(inner, (*path, key))

    check(data, ())


def test_duplicate_keys_are_named_with_both_positions_and_all_at_once(write):
    problems = refused(write("a: 1\nb: {c: 1, c: 2}\na: 2\n"))
    assert [(problem.line, problem.column) for problem in problems] == [(2, 11), (3, 1)]
    assert "`c` stands here a second time; the first is in line 2, column 5" in problems[0].sentence
    assert "`a` stands here a second time; the first is in line 1, column 1" in problems[1].sentence


@pytest.mark.parametrize(
    ("contents", "line", "column", "says"),
    [
        ("", 1, 1, "the file is empty"),
        ("# nothing but a comment\n", 1, 1, "the file is empty"),
        ("---\n", 2, 1, "an empty value"),
        ("- a\n- b\n", 1, 1, "the file holds a list; it should hold keys with values"),
        ("just words\n", 1, 1, "the file holds `just words`"),
        ("a: 1\n---\nb: 2\n", 2, 1, "a second document"),
        ("a: b: c\n", 1, 5, "no `: ` may stand here"),
        ("a:\n\t- b\n", 2, 1, "a tab stands"),
        ("a: [1, 2\nb: 3\n", 2, 2, "of line 1"),
        ("a: {b: 1}}\n", 1, 10, "does not belong"),
        ('a: "open\n', 2, 1, "from line 1"),
        ("a: 1\n  b: 2\n", 2, 4, "look at the indents"),
        ("a: 'it's'\n", 1, 8, "look at indents, quotes and brackets"),
        ("a: 1\nb\nc: 2\n", 3, 1, "a key above has no colon"),
        ("a: @b\n", 1, 4, "cannot be read as YAML"),
        ("%YAML 1.0\n---\na: 1\n", 1, 1, "cannot be read as YAML from here on"),
        ('a: "\\U00110000"\n', 1, 1, "cannot be read as YAML from here on"),
        ("a: *b\n", 1, 4, "`*b` stands for nothing"),
        ("a: &b [*b]\n", 1, 8, "`*b` stands for nothing"),
        ("&k a: 1\n*k : 2\n", 2, 1, "stands for nothing"),
        ("a: &b x\n*b : 2\n", 2, 1, "a key must be written out"),
        ("? [a, b]\n: 1\n", 1, 3, "a key must be text"),
        (": 1\n", 1, 1, "a key is missing"),
        ("a: !!str 12\n", 1, 4, "the tag `!!str` means nothing"),
        ("a: !own {}\n", 1, 4, "the tag `!own` means nothing"),
        ("a: 1\nb: x\x07y\n", 2, 5, "control character U+0007"),
        ('a: "\\e[31m"\n', 1, 4, "control character"),
        ('a: "\\uD800"\n', 1, 4, "control character"),
        (b"a: 1\nb: \xff\xfe\n", 2, 4, "no UTF-8 text: it holds the byte 0xff"),
        ("a: 1\n".encode("utf-16"), 1, 1, "no UTF-8 text"),
        (bytes(range(256)), 2, 118, "no UTF-8 text: it holds the byte 0x80"),
    ],
)
def test_what_cannot_be_read_is_refused_with_its_place(write, contents, line, column, says):
    path = write(contents)
    (problem,) = refused(path)
    assert (problem.file, problem.line, problem.column) == (str(path), line, column)
    assert says in problem.sentence
    assert "\n" not in problem.sentence


def test_a_byte_order_mark_is_no_part_of_the_text(write):
    assert read_document(write(b"\xef\xbb\xbfformat: 1\n")).data == {"format": 1}


def test_aliases_share_what_they_name_and_have_a_place_of_their_own():
    contents, place = compose("a: &x {b: 1}\nc: *x\n")
    assert contents == {"a": {"b": 1}, "c": {"b": 1}}
    assert place.inner["c"].at == (2, 4)
    assert place.inner["c"].key == (2, 1)
    assert place.inner["a"].key == (1, 1)
    assert place.inner["c"].inner["b"].at == (1, 11)


def test_yaml_that_expands_without_end_is_stopped_while_it_grows(write):
    # Nine levels of nine aliases each would be 9^9 values; nothing may follow them all.
    lines = ["l0: &l0 [a, a, a, a, a, a, a, a, a]"]
    lines += [f"l{n}: &l{n} [{', '.join([f'*l{n - 1}'] * 9)}]" for n in range(1, 10)]
    (problem,) = refused(write("\n".join(lines)))
    assert f"grows beyond {MOST_NODES} values" in problem.sentence
    assert problem.line == 6  # 9^6 is the first power beyond the bound


def test_depth_is_bounded_also_where_aliases_build_it(write):
    (problem,) = refused(write("a: " + "[" * 100_000))
    assert f"deeper than {DEEPEST} levels" in problem.sentence
    chain = ["l0: &l0 [a]"] + [f"l{n}: &l{n} [*l{n - 1}]" for n in range(1, 2000)]
    (problem,) = refused(write("\n".join(chain)))
    assert f"deeper than {DEEPEST} levels" in problem.sentence
    # What is just deep enough is read.
    most = DEEPEST - 2  # the mapping around it and the word inside count too
    assert compose("a: " + "[" * most + "x" + "]" * most)


def test_a_file_beyond_the_bound_is_not_read(write):
    (problem,) = refused(write(b"#" * (MOST_BYTES + 1)))
    assert "larger than 2 MB" in problem.sentence


def test_what_is_not_there_or_a_folder_is_bad_input(tmp_path, write):
    assert "no such file" in refused(tmp_path / "none.yaml")[0].sentence
    assert "no such file" in refused(write("a: 1") / "below.yaml")[0].sentence
    assert "folder" in refused(tmp_path)[0].sentence


def test_a_file_that_may_not_be_read_is_the_surroundings_fault(write, monkeypatch):
    # The tests may run as root, who may read everything, so the refusal is played.
    path = write("a: 1")

    def deny(*_args, **_kwargs):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", deny)
    with pytest.raises(Surroundings, match=r"rig\.yaml cannot be read: Permission denied"):
        read_document(path)


FRAGMENTS = [
    *(
        "- ",
        "? ",
        ": ",
        "a: ",
        "&a ",
        "*a ",
        "!!str ",
        "!<x> ",
        "|\n",
        ">+\n",
        "%YAML 1.2\n",
        "%TAG ! x\n",
        "---\n",
        "...\n",
    ),
    *(
        '"\\U00110000"',
        '"\\uD800"',
        '"\\x"',
        "{",
        "}",
        "[",
        "]",
        ", ",
        "# c\n",
        "'",
        '"',
        "\n ",
        "\n",
        "\t",
        "<<: ",
        "|9\n",
        "\\",
    ),
]


@settings(deadline=None, max_examples=300)
@given(
    st.one_of(
        st.binary(max_size=200),
        st.text(max_size=200),
        st.lists(st.sampled_from(FRAGMENTS), max_size=30).map("".join),
    )
)
def test_any_bytes_give_a_document_or_problems_with_a_place(tmp_path_factory, contents):
    path = tmp_path_factory.getbasetemp() / "any.yaml"
    path.write_bytes(contents if isinstance(contents, bytes) else contents.encode("utf-8", "surrogatepass"))
    found = None
    try:
        found = read_document(path)
    except BadInput as error:
        problems = error.problems
    assert isinstance(found, Document) or all(
        problem.file and problem.line > 0 and problem.column > 0 and "\n" not in problem.sentence
        for problem in problems
    )


def test_later_problems_get_their_place_and_the_order_of_the_file(write):
    path = write(RIG)
    document = read_document(path)
    elsewhere = Problem(("x",), "elsewhere", "job.yaml", 1, 1)
    later = Problem(("spaces", "shower", "kind"), "later")
    key = Problem(("spaces", "linen", "kind"), "key", on_key=True)
    first, second, third = placed([later, key, elsewhere], document)
    assert sorted(map(str, (first, second, third))) == sorted(
        [f"{path}:4:11: key", f"{path}:6:11: later", "job.yaml:1:1: elsewhere"]
    )
    assert [str(one) for one in placed([later, key], document)] == [
        f"{path}:4:11: key",
        f"{path}:6:11: later",
    ]


@pytest.fixture
def job(tmp_path, write):
    (tmp_path / "coach").mkdir()
    (tmp_path / "coach" / "deeper").mkdir()
    write("format: 1", "outside.yaml")
    write("format: 1", "coach/rig.yaml")
    write("format: 1", "coach/deeper/rig.yaml")
    return read_document(write("format: 1\nrig: rig.yaml\n", "coach/job.yaml"))


@pytest.mark.parametrize("text", ["rig.yaml", "deeper/rig.yaml", "./rig.yaml", "deeper\\rig.yaml"])
def test_a_file_beside_the_document_or_below_is_found(job, text):
    found = resolve_inside(job, text, "rig")
    assert found.is_file()
    assert found.is_relative_to(job.path.parent)


def test_a_file_is_found_from_any_folder(job, monkeypatch):
    # Paths inside a file are relative to that file, not to where the command was started.
    monkeypatch.chdir(job.path.parent.parent)
    beside = read_document(Path("coach/job.yaml"))
    assert resolve_inside(beside, "rig.yaml", "rig") == Path("coach/rig.yaml")


@pytest.mark.parametrize(
    "text",
    [
        "../outside.yaml",
        "deeper/../../outside.yaml",
        "deeper/../rig.yaml",
        "/etc/hostname",
        "..\\outside.yaml",
        "C:\\rig.yaml",
        "C:rig.yaml",
    ],
)
def test_a_path_that_leaves_its_folder_is_refused(job, text):
    with pytest.raises(BadInput) as caught:
        resolve_inside(job, text, "rig")
    (problem,) = caught.value.problems
    assert "leads out of the folder" in problem.sentence
    assert (problem.file, problem.line, problem.column) == (str(job.path), 2, 6)


def test_links_that_leave_the_folder_are_refused_and_links_within_are_not(job):
    folder = job.path.parent
    (folder / "out.yaml").symlink_to(folder.parent / "outside.yaml")
    (folder / "up").symlink_to(folder.parent, target_is_directory=True)
    (folder / "in.yaml").symlink_to(folder / "rig.yaml")
    for text in ("out.yaml", "up/outside.yaml"):
        with pytest.raises(BadInput, match="leads out of the folder"):
            resolve_inside(job, text, "rig")
    assert resolve_inside(job, "in.yaml", "rig").is_file()


@pytest.mark.parametrize("text", ["none.yaml", "", ".", "deeper", "x" * 5000, "rig.yaml/below"])
def test_what_is_no_file_is_named(job, text):
    with pytest.raises(BadInput, match="there is no file"):
        resolve_inside(job, text, "rig")


def test_a_link_that_leads_to_itself_is_no_file(job):
    loop = job.path.parent / "loop.yaml"
    loop.symlink_to(loop)
    with pytest.raises(BadInput, match="there is no file"):
        resolve_inside(job, "loop.yaml", "rig")


def test_a_place_is_plain_data():
    # Positions are compared and shown, so they must be plain numbers, not marks that hold the whole text.
    assert compose("a: 1")[1] == Place((1, 1), (1, 1), {"a": Place((1, 4), (1, 1), {})})
