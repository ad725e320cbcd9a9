"""The lightest plan of some cables: a greedy start, arcs that cannot pay left out, and a model that proves the best.

A plan is a route for each cable on the graph; what is proved is proved there. Where a route as measured will not do
(no place for a joint within a hand's reach for longer than a piece of cable, no room for the cable in a leg), every
route with that stretch, from passage to passage, is refused and the problem solved again; so are holes of two cables
that would run into each other.
"""

from collections.abc import Callable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace

from drawcord.plan.bound import Prices, reduced
from drawcord.plan.greedy import greedy
from drawcord.plan.posing import Posing
from drawcord.plan.pricing import fine
from drawcord.plan.problem import Problem
from drawcord.plan.refusal import without
from drawcord.plan.solver import Solved, solve
from drawcord.plan.spacing import spaced
from drawcord.routes.net import States
from drawcord.routes.route import Route

REFUSALS = 60  # plans refused for their joints before the search gives up

Stations = tuple[str, ...]
Routes = tuple[States, ...]
Refusing = Callable[[Mapping[str, Stations]], Mapping[str, tuple[int, int]]]  # from which leg to which, by cable


class Lightest:
    """The search for some cables; `taken`: routes that are settled; `refused`: what will not do in a plan."""

    def __init__(self, posing: Posing, taken: Mapping[str, Route], refused: Refusing) -> None:
        self.posing, self.taken, self.refused = posing, taken, refused
        self.names = [order.name for order in posing.orders]

    def plan(self, hidden: AbstractSet[str]) -> tuple[dict[str, Stations] | None, Solved]:
        """The stations of each route of the lightest plan in which these cables stay out of sight, if there is one."""
        taken = [(number, name) for number, name in enumerate(self.names) if name in self.taken]
        settled = {number: self.posing.states(number, self.taken[name]) for number, name in taken}
        problem, start = self._started(self.posing.problem([name in hidden for name in self.names], settled))
        prices = None
        if start and (most := self._shared(problem, start)):
            problem, start, prices = self._without_raceway(problem, start, most)
        problem = self.posing.with_raceway(problem)
        if not start or not problem.legal(start):
            problem, start = self._started(problem)
        while start:
            most = problem.weight(start)
            prices, problem = fine(problem, most, prices)
            problem, start = self._bettered(problem, start, prices)
            if problem.weight(start) == most:
                break
            problem = reduced(problem, prices, problem.weight(start))
        return self._proved(problem, start)

    def _proved(self, problem: Problem, start: Routes | None) -> tuple[dict[str, Stations] | None, Solved]:
        """The lightest plan with all joints in reach, out of arcs that plans no heavier than the start use."""
        most, begun = (problem.weight(start), self.posing.stations(problem, start)) if start else (0, None)
        for _ in range(REFUSALS):
            found = solve(problem, start)
            if begun and (found.routes is None or found.weight > most):
                # A stretch of the start will not do beside other routes; as it was planned, it does.
                return begun, replace(found, weight=most, bound=most if found.proved else min(found.bound, most))
            if found.routes is None:
                return None, found
            smaller = self._refusing(problem, found.routes)
            if smaller is problem:
                return self.posing.stations(problem, found.routes), found
            problem, start = smaller, smaller.restated(problem, start) if start else None
        return begun, replace(found, weight=most, bound=min(found.bound, most), proved=False)

    def _started(
        self, problem: Problem, start: Routes | None = None, prices: Prices | None = None, *, pairs: bool = False
    ) -> tuple[Problem, Routes | None]:
        """A greedy plan with all joints in reach, and the problem without what was refused on the way."""
        routes = greedy(problem, start, prices, pairs=pairs)
        for _ in range(REFUSALS):
            if routes is None or (smaller := self._refusing(problem, routes)) is problem:
                return problem, routes
            problem, routes = smaller, greedy(smaller, None, prices, pairs=pairs)
        return problem, None

    def _without_raceway(self, problem: Problem, start: Routes, most: int) -> tuple[Problem, Routes, Prices]:
        """Fewer arcs and a better plan before the pieces of raceway are worked out, as if all cables shared each."""
        prices, lowered = fine(_lowered(problem, -1), most)
        problem = _lowered(lowered, 1)
        smaller, other = self._started(problem, None, prices)
        plans = smaller.restated(problem, start), other
        found = {plan: weight for plan in plans if plan and (weight := self._shared(smaller, plan))}
        weights = {plan: weight for plan, weight in found.items() if weight <= most}
        if not weights:  # beside others a stretch of the start has been refused
            return problem, start, prices
        start = min(weights, key=lambda plan: (weights[plan], plan))
        return _lowered(reduced(_lowered(smaller, -1), prices, weights[start]), 1), start, prices

    def _shared(self, problem: Problem, routes: Routes) -> int | None:
        """What a plan weighs with its raceway shared; None where cables lie in one that may not."""
        tried = self.posing.with_raceway(problem.only(routes))
        return tried.weight(routes) if tried.legal(routes) else None

    def _bettered(self, problem: Problem, start: Routes, prices: Prices) -> tuple[Problem, Routes]:
        """The lighter of what moving cables two at a time makes of a plan and of one that the prices suggest."""
        most = problem.weight(start)
        for from_start in (True, False):
            smaller, other = self._started(problem, start if from_start else None, prices, pairs=True)
            both = smaller.restated(problem, start), other
            plans = [plan for plan in both if plan and smaller.weight(plan) <= most]
            if plans:  # beside others a stretch of the start may have been refused
                problem, start = smaller, min(plans, key=smaller.weight)
        return problem, start

    def _refusing(self, problem: Problem, routes: Sequence[States]) -> Problem:
        """The problem without what of these routes will not do: a stretch, or holes too close; itself if all will."""
        problem = spaced(self.posing, problem, routes)
        commodities = list(problem.commodities)
        for name, (first, last) in self.refused(self.posing.stations(problem, routes)).items():
            if name not in self.taken:
                number = self.names.index(name)
                steps = commodities[number].step[commodities[number].arcs(routes[number])]
                commodities[number] = without(commodities[number], steps[first : last + 1].tolist())
        changed = any(old is not new for old, new in zip(problem.commodities, commodities, strict=True))
        return replace(problem, commodities=tuple(commodities)) if changed else problem


def _lowered(problem: Problem, sign: int) -> Problem:
    """Each cable paying only its share of raceway, as if all lay in it together; with `sign` 1 back again."""
    count = len(problem.commodities)
    shared = (c.with_own(c.own + sign * (c.sight - c.sight // count)) for c in problem.commodities)
    return replace(problem, commodities=tuple(shared))
