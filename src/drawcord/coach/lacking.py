"""What a job leaves unsaid of array, controller and battery, without which it has no circuits."""

from drawcord.coach.job import Equipment, Job
from drawcord.words.faults import Problem


def lacking(job: Job) -> list[Problem]:
    """What a job does not say of array, controller and battery; it has circuits if this is nothing."""
    problems: list[Problem] = []
    of_kind(job, "solar module", problems)
    only(job, "charge controller", problems)
    only(job, "battery", problems)
    return problems


def only(job: Job, kind: str, problems: list[Problem]) -> tuple[str, str] | None:
    """The id and type of the one device of a kind; what is unsaid of it is added to the problems."""
    found = of_kind(job, kind, problems)
    for name in sorted(found)[1:]:
        sentence = f"{name} is a second {kind}: circuits are worked out for one, so plan the other as a job of its own"
        problems.append(Problem(("equipment", name), sentence, file="job"))
    return next(((name, one.type) for name, one in sorted(found.items()) if one.type is not None), None)


def of_kind(job: Job, kind: str, problems: list[Problem]) -> dict[str, Equipment]:
    """The equipment of a kind, by id; what is unsaid of it is added to the problems."""
    found = {name: one for name, one in job.equipment.items() if one.kind == kind}
    if not found:
        sentence = f"the job has no {kind}: add one with its `type`, or there are no circuits to work out"
        problems.append(Problem(("equipment",), sentence, file="job"))
    for name, one in sorted(found.items()):
        if one.type is None:
            sentence = f"{name} does not say what {kind} it is: add its `type`, one of the job's or the shop's types"
            problems.append(Problem(("equipment", name), sentence, file="job"))
    return found
