"""A job planned whole: cables of the types that stand, on the routes that go best together, with their circuits."""

from collections.abc import Sequence
from dataclasses import replace

from drawcord.plan.all_together import Tight, all_together
from drawcord.plan.array import Array
from drawcord.plan.circuits import circuits
from drawcord.plan.plan import Plan
from drawcord.plan.room import cramped
from drawcord.plan.sized import Sized
from drawcord.routes.route import Leg, Route
from drawcord.wire.conductor import Conductor

JOINT = "{} is the way in the joint plan of all cables, made for these types; that this one stands on it is checked."


def whole(done: Sized, array: Array, conductors: Sequence[Conductor], take: Sequence[str]) -> Plan:
    """The joint plan for the types that stand, around the routes that `take` names.

    A cable keeps the route that it was sized for if that is not its cheapest, since then the others were too tight,
    and if its type does not stand on the one that would go best with the others.
    """
    named = {one.rpartition("-")[0] for one in take}
    kept = {name: one for name, one in done.chosen.items() if name in named or one.rank > 1}
    tight = {name: _tight(done, name) for name in done.settled.types}
    how = {one.cable: one.planned for one in done.circuits.circuits}
    while True:
        plan = all_together(done.coach, done.compared, kept, tight)
        planned = {
            name: one
            if plan.chosen.get(name) is done.chosen.get(name)
            else replace(one, proof=JOINT.format(plan.chosen[name].id))
            for name, one in how.items()
            if name in plan.chosen
        }
        found = circuits(done.coach, array, plan.chosen, conductors, planned)
        short = {
            one.cable: done.chosen[one.cable]
            for one in found.circuits
            if one.cable not in kept
            and any(each.against for each in one.tried if each.type_id == done.settled.types.get(one.cable))
        }
        if not short:
            return replace(plan, circuits=found)
        kept |= short


def _tight(done: Sized, name: str) -> Tight:
    """Tells of each leg of a cable whether it has no room to bend or draw it."""
    order = next(order for order, _ in done.compared if order.name == name)
    written = next((one.planned.written for one in done.circuits.circuits if one.cable == name), order.cable)

    def tight(route: Route, leg: Leg) -> bool:
        return bool(cramped(done.coach, order.cable, written.largest_plug, replace(route, legs=(leg,))))

    return tight
