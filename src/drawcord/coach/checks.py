"""What is wrong, or worth saying, about a placed coach."""

from collections.abc import Container
from itertools import combinations

from drawcord.coach.box import Box, between
from drawcord.coach.coach import Coach, Space
from drawcord.coach.nesting import nested
from drawcord.coach.rig import Rig
from drawcord.coach.shell import inside
from drawcord.coach.sources import Layered
from drawcord.words.faults import Problem
from drawcord.words.finding import Finding, Severity

NEARLY = 150  # mm: two spaces no further apart than this were probably meant to touch
POWER = ("PV", "battery DC", "mains")


def geometry(coach: Coach, layered: Layered) -> None:
    """Record every space that has no size, lies outside the shell or runs into another."""
    spaces = [space for space in coach.spaces.values() if space.id != "roof"]
    for space in spaces:
        box = space.box
        if space.kind == "roof":
            layered.add(space.id, f"{space.id} is of kind roof, but the roof is there by itself: leave it out", "kind")
        flat = [
            what for axis, what in enumerate(("length", "depth", "height")) if box.span(axis)[0] >= box.span(axis)[1]
        ]
        if flat:
            layered.add(space.id, f"{space.id} has no {' and no '.join(flat)}: give it a size above zero")
            continue
        if not space.moving and not inside(coach.outline, box):
            layered.add(space.id, f"{space.id} reaches outside the shell in plan, {_plan(box)}: measure it again")
        if box.z0 < coach.levels.ground or box.z1 > coach.levels.roof:
            bounds = f"{coach.levels.ground} to {coach.levels.roof} mm"
            layered.add(
                space.id,
                f"{space.id} reaches from {box.z0} to {box.z1} mm in height, outside ground to roof, {bounds}",
            )
        edge = coach.levels.straddled(box.x0, box.x1)
        if edge is not None and space.kind not in ("underfloor", "void", "bay"):
            layered.add(
                space.id,
                f"{space.id} straddles the step in the floor or ceiling {edge} mm from the front: make two of it",
            )
    for first, second in combinations(spaces, 2):
        common = first.box.overlap(second.box)
        if common and nested(first.kind, first.box, second.box) == nested(second.kind, second.box, first.box):
            x, y, z = (common.span(axis)[1] - common.span(axis)[0] for axis in (0, 1, 2))
            layered.add(
                second.id,
                f"{second.id} and {first.id} overlap in part, by {x} x {y} x {z} mm: "
                "one may lie within the other, or run through it as a stack does, but they may not share a corner",
            )


def _plan(box: Box) -> str:
    return f"{box.x0} to {box.x1} mm from the front and {box.y0} to {box.y1} mm from the left side"


def pairs(rig: Rig, written: Container[str], problems: list[Problem]) -> dict[tuple[str, str], int]:
    """The contact tolerances stated for single pairs, by the two ids in order."""
    found = {}
    for key, gap in sorted(rig.touching.items()):
        names = [name.strip() for name in key.split("~")]
        if len(set(names)) != 2 or len(names) != 2 or any(name not in written for name in names):
            sentence = f"{key} does not name two spaces: write it as `linen~shower: 120 mm`"
            problems.append(Problem(("touching", key), sentence, file="rig", on_key=True))
        else:
            found[min(names), max(names)] = gap
    return found


def orders(coach: Coach, problems: list[Problem]) -> None:
    """Record every terminal, cable and wish of the job that does not fit the coach."""
    if coach.job is None:
        return
    for terminal in coach.terminals.values():
        space = coach.spaces[terminal.space]
        device = terminal.id.split(".")[0]
        path = ("equipment", device)
        if not space.box.holds(terminal.point) or (
            space.kind == "roof" and not inside(coach.outline, Box(*(v for v in terminal.point for _ in (0, 1))))
        ):
            x, y, z = terminal.point
            where = f"{x} mm from the front, {y} mm from the left side and {z} mm up"
            sentence = f"{terminal.id}, {where}, is not inside {space.id}"
            problems.append(Problem(path, sentence, file="job"))
    written = {f"{name}.{terminal}" for name, device in coach.job.equipment.items() for terminal in device.terminals}
    for name, cable in sorted(coach.job.cables.items()):
        for key, end in (("from", cable.start), ("to", cable.end)):
            if end not in written:
                known = ", ".join(sorted(written)) or "none"
                sentence = f"{name} goes {key} {end}, but there is no such terminal: the terminals are {known}"
                problems.append(Problem(("cables", name, key), sentence, file="job"))
        if cable.start == cable.end:
            problems.append(Problem(("cables", name, "to"), f"{name} ends where it starts, at {cable.end}", file="job"))
        for key in ("amperes", "volts"):
            if cable.carries in POWER and getattr(cable, key) is None:
                sentence = f"{name} carries {cable.carries} but does not say its {key}: add `{key}:`"
                problems.append(Problem(("cables", name), sentence, file="job"))
    for number, name in enumerate(coach.job.owner.excludes):
        if name not in coach.spaces:
            sentence = f"the owner excludes {name}, but there is no such space"
            problems.append(Problem(("owner", "excludes", number), sentence, file="job"))


def _filled(coach: Coach, first: Space, second: Space) -> bool:
    """Whether a third space lies in the gap between two."""
    inner = between(first.box, second.box)
    others = (s for s in coach.spaces.values() if s.kind not in ("roof", "room") and s not in (first, second))
    return any(other.box.overlap(inner) for other in others)


def notices(coach: Coach) -> list[Finding]:
    """Near misses, and what lies partly in the way of a moving part."""
    found = []
    spaces = [space for space in coach.spaces.values() if space.kind not in ("roof", "room")]
    for first, second in combinations(spaces, 2):
        gaps = [
            max(first.box.span(axis)[0], second.box.span(axis)[0])
            - min(first.box.span(axis)[1], second.box.span(axis)[1])
            for axis in (0, 1, 2)
        ]
        apart = [gap for gap in gaps if gap >= 0]
        limit = coach.touching.get((first.id, second.id), coach.shop.clearances.contact)
        if len(apart) == 1 and gaps[2] < 0 and limit < apart[0] <= NEARLY and not _filled(coach, first, second):
            sentence = f"{first.id} and {second.id} lie {apart[0]} mm apart and are not joined"
            found.append(Finding(Severity.NOTICE, first.id, sentence, "geometry"))
    for space in spaces:
        for part in coach.moving_parts.values():
            if not space.moving and space.box.overlap(part.sweep):
                sentence = f"{space.id} lies partly in the way of {part.id}: that part of it is not used"
                found.append(Finding(Severity.CAUTION, space.id, sentence, "geometry"))
    return found
