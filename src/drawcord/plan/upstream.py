"""Which strings of an array a PV cable carries, and by which cables their current reaches the controller."""

from math import ceil

from drawcord.coach.job import Cable, Job
from drawcord.wire.grouping import Strings


def ends(cable: Cable) -> tuple[str, str]:
    """The equipment at both ends of a cable."""
    return cable.start.partition(".")[0], cable.end.partition(".")[0]


def way(job: Job, name: str, controller_id: str) -> tuple[str, ...]:
    """The PV cables from `name`, itself first, to the controller; empty if none lead there."""
    ways = _ways(job, controller_id)
    reached = [end for end in ends(job.cables[name]) if end in ways]
    return (name, *min((ways[end] for end in reached), key=len)) if reached else ()


def strings_carried(job: Job, name: str, controller_id: str, strings: Strings) -> int | None:
    """How many of a tracker's `strings` the cable `name` carries, None where the job does not tell.

    The cable into the controller carries them all. Further up the job tells either by cables that lead to each
    module, or by as many ends of cables as there are strings.
    """
    mine = way(job, name, controller_id)
    if len(mine) == 1 or strings.parallel == 1:
        return strings.parallel
    ways = {one: path for one, path in _ways(job, controller_id).items() if path and path[-1] == mine[-1]}
    modules = [one for one in ways if job.equipment[one].kind == "solar module"]
    outer = [one for one in outermost(job, controller_id) if one in ways]
    if len(modules) == strings.series * strings.parallel:
        behind, each = modules, strings.series
    elif len(outer) == 1:
        return strings.parallel
    elif len(outer) == strings.parallel:
        behind, each = outer, 1
    else:
        return None
    carried = ceil(sum(name in ways[one] for one in behind) / each)
    return min(carried, strings.parallel) or None


def outermost(job: Job, controller_id: str) -> list[str]:
    """The equipment at which the PV cables to the controller begin, by id."""
    ways = {one: path for one, path in _ways(job, controller_id).items() if path}
    inner = {there for one, path in ways.items() for there in ends(job.cables[path[0]]) if there != one}
    return sorted(set(ways) - inner)


def _ways(job: Job, controller_id: str) -> dict[str, tuple[str, ...]]:
    """The fewest PV cables from each equipment to the controller, the nearest first of equals by name."""
    pv = sorted((name, ends(cable)) for name, cable in job.cables.items() if cable.carries == "PV")
    ways: dict[str, tuple[str, ...]] = {controller_id: ()}
    grew = True
    while grew:
        near = dict(ways)
        for name, (one, other) in pv:
            for here, there in ((one, other), (other, one)):
                if here in near and there not in ways:
                    ways[there] = (name, *near[here])
        grew = len(ways) > len(near)
    return ways
