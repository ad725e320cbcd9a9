"""Where tags go: greedy, in a stated order, never over one another, never off the page. No drawing here.

All in mm on the page.
"""

import math
from collections.abc import Iterable
from typing import NamedTuple

from drawcord.sheets.segments import Flat, cross, passes

AIR = 0.25  # kept free around each tag
OVER_TAG, OVER_LEADER = 6.0, 5.0  # mm of leader that it is worth not to draw a leader over these
PIECE = 2.0  # mm
RINGS = (0.6, 1.4, 2.4, 3.6, 5.0, 7.0, 9.5, 12.5, 16.0, 20.0, 26.0, 34.0, 44.0)  # mm from an anchor


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

    def nearest(self, point: Flat) -> Flat:
        """The point of the rectangle that lies nearest to another."""
        return min(max(point[0], self.x0), self.x1), min(max(point[1], self.y0), self.y1)


class Spot(NamedTuple):
    """Where a tag went: its centre, and where the leader to its anchor leaves it, None if it needs none."""

    centre: Flat
    foot: Flat | None


class Board:
    """The part of the page in which tags may lie, and what lies there already."""

    def __init__(self, name: str, bounds: Patch) -> None:
        self.name = name
        self.bounds = bounds
        self.taken: list[Patch] = []
        self.avoided: list[tuple[Patch, float]] = []  # what a tag had rather not cover, and how much rather
        self.leaders: list[tuple[Flat, Flat]] = []

    def avoid(self, patch: Patch, cost: float) -> None:
        """Let a tag cover a rectangle, or its leader cross it, only where that saves `cost` mm of leader."""
        self.avoided.append((patch, cost))

    def avoid_line(self, start: Flat, end: Flat, cost: float) -> None:
        """The same for a line: a level or upright one as a whole, a slanting one by its pieces."""
        level = start[0] == end[0] or start[1] == end[1]
        pieces = 1 if level else math.ceil(math.dist(start, end) / PIECE)
        for number in range(pieces):
            (x0, y0), (x1, y1) = (
                (start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1]))
                for part in (number / pieces, (number + 1) / pieces)
            )
            sides = (min(x0, x1) - AIR, max(x0, x1) + AIR, min(y0, y1) - AIR, max(y0, y1) + AIR)
            self.avoid(Patch(*sides), cost if level else cost / 2)

    def block(self, patch: Patch) -> None:
        """Keep all tags off a rectangle."""
        self.taken.append(patch)

    def free(self, patch: Patch) -> bool:
        """Whether a tag may lie there."""
        return patch.within(self.bounds) and not any(patch.meets(other, AIR) for other in self.taken)

    def place(
        self, size: Flat, wishes: Iterable[Flat], anchor: Flat | None = None, most: float = math.inf
    ) -> Spot | None:
        """Take the free wish that covers least, the first of equals, else a place near `anchor`.

        None, and nothing is taken, without an anchor, or where the leader and what it and the tag hide cost more
        than `most` [mm of leader].
        """
        free = [Patch.around(wish, *size) for wish in wishes]
        free = [patch for patch in free if self.free(patch)]
        if free:
            return self._take(min(free, key=self._covers), None)
        return self._lead(size, anchor, most) if anchor else None

    def _lead(self, size: Flat, anchor: Flat, most: float) -> Spot | None:
        """The cheapest free place on rings around the anchor: near, and off what is to be seen."""
        best: tuple[float, Patch] | None = None
        for ring in RINGS:
            if best and best[0] <= ring:
                break
            for step in range(24):
                turn = math.tau * step / 24
                reach = ring + (abs(math.cos(turn)) * size[0] + abs(math.sin(turn)) * size[1]) / 2
                patch = Patch.around((anchor[0] + reach * math.cos(turn), anchor[1] + reach * math.sin(turn)), *size)
                if not self.free(patch):
                    continue
                cost = ring + self._covers(patch)
                if best and cost >= best[0]:
                    continue
                cost += self._crosses(patch.nearest(anchor), anchor)
                if best is None or cost < best[0]:
                    best = cost, patch
        if best is None or best[0] > most:
            return None
        foot = best[1].nearest(anchor)
        self.leaders.append((foot, anchor))
        return self._take(best[1], foot)

    def _covers(self, patch: Patch) -> float:
        """What it costs a tag to lie there."""
        hidden = sum(cost for other, cost in self.avoided if patch.meets(other))
        return hidden + OVER_LEADER * sum(passes(patch, *leader) for leader in self.leaders)

    def _crosses(self, foot: Flat, anchor: Flat) -> float:
        """What it costs a leader to run there; it may start and end in what it belongs to."""
        at = Patch.around(anchor, 0, 0)
        hidden = sum(cost / 2 for other, cost in self.avoided if passes(other, foot, anchor) and not at.meets(other))
        tags = sum(passes(other, foot, anchor) for other in self.taken if not at.meets(other))
        return hidden + OVER_TAG * tags + OVER_LEADER * sum(cross((foot, anchor), other) for other in self.leaders)

    def _take(self, patch: Patch, foot: Flat | None) -> Spot:
        self.taken.append(patch)
        return Spot(((patch.x0 + patch.x1) / 2, (patch.y0 + patch.y1) / 2), foot)
