"""The weights that an owner would have to have, so that an efficient route wins."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor, inf, log10

from drawcord.coach.job import Job
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria, Route
from drawcord.routes.support import supporting
from drawcord.routes.weighing import PER_UNIT, WORDS
from drawcord.routes.wished import Wish

Weights = dict[str, float]  # by a criterion's word, what a unit of it is worth in metres of cable
MOST_ROUNDS = 60  # weightings tried; each that fails names one more rival
MOST_WEIGHT = 1000  # what a job may state
DIGITS = (2, 3, 4, 6)  # significant digits tried, so that a weight is no longer than it has to be


def weighted(order: Order, weights: Mapping[str, float], *, consent: bool) -> Order:
    """The same order of an owner with these weights, who has agreed to raceway in sight if `consent`."""
    job = order.coach.job
    assert job is not None  # noqa: S101 - an order's coach has one; this tells the type checker
    consents = [*job.owner.consents, *(["raceway in sight"] if consent else [])]
    owner = job.owner.model_copy(update={"weights": dict(weights), "consents": consents})
    changed: Job = job.model_copy(update={"owner": owner})
    return replace(order, ways=replace(order.ways, coach=replace(order.coach, job=changed)))


@dataclass(frozen=True)
class Sway:
    """Weights with which a route wins; `only` is the one criterion whose weight is not as it was, if just one is not.

    They may be as they were, where only the owner's agreement is missing.
    Where `weights` is None there are none: `proved` says whether that is certain.
    """

    weights: Weights | None
    only: str = ""
    proved: bool = True


def swaying(order: Order, wish: Wish, best: Route, rivals: Sequence[Route]) -> Sway:
    """Weights with which a route of this form wins, as a comparison has shown; or that none exist.

    One weight other than it is, if that will do: the one that changes by the least factor, of equals the first
    criterion. Else all of them, so that the nearest rival is left furthest behind. Where there are none, the
    rivals met prove it: under any weights one of them is no heavier.
    """
    # What the owner has not agreed to cannot win, unless the agreement that the route itself needs is given.
    search = _Search(order, wish, best, [rival for rival in rivals if rival.agreed or not best.agreed])
    if not best.agreed and search.wins(search.usual):
        return Sway(search.usual)
    alone = [(word, found) for word in WORDS.values() if (found := search.one(word))]
    if alone:
        only, found = min(alone, key=lambda pair: _factor(search.usual[pair[0]], pair[1][pair[0]]))
        return Sway(found, only)
    found_all = search.all()
    return Sway(found_all, proved=search.proved)


def _factor(one: float, other: float) -> float:
    low, high = sorted((one, other))
    return high / low if low else inf


class _Search:
    """The rivals met so far, each as what it costs more than the route, in units worth a weight of 1 [m]."""

    def __init__(self, order: Order, wish: Wish, best: Route, rivals: Sequence[Route]) -> None:
        self.order, self.wish, self.best = order, wish, best
        self.usual = stated(order)
        self.rows: list[tuple[Fraction, ...]] = []
        self.rounds = 0
        self.proved = False
        for rival in rivals:
            self.meet(rival)

    def meet(self, rival: Route) -> bool:
        """Take one more rival; whether it is new."""
        row = tuple(
            (theirs - ours) * Fraction(PER_UNIT[name]).limit_denominator(1000) / 1_000_000
            for name, theirs, ours in zip(Criteria._fields, rival.criteria, self.best.criteria, strict=True)
        )
        if row in self.rows or self.wish.holds(rival.spaces):
            return False
        self.rows.append(row)
        return True

    def wins(self, weights: Weights) -> bool | None:
        """Whether a route of the form wins with these weights; None if it does not and nothing was learnt."""
        self.rounds += 1
        if self.rounds > MOST_ROUNDS:
            return None
        answer = compare(weighted(self.order, weights, consent=not self.best.agreed))
        winner = answer.candidates[0].route
        return True if self.wish.holds(winner.spaces) else False if self.meet(winner) else None

    def one(self, word: str) -> Weights | None:
        """All weights as they are but one."""
        place = list(WORDS.values()).index(word)
        while True:
            low, high = Fraction(-1), Fraction(MOST_WEIGHT)
            for row in self.rows:
                costs = zip(self.usual.items(), row, strict=True)
                rest = sum((Fraction(usual) * cost for (other, usual), cost in costs if other != word), Fraction(0))
                if row[place] > 0:
                    low = max(low, -rest / row[place])
                elif row[place] < 0:
                    high = min(high, -rest / row[place])
                elif rest <= 0:
                    return None
            weight = _between(low, high, Fraction(self.usual[word]))
            if weight is None:
                return None
            won = self.wins({**self.usual, word: weight})
            if won is not False:
                return {**self.usual, word: weight} if won else None

    def all(self) -> Weights | None:
        """Whatever weights leave the nearest rival furthest behind, each criterion in its own spread."""
        while True:
            spread = [max(abs(cost) for cost in column) or Fraction(1) for column in zip(*self.rows, strict=True)]
            found = supporting([[cost / s for cost, s in zip(row, spread, strict=True)] for row in self.rows])
            if found is None:
                self.proved = bool(self.rows)
                return None
            raw = [weight / s for weight, s in zip(found, spread, strict=True)]
            unit = raw[0] or max(raw)  # so that a metre of cable is worth one, if it is worth anything
            short = self._rounded([weight / unit for weight in raw])
            won = self.wins(short) if short else None
            if won is not False:
                return short if won else None

    def _rounded(self, weights: Sequence[Fraction]) -> Weights | None:
        """The same with the fewest digits that still beat every rival met."""
        scale = min(Fraction(1), Fraction(MOST_WEIGHT) / max(weights))
        for digits in DIGITS:
            short = [_digits(weight * scale, digits) for weight in weights]
            if all(sum(Fraction(w) * cost for w, cost in zip(short, row, strict=True)) > 0 for row in self.rows):
                return dict(zip(WORDS.values(), short, strict=True))
        return None


def stated(order: Order) -> Weights:
    """The weights that hold: the owner's, or else the shop's."""
    job = order.coach.job
    known = {**order.coach.shop.preferences.weights, **(job.owner.weights if job else {})}
    by_word: Weights = {str(word): value for word, value in known.items()}
    return {word: by_word.get(word, 0.0) for word in WORDS.values()}


def _digits(value: Fraction, digits: int) -> float:
    return float(f"{float(value):.{digits}g}")


def _between(low: Fraction, high: Fraction, near: Fraction) -> float | None:
    """A weight strictly between two, as near to another as few digits allow; None if none is positive."""
    if low < near < high:
        return float(near)
    if high <= max(low, Fraction(0)):
        return None
    edge = low if near <= low else high
    for digits in DIGITS:
        step = Fraction(10) ** (floor(log10(edge)) - digits + 1) if edge > 0 else Fraction(1, 10**digits)
        weight = (floor(edge / step) + 1) * step if near <= low else (ceil(edge / step) - 1) * step
        if low < weight < high:
            return float(weight)
    return None
