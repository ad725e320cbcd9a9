"""The planned way of each cable among its alternatives, lighter by what other planned ways pay for as well.

Other ways are not credited with what they might share.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from drawcord.plan.abreast import Abreast
from drawcord.plan.alternatives import Alternative, Alternatives, alternative, in_order
from drawcord.plan.plan import Plan
from drawcord.plan.posing import making
from drawcord.plan.raceways import length
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria
from drawcord.routes.weighing import weights
from drawcord.ways.links import opening_seconds


def as_planned(plan: Plan, orders: Sequence[Order]) -> dict[str, Alternative]:
    """By cable the way that the plan has chosen, if it has one."""
    orders = sorted((order for order in orders if order.name in plan.chosen), key=lambda order: order.name)
    if not orders:
        return {}
    shared = _shared(Abreast(orders, [plan.chosen[order.name].route for order in orders]))
    found = {}
    for order in orders:
        made = alternative(order, plan.chosen[order.name].route)
        found[order.name] = replace(made, weight=made.weight - shared.get(order.name, 0), planned=True)
    return found


def among(some: Alternatives, planned: Mapping[str, Alternative]) -> Alternatives:
    """A cable's alternatives with the planned way among them, once."""
    if some.cable not in planned:
        return some
    one = planned[some.cable]
    others = [other for other in some.routes if other.legs != one.legs]
    return replace(some, routes=in_order([one, *others]))


def _shared(plan: Abreast) -> dict[str, int]:
    """By cable the weight of what it has in common with others: holes, spaces to open and raceway."""
    by = Criteria(*weights(plan.coach))
    found: dict[str, int] = {}

    def share(group: Sequence[int], weight: int) -> None:
        for number in group if len(group) > 1 else ():
            found[plan.names[number]] = found.get(plan.names[number], 0) + weight

    for (name, _), group in plan.crossed.items():
        share(group, making(plan.ways.passages[name], plan.coach, by))
    for name, group in plan.entered.items():
        share(group, by.seconds * opening_seconds(plan.coach.spaces[name], plan.coach))
    for piece, group in plan.lain.items():
        share(group, by.in_sight * length([piece]))
    return found
