"""The same input gives the same bytes: under other hash seeds, and with the entries of its files in another order."""

import json
import os
import subprocess
import sys
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import pytest
from ruamel.yaml import YAML

import answered
from drawcord.app.answers import inputs
from drawcord.app.printing import as_json
from drawcord.sheets.render import to_svg
from drawcord.sheets.report import plan_document
from drawcord.sheets.route_sheet import route_sheets
from planned import planned

DRAWN = ("class-a-three-slides/job-galley-side", "fifth-wheel/job-front-bay")
# Lists in which order says nothing; in others it does, as in ranges, outlines and allowances.
UNORDERED = ("between", "consents", "excludes", "filled", "found", "plain", "removed", "steps")
PROGRAM = """
import sys
from pathlib import Path
from drawcord.app.answers import inputs
from drawcord.app.circuits import plan_of
from drawcord.app.printing import as_json
from drawcord.sheets.render import to_svg
from drawcord.sheets.report import plan_document
from drawcord.sheets.route_sheet import route_sheets
loaded, found, plan = plan_of(Path(sys.argv[1]), None, [])
print(as_json(plan_document(plan, [order for order, _ in found], inputs(loaded))))
sys.stdout.flush()
if sys.argv[2] == "drawn":
    answer = max((answer for _, answer in found), key=lambda answer: len(answer.candidates))
    for page in route_sheets(loaded.coach, answer.candidates[0], loaded.coach.units):
        sys.stdout.buffer.write(to_svg(page))
"""  # the document with the joint plan, and the sheets of the winner of the cable with most candidates
JSON_ENDS = b"\n}\n"


@cache
def here(job: str) -> tuple[bytes, bytes]:
    """The document of a demo job and, if it is drawn, its picture, as they come out in this process."""
    loaded, found, plan = planned(job)
    document = as_json(plan_document(plan, [order for order, _ in found], inputs(loaded))).encode() + b"\n"
    answer = max((answer for _, answer in found), key=lambda answer: len(answer.candidates))
    pages = route_sheets(loaded.coach, answer.candidates[0], loaded.coach.units) if job in DRAWN else ()
    return document, b"".join(map(to_svg, pages))


def printed(job: Path, seed: int, *, drawn: bool) -> tuple[bytes, bytes]:
    """The same from a process with this hash seed."""
    environment = {**os.environ, "PYTHONHASHSEED": str(seed)}
    command = [sys.executable, "-c", PROGRAM, job, "drawn" if drawn else "not drawn"]
    done = subprocess.run(command, capture_output=True, check=False, env=environment)
    assert not done.returncode, done.stderr.decode()
    document, _, picture = done.stdout.partition(JSON_ENDS)
    return document + JSON_ENDS, picture


@pytest.mark.parametrize("seed", [0, 1])
def test_hash_seeds(seed):
    """Document and picture are the same to the byte, whatever the order in which a set gives up what is in it."""
    document, picture = here(DRAWN[0])
    assert json.loads(document)["cables"]
    assert json.loads(document)["together"]
    assert picture.startswith(b"<?xml")
    assert printed(answered.JOBS[DRAWN[0]], seed, drawn=True) == (document, picture)


@pytest.mark.parametrize("job", answered.JOBS)
def test_entries_in_another_order(job, tmp_path):
    """In a process with another hash seed, with the entries of rig and job shuffled, and every list in which order says
    nothing, all stays the same to the byte but for the hashes of the files themselves."""
    path = answered.JOBS[job]
    rng = Random(job)  # noqa: S311 - any order will do
    for name in ("rig.yaml", path.name):
        moved = shuffled(YAML(typ="safe").load(path.with_name(name)), rng)
        (tmp_path / name).write_text(json.dumps(moved, ensure_ascii=False), encoding="utf-8")  # which is YAML too
    document, picture = here(job)
    other, other_picture = printed(tmp_path / path.name, 2, drawn=job in DRAWN)
    hashes = [
        {given["sha256"] for given in json.loads(text)["inputs"] if given["file"] in ("rig.yaml", path.name)}
        for text in (document, other)
    ]
    assert hashes[0].isdisjoint(hashes[1]), "nothing was shuffled"
    assert without_inputs(other) == without_inputs(document)
    assert other_picture == picture


def shuffled(value: Any, rng: Random, key: str = "") -> Any:
    """The same with the entries of every mapping in another order, and of every list in which order says nothing."""
    if isinstance(value, dict):
        entries = [(name, shuffled(part, rng, name)) for name, part in value.items()]
        return dict(rng.sample(entries, len(entries)))
    if isinstance(value, list):
        parts = [shuffled(part, rng) for part in value]
        return rng.sample(parts, len(parts)) if key in UNORDERED else parts
    return value


def without_inputs(document: bytes) -> bytes:
    """The document's bytes without the list of files and their hashes."""
    before, _, rest = document.partition(b'  "inputs": [')
    return before + rest.partition(b"\n  ],\n")[2]
