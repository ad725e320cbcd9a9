"""What machines read: `compare --json`, `plan.json` and `ways --json`, through the real command."""

import hashlib
import json
import shutil
import subprocess
import sys
from functools import cache
from heapq import heappop, heappush
from pathlib import Path
from typing import Any

import bad
import jsonschema
import networkx as nx
import pytest

import answered
from drawcord.files.home import layouts, shared

WHOLE, TEXT, NUMBER = {"type": "integer", "minimum": 0}, {"type": "string", "minLength": 1}, {"type": "number"}
TEXTS = {"type": "array", "items": TEXT}


def keys(**of: Any) -> dict[str, Any]:
    """An object with at least these keys."""
    return {"type": "object", "properties": of, "required": list(of)}


def some(items: Any, least: int = 0) -> dict[str, Any]:
    return {"type": "array", "items": items, "minItems": least}


def or_null(what: dict[str, Any]) -> dict[str, Any]:
    return {"anyOf": [what, {"type": "null"}]}


POINT = {"type": "array", "items": {"type": "integer"}, "minItems": 3, "maxItems": 3}
LEG = keys(space=TEXT, kind=TEXT, points_mm=some(POINT, 1), length_mm=WHOLE, in_sight={"type": "boolean"}, cover=TEXT)
CANDIDATE = keys(
    id=TEXT,
    rank={"type": "integer", "minimum": 1},
    best_at=TEXTS,
    spaces={**TEXTS, "minItems": 1},
    length_mm=WHOLE,
    in_sight_mm=WHOLE,
    roof_holes=WHOLE,
    inner_holes=WHOLE,
    minutes={**NUMBER, "exclusiveMinimum": 0},
    chance_clear={**NUMBER, "exclusiveMinimum": 0, "maximum": 1},
    cut_length_mm=keys(low=WHOLE, likely=WHOLE, high=WHOLE),
    joints=some(keys(at_mm=WHOLE, point_mm=POINT, space=TEXT)),
    conductor=or_null(keys(label=or_null(TEXT))),
    drop_volts=or_null(keys(value=NUMBER, amperes=NUMBER, volts=NUMBER)),
    drop_percent=or_null(keys(value=NUMBER, amperes=NUMBER, volts=NUMBER)),
    holes=some(keys(id=TEXT, between=TEXTS, diameter_mm=WHOLE)),
    findings=some(keys(severity=TEXT, place=TEXT, sentence=TEXT)),
    legs=some(LEG, 1),
)
CABLE = keys(cable=TEXT, unroutable=or_null(keys(sentence=TEXT, closed_by=TEXTS, smallest_change=TEXTS)))
CABLE["properties"] |= {"from": TEXT, "to": TEXT, "candidates": some(CANDIDATE)}
CABLE["required"] += ["from", "to", "candidates"]
INPUT = keys(file=TEXT, sha256={"type": "string", "pattern": "^[0-9a-f]{64}$"})
DOCUMENT = keys(format={"const": 1}, job=TEXT, rig=TEXT, inputs=some(INPUT, 2), cables=some(CABLE, 1))


def run(*words: str | Path) -> subprocess.CompletedProcess[str]:
    """The command as a person runs it."""
    command = [sys.executable, "-c", "from drawcord.app.cli import main; main()", *map(str, words)]
    return subprocess.run(command, capture_output=True, text=True, check=False, encoding="utf-8")


@cache
def compared(job: str) -> dict[str, Any]:
    """The document for a demo job."""
    said = bad.run("compare", answered.JOBS[job], "--json")
    assert (said.status, said.lines) == (0, [])
    return json.loads(said.out)


@cache
def graph(job: str) -> nx.MultiGraph:
    """The graph of a demo job, read back."""
    said = bad.run("ways", answered.JOBS[job], "--json")
    assert (said.status, said.lines) == (0, [])
    return nx.node_link_graph(json.loads(said.out), edges="edges")


@pytest.fixture
def closed_job(tmp_path) -> Path:
    """The van's job where the owner wants nothing on the roof: `coax` has no way, `picture` still has."""
    shutil.copytree(layouts() / "van", tmp_path / "van")
    path = tmp_path / "van" / "job-open-cabin.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("\nowner:\n", "\nowner:\n  excludes: [roof]\n"), encoding="utf-8")
    return path


@pytest.mark.parametrize("job", answered.JOBS)
def test_every_key(job):
    """Every key that is promised is there, of the right kind, in the document of each demo job."""
    document = compared(job)
    jsonschema.validate(document, DOCUMENT)
    for cable in document["cables"]:
        assert (cable["unroutable"] is None) == bool(cable["candidates"])
        assert [candidate["rank"] for candidate in cable["candidates"]] == list(range(1, len(cable["candidates"]) + 1))
        for candidate in cable["candidates"]:
            assert sum(leg["length_mm"] for leg in candidate["legs"]) == candidate["length_mm"]
            assert [leg["space"] for leg in candidate["legs"]] == candidate["spaces"]
            assert len(candidate["holes"]) == candidate["roof_holes"] + candidate["inner_holes"]
            cut = candidate["cut_length_mm"]
            assert candidate["length_mm"] < cut["low"] <= cut["likely"] <= cut["high"]


