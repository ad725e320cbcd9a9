"""Files spoilt at random: whatever is in them, the answer is a sentence at a place or a result, never a fault."""

import copy
import json
import re
import tempfile
from pathlib import Path

import pytest
from bad import JOB, RIG, run
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.files.compose import compose
from drawcord.files.document import read_document
from drawcord.files.home import layouts

# The same examples every time, so that a change here and not chance decides whether they pass.
steady = settings(deadline=None, derandomize=True)
JOB_FILES = sorted(layouts().glob("*/job-*.yaml"))
ODD = [
    *(None, True, False, 0, -1, 1, 0.5, 1e-12, 10**14, 10**15, -(10**9)),
    *("", " ", "NaN", "nan", ".nan", "inf", "-inf", "1e999", "0x10", "１ m", "½ in", "a" * 5000, "\u202e", "é", "💥"),
    *("~", "a~b", "~~", "roof", "to roof", "to ", "to x", "0..0", "5..3", "0..0.4 mm", "2 mm..1 m", "-30 m..30 m"),
    *("floor..floor", "ceiling..floor", "ground..roof", "0 mm", "25 m", "30 m", "31 m", "100 %", "0 %", "-5 %"),
    *("1000 h", "-300 °C", "12 V", "0 A", "blocked", "unproven", "room", "bay", "gas locker", "vent stack", "exists"),
    *("closed", "needs hole", "out", "up", "forward", [], {}, [[]], [None, None], [1, 2], ["roof", "roof"], {"a": 1}),
]
KEYS = ["roof", "x", "", "A b", "kind", "from front", "é", "a" * 60, "from rear", "travel", "\u0000"]


def paths(value, above=()):
    """The path of everything inside a document."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, part in inner:
        yield (*above, key)
        yield from paths(part, (*above, key))


def at(value, path):
    for part in path:
        value = value[part]
    return value


@st.composite
def spoilt(draw, pairs):
    """A rig and a job with up to three things wrong, or merely different."""
    rig, job = copy.deepcopy(draw(st.sampled_from(pairs)))
    for _ in range(draw(st.integers(1, 3))):
        document = draw(st.sampled_from([rig, rig, job]))
        path = draw(st.sampled_from(list(paths(document))))
        holder, key = at(document, path[:-1]), path[-1]
        match draw(st.sampled_from(["gone", "odd", "other", "renamed", "more", "scaled"])):
            case "gone":
                del holder[key]
            case "odd":
                holder[key] = copy.deepcopy(draw(st.sampled_from(ODD)))
            case "other":  # what stands somewhere else, often under the same key
                elsewhere = list(paths(document))
                alike = [path for path in elsewhere if path[-1] == key]
                chosen = draw(st.sampled_from(draw(st.sampled_from([alike, elsewhere]))))
                holder[key] = copy.deepcopy(at(document, chosen))
            case "renamed" if isinstance(holder, dict):
                holder[draw(st.sampled_from(KEYS))] = holder.pop(key)
            case "scaled" if isinstance(holder[key], int | float):
                holder[key] = holder[key] * draw(st.sampled_from([-1, 0.2, 0.9, 1.1, 3, 1e6]))
            case _:
                if isinstance(holder, dict):
                    holder["extra"] = draw(st.text(max_size=5))
                else:
                    holder.append(copy.deepcopy(holder[key]))
    return rig, job


def written(document):
    """A mapping as YAML that is read in a tenth of the time that JSON takes: a line for each of its keys."""

    def key(name):
        return name if re.fullmatch(r"[a-z]([a-z0-9_~ -]*[a-z0-9])?", name) else json.dumps(name, ensure_ascii=False)

    def flow(value):
        if isinstance(value, dict):
            return "{" + ", ".join(f"{key(name)}: {flow(part)}" for name, part in value.items()) + "}"
        if isinstance(value, list):
            return "[" + ", ".join(map(flow, value)) + "]"
        return json.dumps(value, ensure_ascii=False)

    return "".join(f"{key(name)}: {flow(value)}\n" for name, value in document.items())


def check_ends_well(command, rig, job, *options):
    """Run a command on a rig and a job given as data or text; it may refuse, but it may not fail."""
    with tempfile.TemporaryDirectory() as folder:
        for name, contents in (("rig.yaml", rig), ("job.yaml", job)):
            text = contents if isinstance(contents, str) else written(contents)
            Path(folder, name).write_bytes(text.encode("utf-8", "surrogatepass"))
        said = run(command, Path(folder, "job.yaml"), *options)
    assert said.status in ((0, 2) if command == "check" else (0, 1, 2)), said.lines
    assert bool(said.lines) == (said.status == 2)
    if said.status == 2:
        assert said.out == ""
        assert all(line.startswith(folder) for line in said.lines), said.lines
    elif "--json" in options:
        json.loads(said.out)


DEMOS = [(read_document(path.parent / "rig.yaml").data, read_document(path).data) for path in JOB_FILES]
SMALL = [(compose(RIG)[0], compose(JOB)[0])]


@pytest.mark.parametrize(("rig", "job"), DEMOS)
def test_the_documents_are_written_as_they_are(rig, job):
    for document in (rig, job):
        assert compose(written(document))[0] == document


@settings(steady, max_examples=80)
@given(spoilt(DEMOS))
def test_no_change_to_a_demo_makes_check_fail(documents):
    check_ends_well("check", *documents)


@settings(steady, max_examples=120)
@given(spoilt(SMALL), st.sampled_from([("compare", "--json"), ("compare",), ("ways", "--json"), ("ways",)]))
def test_no_change_to_a_small_job_makes_compare_or_ways_fail(documents, command):
    check_ends_well(command[0], *documents, *command[1:])


@settings(steady, max_examples=25)
@given(spoilt(DEMOS))
def test_no_change_to_a_demo_makes_compare_fail(documents):
    check_ends_well("compare", *documents, "--json")


@settings(steady, max_examples=150)
@given(st.data())
def test_no_slip_of_the_pen_makes_check_fail(data):
    # Characters struck out, doubled, put in and swapped in the text itself.
    text = RIG
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(text)))
        end = data.draw(st.integers(start, min(start + 8, len(text))))
        put = data.draw(
            st.sampled_from(["", text[start:end] * 2, "\t", "\n", "'", "[", "}", ": ", "&a ", "*a", "-", "%"])
        )
        text = text[:start] + put + text[end:]
    check_ends_well("check", text, JOB)


@settings(steady, max_examples=60)
@given(st.one_of(st.text(max_size=60), st.binary(max_size=60).map(lambda b: b.decode("latin-1"))))
def test_no_text_at_all_makes_check_fail(text):
    check_ends_well("check", text, JOB)


@pytest.mark.parametrize("name", ["rig.yaml", "job.yaml"])
@settings(steady, max_examples=40)
@given(st.binary(max_size=80))
def test_no_bytes_at_all_make_check_fail(name, data):
    with tempfile.TemporaryDirectory() as folder:
        for other, text in (("rig.yaml", RIG), ("job.yaml", JOB)):
            Path(folder, other).write_text(text, encoding="utf-8")
        Path(folder, name).write_bytes(data)
        assert run("check", Path(folder, name)).status == 2
