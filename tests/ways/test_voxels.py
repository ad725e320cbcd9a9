"""Lengths on the demo rigs against the voxel reference, for fixed orders of spaces.

`python tests/ways/test_voxels.py` writes voxel_exceptions.csv anew.
"""

import csv
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from itertools import pairwise, product
from pathlib import Path
from random import Random
from typing import NamedTuple

import pytest
import voxels

from drawcord.coach.box import Box, Point
from drawcord.coach.coach import Space, Terminal
from drawcord.files.home import layouts
from drawcord.files.load import load_ways
from drawcord.routes.legs import crossings, legs
from drawcord.ways.ways import Ways

RIGS = sorted(path.parent.name for path in layouts().glob("*/rig.yaml"))
EXCEPTIONS = Path(__file__).with_name("voxel_exceptions.csv")
TOLERANCE, SHARE = 0.03, 0.95  # of the length, and of the pairs that have to keep it
ENDS = 4  # pairs an order of spaces
THREES = 40  # orders of three spaces drawn a rig; orders of one and two are all taken
CHOICE = "the search compares its stations before they are pulled tight; another one, pulled, is as short as the reference"
BLIND = "crossings are pulled tight as if nothing filled the spaces, and the legs then go round what does"


class Pair(NamedTuple):
    """Two points and the order of spaces in which they are joined; lengths [mm], None where there is no way."""

    rig: str
    spaces: str
    start: str
    end: str
    product: int | None
    reference: int | None

    @property
    def off(self) -> bool:
        """Whether the product is further from the reference than the tolerance."""
        if self.product is None or self.reference is None:
            return self.product != self.reference
        return abs(self.product - self.reference) > TOLERANCE * self.reference


def test_more_lines_change_nothing():
    """The reference is exact: with a line at every millimetre, which makes cubes, its lengths are the same."""
    rng = Random(9)
    reached = 0
    for _ in range(60):
        first, second = Box(0, 11, 0, 9, 0, 8), Box(12, 20, 0, 9, 0, 8)
        solids = [voxels.Solid(box, tuple(_inner(rng, box) for _ in range(5))) for box in (first, second)]
        walls = [[_inner(rng, Box(11, 12, 0, 9, 0, 8)) for _ in range(2)]]
        start, *ends = (_free(rng, solid.box, solid.taken) for solid in (solids[0], *[solids[1]] * 4))
        found = voxels.lengths(solids, walls, start, ends, fill=100)
        assert found == voxels.lengths(solids, walls, start, ends, fill=1)
        reached += sum(length is not None and length > _square(start, end) for length, end in zip(found, ends, strict=True))
    assert reached > 50, "too few of the runs go round anything"


def test_reference_goes_round():
    """By hand: over a wall that leaves 10 mm below the ceiling of a box 100 mm high, from floor to floor."""
    solid = voxels.Solid(Box(0, 300, 0, 50, 0, 100), (Box(100, 120, 0, 50, 0, 90),))
    assert voxels.lengths([solid], [], (0, 0, 0), [(300, 0, 0)]) == [300 + 2 * 90]


@pytest.mark.parametrize("rig", RIGS)
def test_never_shorter(rig):
    """No length is less than can be, there is a way exactly where the voxels have one, and all deviations are listed."""
    found = measured(rig)
    assert len(found) > 250
    for pair in found:
        assert (pair.product is None) == (pair.reference is None), pair
        assert pair.product is None or pair.product >= pair.reference, pair
    listed = [row for row in _listed() if row["rig"] == rig]
    assert [_row(pair) for pair in found if pair.off] == [{k: v for k, v in row.items() if k != "reason"} for row in listed]


@pytest.mark.parametrize("rig", RIGS)
def test_alone_exact(rig):
    """Within one space, whatever is taken out of it, lengths are exact."""
    alone = [pair for pair in measured(rig) if " " not in pair.spaces]
    assert len(alone) >= 20
    assert [pair for pair in alone if pair.product != pair.reference] == []


def test_within_tolerance():
    """Over all rigs, 95 % of the pairs are within 3 % of the reference."""
    pairs = [pair for rig in RIGS for pair in measured(rig)]
    off = sum(pair.off for pair in pairs)
    assert off <= (1 - SHARE) * len(pairs), f"{off} of {len(pairs)} pairs are off"


@pytest.mark.parametrize("rig", RIGS)
def test_reasons(rig):
    """Each listed deviation has the reason that is written beside it."""
    ways = _with_ends(rig)[0]
    for row in _listed():
        if row["rig"] == rig:
            assert row["reason"] == _reason(ways, row["spaces"].split(), row["start"], row["end"], int(row["reference_mm"]))


def _listed() -> list[dict[str, str]]:
    with EXCEPTIONS.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _row(pair: Pair) -> dict[str, str]:
    words = (str(value) for value in pair)
    return dict(zip(("rig", "spaces", "start", "end", "product_mm", "reference_mm"), words, strict=True))


@cache
def measured(rig: str) -> tuple[Pair, ...]:
    """Every pair drawn for a rig, measured both ways."""
    ways, chains = _with_ends(rig)
    found = []
    for chain, names in chains:
        start, *ends = (ways.coach.terminals[name].point for name in names)
        solids, walls = voxels.solids_of(ways, chain), voxels.walls_of(ways, chain)
        for name, reference in zip(names[1:], voxels.lengths(solids, walls, start, ends), strict=True):
            ours = _searched(ways, chain, names[0], name)
            found.append(Pair(rig, " ".join(chain), names[0], name, ours, reference))
    return tuple(found)


