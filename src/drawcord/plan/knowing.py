"""What is left of the cables' alternatives once some places have turned out clear and others blocked.

What is *left* to a cable: for each alternative that is not blocked, its number, lightest first, and the bit set of
the places on it that are still unknown. An alternative is dropped where one before it meets no other unknown places:
whatever they turn out to be, it is never the best.
"""

from collections.abc import Mapping, Sequence

from drawcord.plan.alternatives import Alternative, Alternatives, Unproven

Left = tuple[tuple[int, int], ...]
Lefts = tuple[Left, ...]  # one a cable


class Knowing:
    """Cables that share unproven places, and what is left to each as these become known.

    The best of what is left is the lightest, doubt about unknown places included: the one that planning again would
    choose. `sure=True` leaves that doubt out: then it is the lightest that is not known to be blocked.
    """

    def __init__(
        self, cables: Sequence[Alternatives], unproven: Mapping[str, Unproven], *, sure: bool = False
    ) -> None:
        """Places are numbered in order of their ids."""
        met = sorted({name for cable in cables for route in cable.routes for name, _ in route.meets})
        self.places = tuple(unproven[name] for name in met)
        self.cables = tuple(cable.cable for cable in cables)
        self.routes: tuple[tuple[Alternative, ...], ...] = tuple(cable.routes for cable in cables)
        bit = {name: 1 << number for number, name in enumerate(met)}
        self.meets = tuple(
            tuple(tuple((bit[name], done) for name, done in route.meets) for route in routes) for routes in self.routes
        )
        self._doubt = {1 << n: 0 if sure else place.weight for n, place in enumerate(self.places)}
        self._chance = {1 << n: place.chance for n, place in enumerate(self.places)}
        self._learnt: dict[tuple[Left, int, bool], Left] = {}
        self._best: dict[tuple[int, Left], tuple[int, int]] = {}

    def first(self) -> Lefts:
        """What is left to each cable while nothing is known."""
        return tuple(
            _undominated([(number, sum(bit for bit, _ in meets)) for number, meets in enumerate(each)])
            for each in self.meets
        )

    def chance(self, bit: int) -> float:
        """How likely a place is clear."""
        return self._chance[bit]

    def learn(self, left: Left, bit: int, *, clear: bool) -> Left:
        """What is left once a place is known."""
        if not any(unknown & bit for _, unknown in left):
            return left
        key = left, bit, clear
        if key not in self._learnt:
            if clear:
                self._learnt[key] = _undominated([(number, unknown & ~bit) for number, unknown in left])
            else:
                self._learnt[key] = tuple(one for one in left if not one[1] & bit)
        return self._learnt[key]

    def learn_all(self, lefts: tuple[Left, ...], bit: int, *, clear: bool) -> Lefts:
        """The same for all cables."""
        return tuple([self.learn(left, bit, clear=clear) for left in lefts])

    def best(self, cable: int, left: Left) -> tuple[int, int] | None:
        """The best of what is left to a cable, ties to the lighter without doubt; None where nothing is left."""
        if not left:
            return None
        key = cable, left
        if key not in self._best:
            self._best[key] = min(left, key=lambda one: self._weight(cable, *one))
        return self._best[key]

    def ahead(self, cable: int, number: int, unknown: int) -> list[tuple[int, int]]:
        """The unknown places on an alternative in order, each with the work done before it [s]."""
        return [(bit, done) for bit, done in self.meets[cable][number] if bit & unknown]

    def _weight(self, cable: int, number: int, unknown: int) -> tuple[int, int]:
        doubt = sum(weight for bit, weight in self._doubt.items() if bit & unknown)
        return self.routes[cable][number].weight + doubt, number


def _undominated(routes: Sequence[tuple[int, int]]) -> Left:
    kept: list[tuple[int, int]] = []
    for number, unknown in routes:
        if all(other & ~unknown for _, other in kept):
            kept.append((number, unknown))
    return tuple(kept)


def apart(cables: Sequence[Alternatives]) -> list[list[Alternatives]]:
    """The cables in groups that share no unproven place, each in order; so are the groups, by their first cable."""
    groups: list[tuple[set[str], list[Alternatives]]] = []
    for cable in cables:
        met = {name for route in cable.routes for name, _ in route.meets}
        touching = [group for group in groups if group[0] & met]
        groups = [group for group in groups if not group[0] & met]
        members = [one for _, each in touching for one in each]
        groups.append((met.union(*(group[0] for group in touching)), [*members, cable]))
    ordered = [sorted(members, key=lambda one: one.cable) for _, members in groups]
    return sorted(ordered, key=lambda members: members[0].cable)
