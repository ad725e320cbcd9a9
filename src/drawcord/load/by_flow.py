"""Cuts as a flow along the reels: a node is how far one is used up, an arc is a cut or the end of a reel.

A unit of flow is one reel or off-cut. Equal reels are then the same flow, so that hundreds of them are no more work
than one; but where many different lengths come from one long reel there are too many nodes.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from drawcord.load.solver import Program
from drawcord.load.stock import Cuts, Demand, Stock


@dataclass(frozen=True)
class _End:
    """A reel of this stock ends here, `at` [mm]."""

    at: int
    stock: Stock


def flow(demand: Demand, shelf: Sequence[Stock], keep: int, most: int) -> Cuts | None:
    """The best cuts, or None if that takes more than `most` arcs."""
    arcs = _cuts(demand, max((one.length for one in shelf), default=0), most)
    nodes = {0} | {start + length for start, length in arcs or ()}
    if arcs is None or len(nodes) * len(shelf) > most:
        return None
    ends = [_End(at, one) for one in shelf for at in sorted(nodes) if 0 < at <= one.length]
    program = Program()
    cut = {(start, length): program.variable(dict(demand)[length]) for start, length in arcs}
    end = {one: program.variable(one.stock.count) for one in ends}
    short = {length: program.variable(count) for length, count in demand}
    for node in sorted(nodes - {0}):
        into = {column: 1 for (start, length), column in cut.items() if start + length == node}
        out = {column: -1 for (start, _), column in cut.items() if start == node}
        program.row(0, into | out | {column: -1 for one, column in end.items() if one.at == node}, 0)
    for length, count in demand:
        terms = {column: 1 for (_, long), column in cut.items() if long == length}
        program.row(count, terms | {short[length]: 1}, count)
    for stock in shelf:
        program.row(0, {column: 1 for one, column in end.items() if one.stock == stock}, stock.count)
    solved = program.least(
        {column: length for length, column in short.items()},
        {column: one.stock.length for one, column in end.items() if one.stock.bought},
        {column: one.stock.length - one.at for one, column in end.items() if one.stock.length - one.at < keep},
        dict.fromkeys(end.values(), 1),
        {column: one.stock.length for one, column in end.items()},
    )
    left = {arc: solved.values[column] for arc, column in cut.items()}
    opened = [(one.stock, _path(one.at, left)) for one, column in end.items() for _ in range(solved.values[column])]
    return Cuts(tuple(opened), solved.aims)


def _cuts(demand: Demand, longest: int, most: int) -> list[tuple[int, int]] | None:
    """Every cut as (where it starts, its length) [mm] of a reel that is cut from long to short."""
    starts, arcs = {0}, set[tuple[int, int]]()
    for length, count in demand:
        for start in sorted(starts):
            for number in range(count):
                at = start + number * length
                if at + length > longest:
                    break
                arcs.add((at, length))
        starts |= {at + length for at, long in arcs if long == length}
        if len(arcs) > most:
            return None
    return sorted(arcs)


def _path(at: int, left: dict[tuple[int, int], int]) -> tuple[int, ...]:
    """The cuts of one reel that ends `at` [mm], taken out of what is `left` of the flow."""
    found = []
    while at:
        start, length = next(arc for arc, units in left.items() if units and sum(arc) == at)
        left[start, length] -= 1
        found.append(length)
        at = start
    return tuple(sorted(found, reverse=True))
