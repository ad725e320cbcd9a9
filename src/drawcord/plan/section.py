"""The section of a circuit's cable: the thinnest that carries the current and keeps the drop on its real length."""

from collections.abc import Sequence
from dataclasses import dataclass

from drawcord.coach.coach import Coach
from drawcord.plan.grown import thin_to_thick
from drawcord.plan.purpose import Purpose
from drawcord.routes.route import Route
from drawcord.wire.ampacity import Leg
from drawcord.wire.cable import CableType
from drawcord.wire.carrying import Carrying, carrying
from drawcord.wire.conductor import Conductor
from drawcord.wire.drop import Drop, drop
from drawcord.wire.rulesets import RuleSet


@dataclass(frozen=True)
class Tried:
    """A type of cable held against a circuit; it serves if nothing speaks `against` it."""

    type_id: str
    cable: CableType
    carrying: Carrying | None
    drop: Drop | None
    against: tuple[str, ...]


def legs_of(coach: Coach, name: str, route: Route) -> tuple[Leg, ...]:
    """A route's legs as ampacity sees them.

    The air is everywhere the hottest that the job states, which errs to the safe side in cooler spaces; a leg in the
    sun on the roof lies close above it, in open air. A cable's own conductors keep together all the way, so that its
    whole length counts as bundled.
    """
    if coach.job is None:
        raise LookupError("a coach without a job has no cables")
    cable = coach.job.cables[name]
    loaded = cable.cores - 1 if cable.carries == "mains" else cable.cores  # a protective conductor carries nothing
    return tuple(
        Leg(
            leg.space,
            coach.job.temperatures.hottest,
            loaded,
            route.criteria.length,
            0.0 if leg.kind == "roof" and leg.zone == "sun" else None,
            leg.kind == "roof",
        )
        for leg in route.legs
    )


def tried(
    coach: Coach, name: str, route: Route, wanted: Purpose, rules: RuleSet, conductors: Sequence[Conductor]
) -> tuple[Tried, ...]:
    """Every type of cable that may serve, from thin to thick, each with what speaks against it."""
    if coach.job is None:
        raise LookupError("a coach without a job has no cables")
    found = thin_to_thick(coach.types, coach.job.cables[name], rules.name)
    return tuple(held(coach, name, type_id, route, wanted, rules, conductors) for type_id in found)


def held(
    coach: Coach,
    name: str,
    type_id: str,
    route: Route,
    wanted: Purpose,
    rules: RuleSet,
    conductors: Sequence[Conductor],
) -> Tried:
    """One type held against a circuit on a route."""
    if coach.job is None:
        raise LookupError("a coach without a job has no cables")
    kind, celsius = coach.types.cables[type_id].made(), coach.job.temperatures.conductor
    legs = legs_of(coach, name, route)
    against = _places(kind, route)
    carries = lost = None
    try:
        carries = carrying(rules, kind, wanted.imax, legs)
        against += _too_thin(carries)
    except ValueError as error:
        against.append(str(error))
    row = next((one for one in conductors if (one.label, one.metal) == (kind.section, kind.metal)), None)
    if row is None:
        against.append(f"no table holds the resistance of {kind.section}, {kind.metal}")
    else:
        lost = drop(wanted.flows, wanted.supply.value, route.cut_length[1], row, celsius)
        if lost.percent.value > 100 * wanted.limit.value:
            share = f"{lost.percent.value:.2f} %, over the limit of {100 * wanted.limit.value:g} %"
            against.append(f"it loses {lost.volts.value:.3f} V, {share}")
    return Tried(type_id, kind, carries, lost, tuple(against))


def _places(kind: CableType, route: Route) -> list[str]:
    zones = sorted({leg.zone for leg in route.legs} - set(kind.zones))
    found = [f"it may not run in the zone {zone}" for zone in zones]
    if any(leg.zone == "sun" for leg in route.legs) and not kind.sunlight_resistant and "sun" not in zones:
        found.append("it is not resistant to sunlight")
    return found


def may_run(kind: CableType, zone: str) -> bool:
    """Whether a type may run in a zone."""
    return zone in kind.zones and (zone != "sun" or kind.sunlight_resistant)


def _too_thin(one: Carrying) -> list[str]:
    found = []
    if one.terminals.value < one.continuous.value:
        least, most = one.terminals.value, one.continuous.value
        found.append(f"{least:g} A at its terminals are less than the continuous {most:.1f} A")
    carried = one.governing.amperes.value
    if carried < one.imax.value:
        found.append(f"{carried:.1f} A in {one.governing.leg.name} are less than Imax of {one.imax.value:.1f} A")
    if not one.device.fits:
        allowed = one.device.ceiling.value
        found.append(f"it allows a device of {allowed:g} A, {one.device.rating.value:g} A are needed")
    return found