@cache
def _with_ends(rig: str) -> tuple[Ways, list[tuple[tuple[str, ...], list[str]]]]:
    """The ways of a rig with terminals at the ends of pairs, each called by where it is, and the terminals by chain."""
    _, ways = load_ways(layouts() / rig / "rig.yaml")
    rng = Random(rig)
    terminals: dict[str, Terminal] = {}
    chains = []
    for chain in _chains(ways, rng):
        names = []
        for space in (chain[0], *(chain[-1:] * ENDS)):
            point = _free(rng, ways.coach.spaces[space].box, ways.coach.spaces[space].taken)
            names.append(",".join(map(str, point)) + f" in {space}")
            terminals[names[-1]] = Terminal(names[-1], space, point, "router")
        chains.append((chain, names))
    return replace(ways, coach=replace(ways.coach, terminals=dict(sorted(terminals.items())))), chains


def _chains(ways: Ways, rng: Random) -> list[tuple[str, ...]]:
    """Orders of spaces: those with something taken out, neighbours, and some of three; no roof, no rooms."""
    plain = {space.id: space for space in ways.coach.spaces.values() if _plain(space)}
    joined: dict[str, set[str]] = {name: set() for name in plain}
    for passage in ways.passages.values():
        if not passage.barred and passage.a in plain and passage.b in plain:
            joined[passage.a].add(passage.b)
            joined[passage.b].add(passage.a)
    ones = [(name,) for name, space in plain.items() if space.taken]
    twos = [(a, b) for a in plain for b in sorted(joined[a]) if a < b]
    threes = [(a, b, c) for b in plain for a in sorted(joined[b]) for c in sorted(joined[b]) if a < c]
    return [*ones, *twos, *sorted(rng.sample(threes, THREES))]


def _plain(space: Space) -> bool:
    return space.kind not in ("roof", "room") and not space.barred


def _searched(ways: Ways, chain: Sequence[str], start: str, end: str) -> int | None:
    """What the product says: the shortest way through the graph in this order of spaces, pulled tight [mm]."""
    graph = ways.graph
    front = {start: (0, ())}
    for here, there in pairwise(chain):
        onward = {}
        for station in _between(ways, here, there):
            out, into = f"{station}@{here}", f"{station}@{there}"
            thick = graph.edges[out, into, ways.stations[station].passage]["length_mm"]
            arrivals = [
                (length + graph.edges[node, out, here]["length_mm"] + thick, (*crossed, station))
                for node, (length, crossed) in front.items()
                if graph.has_edge(node, out, here)
            ]
            if arrivals:
                onward[into] = min(arrivals)
        front = onward
    arrivals = [
        (length + graph.edges[node, end, chain[-1]]["length_mm"], crossed)
        for node, (length, crossed) in front.items()
        if graph.has_edge(node, end, chain[-1])
    ]
    return _pulled(ways, start, end, min(arrivals)[1]) if arrivals else None


def _between(ways: Ways, here: str, there: str) -> Iterator[str]:
    return (station.id for station in ways.stations.values() if set(station.mouths) == {here, there})


def _pulled(ways: Ways, start: str, end: str, stations: tuple[str, ...]) -> int:
    return sum(leg.length for leg in legs(ways, start, end, crossings(ways, start, end, stations)))


def _reason(ways: Ways, chain: Sequence[str], start: str, end: str, reference: int) -> str:
    """Why a pair is off: whether some other choice of stations would not have been."""
    for stations in product(*(tuple(_between(ways, *two)) for two in pairwise(chain))):
        way = crossings(ways, start, end, stations)
        found = legs(ways, start, end, way)
        length = sum(leg.length for leg in found)
        if all(leg.points for leg in found) and length <= (1 + TOLERANCE) * reference:
            return CHOICE
    return BLIND


def _free(rng: Random, box: Box, taken: Sequence[Box]) -> Point:
    """A point of a box on no side of what is taken from it, nor within."""
    while True:
        x, y, z = (rng.randint(*box.span(axis)) for axis in range(3))
        if not any(part.holds((x, y, z)) for part in taken):
            return x, y, z


def _inner(rng: Random, box: Box) -> Box:
    """A box within another, with a size along every axis."""
    spans = (sorted(rng.sample(range(low, high + 1), 2)) for low, high in (box.span(axis) for axis in range(3)))
    return Box(*(side for span in spans for side in span))


def _square(p: Point, q: Point) -> int:
    return sum(abs(u - v) for u, v in zip(p, q, strict=True))


def _write() -> None:
    with EXCEPTIONS.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, [*_row(Pair("", "", "", "", 0, 0)), "reason"], lineterminator="\n")
        writer.writeheader()
        for rig in RIGS:
            ways = _with_ends(rig)[0]
            for pair in measured(rig):
                if pair.off and pair.reference is not None:
                    reason = _reason(ways, pair.spaces.split(), pair.start, pair.end, pair.reference)
                    writer.writerow({**_row(pair), "reason": reason})


if __name__ == "__main__":
    _write()
