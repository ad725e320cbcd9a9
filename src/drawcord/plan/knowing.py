"""What is left of the cables' alternatives once some places have turned out clear and others blocked.

What is *left* to a cable: for each alternative that is not blocked, its number, lightest first, and the bit set of
the places on it that are still unknown. An alternative is dropped where one before it meets no other unknown places
and uses nothing else that other cables may not use beside it: whatever they turn out to be, it is never the better.
"""

from collections.abc import Mapping, Sequence
from functools import cached_property

from drawcord.plan.alternatives import Alternative, Alternatives, Unproven
from drawcord.plan.best_choice import TO_DO, BestChoice, Chosen, Done, Left, Lefts
from drawcord.plan.contested import Ban


class Knowing:
    """Cables that share unproven places or things that not all may use, and what is left to each as these become known.

    The best of what is left lets most cables have a way that may lie beside the others', and then is the lightest, the
    doubt about unknown places included, each place once. `sure=True` leaves that doubt out. While nothing is known the
    plan is best, where it has a way for all of them: the joint plan knows better than weights of single ways what lying
    together spares and keeping apart costs. By as much as it weighs more than another choice then, it may do so later.
    """

    def __init__(
        self,
        cables: Sequence[Alternatives],
        unproven: Mapping[str, Unproven],
        bans: Sequence[Ban] = (),
        *,
        sure: bool = False,
    ) -> None:
        """Places are numbered in order of their ids."""
        met = sorted({name for cable in cables for route in cable.routes for name, _ in route.meets})
        self.places = tuple(unproven[name] for name in met)
        self.cables = tuple(cable.cable for cable in cables)
        self.nothing_done: Done = (TO_DO,) * len(cables)
        self.routes: tuple[tuple[Alternative, ...], ...] = tuple(cable.routes for cable in cables)
        bit = {name: 1 << number for number, name in enumerate(met)}
        self.meets = tuple(
            tuple(tuple((bit[name], done) for name, done in route.meets) for route in routes) for routes in self.routes
        )
        self._chance = {1 << n: place.chance for n, place in enumerate(self.places)}
        weights = [0 if sure else place.weight for place in self.places]
        self._choice = BestChoice(self.cables, self.routes, weights, bans)
        numbered = [[n for n, route in enumerate(routes) if route.planned] for routes in self.routes]
        self._planned = tuple(numbers[0] for numbers in numbered) if all(numbered) else ()
        self._learnt: dict[tuple[int, Left, int, bool], Left] = {}
        self._best: dict[tuple[Lefts, Done], Chosen] = {}

    def first(self) -> Lefts:
        """What is left to each cable while nothing is known."""
        return tuple(
            self._undominated(cable, [(number, sum(bit for bit, _ in meets)) for number, meets in enumerate(each)])
            for cable, each in enumerate(self.meets)
        )

    def chance(self, bit: int) -> float:
        """How likely a place is clear."""
        return self._chance[bit]

    def learn(self, cable: int, left: Left, bit: int, *, clear: bool) -> Left:
        """What is left to a cable once a place is known."""
        if not any(unknown & bit for _, unknown in left):
            return left
        key = cable, left, bit, clear
        if key not in self._learnt:
            if clear:
                self._learnt[key] = self._undominated(cable, [(number, unknown & ~bit) for number, unknown in left])
            else:
                self._learnt[key] = tuple(one for one in left if not one[1] & bit)
        return self._learnt[key]

    def learn_all(self, lefts: Lefts, bit: int, *, clear: bool) -> Lefts:
        """The same for all cables."""
        return tuple([self.learn(cable, left, bit, clear=clear) for cable, left in enumerate(lefts)])

    def best(self, lefts: Lefts, done: Done = ()) -> Chosen:
        """The best of what is left: for each cable the number of its route and what is unknown on it, or None.

        What is done stays, unless more cables have a way if it is done again.
        """
        done = done or self.nothing_done
        key = lefts, done
        if key not in self._best:
            found = self._choice.best(lefts, done)
            if done != self.nothing_done and found.count(None) > lefts.count(()):
                again = self._choice.best(lefts, self.nothing_done)
                found = min(found, again, key=lambda chosen: chosen.count(None))
            self._best[key] = self._as_planned(lefts, done, found)
        return self._best[key]

    def ahead(self, cable: int, number: int, unknown: int) -> list[tuple[int, int]]:
        """The unknown places on an alternative in order, each with the work done before it [s]."""
        return [(bit, done) for bit, done in self.meets[cable][number] if bit & unknown]

    def _undominated(self, cable: int, routes: Sequence[tuple[int, int]]) -> Left:
        used, kept = self._choice.used[cable], list[tuple[int, int]]()
        for number, unknown in routes:
            new = all(other & ~unknown or used[before] & ~used[number] for before, other in kept)
            if new or self.routes[cable][number].planned:
                kept.append((number, unknown))
        return tuple(kept)

    def _as_planned(self, lefts: Lefts, done: Done, best: Chosen) -> Chosen:
        """The plan, where nothing of it is blocked or done otherwise and this is not much lighter; else this."""
        plan = self._plan(lefts)
        if not plan or any(number not in (TO_DO, one[0]) for number, one in zip(done, plan, strict=True)):
            return best
        return plan if self._choice.weight(plan) - self._credit <= self._choice.weight(best) else best

    def _plan(self, lefts: Lefts) -> tuple[tuple[int, int], ...]:
        """The plan, if all of it is left."""
        pairs = zip(lefts, self._planned, strict=True) if self._planned else ()
        found = [one for left, number in pairs for one in left if one[0] == number]
        return tuple(found) if len(found) == len(lefts) else ()

    @cached_property
    def _credit(self) -> int:
        """By how much the plan weighs more than the best choice while nothing is known."""
        first = self.first()
        return self._choice.weight(self._plan(first)) - self._choice.weight(self._choice.best(first, self.nothing_done))
