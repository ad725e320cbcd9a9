"""Raceway as pieces that several cables may share: runs along walls, cut wherever one of them begins, turns or ends."""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from drawcord.coach.box import Point

Line = tuple[str, int, tuple[int, ...]]  # room, axis along which it runs, the other two coordinates
Piece = tuple[Line, int, int]  # a line, and from where to where along it [mm]
Run = tuple[str, Sequence[Point]]  # room, and the corners of a run in it


def pieces(runs: Sequence[Run]) -> list[list[Piece]]:
    """For each run the pieces that it consists of; two runs share a piece or do not touch it."""
    stretches = [list(_stretches(*run)) for run in runs]
    cuts: dict[Line, set[int]] = {}
    for line, low, high in (stretch for run in stretches for stretch in run):
        cuts.setdefault(line, set()).update((low, high))
    ordered = {line: sorted(places) for line, places in cuts.items()}
    return [
        [(line, a, b) for line, low, high in run for a, b in pairwise(ordered[line]) if low <= a and b <= high]
        for run in stretches
    ]


def length(found: Iterable[Piece]) -> int:
    """How long pieces are together [mm]."""
    return sum(high - low for _, low, high in found)


def _stretches(room: str, corners: Sequence[Point]) -> Iterable[Piece]:
    for p, q in pairwise(corners):
        for axis in (0, 1, 2):
            if p[axis] != q[axis]:
                line = room, axis, (*p[:axis], *p[axis + 1 :])
                yield line, min(p[axis], q[axis]), max(p[axis], q[axis])
