"""The devices of a circuit at their places: how far from the source, within reach, between entry and controller."""

from dataclasses import dataclass, replace

from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable, Job, PlacedDevice
from drawcord.pieces.reach import no_hand
from drawcord.plan.fitted import Fitted
from drawcord.plan.purpose import Purpose
from drawcord.plan.upstream import ends
from drawcord.routes import devices
from drawcord.routes.position import Position, entry
from drawcord.routes.route import Route
from drawcord.wire.placement import disconnect_findings, distance_findings
from drawcord.words.finding import Finding, Severity
from drawcord.words.units import tape_length

READILY = "NEC 690.13, a disconnect readily accessible (from memory)"
ACCESSIBLE = "NEC 2020 552.10(E)(4), park trailers: in an accessible location"
BETWEEN = "common practice, no source"


@dataclass(frozen=True)
class Placed:
    """A device at its place; `name` is the job's, empty where the place is a proposal."""

    name: str
    type_id: str | None
    at: Position


def placed(
    coach: Coach, name: str, route: Route, wanted: Purpose, fitted: Fitted
) -> tuple[tuple[Placed, ...], list[Finding]]:
    """The devices that the job puts on the cable `name`, or a place proposed for one, with what speaks against them."""
    job = coach.job
    if job is None:
        raise LookupError("a coach without a job has no devices")
    cable = job.cables[name]
    source = _source(job, cable, wanted, fitted)
    found: list[Placed] = []
    findings: list[Finding] = []
    for device, at in devices.stated(coach, name, route.legs, source).items():
        one = job.devices[device]
        if at is None:
            length = tape_length(route.criteria.length, coach.units)
            sentence = f"{device} sits {tape_length(one.along, coach.units)} along a cable of {length}"
            findings.append(Finding(Severity.REFUSAL, name, sentence, "geometry of the route"))
        else:
            found.append(Placed(device, one.type, at))
            findings += _reached(coach, name, found[-1], wanted)
            findings += _between(coach, name, route, found[-1], wanted)
            findings += _disconnects(coach, name, found[-1], wanted, fitted)
    found.sort(key=lambda one: (one.at.along, one.name))
    nearest = next((one for one in found if not _switches(coach, one)), None)
    if nearest is None and not devices.source(job, name):
        return tuple(found), findings
    if nearest is None:
        proposal = devices.proposed(coach, name, route.legs)
        if proposal is None:
            findings.append(Finding(Severity.CAUTION, name, "no hand reaches any place for its device", ACCESSIBLE))
            return tuple(found), findings
        nearest = Placed("", None, proposal)
        found.append(nearest)
    findings += _distances(name, nearest, job.devices.get(nearest.name), wanted, fitted)
    return tuple(found), findings


def _source(job: Job, cable: Cable, wanted: Purpose, fitted: Fitted) -> str:
    """The terminal that a device is measured from: the battery's, the array's end, or where mains have theirs."""
    first = ends(cable)[0]
    if wanted.mains:
        return cable.start if first == wanted.mains.guarded else cable.end
    if wanted.circuit == "array":
        onward = ends(job.cables[wanted.way[1]]) if len(wanted.way) > 1 else (fitted.controller_id,)
        return cable.end if first in onward else cable.start
    return cable.start if first == fitted.battery_id else cable.end


def _entry(coach: Coach, route: Route, wanted: Purpose, source: str) -> int:
    return entry(coach, route.cable, route.legs, source) if wanted.circuit == "array" else 0


def _switches(coach: Coach, one: Placed) -> bool:
    return one.type_id is not None and coach.types.devices[one.type_id].kind == "switch"


def _reached(coach: Coach, name: str, one: Placed, wanted: Purpose) -> list[Finding]:
    if one.at.opening:
        return []
    array = wanted.circuit == "array"
    how = tape_length(one.at.along, coach.units)
    why = no_hand(coach.spaces[one.at.space], "it")
    sentence = f"{one.name} sits {how} from {one.at.terminal} in {one.at.space}, {why}"
    severity = Severity.REFUSAL if array else Severity.CAUTION
    return [Finding(severity, name, sentence, READILY if array else ACCESSIBLE)]


def _between(coach: Coach, name: str, route: Route, one: Placed, wanted: Purpose) -> list[Finding]:
    """An array's device belongs between the roof entry and the controller."""
    if one.at.along >= (inside := _entry(coach, route, wanted, one.at.terminal)):
        return []
    sentence = (
        f"{one.name} sits {tape_length(one.at.along, coach.units)} from {one.at.terminal}, before the cable has "
        f"entered at {tape_length(inside, coach.units)}: it belongs between the entry and the controller"
    )
    return [Finding(Severity.REFUSAL, name, sentence, BETWEEN)]


def _disconnects(coach: Coach, name: str, one: Placed, wanted: Purpose, fitted: Fitted) -> list[Finding]:
    """A switch on an array's cable has to open what the array's device has to."""
    if one.type_id is None or wanted.circuit != "array" or not _switches(coach, one):
        return []
    return disconnect_findings(name, coach.types.devices[one.type_id].made(), fitted.controller)


def _distances(
    name: str, one: Placed, stated: PlacedDevice | None, wanted: Purpose, fitted: Fitted
) -> list[Finding]:
    """How far a battery's device may sit from it; none of the figures is for an array, nor for mains."""
    if wanted.circuit == "array" or wanted.mains:
        return []
    sheathed = stated is not None and stated.sheathed
    place = f"{name}, {one.name or 'place proposed'}"
    rules = fitted.rules.distances
    found = distance_findings(place, rules, one.at.along, sheathed=sheathed, at_battery=True)
    return found if one.name else [replace(each, severity=Severity.CAUTION) for each in found]
