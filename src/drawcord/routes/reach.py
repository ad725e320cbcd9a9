"""How far a cable runs between places where a hand can reach it, carried along a path."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Reach:
    """No stretch out of a hand's reach may be longer than the longest piece of cable.

    `longest`: of a piece [mm].
    `stretches`: for each arc (tail, head) either (whole,) where no hand reaches it at all, or the length
    before its first reachable point, the longest gap between two such points, and the length after its
    last one [mm]. The terminals at both ends of a path are in reach.
    `halfway`: the states, if any, halfway through a crossing, each with the state behind it; nothing is left to run.
    """

    longest: int
    stretches: Mapping[tuple[int, int], tuple[int] | tuple[int, int, int]]
    halfway: Mapping[int, int] = field(default_factory=dict)

    def after(self, tail: int, head: int, stretch: int) -> int | None:
        """The stretch out of reach behind `head` if it was `stretch` at `tail`; None where it is too long.

        Never smaller for a larger stretch, so that a search may prefer the smaller of two.
        """
        if tail in self.halfway:
            return stretch
        before, *gap_and_rest = self.stretches[tail, self.halfway.get(head, head)]
        gap, rest = gap_and_rest or (0, stretch + before)
        return rest if max(stretch + before, gap, rest) <= self.longest else None
