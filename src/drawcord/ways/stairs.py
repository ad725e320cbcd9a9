"""Square runs on the roof: a taut run of straight stretches turned into elbows of the same length."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from drawcord.ways.deck import Deck, Spot
from drawcord.ways.elbows import Grid, Ints, corners


def elbowed(deck: Deck, taut: Sequence[Spot]) -> tuple[Spot, ...]:
    """An elbowed run of the same square length as a taut one of clear stretches, with few bends.

    Stairs along the stretches show that there is one. The grid of their coordinates and of the obstacles'
    and roof's sides then has the run with fewest bends, at least where the roof's edges are square.
    """
    stairs = [taut[0], *(spot for stretch in pairwise(taut) for spot in _stairs(deck, *stretch))]
    steps = np.array(stairs)
    xs, ys = (
        np.array(sorted({*steps[:, axis].tolist(), *deck.bounds[:, axis].tolist(), *sides.ravel().tolist()}))
        for axis, sides in enumerate((deck.solids[:, :2], deck.solids[:, 2:]))
    )
    grid = _grid(deck, xs, ys)
    start, goal = [(x, y, z) for x, y, z in grid.at(np.pad(steps[[0, -1]], ((0, 0), (0, 1)))).tolist()]
    run = [(int(xs[x]), int(ys[y])) for x, y, _ in grid.run(start, goal, ([0] * len(xs), [0] * len(ys), [0]))]
    return corners(run if run and _length(run) == _length(taut) else stairs)


def elbow(deck: Deck, a: Spot, b: Spot) -> Spot | None:
    """Where a clear run from a to b turns but once, along y first if it can; None if there is none."""
    for spot in ((a[0], b[1]), (b[0], a[1])):
        run = np.array([a, spot, b])
        if deck.usable(run).all() and deck.clear(run[:-1], run[1:]).all():
            return spot
    return None


def _length(run: Sequence[Spot]) -> int:
    """Square length of a run [mm]."""
    return sum(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in pairwise(run))


def _grid(deck: Deck, xs: Ints, ys: Ints) -> Grid:
    """The grid of lines at these coordinates, one layer thick."""
    spots = np.stack(np.meshgrid(xs, ys, indexing="ij"), axis=-1)
    usable = deck.usable(spots.reshape(-1, 2)).reshape(spots.shape[:2])
    clear = []
    for starts, ends in ((np.s_[:-1], np.s_[1:]), (np.s_[:, :-1], np.s_[:, 1:])):
        along = usable[starts] & usable[ends]
        along[along] = deck.clear(spots[starts][along], spots[ends][along])
        clear.append(along[:, :, None])
    none = np.ones((*usable.shape, 0), dtype=bool)
    return Grid((xs, ys, np.zeros(1, dtype=np.int64)), (*clear, none))


def _stairs(deck: Deck, a: Spot, b: Spot) -> list[Spot]:
    """Elbows along a clear straight stretch from a (left out) to b (included), of its square length.

    Where no single elbow is clear the stretch is halved, in the end into steps of a millimetre. Between
    obstacles that always ends in clear steps: rounding to whole millimetres never moves a point across
    their sides. Along a slanting edge of the roof a last step may stand out by less than a millimetre.
    """
    dx, dy = b[0] - a[0], b[1] - a[1]
    count = max(abs(dx), abs(dy), 1)

    def place(step: int) -> Spot:
        return a[0] + (2 * dx * step + count) // (2 * count), a[1] + (2 * dy * step + count) // (2 * count)

    def between(first: int, last: int) -> list[Spot]:
        here, there = place(first), place(last)
        if spot := elbow(deck, here, there):
            return [spot, there]
        if last - first == 1:
            return [(here[0], there[1]), there]
        middle = (first + last) // 2
        return between(first, middle) + between(middle, last)

    return between(0, count)
