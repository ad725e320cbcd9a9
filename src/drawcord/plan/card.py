"""The card for a job: where to look first, in groups of cables that have to do with each other."""

from collections.abc import Sequence
from dataclasses import dataclass

from drawcord.plan.alternatives import Alternatives, Choice, alternatives, unproven
from drawcord.plan.as_planned import among, as_planned
from drawcord.plan.contested import apart, around, bans_of, within
from drawcord.plan.knowing import Knowing
from drawcord.plan.looking import Looking, Step, size
from drawcord.plan.outcomes import choices
from drawcord.plan.plan import Plan
from drawcord.plan.shifting import Shifting
from drawcord.routes.measure import measure
from drawcord.routes.order import Order
from drawcord.routes.route import Route

Numbers = dict[str, int | None]


@dataclass(frozen=True)
class Card:
    """The order of looking of each group, those with nothing to look at among them.

    `cases`: all choices that it may come to and how likely each is, holes that may not be shared side by side.
    """

    lookings: tuple[Looking, ...]
    cables: tuple[Alternatives, ...]
    cases: tuple[tuple[float, Choice], ...]


def card(plan: Plan, orders: Sequence[Order]) -> Card:
    """Where to look first for these cables of one job, beginning with what the plan has chosen.

    Where ways that may go together turn out to need holes that do not fit beside each other, these cables may not both
    go there, and the card is made again.
    """
    if not orders:
        return Card((), (), ())
    orders = sorted(orders, key=lambda order: order.name)
    planned, places, bans = as_planned(plan, orders), unproven(plan.coach, orders), bans_of(orders)
    known: dict[tuple[str, tuple[str, ...]], Route] = {}

    def measured(order: Order, stations: tuple[str, ...]) -> Route:
        key = order.name, stations
        if key not in known:
            known[key] = measure(order, stations)
        return known[key]

    while True:
        cables, matter = around(orders, bans, lambda order, ids: among(alternatives(order, ids, measured), planned))
        groups = apart(cables, matter)
        lookings = tuple(Looking(Knowing(group, places, within(matter, group))) for group in groups)
        shifting = Shifting(orders, measured)
        cases = tuple((chance, shifting.shifted(routes)) for chance, routes in choices(lookings))
        if not shifting.tight:
            return Card(lookings, tuple(cables), cases)
        bans += sorted(shifting.tight)


def likeliest(looking: Looking, most: int) -> list[Step]:
    """Up to so many steps of the card at which somebody looks, those that are likeliest reached; in order."""
    steps = looking.card.steps()
    reached = {step.left: 0.0 for step in steps}
    reached[looking.start] = 1.0
    # What is known only grows, so every step comes after those that lead to it.
    for step in sorted(steps, key=lambda step: -size(step.left)):
        if step.look and step.clear and step.blocked:
            reached[step.clear.left] += reached[step.left] * step.look.chance
            reached[step.blocked.left] += reached[step.left] * (1 - step.look.chance)
    looks = [step for step in steps if step.look]
    kept = {id(step) for step in sorted(looks, key=lambda step: -reached[step.left])[:most]}
    return [step for step in looks if id(step) in kept]


def numbered(looking: Looking, step: Step) -> tuple[Numbers, list[str]]:
    """The number of the route, from 1, that each cable would start on now, and the ids of what is unknown on them."""
    knowing, unknown = looking.knowing, 0
    chosen: Numbers = {}
    for name, best in zip(knowing.cables, knowing.best(step.left), strict=True):
        chosen[name] = best[0] + 1 if best else None
        unknown |= best[1] if best else 0
    return chosen, [place.id for number, place in enumerate(knowing.places) if unknown >> number & 1]
