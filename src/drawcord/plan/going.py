"""Going to work without looking first: how long it takes, and which routes come of it, over all that may turn out.

Cable by cable, in order, the route that the best choice has for it is begun. Its unproven places are met on the way.
Where one is blocked, the work done on that route is lost, and the best of what is then left is begun; a cable that is
done is done again only where otherwise more would have no way. A cable that has none is not run.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from drawcord.plan.best_choice import NO_WAY, TO_DO, Done, Lefts
from drawcord.plan.knowing import Knowing

Cases = dict[tuple[int, ...], float]
Quick = tuple[tuple[int, int], ...]  # of some routes the time [s] and what is unknown, the quickest first


class Going:
    """The work that follows for the cables of `knowing`, by what is left to them. Remembers everything."""

    def __init__(self, knowing: Knowing) -> None:
        self.knowing = knowing
        self._slowest = [max((route.seconds for route in routes), default=0) for routes in knowing.routes]
        self._seconds: dict[tuple[Lefts, Done], float] = {}
        self._cases: dict[tuple[Lefts, Done], Cases] = {}
        self._quickest: dict[Quick, float] = {}

    def seconds(self, lefts: Lefts) -> float:
        """The expected time of work [s], that which is lost included.

        A cable that only the others leave no way counts as its slowest route, so that it never pays to lose one.
        """
        return self._work(lefts, self.knowing.nothing_done)

    def cases(self, lefts: Lefts) -> Cases:
        """How likely each choice of routes is in the end, by the number of each cable's route, or `NO_WAY`."""
        return self._ends(lefts, self.knowing.nothing_done)

    def least(self, lefts: Lefts) -> float:
        """What no order of looking gets below [s]: the expected work if each cable took the quickest clear route."""
        each = zip(self.knowing.routes, lefts, strict=True)
        timed = (sorted((routes[number].seconds, unknown) for number, unknown in left) for routes, left in each)
        return sum(self._quick(_quickest(some)) for some in timed)

    def _work(self, lefts: Lefts, done: Done) -> float:
        key = lefts, done
        if key not in self._seconds:
            cable, best, done = self._next(lefts, done)
            if best is None:
                lost = zip(lefts, done, self._slowest, strict=True)
                self._seconds[key] = sum(slowest for left, number, slowest in lost if left and number == NO_WAY)
            else:
                clear, total, reached = lefts, 0.0, 1.0
                for bit, spent in self.knowing.ahead(cable, *best):
                    chance = self.knowing.chance(bit)
                    blocked = self.knowing.learn_all(clear, bit, clear=False)
                    total += reached * (1 - chance) * (spent + self._work(blocked, done))
                    clear = self.knowing.learn_all(clear, bit, clear=True)
                    reached *= chance
                work = self.knowing.routes[cable][best[0]].seconds
                self._seconds[key] = total + reached * (work + self._work(clear, _with(done, cable, best[0])))
        return self._seconds[key]

    def _ends(self, lefts: Lefts, done: Done) -> Cases:
        """Factoring: all on the route begun clear is one case; else it branches on each of its places in turn."""
        key = lefts, done
        if key not in self._cases:
            cable, best, done = self._next(lefts, done)
            cases: defaultdict[tuple[int, ...], float] = defaultdict(float)
            if best is None:
                cases[done] = 1.0
            else:
                clear, reached = lefts, 1.0
                for bit, _ in self.knowing.ahead(cable, *best):
                    chance = self.knowing.chance(bit)
                    for routes, share in self._ends(self.knowing.learn_all(clear, bit, clear=False), done).items():
                        cases[routes] += reached * (1 - chance) * share
                    clear = self.knowing.learn_all(clear, bit, clear=True)
                    reached *= chance
                for routes, share in self._ends(clear, _with(done, cable, best[0])).items():
                    cases[routes] += reached * share
            self._cases[key] = dict(cases)
        return self._cases[key]

    def _next(self, lefts: Lefts, done: Done) -> tuple[int, tuple[int, int] | None, Done]:
        """The cable to work on now and its route, none if all are done; and what of the work done still stands."""
        chosen = self.knowing.best(lefts, done)
        stands = tuple(
            NO_WAY if one is None else number if one[0] == number else TO_DO
            for one, number in zip(chosen, done, strict=True)
        )
        cable = stands.index(TO_DO) if TO_DO in stands else -1
        return cable, chosen[cable] if cable >= 0 else None, stands

    def _quick(self, some: Quick) -> float:
        if not some:
            return 0.0
        if some not in self._quickest:
            seconds, unknown = some[0]
            total, reached, rest = 0.0, 1.0, some
            for bit in _bits(unknown):
                chance = self.knowing.chance(bit)
                total += reached * (1 - chance) * self._quick(tuple(one for one in rest if not one[1] & bit))
                rest = _quickest([(more, others & ~bit) for more, others in rest])
                reached *= chance
            self._quickest[some] = total + reached * seconds
        return self._quickest[some]


def _quickest(routes: Iterable[tuple[int, int]]) -> Quick:
    """Routes by their time and what is unknown on them, less those that take longer than one that needs no more."""
    kept: list[tuple[int, int]] = []
    for seconds, unknown in routes:
        if all(other & ~unknown for _, other in kept):
            kept.append((seconds, unknown))
    return tuple(kept)


def _bits(mask: int) -> Iterator[int]:
    while mask:
        yield mask & -mask
        mask &= mask - 1


def _with(done: Done, cable: int, number: int) -> Done:
    return (*done[:cable], number, *done[cable + 1 :])
