"""Where joints fall when a run is longer than the longest piece at hand."""

from collections.abc import Sequence


def joints(length: int, longest: int, reachable: Sequence[tuple[int, int]]) -> list[tuple[int, bool]]:
    """The fewest joints of a run [mm]: how far along each lies, and whether a hand reaches it there.

    `reachable` are the stretches [mm from the start] a hand reaches, in order and apart. Going as far as
    possible each time is optimal: whatever another choice can reach, this one can. Where no reachable place
    lies within the longest piece of the last joint, one is put at the piece's end all the same, out of reach.

    Raises ValueError for a longest piece that is not above zero.
    """
    if longest <= 0:
        raise ValueError(f"a piece of {longest} mm never gets anywhere")
    found: list[tuple[int, bool]] = []
    at = 0
    while length - at > longest:
        limit = at + longest
        best = max(
            (min(far, limit) for near, far in reachable if near <= limit and min(far, limit) > at),
            default=None,
        )
        at = limit if best is None else best
        found.append((at, best is not None))
    return found
