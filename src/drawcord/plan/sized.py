"""A whole job with types and routes that fit each other: planned, sized, and planned again until it stands."""

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, replace
from math import inf
from types import MappingProxyType

from drawcord.coach.coach import Coach
from drawcord.coach.job import Job
from drawcord.plan.array import Array
from drawcord.plan.choose import choose
from drawcord.plan.circuit import Circuit, Planned, device_types
from drawcord.plan.circuits import Circuits, circuits
from drawcord.plan.comparing import Compared, Comparing
from drawcord.plan.fitted import Fitted
from drawcord.plan.grown import grown, ladder
from drawcord.plan.guard import device_for
from drawcord.plan.room import cramped
from drawcord.plan.settle import GivenUp, Settled, Types, settle
from drawcord.routes.order import Order
from drawcord.routes.route import Answer, Candidate, Route
from drawcord.words.units import format_width


@dataclass(frozen=True)
class Sized:
    """The `coach` whose job has the types that stand, the comparison made with them, the choice, and the circuits."""

    coach: Coach
    compared: Compared
    chosen: dict[str, Candidate]
    circuits: Circuits
    settled: Settled


def sized(
    comparing: Comparing,
    array: Array,
    take: Sequence[str] = (),
    before: GivenUp = MappingProxyType({}),
    *,
    apart: bool = False,
) -> Sized:
    """Grow the cables of a job until every one stands on a route that was planned for it.

    `take` are candidates of the job as it is written, each instead of its cable's winner; `before` the types that were
    given up already. `apart`: each cable as if no other lay beside it. Raises BadInput for ids nobody offered.
    """
    written, conductors = comparing.coach, comparing.conductors
    first = [answer for _, answer in comparing.compared(written)]
    winners = choose(written, first, take).chosen
    choice = _Choice(_job(written), {name: one.route.spaces for name, one in winners.items() if one.id in take}, before)
    ladders = {}
    for one in circuits(written, array, winners, conductors, apart=apart).circuits:
        rungs = ladder(written.types, choice.job.cables[one.cable], array.fitted.rules.name)
        if left := [name for name in rungs if name not in before.get(one.cable, ())]:
            ladders[one.cable] = left

    def judge(types: Types) -> dict[str, tuple[str, ...]]:
        coach = grown(written, types)
        compared = comparing.compared(coach)
        wrong = {order.name: _closed(order, answer) for order, answer in compared if order.name in types}
        for one in circuits(coach, array, choice.of(compared, types), conductors, apart=apart).circuits:
            if one.cable in types:
                tight = choice.tight(coach, one.candidate.route)
                wrong[one.cable] = (*tight, *against(coach, one, types[one.cable], array.fitted))
        return {name: why for name, why in wrong.items() if why}

    settled = settle(ladders, judge)
    settled = replace(settled, against=_all(before, settled.against))
    coach = grown(written, settled.types)
    compared = comparing.compared(coach, exactly=True)
    fallen_back = {answer.cable: answer.candidates[0] for _, answer in compared if answer.candidates}
    chosen = fallen_back | choice.of(compared, ladders)
    planned = {
        answer.cable: Planned(
            choice.job.cables[answer.cable],
            settled.against[answer.cable],
            choice.proof(answer, chosen[answer.cable]) if answer.cable in settled.types else "",
        )
        for _, answer in compared
        if answer.cable in settled.against and answer.candidates
    }
    return Sized(coach, compared, chosen, circuits(coach, array, chosen, conductors, planned, apart=apart), settled)


@dataclass(frozen=True)
class _Choice:
    """Which candidate a cable gets: the person's, whose spaces are `taken`, else the best with room for it."""

    job: Job  # as it is written
    taken: Mapping[str, tuple[str, ...]]
    before: GivenUp

    def of(self, compared: Compared, cables: Container[str]) -> dict[str, Candidate]:
        """A candidate for each cable that has one; for those of `cables` the first with room, if there is one."""
        found = {}
        for order, answer in compared:
            name = order.name
            offered = [one for one in answer.candidates if self.taken.get(name, one.route.spaces) == one.route.spaces]
            roomy = [one for one in offered if name not in cables or not self.tight(order.coach, one.route)]
            if offered:
                found[name] = (roomy or offered)[0]
        return found

    def tight(self, coach: Coach, route: Route) -> tuple[str, ...]:
        """What on a route is too tight for its cable as it is in `coach`, with the plug that the job writes."""
        return cramped(coach, _job(coach).cables[route.cable], self.job.cables[route.cable].largest_plug, route)

    def proof(self, answer: Answer, chosen: Candidate) -> str:
        """For what the comparison's proof holds, in a sentence."""
        if answer.cable in self.taken:
            return f"{chosen.id} was taken, not searched for: that it stands is checked, that it is best is not."
        if chosen.rank > 1:
            return (
                f"{chosen.id} is the best of the candidates shown that has room for it; a way that was not shown might "
                "be better, so nothing is proven."
            )
        if not answer.exact:
            return f"{answer.guarantee} That {chosen.id} is the best way for this type is proven to no more than that."
        beside = self.before.get(answer.cable)
        how = "by itself or beside the other cables of a joint plan" if beside else "planned the same way"
        return (
            "Proven: the comparison with this type's holes is exact, its winner has room to bend and draw it, and "
            f"every type before it fell short, {how}."
        )


def against(coach: Coach, one: Circuit, type_id: str, fitted: Fitted) -> tuple[str, ...]:
    """What speaks against a type in a circuit, its devices among it; nothing if it stands."""
    tried = next(each.against for each in one.tried if each.type_id == type_id)
    return (*tried, *_unprotected(coach, one, fitted))


def _job(coach: Coach) -> Job:
    if coach.job is None:
        raise LookupError("a coach without a job has no circuits")
    return coach.job


def _closed(order: Order, answer: Answer) -> tuple[str, ...]:
    """Why a cable that has a route as it was written has none now."""
    plug = format_width(order.cable.largest_plug, order.coach.units)
    what = "the route taken is not" if answer.candidates else "no way is"
    return (f"{what} open to it, with {plug} to pass each hole",)


def _all(before: GivenUp, since: GivenUp) -> dict[str, dict[str, tuple[str, ...]]]:
    return {name: {**before.get(name, {}), **since.get(name, {})} for name in sorted({*before, *since})}


def _unprotected(coach: Coach, one: Circuit, fitted: Fitted) -> tuple[str, ...]:
    """Whether it is the type's own doing that no device serves: one would, were the conductor to allow it."""
    if one.device or one.chosen is None or one.chosen.carrying is None:
        return ()
    carries = one.chosen.carrying
    rating, ceiling, _ = carries.device
    freely = carries._replace(device=carries.device._replace(ceiling=replace(ceiling, value=inf)))
    device, _ = device_for(one.cable, device_types(coach, one.placed), one.purpose, freely, fitted)
    return (f"no device there is has {rating.value:g} A to the {ceiling.value:g} A it allows",) if device else ()
