"""What is worth saying about a coach with nothing wrong: most of it is a slip of the tape or of the pen."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import combinations, islice

from drawcord.coach.box import Box, between
from drawcord.coach.coach import Coach, Space
from drawcord.coach.covered import covered
from drawcord.coach.faces import Direction
from drawcord.coach.history import SOURCE as LOG
from drawcord.coach.laying import Laying
from drawcord.coach.rig import RoofObstacle
from drawcord.words.finding import Finding, Severity
from drawcord.words.units import format_length, format_lengths

NEARLY = 150  # mm: two spaces no further apart than this were probably meant to touch
SLIVER = 60  # mm: two spaces that share less than this of a face, and little of both, meet by accident
PART = 0.75  # of the smaller one's own size; a face that takes up more of it was meant
THICK = 300  # mm: no wall is thicker
SOURCE = "geometry"


def notices(coach: Coach, laying: Laying) -> Iterator[Finding]:
    """Near misses, what lies in the way of a moving part, and things that are hardly meant so."""
    spaces = [space for space in coach.spaces.values() if space.kind not in ("roof", "room")]
    for first, second in _neighbours(spaces):
        yield from _near_miss(coach, first, second)
    for space in spaces:
        for part in coach.moving_parts.values():
            if not space.moving and space.box.overlap(part.sweep):
                sentence = f"{space.id} lies partly in the way of {part.id}: that part of it is not used"
                remedy = "measure both again if it should be clear"
                yield Finding(Severity.CAUTION, space.id, f"{sentence}; {remedy}", SOURCE)
        if space.kind == "vent stack" and not laying.written[space.id].pipe:
            sentence = f"{space.id} is a vent stack without a pipe, so that all of it counts as free: give its `pipe`"
            yield Finding(Severity.NOTICE, space.id, sentence, SOURCE)
    yield from _on_roof(coach, laying)
    yield from _in_no_wall(coach)
    yield from covered(coach)


def _neighbours(spaces: Iterable[Space]) -> Iterator[tuple[Space, Space]]:
    """Each two spaces that are no farther apart along the vehicle than those that nearly touch, by their ids."""
    row = sorted(spaces, key=lambda space: (space.box, space.id))
    for number, one in enumerate(row, start=1):
        for two in islice(row, number, None):
            if two.box.x0 > one.box.x1 + NEARLY:
                break
            yield (one, two) if one.id < two.id else (two, one)


def _gaps(first: Space, second: Space) -> tuple[int, int, int]:
    """How far apart two spaces are along each axis [mm]; negative where they overlap."""
    x, y, z = (
        max(first.box.span(axis)[0], second.box.span(axis)[0]) - min(first.box.span(axis)[1], second.box.span(axis)[1])
        for axis in (0, 1, 2)
    )
    return x, y, z


def _near_miss(coach: Coach, first: Space, second: Space) -> Iterator[Finding]:
    gaps = _gaps(first, second)
    apart = [axis for axis in (0, 1, 2) if gaps[axis] >= 0]
    if len(apart) != 1 or apart == [2]:
        return
    (axis,) = apart
    limit = coach.touching.get((first.id, second.id), coach.shop.clearances.contact)
    if not limit < gaps[axis] <= NEARLY or _filled(coach, first, second):
        return
    sentence = f"{first.id} and {second.id} lie {format_length(gaps[axis], coach.units)} apart and are not joined"
    before, after = sorted((first, second), key=lambda space: space.box.span(axis))
    side = "curb" if coach.street_is_left else "street"  # the right one
    closer = f"`{side}: to {before.id}`" if axis else f"`after: {before.id}`"
    join = f"`touching: {{{first.id}~{second.id}: {_at_least(gaps[axis], coach.units)}}}`"
    remedy = f"measure again, write {closer} for {after.id}, or join them with {join}"
    yield Finding(Severity.NOTICE, first.id, f"{sentence}: {remedy}", SOURCE)


def _filled(coach: Coach, first: Space, second: Space) -> bool:
    """Whether a third space lies in the gap between two."""
    inner = between(first.box, second.box)
    others = (s for s in coach.spaces.values() if s.kind not in ("roof", "room") and s not in (first, second))
    return any(other.box.overlap(inner) for other in others)


def _at_least(mm: int, units: str) -> str:
    """A length as people would write it that is no less than `mm` [mm]."""
    return f"{-(-mm * 20 // 254) / 2:g} in" if units == "in" else f"{-(-mm // 10) * 10} mm"


def slivers(coach: Coach, passages: Collection[str]) -> Iterator[Finding]:
    """Of the passages by these ids, those that geometry gives through a strip which nobody may have meant."""
    for pair in sorted(passages):
        one, _, two = pair.partition("~")
        if not two or "room" in (coach.spaces[one].kind, coach.spaces[two].kind):
            continue
        first, second = coach.spaces[one], coach.spaces[two]
        gaps = _gaps(first, second)
        if max(gaps) < 0:
            continue  # a nested space has no face that is shared in part
        for axis, word in enumerate(("long", "wide", "high")):
            own = min(high - low for low, high in (first.box.span(axis), second.box.span(axis)))
            if 0 < -gaps[axis] < min(SLIVER, PART * own):
                face = f"{pair} leads through a face only {format_length(-gaps[axis], coach.units)} {word}"
                rule_out = f"`{{between: [{first.id}, {second.id}], opening: closed}}`"
                sentence = f"{face}: measure again, or rule it out with a passage {rule_out}"
                yield Finding(Severity.NOTICE, pair, sentence, SOURCE)


def _in_no_wall(coach: Coach) -> Iterator[Finding]:
    """Doors and windows that stand across the middle of a room, as one does whose side was left out."""
    x0, x1, y0, y1 = coach.bounds
    wall = coach.rig.shell.wall
    shell = Box(x0, x1, y0, y1, coach.levels.ground, coach.levels.roof)
    solids = [shell, shell.grow(-wall, -wall, 0), *coach.partitions.values()]
    solids += [space.box for space in coach.spaces.values() if space.kind != "roof"]
    for name, box in (*coach.doors.items(), *coach.windows.items()):
        sizes = [high - low for low, high in (box.span(axis) for axis in (0, 1, 2))]
        axis = sizes.index(min(sizes))  # across the wall that it lies in
        near = box.grow(*(coach.shop.clearances.contact if side == axis else 0 for side in (0, 1, 2)))
        faces = (Direction(axis, sign).face(solid) for solid in solids for sign in (-1, 1))
        if sizes[axis] > THICK or not any(near.touches(face) for face in faces):
            remedy = "give the side that it lies in, with a depth of nothing, such as `curb: 0 mm`"
            sentence = f"{name} stands across the room, in no wall: {remedy}"
            yield Finding(Severity.NOTICE, name, sentence, SOURCE)


def _on_roof(coach: Coach, laying: Laying) -> Iterator[Finding]:
    written = dict(laying.layered.section("roof_obstacles", RoofObstacle))
    for one, two in combinations(written, 2):
        if common := coach.obstacles[one].box.overlap(coach.obstacles[two].box):
            by = format_lengths((common.x1 - common.x0, common.y1 - common.y0), coach.units, " x ")
            sentence = f"{one} and {two} overlap on the roof, by {by} (along x across): measure them again"
            yield Finding(Severity.NOTICE, two, sentence, SOURCE)
    for name, entry in written.items():
        if all(side is None for side in (entry.street, entry.curb, entry.left, entry.right, entry.centre)):
            sentence = f"{name} gives no side, so that it spans the whole width of the roof"
            sides = "give one of `street`, `curb`, `left`, `right`, `centre`"
            yield Finding(Severity.NOTICE, name, f"{sentence}: {sides}", SOURCE)


def from_log(coach: Coach, passages: Mapping[str, str], file: str) -> Iterator[Finding]:
    """What this job takes from the log of its rig, a file of this name; `passages` are sources by id."""
    past = coach.shop.history
    own = {fact.what for fact in coach.job.differences.found} if coach.job else set()
    sources = {**passages, **{name: space.source for name, space in coach.spaces.items()}}
    for what, seen in past.found.items():
        if what not in sources and not all(end in coach.spaces for end in what.split("~")):
            sentence = f"{what} was {seen}, but is neither a space nor a passage here: nothing is taken from it"
            yield Finding(Severity.NOTICE, file, sentence, LOG)
        elif what not in own and LOG in sources.get(what, ""):
            yield Finding(Severity.NOTICE, what, f"in other vehicles of this rig {what} was {seen}: counted here", LOG)
    if past.corrects:
        sentence = f"cut lengths are corrected by what {past.jobs} jobs used: {past.ratio:.3f} × of what was planned"
        yield Finding(Severity.NOTICE, file, sentence, LOG)
    if past.corrects_work:
        share = f"{past.work_ratio:.3f} × of what was planned"
        sentence = f"{past.work_jobs} jobs took {share}: the sheet for the day counts with that"
        yield Finding(Severity.NOTICE, file, sentence, LOG)
