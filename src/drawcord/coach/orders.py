"""What is wrong with a job, held against its coach: names that lead nowhere, terminals outside their spaces."""

from collections.abc import Iterator

from drawcord.coach.box import Box
from drawcord.coach.coach import Coach
from drawcord.coach.job import Job
from drawcord.coach.laying import Laying
from drawcord.coach.shell import inside
from drawcord.words.faults import Problem
from drawcord.words.nearest import nearest
from drawcord.words.units import format_length, format_width

POWER = ("PV", "battery DC", "mains")


def orders(coach: Coach, laying: Laying) -> Iterator[Problem]:
    """Every finding, terminal, cable and wish of the job that does not fit the coach."""
    if coach.job is None:
        return
    yield from _found(coach, coach.job, laying)
    yield from _terminals(coach)
    yield from _cables(coach.job, coach.units)
    known = {*laying.written, "roof"}
    for number, name in enumerate(coach.job.owner.excludes):
        if name not in known:
            sentence = f"the owner excludes {name}, but there is no such space{nearest(name, known)}"
            yield Problem(("owner", "excludes", number), sentence, file="job")


def _found(coach: Coach, job: Job, laying: Laying) -> Iterator[Problem]:
    """Findings about nothing, or about the same thing twice. Whether two spaces touch, the passages will tell."""
    spaces, first = {*laying.written, "roof"}, dict[str, int]()
    for number, found in enumerate(job.differences.found):
        path = ("differences", "found", number, "what")
        ends = [found.what] if found.what in coach.declared else found.what.split("~")
        unknown = [end for end in ends if end not in spaces and end not in coach.declared]
        if unknown:
            hint = nearest(unknown[0], {*spaces, *coach.declared})
            sentence = f"{found.what} is neither a space nor a passage here{hint}: passages are called as in"
            yield Problem(path, f"{sentence} `bay~linen`", file="job")
        if found.what in first:
            earlier = first[found.what] + 1
            sentence = f"what was found about {found.what} stands here a second time, after entry {earlier}: keep one"
            yield Problem(path, sentence, file="job")
        first.setdefault(found.what, number)


def _terminals(coach: Coach) -> Iterator[Problem]:
    for terminal in coach.terminals.values():
        space = coach.spaces[terminal.space]
        on_roof = space.kind == "roof"
        spot = Box(*(v for v in terminal.point for _ in (0, 1)))
        if not space.box.holds(terminal.point) or (on_roof and not inside(coach.outline, spot)):
            x, y, z = (format_length(value, coach.units) for value in terminal.point)
            where = f"{x} from the front, {y} from the left side and {z} up"
            path = ("equipment", terminal.id.split(".")[0])
            yield Problem(path, f"{terminal.id}, {where}, is not inside {space.id}", file="job")


def _cables(job: Job, units: str) -> Iterator[Problem]:
    for name, run in sorted(job.inherited.items()):
        yield from _ends(job, ("inherited", name), run.start, run.end)
    for name, cable in sorted(job.cables.items()):
        yield from _ends(job, ("cables", name), cable.start, cable.end)
        if cable.largest_plug < cable.outside_diameter:
            plug, thick = (format_width(size, units) for size in (cable.largest_plug, cable.outside_diameter))
            sentence = f"a hole for a plug of {plug} does not pass {name} itself, which is {thick} thick"
            yield Problem(("cables", name, "largest plug"), sentence, file="job")
        for key in ("amperes", "volts"):
            if cable.carries in POWER and getattr(cable, key) is None:
                sentence = f"{name} carries {cable.carries} but does not say its {key}: add `{key}:`"
                yield Problem(("cables", name), sentence, file="job")


def _ends(job: Job, path: tuple[str, str], start: str, finish: str) -> Iterator[Problem]:
    """A cable's ends that are no terminals, or one and the same."""
    name = path[1]
    written = {f"{device}.{terminal}" for device, one in job.equipment.items() for terminal in one.terminals}
    for key, end in (("from", start), ("to", finish)):
        if end not in written:
            known = ", ".join(sorted(written)) or "none"
            no_such = f"there is no such terminal{nearest(end, written)}: the terminals are {known}"
            yield Problem((*path, key), f"{name} goes {key} {end}, but {no_such}", file="job")
    if start == finish:
        yield Problem((*path, "to"), f"{name} ends where it starts, at {finish}", file="job")
