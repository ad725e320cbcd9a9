"""Which PV connectors meet along the way from the modules to the controller, and whether they are of one family."""

from drawcord.coach.coach import Coach
from drawcord.coach.job import NO_CONNECTOR, Cable, Job
from drawcord.plan.upstream import ends, outermost
from drawcord.wire.placement import CONNECTORS, connector_findings
from drawcord.words.finding import Finding, Severity


def connectors(coach: Coach, controller_id: str) -> list[Finding]:
    """What speaks against the connectors at each place of the chain, and where nobody told what they are."""
    job = coach.job
    if job is None:
        raise LookupError("a coach without a job has no connectors")
    places = _meeting(coach, job, controller_id)
    found = [one for place, families in sorted(places.items()) for one in connector_findings(place, families)]
    silent = [place for place, families in sorted(places.items()) if len(families) < 2]
    if silent:
        sentence = f"whether connectors mate was not checked at {', '.join(silent)}: fewer than two families are told"
        found.append(Finding(Severity.NOTICE, job.job, sentence, CONNECTORS))
    return found


def _meeting(coach: Coach, job: Job, controller_id: str) -> dict[str, list[str]]:
    """The families that meet where PV cables end, and at each device on one; bare ends left out."""
    pv = {name: cable for name, cable in sorted(job.cables.items()) if cable.carries == "PV"}
    places: dict[str, list[str]] = {end: _own(coach, job, end) for cable in pv.values() for end in ends(cable)}
    for cable in pv.values():
        for end, family in zip(ends(cable), _of(coach, cable), strict=True):
            places[end].append(family)
    leads = {family for name in job.equipment if name not in places for family in _own(coach, job, name)}
    for end in outermost(job, controller_id):
        places[end] += sorted(leads)  # modules without a cable of their own plug in where the cables begin
    for name, one in sorted(job.devices.items()):
        if one.cable in pv and one.type is not None and (own := coach.types.devices[one.type].connector):
            places[name] = [own, *_of(coach, pv[one.cable])]
    return {place: [family for family in families if family != NO_CONNECTOR] for place, families in places.items()}


def _own(coach: Coach, job: Job, equipment: str) -> list[str]:
    one = job.equipment[equipment]
    if one.kind == "solar module" and one.type is not None:
        return [coach.types.modules[one.type].connector]
    return [one.connector] if one.connector else []


def _of(coach: Coach, cable: Cable) -> tuple[str, str]:
    """The families at a cable's start and end."""
    if cable.connectors is not None:
        return cable.connectors
    family = coach.types.cables[cable.type].connector if cable.type else None
    return family or NO_CONNECTOR, family or NO_CONNECTOR
