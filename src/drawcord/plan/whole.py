"""A job planned whole: cables of the types that stand, on the routes that go best together, with their circuits.

What lies beside a cable lowers what it carries, and is known only where all are planned: a cable that does not stand
beside the others takes its next type, and all is planned again, until every one stands.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from drawcord.plan.all_together import Tight, all_together
from drawcord.plan.array import Array
from drawcord.plan.circuit import Planned
from drawcord.plan.circuits import Circuits, circuits
from drawcord.plan.comparing import Comparing
from drawcord.plan.plan import Plan
from drawcord.plan.room import cramped
from drawcord.plan.sized import Sized, against, sized
from drawcord.routes.route import Candidate, Leg, Route
from drawcord.ways.ways import Ways
from drawcord.wire.conductor import Conductor

JOINT = "{} is the way in the joint plan of all cables, made for these types; that this one stands on it is checked."


def whole(ways: Ways, array: Array, conductors: Sequence[Conductor], take: Sequence[str] = ()) -> tuple[Sized, Plan]:
    """The types that stand beside one another, and the joint plan for them around the routes that `take` names.

    Each round gives up a type or is the last. Raises BadInput for ids nobody offered.
    """
    comparing, given_up = Comparing(ways, conductors), dict[str, dict[str, tuple[str, ...]]]()
    while True:
        done = sized(comparing, array, take, given_up, apart=True)
        plan = _planned(done, array, conductors, take)
        found = circuits(done.coach, array, plan.chosen, conductors, _how(done, plan.chosen))
        short = _short(done, found)
        if not short:
            return done, replace(plan, circuits=found)
        for name, why in short.items():
            given_up[name] = {**done.settled.against[name], done.settled.types[name]: why}


def _planned(done: Sized, array: Array, conductors: Sequence[Conductor], take: Sequence[str]) -> Plan:
    """The joint plan on which every type stands by itself.

    A cable keeps the route that it was sized for if that is not its cheapest, since then the others were too tight,
    and if its type does not stand on the one that would go best with the others.
    """
    named = {one.rpartition("-")[0] for one in take}
    kept = {name: one for name, one in done.chosen.items() if name in named or one.rank > 1}
    tight = {name: _tight(done, name) for name in done.settled.types}
    while True:
        plan = all_together(done.coach, done.compared, kept, tight)
        found = circuits(done.coach, array, plan.chosen, conductors, apart=True)
        short = {name: done.chosen[name] for name in _short(done, found) if name not in kept}
        if not short:
            return plan
        kept |= short


def _short(done: Sized, found: Circuits) -> dict[str, tuple[str, ...]]:
    """Of each cable whose type does not stand in these circuits why not."""
    types = done.settled.types
    why = {
        one.cable: against(done.coach, one, types[one.cable], found.fitted)
        for one in found.circuits
        if one.cable in types
    }
    return {name: said for name, said in why.items() if said}


def _how(done: Sized, chosen: Mapping[str, Candidate]) -> dict[str, Planned]:
    """How each cable came to its type, and what is proven of it on the route chosen."""
    return {
        one.cable: one.planned
        if chosen[one.cable] is done.chosen.get(one.cable)
        else replace(one.planned, proof=JOINT.format(chosen[one.cable].id))
        for one in done.circuits.circuits
        if one.cable in chosen
    }


def _tight(done: Sized, name: str) -> Tight:
    """Tells of each leg of a cable whether it has no room to bend or draw it."""
    order = next(order for order, _ in done.compared if order.name == name)
    written = next((one.planned.written for one in done.circuits.circuits if one.cable == name), order.cable)

    def tight(route: Route, leg: Leg) -> bool:
        return bool(cramped(done.coach, order.cable, written.largest_plug, replace(route, legs=(leg,))))

    return tight
