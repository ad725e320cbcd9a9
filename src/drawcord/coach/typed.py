"""What a job says of the types of its equipment and cables, held against the types there are."""

from drawcord.coach.catalogue import Types
from drawcord.coach.job import Job
from drawcord.wire.supply import OWN_SOURCES, SHORE
from drawcord.words.faults import Path, Problem
from drawcord.words.nearest import nearest

KIND = {"solar module": "modules", "charge controller": "controllers", "battery": "batteries"}
FEEDS_MAINS = (SHORE, *OWN_SOURCES)


def check(job: Job | None, types: Types, problems: list[Problem]) -> None:
    """Record every `type` that names nothing, or what its cable or device cannot be."""
    if job is None:
        return
    for name, one in sorted(job.equipment.items()):
        path: Path = ("equipment", name)
        if one.plane is not None and one.kind != "solar module":
            sentence = f"{name} is a {one.kind}: only a solar module lies in a `plane`"
            problems.append(Problem((*path, "plane"), sentence, file="job"))
        if one.short_circuit is not None and one.kind not in FEEDS_MAINS:
            sentence = f"{name} is a {one.kind}: only {', '.join(FEEDS_MAINS)} feed mains into a `short circuit`"
            problems.append(Problem((*path, "short circuit"), sentence, file="job"))
        if one.connector is not None and one.kind == "solar module":
            sentence = f"{name} is a solar module: its connector stands in its type"
            problems.append(Problem((*path, "connector"), sentence, file="job"))
        if one.type is None:
            continue
        if one.kind not in KIND:
            sentence = f"{name} is a {one.kind}, of which there are no types: leave `type` out"
            problems.append(Problem((*path, "type"), sentence, file="job"))
        else:
            _known(types, KIND[one.kind], one.type, (*path, "type"), problems)
    _devices(job, types, problems)
    for name, cable in sorted(job.cables.items()):
        if cable.connectors is not None and cable.carries != "PV":
            sentence = f"{name} carries {cable.carries}: only PV cables have PV connectors"
            problems.append(Problem(("cables", name, "connectors"), sentence, file="job"))
        if cable.type is None:
            continue
        path = ("cables", name, "type")
        if not _known(types, "cables", cable.type, path, problems):
            continue
        kind = types.cables[cable.type]
        if cable.carries not in kind.serves:
            serves = ", ".join(kind.serves)
            sentence = f"{name} carries {cable.carries}, but {cable.type} is for {serves}: name another type"
            problems.append(Problem(path, sentence, file="job"))
        elif cable.conductor not in (None, kind.section):
            sentence = f"{name} is of type {cable.type}, {kind.section}, but its conductor says {cable.conductor}"
            problems.append(Problem(path, f"{sentence}: keep one", file="job"))


def _devices(job: Job, types: Types, problems: list[Problem]) -> None:
    """Devices on no cable of the job, measured from no end of it, or of no type."""
    for name, one in sorted(job.devices.items()):
        path: Path = ("devices", name)
        if one.type is not None:
            _known(types, "devices", one.type, (*path, "type"), problems)
        cable = job.cables.get(one.cable)
        if cable is None:
            sentence = f"{name} sits on {one.cable}, but there is no such cable{nearest(one.cable, job.cables)}"
            problems.append(Problem((*path, "on"), sentence, file="job"))
        elif one.start not in (cable.start, cable.end):
            sentence = f"{name} is measured from {one.start}, but {one.cable} goes from {cable.start} to {cable.end}"
            problems.append(Problem((*path, "from"), f"{sentence}: name one of these", file="job"))


def _known(types: Types, kind: str, wanted: str, path: Path, problems: list[Problem]) -> bool:
    known = getattr(types, kind)
    if wanted in known:
        return True
    there = ", ".join(known) or "none"
    sentence = f"there is no {wanted} among the {kind}: there are {there}; add it to the job's `types` or the shop's"
    problems.append(Problem(path, f"{sentence} {kind}.yaml", file="job"))
    return False
