"""The documents of `array` and `circuit`, key by key and figure by figure, against DEVELOPERS.md and arithmetic."""

import json
import re
from functools import cache
from pathlib import Path

import pytest
from bad import changed, run
from test_array import LAYOUTS
from test_array import document as array_of
from test_circuit import POWER, circuits_of, value
from test_circuit import document as circuit_of

TESTS = Path(__file__).parents[1]
DEVELOPERS = (TESTS.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
FIGURE = {"name", "value", "unit", "formula", "source"}
FINDING = {"severity", "place", "sentence", "source"}
SHARED = {"figures": FIGURE, "readings": FIGURE, "drop": FIGURE, "findings": FINDING, "cautions": FINDING}
SHARED |= {"worst_legs": FIGURE | {"leg"}, "largest_isc": FIGURE, "largest_imp": FIGURE}
SHARED |= dict.fromkeys(("frames", "enclosures", "chassis"), FIGURE | {"section"})
BY_NAME = {"left"}  # whose keys are the job's own ids


def rows(heading):
    """The rows of a table of DEVELOPERS.md, by its first cell."""
    table = DEVELOPERS[DEVELOPERS.index(f"| {heading} |") :].split("\n\n")[0]
    cells = [[cell.strip() for cell in line.strip("|").split(" | ")] for line in table.splitlines()[2:]]
    return {first.strip(): second for first, second in cells}


KEYS = {name.strip("`"): set(re.findall(r"`(\w+)`", keys)) for name, keys in rows("object").items()} | SHARED
PINNED = {name.strip(): tests for names, tests in rows("value of").items() for name in names.split("; ")}


@cache
def documents():
    """Both documents of every demo job."""
    found = [("array", array_of(job)) for job in LAYOUTS]
    return [*found, *(("circuit", circuit_of(job)) for job in LAYOUTS)]


def objects(name, what):
    """Every object of a document with the key that it stands under, that of its holder before it where they differ."""
    if isinstance(what, dict):
        yield name, set(what)
        for key, inner in what.items():
            yield from objects(f"{name} {key}" if f"{name} {key}" in KEYS else key, inner)
    elif isinstance(what, list):
        for inner in what:
            yield from objects(name, inner)


def figures(what):
    """Every figure of a document."""
    if isinstance(what, dict):
        if "formula" in what:
            yield what
        for inner in what.values():
            yield from figures(inner)
    elif isinstance(what, list):
        for inner in what:
            yield from figures(inner)


def test_every_key_is_described_and_every_described_key_is_there():
    # Exactly those keys, on every object: a key that comes or goes without a word breaks somebody's program.
    wrong = [
        (name, sorted(keys ^ KEYS.get(name, set())))
        for kind, document in documents()
        for name, keys in objects(kind, document)
        if name not in BY_NAME and keys != KEYS.get(name)
    ]
    assert wrong == []
    seen = {name for kind, document in documents() for name, _ in objects(kind, document)}
    assert set(KEYS) - seen <= {"pieces", "joined_before"}  # no demo job needs two types: plan/test_pieced.py


def test_every_figure_is_listed_with_a_test_that_is_there():
    # By name, what changes with the job left open; and no row without a figure.
    names = {figure["name"] for _, document in documents() for figure in figures(document)}
    patterns = {name: re.compile(re.escape(name).replace("…", ".+")) for name in PINNED}
    assert [name for name in sorted(names) if not any(one.fullmatch(name) for one in patterns.values())] == []
    assert [name for name, one in patterns.items() if not any(one.fullmatch(each) for each in names)] == []
    files = {file for tests in PINNED.values() for file in re.findall(r"`([\w/.]+)`", tests)}
    assert [file for file in sorted(files) if not (TESTS / file).is_file()] == []


@pytest.fixture(scope="module")
def small(tmp_path_factory):
    """Both documents of a job whose module has 24.6 V, 10.2 A, 20.5 V and 9.8 A."""
    folder = tmp_path_factory.mktemp("small")
    _, circuits = circuits_of(folder, changed(POWER, "[2.5 mm2, 16 mm2]", "[2.5 mm2, 70 mm2]"))
    return json.loads(run("array", folder / "job.yaml", "--json").out), circuits


def test_hot_and_full_sun_figures_by_hand(small):
    # Cells 35 K above air of 45 °C are 55 K above 25 °C. Voc falls by 0.27 %/K, Vmp by the 0.34 %/K of Pmp, since
    # nothing is said of Isc; 2 % of it are taken as lost on the way. The controller gives up to 30 A.
    array, circuits = small
    voc, vmp = 24.6 * (1 - 0.0027 * 55), 20.5 * (1 - 0.0034 * 55)
    for one in array["groupings"]:
        (tracker,) = one["trackers"]
        series, strings = tracker["series"], tracker["parallel"]
        assert value(tracker["figures"], "string's hot Voc") == pytest.approx(series * voc, rel=1e-4)
        reaching = 0.98 * series * vmp
        assert value(tracker["figures"], "hot Vmp at the controller") == pytest.approx(reaching, rel=1e-4)
        watts = series * strings * 20.5 * 9.8
        assert value(one["figures"], "array's power in full sun") == pytest.approx(watts, rel=1e-4)
        offered = value(one["figures"], "charge current offered")
        assert value(one["figures"], "charge current clipped") == pytest.approx(max(0, offered - 30), rel=1e-4)
    (pv,) = (one for one in circuits["circuits"] if one["cable"] == "pv")
    series, strings = map(int, re.fullmatch(r"(\d)s(\d)p", circuits["grouping"]).groups())
    assert value(pv["readings"], "open circuit, cells at 25 °C") == pytest.approx(series * 24.6)
    assert value(pv["readings"], "short circuit in full sun") == pytest.approx(strings * 10.2)
    assert value(pv["figures"], "string's hot Vmp") == pytest.approx(series * vmp, rel=1e-4)
    (charge,) = (one for one in circuits["circuits"] if one["cable"] == "charge")
    assert value(charge["readings"], "battery at absorption") == value(charge["figures"], "absorption voltage") == 14.2


def test_what_is_left_at_the_tracker_is_what_the_cables_do_not_lose(small):
    # Ohm's law on the document's own figures, one after the other; the text's drop is the same number.
    _, found = small
    (pv,) = (one for one in found["circuits"] if one["cable"] == "pv")
    hot, lost = value(pv["figures"], "string's hot Vmp"), value(pv["drop"], "voltage drop")
    assert value(found["figures"], "hot Vmp at tracker 1") == pytest.approx(hot - lost, rel=1e-4)
    assert value(found["figures"], "drop from the array to tracker 1") == pytest.approx(100 * lost / hot, rel=1e-4)
