"""Cuts as counts: how many of each length come from each single reel or off-cut.

Few, long and different pieces of stock are what a van carries; equal ones are told apart by number, and rows keep
their loads in falling order, so that swapping them is no other answer.
"""

from collections.abc import Sequence

from drawcord.load.solver import Program
from drawcord.load.stock import Cuts, Demand, Stock


def assign(demand: Demand, shelf: Sequence[Stock], keep: int) -> Cuts:
    """The best cuts."""
    singles = [one for one in shelf for _ in range(min(one.count, sum(count for _, count in demand)))]
    program = Program()
    cuts = [{length: program.variable(min(count, one.length // length)) for length, count in demand} for one in singles]
    used = [program.variable(1) for _ in singles]
    kept = [program.variable(1) for _ in singles]
    scrap = [program.variable(one.length) for one in singles]
    short = {length: program.variable(count) for length, count in demand}
    for length, count in demand:
        program.row(count, {columns[length]: 1 for columns in cuts} | {short[length]: 1}, count)
    for number, one in enumerate(singles):
        load = {column: length for length, column in cuts[number].items()}
        # What is left: used · length - load. It is kept, and then at least `keep`, or it is scrap.
        program.row(0, _minus(load) | {used[number]: one.length, kept[number]: -keep}, one.length)
        program.row(0, load | {used[number]: -one.length, scrap[number]: 1, kept[number]: one.length}, 2 * one.length)
        if number and singles[number - 1] == one:
            before = {column: length for length, column in cuts[number - 1].items()}
            program.row(0, before | _minus(load), one.length)
    solved = program.least(
        {column: length for length, column in short.items()},
        {column: one.length for one, column in zip(singles, used, strict=True) if one.bought},
        dict.fromkeys(scrap, 1),
        dict.fromkeys(used, 1),
        {column: one.length for one, column in zip(singles, used, strict=True)},
    )
    opened = []
    for one, columns in zip(singles, cuts, strict=True):
        lengths = [length for length, column in columns.items() for _ in range(solved.values[column])]
        if lengths:
            opened.append((one, tuple(lengths)))
    return Cuts(tuple(opened), solved.aims)


def _minus(terms: dict[int, int]) -> dict[int, int]:
    return {column: -factor for column, factor in terms.items()}
