"""A small rig with a job that is right in every way, and what the program says of them once they are not."""

import re
from functools import cache
from itertools import accumulate
from pathlib import Path
from typing import NamedTuple
from unittest.mock import patch

from typer.testing import CliRunner

from drawcord.app.cli import cli
from drawcord.files import load
from drawcord.files.load import load_shop

RIG = """\
format: 1
rig: sketch
name: Sketch
units: mm
traffic keeps: right
shell:
  length: 6000
  width: 2500
  wall: 50
  floor thickness: 60
  ceiling: 2000
  roof: 2060
  bay: -700
  ground: -1000
  roof skin: aluminium
spaces:
  linen: {kind: cabinet, from front: 1000..2000, street: 600, up: floor..ceiling, door: curb}
  chest: {kind: cabinet, after: linen, long: 500, street: 600, up: floor..900, door: up}
  stack: {kind: vent stack, from front: 1200..1400, street: 200, up: bay..ceiling, pipe: 50}
  bay: {kind: bay, from front: 500..3000, street: 900, door: street}
  pantry: {kind: cabinet, from front: 4000..4500, curb: 500, up: floor..1940}
moving parts:
  slide: {kind: slide-out, from front: 3800..5000, curb: 700, up: floor..1900, travel: 600, towards: curb, drawn: in}
roof obstacles:
  fan: {kind: vent, from front: 3000..3300, centre: 300}
hazards:
  flue: {kind: appliance flue, from front: 5400..5500, street: 100, up: 900..roof}
access:
  panel: {into: stack, kind: removable panel, face: curb}
passages:
  glory_hole: {between: [linen, bay], opening: exists, size: 40, chance: 80 %}
"""
JOB = """\
format: 1
job: order
name: Order
units: mm
rig: rig.yaml
differences:
  found:
    - {what: stack, standing: proven, source: looked, date: '2025-05-01'}
equipment:
  junction: {kind: junction box, in: roof, from front: 2500, street: 700, terminals: {pv: }}
  controller: {kind: charge controller, in: bay, from front: 2500, street: 300, up: -400, terminals: {pv: }}
cables:
  pv: {from: junction.pv, to: controller.pv, class: PV, cores: 2, amperes: 9 A, volts: 40 V,
    outside diameter: 6, smallest bend: 30, largest plug: 20, longest piece: 10 m}
owner: {roof run: square}
temperatures: {coldest: -20 °C, hottest: 45 °C}
"""
MARK = "¦"  # put into a text before what a sentence should point at


class Said(NamedTuple):
    """What a run printed and how it ended, with the position of each sentence on standard error."""

    status: int
    out: str
    lines: list[str]
    places: list[tuple[str, int, int]]  # file, line and column


shipped = cache(load_shop)


def run(*arguments: str | Path) -> Said:
    """Run the program within this process, in which the shop's files that come with it are read once."""
    with patch.object(load, "load_shop", lambda folder=None: load_shop(folder) if folder else shipped()):
        result = CliRunner().invoke(cli, [str(argument) for argument in arguments])
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    lines = result.stderr.splitlines()
    found = (re.match(r"(.*?):(\d+):(\d+): ", line) for line in lines)
    places = [(Path(one[1]).name, int(one[2]), int(one[3])) for one in found if one]
    return Said(result.exit_code, result.stdout, lines, places)


def write(folder: Path, rig: str | bytes = RIG, job: str | bytes = JOB) -> list[tuple[str, int, int]]:
    """Write both files without their marks; where the marks are, in order of the files and lines."""
    marks = []
    for name, text in (("rig.yaml", rig), ("job.yaml", job)):
        if isinstance(text, bytes):
            (folder / name).write_bytes(text)
            continue
        for number, line in enumerate(text.splitlines(), start=1):
            parts = line.split(MARK)
            before = accumulate(len(part) for part in parts[:-1])
            marks.extend((name, number, column + 1) for column in before)
        (folder / name).write_text(text.replace(MARK, ""), encoding="utf-8")
    return marks


def changed(text: str, old: str, new: str) -> str:
    """The text with one passage replaced."""
    assert text.count(old) == 1, f"{old} stands in the text {text.count(old)} times"
    return text.replace(old, new)


def contents(folder: Path) -> dict[str, bytes | None]:
    """Everything in a folder and below."""
    return {
        str(path.relative_to(folder)): path.read_bytes() if path.is_file() else None
        for path in sorted(folder.rglob("*"))
    }
