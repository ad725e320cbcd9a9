"""The card for a job: where to look first, for every cable, in groups that share no unproven place."""

from collections.abc import Sequence
from dataclasses import dataclass

from drawcord.plan.alternatives import Alternatives, alternatives, unproven
from drawcord.plan.knowing import Knowing, Left, apart
from drawcord.plan.looking import Looking, Step
from drawcord.routes.order import Order

Choice = dict[str, int | None]


@dataclass(frozen=True)
class Card:
    """The order of looking of each group, those with nothing to look at among them."""

    lookings: tuple[Looking, ...]
    cables: tuple[Alternatives, ...]


def card(orders: Sequence[Order]) -> Card:
    """Where to look first for these cables of one job."""
    cables = tuple(alternatives(order) for order in sorted(orders, key=lambda order: order.name))
    if not orders:
        return Card((), ())
    places = unproven(orders[0].coach, orders)
    return Card(tuple(Looking(Knowing(group, places)) for group in apart(cables)), cables)


def likeliest(looking: Looking, most: int) -> list[Step]:
    """Up to so many steps of the card at which somebody looks, those that are likeliest reached; in order."""
    steps = looking.card.steps()
    reached = {step.left: 0.0 for step in steps}
    reached[looking.start] = 1.0
    # What is known only grows, so every step comes after those that lead to it.
    for step in sorted(steps, key=lambda step: -_unknown(step)):
        if step.look and step.clear and step.blocked:
            reached[step.clear.left] += reached[step.left] * step.look.chance
            reached[step.blocked.left] += reached[step.left] * (1 - step.look.chance)
    looks = [step for step in steps if step.look]
    kept = {id(step) for step in sorted(looks, key=lambda step: -reached[step.left])[:most]}
    return [step for step in looks if id(step) in kept]


def choice(looking: Looking, step: Step) -> tuple[Choice, list[str]]:
    """The number of the route, from 1, that each cable would start on now, and the ids of what is unknown on them."""
    knowing, unknown = looking.knowing, 0
    chosen: Choice = {}
    for cable, (name, left) in enumerate(zip(knowing.cables, step.left, strict=True)):
        best = knowing.best(cable, left)
        chosen[name] = best[0] + 1 if best else None
        unknown |= best[1] if best else 0
    return chosen, [place.id for number, place in enumerate(knowing.places) if unknown >> number & 1]


def _unknown(step: Step) -> int:
    """How many places are still unknown on what is left, for each alternative of each cable."""
    return sum(map(_count, step.left))


def _count(left: Left) -> int:
    return sum(1 + unknown.bit_count() for _, unknown in left)
