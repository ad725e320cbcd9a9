"""The section of a circuit's cable: the thinnest that carries the current and keeps the drop on its real length."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable, Job
from drawcord.plan.beside import Crowd, loaded
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


@dataclass(frozen=True)
class Case:
    """A circuit's cable on its route, for types to be held against; `crowds` is what lies together, leg by leg."""

    coach: Coach
    name: str
    route: Route
    crowds: Sequence[tuple[Crowd, ...]]
    wanted: Purpose
    rules: RuleSet
    conductors: Sequence[Conductor]

    @property
    def cable(self) -> Cable:
        """The cable as the job has it."""
        return self._job.cables[self.name]

    @property
    def legs(self) -> tuple[Leg, ...]:
        """The legs as ampacity sees them: one for every number of conductors that lie together there.

        The air is everywhere the hottest that the job states, which errs to the safe side in cooler spaces; a leg in
        the sun on the roof lies close above it, in open air.
        """
        return tuple(
            Leg(
                leg.space,
                self._job.temperatures.hottest,
                crowd.conductors,
                crowd.length,
                0.0 if leg.kind == "roof" and leg.zone == "sun" else None,
                leg.kind == "roof",
                self._counted(crowd),
            )
            for leg, crowds in zip(self.route.legs, self.crowds, strict=True)
            for crowd in crowds
        )

    def part(self, first: int, last: int) -> "Case":
        """The same from one leg to another, both included."""
        legs, crowds = self.route.legs[first : last + 1], self.crowds[first : last + 1]
        return replace(self, route=replace(self.route, legs=legs), crowds=crowds)

    def tried(self) -> tuple[Tried, ...]:
        """Every type of cable that may serve, from thin to thick, each with what speaks against it."""
        return tuple(self.held(name) for name in thin_to_thick(self.coach.types, self.cable, self.rules.name))

    def held(self, type_id: str) -> Tried:
        """One type held against the circuit."""
        kind, wanted = self.coach.types.cables[type_id].made(), self.wanted
        against = _places(kind, self.route)
        carries = lost = None
        try:
            carries = carrying(self.rules, kind, wanted.imax, self.legs)
            against += _too_thin(carries)
        except ValueError as error:
            against.append(str(error))
        row = next((one for one in self.conductors if (one.label, one.metal) == (kind.section, kind.metal)), None)
        if row is None:
            against.append(f"no table holds the resistance of {kind.section}, {kind.metal}")
        else:
            celsius = self._job.temperatures.conductor
            lost = drop(wanted.flows, wanted.supply.value, self.route.cut_length[1], row, celsius)
            if lost.percent.value > 100 * wanted.limit.value:
                share = f"{lost.percent.value:.2f} %, over the limit of {100 * wanted.limit.value:g} %"
                against.append(f"it loses {lost.volts.value:.3f} V, {share}")
        return Tried(type_id, kind, carries, lost, tuple(against))

    @property
    def _job(self) -> Job:
        if self.coach.job is None:
            raise LookupError("a coach without a job has no cables")
        return self.coach.job

    def _counted(self, crowd: Crowd) -> str:
        others = "".join(f" + {count} of {name}" for name, count in crowd.others)
        return f"{loaded(self.cable)} of its own{others}"


def may_run(kind: CableType, zone: str) -> bool:
    """Whether a type may run in a zone."""
    return zone in kind.zones and (zone != "sun" or kind.sunlight_resistant)


def _places(kind: CableType, route: Route) -> list[str]:
    zones = sorted({leg.zone for leg in route.legs} - set(kind.zones))
    found = [f"it may not run in the zone {zone}" for zone in zones]
    if any(leg.zone == "sun" for leg in route.legs) and not kind.sunlight_resistant and "sun" not in zones:
        found.append("it is not resistant to sunlight")
    return found


def _too_thin(one: Carrying) -> list[str]:
    found = []
    if one.terminals.value < one.continuous.value:
        least, most = one.terminals.value, one.continuous.value
        found.append(f"{least:g} A at its terminals are less than the continuous {most:.1f} A")
    leg, carried = one.governing.leg, one.governing.amperes.value
    crowded = f"with {leg.conductors} conductors together in {leg.name} " if one.governing.adjusted.value < 1 else ""
    if carried < one.imax.value:
        where = crowded or f"in {leg.name} "
        found.append(f"{where}it carries {carried:.1f} A, less than Imax of {one.imax.value:.1f} A")
    if not one.device.fits:
        allowed, needed = one.device.ceiling.value, one.device.rating.value
        found.append(f"{crowded}it allows a device of {allowed:.4g} A, {needed:g} A are needed")
    return found
