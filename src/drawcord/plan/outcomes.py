"""What cable is needed, over all that may turn out, if people look and go to work by one card.

Exact by factoring (going.py) for each group of cables that have to do with each other; groups are independent. That
some cable has no way at all is a case like any other.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property

from drawcord.plan.alternatives import Choice
from drawcord.plan.best_choice import NO_WAY, Lefts
from drawcord.plan.going import Cases
from drawcord.plan.looking import Looking, Step

Cut = tuple[int, int, int]


@dataclass(frozen=True)
class Needed:
    """A case: how likely it is, the cable needed by type, low, likely and high [mm], and the likeliest routes to it.

    `without`: the cables that no way is left for. Their lengths are not in `lengths`.
    """

    chance: float
    lengths: dict[str, Cut]
    routes: Choice

    @property
    def without(self) -> tuple[str, ...]:
        """The cables that have no way, in order."""
        return tuple(cable for cable, route in self.routes.items() if route is None)


@dataclass(frozen=True)
class Outcomes:
    """Every case, the likeliest first; those that need the same are one. `types` are all types of cable, in order."""

    types: tuple[str, ...]
    cases: tuple[Needed, ...]

    @cached_property
    def no_way(self) -> float:
        """How likely it is that some cable has no way at all."""
        return sum(case.chance for case in self.cases if case.without)

    def no_way_for(self, cable: str) -> float:
        """How likely it is that this cable has no way at all."""
        return sum(case.chance for case in self.cases if cable in case.without)

    def of(self, kind: str) -> tuple[tuple[Cut, float], ...]:
        """The distribution of one type of cable: how much [mm], and how likely; the shortest first."""
        found: dict[Cut, float] = {}
        for case in self.cases:
            found[case.lengths[kind]] = found.get(case.lengths[kind], 0.0) + case.chance
        return tuple(sorted(found.items()))


def choices(lookings: Sequence[Looking]) -> list[tuple[float, Choice]]:
    """Every choice of routes that all cables of a job may come to, and how likely it is; the likeliest first."""
    found: list[tuple[float, Choice]] = [(1.0, {})]
    for looking in lookings:
        cases = sorted(by_card(looking).items(), key=lambda case: (-case[1], case[0]))
        found = [
            (chance * share, {**routes, **_routes(looking, numbers)})
            for chance, routes in found
            for numbers, share in cases
            if share
        ]
    return sorted(found, key=lambda one: -one[0])


def outcomes(found: Sequence[tuple[float, Choice]], types: Mapping[str, tuple[str, int]]) -> Outcomes:
    """What these choices need; `types` says for each cable its type, and how many lengths of it a run takes."""
    kinds = tuple(sorted({types[cable][0] for _, routes in found for cable in routes}))
    place = {kind: number for number, kind in enumerate(kinds)}
    # By lengths and cables without a way: the chance, and the likeliest choice of routes, which comes first.
    together: dict[tuple[tuple[Cut, ...], tuple[str, ...]], tuple[float, Choice]] = {}
    for chance, routes in found:
        sums = [(0, 0, 0)] * len(kinds)
        for cable, route in routes.items():
            kind, times = types[cable]
            if route:
                sums[place[kind]] = summed(sums[place[kind]], route.cut_length, times)
        key = tuple(sums), tuple(sorted(cable for cable, route in routes.items() if route is None))
        known, likeliest = together.get(key, (0.0, routes))
        together[key] = known + chance, likeliest
    cases = [
        Needed(chance, dict(zip(kinds, lengths, strict=True)), dict(sorted(routes.items())))
        for (lengths, _), (chance, routes) in together.items()
    ]
    cases.sort(key=lambda case: (-case.chance, *case.lengths.values(), case.without))
    return Outcomes(kinds, tuple(cases))


@cache
def by_card(looking: Looking) -> Cases:
    """How likely each choice of routes is in the end, if people look by the card and then go to work."""
    known: dict[Lefts, Cases] = {}

    def cases(step: Step) -> Cases:
        if step.look is None or step.clear is None or step.blocked is None:
            return looking.going.cases(step.left)
        if step.left not in known:
            found: Cases = {}
            for after, chance in ((step.clear, step.look.chance), (step.blocked, 1 - step.look.chance)):
                for routes, share in cases(after).items():
                    found[routes] = found.get(routes, 0.0) + chance * share
            known[step.left] = found
        return known[step.left]

    return cases(looking.card)


def _routes(looking: Looking, numbers: Sequence[int]) -> Choice:
    """By cable the route that has the number, or None for no way."""
    each = zip(looking.knowing.cables, looking.knowing.routes, numbers, strict=True)
    return {cable: None if number == NO_WAY else routes[number] for cable, routes, number in each}


def summed(one: Cut, other: Cut, times: int) -> Cut:
    """Two lengths together, the other one so many times."""
    low, likely, high = (a + times * b for a, b in zip(one, other, strict=True))
    return low, likely, high
