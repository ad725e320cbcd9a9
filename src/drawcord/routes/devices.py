"""The devices that sit on a cable along a route: where the job places them, and where one is proposed that it lacks."""

from collections.abc import Sequence

from drawcord.coach.coach import Coach
from drawcord.coach.job import Job
from drawcord.coach.lacking import lacking, only
from drawcord.routes.position import Position, entry, first_reachable, measured, position
from drawcord.routes.route import Leg


def stated(coach: Coach, cable: str, legs: Sequence[Leg], terminal: str) -> dict[str, Position | None]:
    """Where the job's devices on a cable sit, by id, from one of its terminals; None for what is past its ends."""
    whole = measured(legs)
    on = {name: one for name, one in sorted(_job(coach).devices.items()) if one.cable == cable}
    along = {name: one.along if one.start == terminal else whole - one.along for name, one in on.items()}
    return {name: position(coach, cable, legs, terminal, at) for name, at in along.items()}


def guards(coach: Coach, devices: Sequence[str]) -> bool:
    """Whether one of the job's devices is more than a switch, so that none has to be proposed."""
    types, kinds = _job(coach).devices, coach.types.devices
    return any(kind is None or kinds[kind].kind != "switch" for kind in (types[name].type for name in devices))


def source(job: Job, cable: str) -> str:
    """The terminal that the device of a circuit is near: the battery's, or the array's end of a controller's cable.

    Empty where none is proposed: mains have theirs in a panel, a string's cable on that which it leads to, and where
    the job does not tell of array, controller and battery nobody knows.
    """
    one = job.cables[cable]
    if one.carries not in ("PV", "battery DC") or lacking(job):
        return ""
    kind = "charge controller" if one.carries == "PV" else "battery"
    near = next(iter(only(job, kind, []) or ()), "")
    here, there = (end.partition(".")[0] == near for end in (one.start, one.end))
    if not here and not there:
        return ""
    return one.start if here == (one.carries == "battery DC") else one.end


def proposed(coach: Coach, cable: str, legs: Sequence[Leg]) -> Position | None:
    """The first place in reach from the source, of an array's behind the roof entry; None if no hand reaches any."""
    terminal = source(_job(coach), cable)
    array = _job(coach).cables[cable].carries == "PV"
    return first_reachable(coach, cable, legs, terminal, entry(coach, cable, legs, terminal) if array else 0)


def cut_places(coach: Coach, cable: str, legs: Sequence[Leg]) -> list[int]:
    """How far from the start of a route devices cut the cable [mm]; one at an end of it makes no ends of its own."""
    job = _job(coach)
    start, whole = job.cables[cable].start, measured(legs)
    found = {name: at.along for name, at in stated(coach, cable, legs, start).items() if at}
    places = list(found.values())
    if not guards(coach, list(found)) and source(job, cable) and (at := proposed(coach, cable, legs)):
        places.append(at.along if at.terminal == start else whole - at.along)
    return sorted(place for place in places if 0 < place < whole)


def _job(coach: Coach) -> Job:
    if coach.job is None:
        raise LookupError("a coach without a job has no devices")
    return coach.job
