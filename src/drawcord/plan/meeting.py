"""Where cables of a job may meet: the sharing table and the room there is, said once for model and report."""

from collections.abc import Callable, Sequence
from itertools import combinations

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach, Space
from drawcord.coach.job import Cable
from drawcord.coach.sharing import Terms
from drawcord.plan.bundle import NARROW, bore, free, room
from drawcord.ways.passage import Passage
from drawcord.ways.ways import Ways

Group = tuple[int, ...]  # numbers of cables, ascending
Refusal = Callable[[Group], str]
Spot = tuple[str, tuple[Point, ...]]  # a passage, and where its two mouths are entered


def spot(ways: Ways, station: str) -> Spot:
    """Where a station is: cables may come there by stations of their own, level with their terminals."""
    found = ways.stations[station]
    return found.passage, tuple(point for _, point in sorted(found.mouths.items()))


class Meeting:
    """What some cables of a job may not do together; each rule answers with a sentence, or nothing.

    A set that may not meet makes every larger one illegal.
    """

    def __init__(self, coach: Coach, cables: Sequence[Cable], names: Sequence[str]) -> None:
        self.coach, self.cables, self.names = coach, cables, names
        self._known: dict[tuple[object, ...], tuple[Group, ...]] = {}

    def terms(self, one: int, other: int) -> tuple[str, Terms]:
        """The row of the sharing table for two cables."""
        return self.coach.shop.sharing.of(self.cables[one].carries, self.cables[other].carries)

    def crossing(self, passage: Passage, largest: int, group: Group) -> str:
        """Why these cables may not cross a passage at one and the same place; `largest` hole there [mm]."""
        for one, other in combinations(group, 2):
            pair, terms = self.terms(one, other)
            if not terms.together or ("roof" in (passage.a, passage.b) and not terms.box):
                what = "share a roof entry" if "roof" in (passage.a, passage.b) else "cross at one place"
                return f"{self._both(one, other)} may not {what}, {passage.id}: {pair}, {terms.source}"
        needed = bore(self._of(group))
        if passage.hole and needed + self.coach.shop.clearances.plug > largest:
            hole = needed + self.coach.shop.clearances.plug
            return f"{self._all(group)} need a hole of {hole} mm at {passage.id}, where only {largest} mm fit"
        if passage.opening == "exists" and 0 < passage.size < needed:
            return f"{self._all(group)} need {needed} mm, and {passage.id} passes only {passage.size} mm"
        return ""

    def along(self, space: Space, group: Group) -> str:
        """Why these cables may not all run in a space."""
        for one, other in combinations(group, 2):
            pair, terms = self.terms(one, other)
            if not terms.cross:
                both = f"{self._both(one, other)} may not cross, and so not both run in {space.id}"
                return f"{both}: {pair}, {terms.source}"
            if space.kind in NARROW and not terms.together:
                return f"{self._both(one, other)} may not share {space.id}: {pair}, {terms.source}"
        if space.kind in NARROW and len(group) > 1 and (needed := room(self._of(group))) > (left := free(space)):
            return f"{self._all(group)} need {needed} mm² in {space.id}, which has {left} mm² free"
        return ""

    def raceway(self, group: Group) -> str:
        """Why these cables may not lie in one raceway."""
        for one, other in combinations(group, 2):
            pair, terms = self.terms(one, other)
            if not terms.raceway:
                return f"{self._both(one, other)} may not share a raceway: {pair}, {terms.source}"
        return ""

    def bans_crossing(self, passage: Passage, largest: int) -> tuple[Group, ...]:
        """The smallest sets of cables that may not cross a passage at one place."""
        size = passage.size if passage.opening == "exists" else 0
        key = ("crossing", "roof" in (passage.a, passage.b), bool(passage.hole) and largest, size)
        return self._smallest(key, lambda group: self.crossing(passage, largest, group))

    def bans_along(self, space: Space) -> tuple[Group, ...]:
        """The smallest sets of cables that may not all run in a space."""
        key = ("along", free(space)) if space.kind in NARROW else ("wide",)
        return self._smallest(key, lambda group: self.along(space, group))

    def bans_raceway(self) -> tuple[Group, ...]:
        """The smallest sets of cables that may not lie in one raceway."""
        return self._smallest(("raceway",), self.raceway)

    def _smallest(self, key: tuple[object, ...], refusal: Refusal) -> tuple[Group, ...]:
        """All sets that are refused and hold no smaller refused one; remembered by what the rule looks at."""
        if key not in self._known:
            self._known[key] = tuple(_smallest(len(self.cables), refusal))
        return self._known[key]

    def _of(self, group: Group) -> list[Cable]:
        return [self.cables[number] for number in group]

    def _both(self, one: int, other: int) -> str:
        return f"{self.names[one]} and {self.names[other]}"

    def _all(self, group: Group) -> str:
        return " and ".join(self.names[number] for number in group)


def _smallest(count: int, refusal: Refusal) -> list[Group]:
    """Level by level: a set is looked at only if none within it was refused; none at all if all go together."""
    if not refusal(tuple(range(count))):
        return []
    found: list[Group] = []
    level: list[Group] = [(number,) for number in range(count)]
    while level:
        grown = [(*group, more) for group in level for more in range(group[-1] + 1, count)]
        open_ones = [group for group in grown if not any(set(ban) <= set(group) for ban in found)]
        refused = [group for group in open_ones if refusal(group)]
        found += refused
        level = [group for group in open_ones if group not in refused]
    return found
