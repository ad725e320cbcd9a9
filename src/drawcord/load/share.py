"""Who gets the fitted pieces where several runs want them: exact, over all layings that are near each one's best.

The aims, an earlier one before all later: the fewest runs left without; the fewest joints; the least left over [mm];
the least cost. A run may get at most MORE joints beyond its own fewest.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from drawcord.load.solver import Program
from drawcord.pieces.choose import Laying, Piece, choose, fewest, layings

MORE = 2


class Wanted(NamedTuple):
    """A run: its length [mm], where joints may lie, how many cores, and what is at hand for it."""

    length: int
    reachable: Sequence[tuple[int, int]]
    cores: int
    pieces: Sequence[Piece]


def share(wanted: Sequence[Wanted], counts: Mapping[str, int]) -> tuple[list[Laying | None], bool]:
    """The laying of each run, None where nothing is left, and whether that is proved best.

    `counts` is how many there are of each fitted piece.
    """
    alone = [choose(one.length, one.reachable, one.pieces) for one in wanted]
    used = sum((fitted(laid, one.cores) for laid, one in zip(alone, wanted, strict=True) if laid), Counter[str]())
    if all(number <= counts[name] for name, number in used.items()):
        return list(alone), True  # each has its own best, so nothing is better
    program = Program()
    options = [(run, laid, program.variable(1)) for run, one in enumerate(wanted) for laid in _near_best(one)]
    without = [program.variable(1) for _ in wanted]
    for run, column in enumerate(without):
        program.row(1, {at: 1 for of, _, at in options if of == run} | {column: 1}, 1)
    for name, count in sorted(counts.items()):
        taken = {column: fitted(laid, wanted[run].cores)[name] for run, laid, column in options}
        program.row(0, {column: number for column, number in taken.items() if number}, count)
    solved = program.least(
        dict.fromkeys(without, 1),
        {column: wanted[run].cores * (len(laid) - 1) for run, laid, column in options},
        {column: wanted[run].cores * sum(one.left_over for one in laid) for run, laid, column in options},
        {column: wanted[run].cores * round(100 * sum(one.cost for one in laid)) for run, laid, column in options},
    )
    found: list[Laying | None] = [None] * len(wanted)
    for run, laid, column in options:
        if solved.values[column]:
            found[run] = laid
    return found, solved.proved


def fitted(laid: Laying, cores: int) -> Counter[str]:
    """How many of each fitted piece a laying takes."""
    return Counter({name: cores * count for name, count in Counter(_ids(laid)).items()})


def _ids(laid: Laying) -> list[str]:
    return [one.piece.id for one in laid if one.piece.fitted]


def _near_best(one: Wanted) -> list[Laying]:
    least = fewest(one.length, one.reachable, one.pieces)
    if least is None:
        return []
    most = sum(piece.count for piece in one.pieces) - 1
    return [
        laid
        for joints in range(least, min(least + MORE, most) + 1)
        for laid in layings(joints, one.length, one.reachable, one.pieces)
    ]
