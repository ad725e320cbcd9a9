"""A few of many: members of the efficient set that stand for the rest."""

from collections.abc import Sequence

from drawcord.routes.net import Vector


def cover(vectors: Sequence[Vector], most: int) -> list[int]:
    """Indices of up to `most` vectors that cover the others, in the order in which they were chosen.

    First the best in each criterion in turn; of several, the one with the smallest vector. Then, while
    there is room, the one covered worst. How well a vector is covered is told by its nearest chosen one:
    by how much that is above it in its worst criterion, as a share of the criterion's range. Of equals
    the first is taken; vectors that a chosen one nowhere exceeds need no cover.
    """
    columns = list(zip(*vectors, strict=True))
    ranges = [max(column) - min(column) or 1 for column in columns]
    gaps = [1.0] * len(vectors)
    chosen: list[int] = []

    def choose(member: int) -> None:
        chosen.append(member)
        for i, vector in enumerate(vectors):
            above = zip(vectors[member], vector, ranges, strict=True)
            gaps[i] = min(gaps[i], max((ours - theirs) / size for ours, theirs, size in above))

    for criterion in range(len(columns)):
        best = min(range(len(vectors)), key=lambda i: (vectors[i][criterion], vectors[i]))
        if best not in chosen and len(chosen) < most:
            choose(best)
    while len(chosen) < most and max(gaps, default=0) > 0:
        choose(gaps.index(max(gaps)))
    return chosen
