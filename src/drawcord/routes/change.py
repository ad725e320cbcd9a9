"""The smallest change of one fact after which something holds, found by making every change and looking."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import groupby

from drawcord.coach.build import build
from drawcord.coach.job import Job
from drawcord.routes.facts import Effort, Fact
from drawcord.routes.order import Order
from drawcord.ways.ways import explore
from drawcord.words.faults import BadInput

Holds = Callable[[Order], bool]


@dataclass(frozen=True)
class Change:
    """One fact that is otherwise: what it asks for, which place, by how much [mm], and in words."""

    effort: Effort
    place: str
    amount: int
    sentence: str


def changed(order: Order, job: Job) -> Order | None:
    """The same cable in the coach that another job makes; None where that job cannot be."""
    try:
        ways = explore(build(order.coach.rig, job, order.coach.shop))
    except BadInput:
        return None
    return Order(ways, order.name, order.conductors)


def smallest(order: Order, facts: Sequence[Fact], holds: Holds) -> Change | None:
    """The change of one of these facts after which `holds`, that asks for the least effort, then the least [mm].

    Ties go to the first place by id. Of a fact that can change by more or less, the most is tried; if that will
    do, halving finds an amount that will do where one millimetre less will not.
    """
    for _, group in groupby(sorted(facts, key=lambda fact: fact.effort), key=lambda fact: fact.effort):
        found = []
        for fact in group:
            amount = _least(order, fact, holds)
            if amount is not None:
                found.append(Change(fact.effort, fact.place, amount, fact.sentence(amount)))
        if found:
            return min(found, key=lambda change: (change.amount, change.place, change.sentence))
    return None


def does(order: Order, fact: Fact, amount: int, holds: Holds) -> bool:
    """Whether something holds once a fact has changed by so much [mm]."""
    other = changed(order, fact.job(amount))
    return other is not None and holds(other)


def _least(order: Order, fact: Fact, holds: Holds) -> int | None:
    low, high = fact.least - 1, fact.most
    if not does(order, fact, high, holds):
        return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if does(order, fact, middle, holds) else (middle, high)
    return high
