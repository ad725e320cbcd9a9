"""A few of many: members of the efficient set that stand for the rest."""

from collections.abc import Sequence

from drawcord.routes.net import Vector


def cover(vectors: Sequence[Vector], most: int) -> list[int]:
    """Indices of up to `most` vectors that cover the others, in the order in which they were chosen.

    First the best in each criterion in turn (of equals the lexicographically smallest), then, as long
    as there is room, the one that is covered worst: where the largest shortfall of the nearest chosen
    one, as a share of its criterion's range over all vectors, is largest (of equals the first).
    """
    if not vectors:
        return []
    columns = list(zip(*vectors, strict=True))
    spans = [max(column) - min(column) or 1 for column in columns]
    chosen: list[int] = []
    for criterion in range(len(columns)):
        best = min(range(len(vectors)), key=lambda i: (vectors[i][criterion], vectors[i], i))
        if best not in chosen:
            chosen.append(best)

    def shortfall(member, other):
        return max((a-b)/span for a, b, span in zip(vectors[member], vectors[other], spans, strict=True))

    return chosen
