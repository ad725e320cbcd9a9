"""Going to work without looking first: how long it takes, and which routes come of it, over all that may turn out.

Cable by cable, in order, the best route is begun. Its unproven places are met on the way. Where one is blocked, the
work done on that route is lost, and the best of what is then left is begun. Where nothing is left, the cable is not
run. What is found out about a place is known to the cables that follow.
"""

from collections import defaultdict

from drawcord.plan.knowing import Knowing, Left, Lefts

NO_WAY = -1
Cases = dict[tuple[int, ...], float]


class Going:
    """The work that follows for the cables of `knowing`, by what is left to them. Remembers everything."""

    def __init__(self, knowing: Knowing) -> None:
        self.knowing = knowing
        self._seconds: dict[Lefts, float] = {(): 0.0}
        self._cases: dict[Lefts, Cases] = {(): {(): 1.0}}
        self._quickest: dict[tuple[int, Left], float] = {}

    def seconds(self, lefts: Lefts) -> float:
        """The expected time of work [s], that which is lost included; of the last cables, if not all are given."""
        if lefts not in self._seconds:
            cable = self._cable(lefts)
            best = self.knowing.best(cable, lefts[0])
            if best is None:
                self._seconds[lefts] = self.seconds(lefts[1:])
            else:
                clear, total = lefts, 0.0
                reached = 1.0
                for bit, done in self.knowing.ahead(cable, *best):
                    chance = self.knowing.chance(bit)
                    blocked = self.knowing.learn_all(clear, bit, clear=False)
                    total += reached * (1 - chance) * (done + self.seconds(blocked))
                    clear = self.knowing.learn_all(clear, bit, clear=True)
                    reached *= chance
                work = self.knowing.routes[cable][best[0]].seconds
                self._seconds[lefts] = total + reached * (work + self.seconds(clear[1:]))
        return self._seconds[lefts]

    def cases(self, lefts: Lefts) -> Cases:
        """How likely each choice of routes is in the end, by the number of each cable's route, or `NO_WAY`.

        Factoring: all on the best route clear is one case; else it branches on each of its places in turn.
        """
        if lefts not in self._cases:
            cable = self._cable(lefts)
            best = self.knowing.best(cable, lefts[0])
            cases: defaultdict[tuple[int, ...], float] = defaultdict(float)
            clear, reached = lefts, 1.0
            for bit, _ in self.knowing.ahead(cable, *best) if best else ():
                chance = self.knowing.chance(bit)
                for routes, share in self.cases(self.knowing.learn_all(clear, bit, clear=False)).items():
                    cases[routes] += reached * (1 - chance) * share
                clear = self.knowing.learn_all(clear, bit, clear=True)
                reached *= chance
            for routes, share in self.cases(clear[1:]).items():
                cases[(best[0] if best else NO_WAY, *routes)] += reached * share
            self._cases[lefts] = dict(cases)
        return self._cases[lefts]

    def least(self, lefts: Lefts) -> float:
        """What no order of looking gets below [s]: the expected work if each cable took the quickest clear route."""
        first = len(self.knowing.cables) - len(lefts)
        return sum(self._quick(first + number, left) for number, left in enumerate(lefts))

    def _quick(self, cable: int, left: Left) -> float:
        if not left:
            return 0.0
        key = cable, left
        if key not in self._quickest:
            routes = self.knowing.routes[cable]
            number, unknown = min(left, key=lambda one: (routes[one[0]].seconds, one))
            total, reached, rest = 0.0, 1.0, left
            for bit, _ in self.knowing.ahead(cable, number, unknown):
                chance = self.knowing.chance(bit)
                total += reached * (1 - chance) * self._quick(cable, self.knowing.learn(rest, bit, clear=False))
                rest = self.knowing.learn(rest, bit, clear=True)
                reached *= chance
            self._quickest[key] = total + reached * routes[number].seconds
        return self._quickest[key]

    def _cable(self, lefts: Lefts) -> int:
        return len(self.knowing.cables) - len(lefts)