@pytest.mark.parametrize("job", answered.JOBS)
def test_power_and_data(job):
    """Cables that carry power have conductor and drop, with the current and voltage they stand on; others null."""
    sketched = answered.coach_of(job).job.cables
    for cable in compared(job)["cables"]:
        carries = sketched[cable["cable"]]
        for candidate in cable["candidates"]:
            given = [candidate[key] for key in ("conductor", "drop_volts", "drop_percent")]
            if carries.amperes is None:
                assert given == [None, None, None]
                continue
            for drop in given[1:]:
                assert (drop["amperes"], drop["volts"]) == (carries.amperes, carries.volts)
            assert given[2]["value"] == pytest.approx(100 * given[1]["value"] / carries.volts, abs=1e-3)


@pytest.mark.parametrize("job", answered.JOBS)
def test_hashes(job):
    """The hash of every file that was read: job, rig and the shop's eleven."""
    job_file = answered.JOBS[job]
    read = [job_file.with_name("rig.yaml"), job_file]
    shop = ("allowances", "clearances", "labour", "preferences", "sharing", "parts")
    shop += ("modules", "controllers", "batteries", "cables", "devices")
    read += [shared() / f"{name}.yaml" for name in shop]
    expected = {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in read}
    assert {given["file"]: given["sha256"] for given in compared(job)["inputs"]} == expected


def test_without_route(closed_job):
    """A cable without a way: exit status 1, the document complete, the other cables with their candidates."""
    done = run("compare", closed_job, "--json")
    assert (done.returncode, done.stderr) == (1, "")
    document = json.loads(done.stdout)
    jsonschema.validate(document, DOCUMENT)
    coax, picture = document["cables"]
    assert (coax["cable"], coax["candidates"]) == ("coax", [])
    assert coax["unroutable"]["closed_by"] == ["roof: the owner excludes it"]
    assert picture["candidates"]


def test_plan_without_route(closed_job, tmp_path):
    """The plan says the same, writes what can be planned, and chooses nothing for the cables without a way."""
    done = run("plan", closed_job, "--out", tmp_path / "plan")
    assert (done.returncode, done.stderr) == (1, "")
    document = json.loads((tmp_path / "plan" / "plan.json").read_text(encoding="utf-8"))
    jsonschema.validate(document, DOCUMENT)
    chosen = document.pop("chosen")
    assert document.pop("circuits") is None
    assert document.pop("together") is None  # there is but one cable to plan
    assert (tmp_path / "plan" / document.pop("job_file")).samefile(closed_job)
    assert (tmp_path / "plan" / document.pop("shop_folder")).samefile(shared())
    assert document == json.loads(run("compare", closed_job, "--json").stdout)
    assert chosen == {"picture": document["cables"][1]["candidates"][0]["id"]}
    assert (tmp_path / "plan" / "picture-route.svg").is_file()
    assert not (tmp_path / "plan" / "coax-route.svg").exists()


@pytest.mark.parametrize("job", answered.JOBS)
def test_graph_read_back(job):
    """Every node and edge has the attributes that ways/graph.py names."""
    read = graph(job)
    assert (read.graph["job"], read.graph["rig"]) == (compared(job)["job"], compared(job)["rig"])
    for space in read.graph["spaces"].values():
        assert space.keys() == {"kind", "seconds", "doubt_micronats"}
    for _, node in read.nodes(data=True):
        assert node["space"] in read.graph["spaces"]
        assert node.keys() == {"kind", "space", "x", "y", "z"} | (
            {"passage", "station", "level_with"} if node["kind"] == "mouth" else set()
        )
    for _, _, key, edge in read.edges(keys=True, data=True):
        run_keys = {"kind", "space", "length_mm", "in_sight_mm", "seconds"}
        crossing_keys = {"kind", "passage", "length_mm", "roof_holes", "inner_holes", "seconds"}
        crossing_keys |= {"doubt_micronats", "opening", "standing"}
        assert edge.keys() == (run_keys if edge["kind"] == "run" else crossing_keys)
        assert key == edge["space" if edge["kind"] == "run" else "passage"]


@pytest.mark.parametrize("job", answered.JOBS)
def test_winner_on_the_graph(job):
    """An independent Dijkstra on the graph that was read back finds the winner's length along its passages, but for
    what pulling it tight saves; where no crossing can be moved it finds the very length."""
    exact = 0
    for cable in compared(job)["cables"]:
        if not cable["candidates"]:
            continue
        winner = cable["candidates"][0]
        shortest = dijkstra(graph(job), cable["from"], cable["to"], winner["spaces"], winner["passages"])
        assert shortest is not None
        exact += winner["length_mm"] == shortest
        assert 0.75 * shortest <= winner["length_mm"] <= 1.05 * shortest
    assert exact


def dijkstra(read: nx.MultiGraph, start: str, end: str, spaces: list[str], passages: list[str]) -> int | None:
    """The least length along some passages in order: states are a node and how many passages are behind it."""
    heap, done = [(0, start, 0, False)], set()
    while heap:
        length, node, behind, ran = heappop(heap)
        if node == end and behind == len(passages):
            return length
        if (node, behind, ran) in done:
            continue
        done.add((node, behind, ran))
        for _, other, key, edge in read.edges(node, keys=True, data=True):
            crosses = edge["kind"] == "crossing"
            if crosses and ran and behind < len(passages) and key == passages[behind]:
                heappush(heap, (length + edge["length_mm"], other, behind + 1, False))
            elif not crosses and not ran and key == spaces[behind]:
                heappush(heap, (length + edge["length_mm"], other, behind, True))
    return None
