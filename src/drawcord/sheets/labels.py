"""Where tags go: greedy, in a stated order, never over one another, never off the page. No drawing here.

All in mm on the page.
"""

import math
from collections.abc import Iterable
from typing import NamedTuple

Flat = tuple[float, float]
AIR = 0.25  # kept free around each tag


class Patch(NamedTuple):
    """A rectangle on the page."""

    x0: float
    x1: float
    y0: float
    y1: float

    @classmethod
    def around(cls, centre: Flat, width: float, height: float) -> "Patch":
        """The rectangle of this size with this centre."""
        x, y = centre
        return cls(x - width / 2, x + width / 2, y - height / 2, y + height / 2)

    def meets(self, other: "Patch", air: float = 0.0) -> bool:
        """Whether the two overlap, or come nearer than `air`."""
        return (
            self.x0 < other.x1 + air
            and other.x0 < self.x1 + air
            and self.y0 < other.y1 + air
            and other.y0 < self.y1 + air
        )

    def within(self, other: "Patch") -> bool:
        """Whether this one lies wholly inside the other."""
        return other.x0 <= self.x0 and self.x1 <= other.x1 and other.y0 <= self.y0 and self.y1 <= other.y1


class Spot(NamedTuple):
    """Where a tag went: its centre, and whether a leader has to join it to its anchor."""

    centre: Flat
    led: bool


class Board:
    """The part of the page in which tags may lie, and what lies there already."""

    def __init__(self, name: str, bounds: Patch) -> None:
        self.name = name
        self.bounds = bounds
        self.taken: list[Patch] = []
        self.avoided: list[tuple[Patch, float]] = []  # what a tag had rather not cover, and how much rather

    def avoid(self, patch: Patch, cost: float) -> None:
        """Let a tag cover a rectangle only where that saves `cost` mm of leader."""
        self.avoided.append((patch, cost))

    def block(self, patch: Patch) -> None:
        """Keep all tags off a rectangle."""
        self.taken.append(patch)

    def free(self, patch: Patch) -> bool:
        """Whether a tag may lie there."""
        return patch.within(self.bounds) and not any(patch.meets(other, AIR) for other in self.taken)

    def place(self, size: Flat, wishes: Iterable[Flat], anchor: Flat | None = None) -> Spot | None:
        """Take the free wish that covers least, the first of equals, else a place near `anchor`.

        Without an anchor the tag may be left out: None.
        """
        free = [Patch.around(wish, *size) for wish in wishes]
        free = [patch for patch in free if self.free(patch)]
        if free:
            return self._take(min(free, key=self._cost), led=False)
        return self._lead(size, anchor) if anchor else None

    def _lead(self, size: Flat, anchor: Flat) -> Spot | None:
        """The cheapest free place on rings around the anchor: near, and off what is to be seen."""
        best: tuple[float, Patch] | None = None
        for ring in (0.6, 1.4, 2.4, 3.6, 5.0, 7.0, 9.5, 12.5, 16.0, 20.0, 26.0, 34.0, 44.0):
            for step in range(24):
                turn = math.tau * step / 24
                reach = ring + (abs(math.cos(turn)) * size[0] + abs(math.sin(turn)) * size[1]) / 2
                centre = (anchor[0] + reach * math.cos(turn), anchor[1] + reach * math.sin(turn))
                patch = Patch.around(centre, *size)
                cost = ring + self._cost(patch)
                if (best is None or cost < best[0]) and self.free(patch):
                    best = cost, patch
            if best and best[0] <= ring:
                break
        return self._take(best[1], led=True) if best else None

    def _cost(self, patch: Patch) -> float:
        return sum(cost for other, cost in self.avoided if patch.meets(other))

    def _take(self, patch: Patch, *, led: bool) -> Spot:
        self.taken.append(patch)
        return Spot(((patch.x0 + patch.x1) / 2, (patch.y0 + patch.y1) / 2), led)
