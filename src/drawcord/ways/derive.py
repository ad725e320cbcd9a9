"""Every passage of a coach: those that geometry gives, and those that a person declares."""

from collections.abc import Iterator
from itertools import combinations

from drawcord.coach.box import Box
from drawcord.coach.coach import Coach, Declared, Space
from drawcord.coach.kinds import Standing
from drawcord.coach.standing import Known, logged
from drawcord.ways.beside import wall_gates
from drawcord.ways.contact import avoided, free, mouths, narrow
from drawcord.ways.passage import Gate, Passage, pair_id
from drawcord.ways.raceway import Raceway
from drawcord.ways.roof import RoofRuns
from drawcord.ways.through_roof import existing_entries, new_entries
from drawcord.words.faults import BadInput, Problem
from drawcord.words.units import tape_length

Gates = tuple[Gate, ...]


def passages(coach: Coach, rooms: dict[str, Raceway], roof: RoofRuns) -> dict[str, Passage]:
    """All passages by id, in order, between spaces where a cable may run.

    Raises BadInput for declared passages between spaces that do not touch, and for findings about passages
    that do not exist.
    """
    avoid = avoided(coach)
    touching: dict[tuple[str, str], Gates] = {}
    spaces = [space for space in coach.spaces.values() if space.kind != "roof"]
    usable = [space for space in spaces if not space.barred]
    for one, two in combinations(usable, 2):
        if found := tuple(_between(one, two, coach, rooms, avoid)):
            touching[one.id, two.id] = found
    if not coach.spaces["roof"].barred:
        for space in usable:
            if found := tuple(new_entries(space, coach, roof, rooms, avoid)):
                touching[_pair("roof", space.id)] = _ordered(space.id, found)
    found_passages: dict[str, Passage] = {}
    problems: list[Problem] = []
    replaced = set()
    for declared in coach.declared.values():
        a, b = _pair(*declared.passage.between)
        if coach.spaces[a].barred or coach.spaces[b].barred:
            continue
        shared = touching.get((a, b), ())
        if declared.passage.opening == "exists" and "roof" not in (a, b):
            # What keeps new holes away does not close an opening that is there.
            shared = tuple(_between(coach.spaces[a], coach.spaces[b], coach, rooms, []))
        gates = _gates(declared, shared, coach, (a, b))
        if not gates and (declared.passage.opening == "closed" or declared.passage.standing == "blocked"):
            continue  # what geometry closes already may be declared closed
        if not gates:
            why = "they do not touch there" if declared.at else _apart(coach, a, b)
            sentence = f"{declared.id} joins {a} and {b}, but {why}"
            problems.append(_problem(coach, declared.id, sentence))
            continue
        if declared.at is None:
            replaced.add((a, b))
        found_passages[declared.id] = _declared(declared, a, b, gates, coach)
    for (a, b), gates in touching.items():
        if (a, b) not in replaced:
            found_passages[pair_id(a, b)] = _derived(a, b, gates, coach)
    problems.extend(_unknown(coach, found_passages))
    if problems:
        raise BadInput(problems)
    return dict(sorted(found_passages.items()))


def known(found: dict[str, Passage], before: Coach, coach: Coach) -> dict[str, Passage]:
    """These passages of the coach `before` with what is known of them now, its spaces being where they were.

    Passages of spaces that are barred now are gone. Raises BadInput for findings about passages that do not exist.
    """

    def now(name: str, passage: Passage) -> Passage:
        if coach.found.get(name) == before.found.get(name):
            return passage
        if passage.declared:
            return _declared(coach.declared[name], passage.a, passage.b, passage.gates, coach)
        return _derived(passage.a, passage.b, passage.gates, coach)

    open_ = {
        name: now(name, passage)
        for name, passage in found.items()
        if not (coach.spaces[passage.a].barred or coach.spaces[passage.b].barred)
    }
    if problems := list(_unknown(coach, open_)):
        raise BadInput(problems)
    return open_


def _unknown(coach: Coach, known: dict[str, Passage]) -> Iterator[Problem]:
    """Findings about passages that do not exist; one into a space where no cable may run is let be."""
    for number, found in enumerate(coach.job.differences.found if coach.job else ()):
        declared = coach.declared.get(found.what)
        ends = declared.passage.between if declared else found.what.split("~")
        let_be = all(end in coach.spaces for end in ends) and any(coach.spaces[end].barred for end in ends)
        if found.what in coach.found and found.what not in known and not let_be:
            sentence = f"{found.what} is neither a space nor a passage here: passages are called as in `bay~linen`"
            if len(ends) == 2 and all(end in coach.spaces for end in ends):
                sentence = f"{found.what} is no passage: {_apart(coach, *ends)}"
            yield Problem(("differences", "found", number, "what"), sentence, file="job")


def _apart(coach: Coach, first: str, second: str) -> str:
    """That two spaces do not touch, by how much, and what to do about it."""
    spans = [(coach.spaces[first].box.span(axis), coach.spaces[second].box.span(axis)) for axis in (0, 1, 2)]
    gap = max(max(one[0], other[0]) - min(one[1], other[1]) for one, other in spans)
    if gap <= coach.touching.get(_pair(first, second), coach.shop.clearances.contact):
        return "they do not touch"
    far = tape_length(gap, coach.units)
    return f"they lie {far} apart: measure them again; a thin gap is bridged under `touching`"


def _pair(first: str, second: str) -> tuple[str, str]:
    return (first, second) if first < second else (second, first)


def _ordered(space: str, found: Gates) -> Gates:
    """Entries come as (roof, space); passages keep the order of ids."""
    return found if space > "roof" else tuple(gate.turned() for gate in found)


def _problem(coach: Coach, declared: str, sentence: str) -> Problem:
    """A problem with a declared passage, in the file that declares it."""
    if coach.job and declared in coach.job.differences.passages:
        return Problem(("differences", "passages", declared), sentence, file="job")
    return Problem(("passages", declared), sentence, file="rig")


def _between(a: Space, b: Space, coach: Coach, rooms: dict[str, Raceway], avoid: list[Box]) -> Iterator[Gate]:
    off = coach.shop.clearances.working_room
    for axis, part in free(a, b, coach, avoid):
        if "room" in (a.kind, b.kind):
            yield from wall_gates(a, b, part, axis, rooms, off)
        elif pair := mouths(a, b, part, axis, off):
            yield Gate(*pair, axis, narrow(part, axis))


def _derived(a: str, b: str, gates: Gates, coach: Coach) -> Passage:
    one, two = coach.spaces[a], coach.spaces[b]
    name = pair_id(a, b)
    both_rooms = one.kind == two.kind == "room" and all(gate.near == gate.far for gate in gates)
    unproven = one.hidden or two.hidden or one.kind == two.kind == "bay"
    standing: Standing = "unproven" if unproven else "proven"
    chance = coach.shop.preferences.chance_clear if unproven else 1.0
    standing, chance, source = _known(name, Known(standing, chance, "geometry"), coach)
    return Passage(
        id=name,
        a=a,
        b=b,
        gates=gates,
        opening="exists" if both_rooms else "needs hole",
        hole="" if both_rooms else _bored(a, b),
        standing=standing,
        chance=chance,
        source=source,
        barred="it is blocked" if standing == "blocked" else "",
    )


def _known(name: str, otherwise: Known, coach: Coach) -> Known:
    """What was found out about this vehicle's passage, else what is known of its model's."""
    return coach.found.get(name) or logged(name, otherwise, coach.shop.history)


def _bored(a: str, b: str) -> str:
    return "roof" if "roof" in (a, b) else "inner"


def _declared(declared: Declared, a: str, b: str, gates: Gates, coach: Coach) -> Passage:
    written = declared.passage
    standing: Standing = _derived(a, b, gates, coach).standing
    if written.standing:
        standing = written.standing
    elif written.chance is not None:
        standing = "unproven"
    elif written.opening == "exists":
        standing = "proven"
    likely = coach.shop.preferences.chance_clear if written.chance is None else written.chance
    chance = {"proven": 1.0, "blocked": 0.0}.get(standing, likely)
    standing, chance, source = _known(declared.id, Known(standing, chance, written.source or "sketch"), coach)
    barred = "it is blocked" if standing == "blocked" else "it is closed" if written.opening == "closed" else ""
    return Passage(
        id=declared.id,
        a=a,
        b=b,
        gates=gates,
        opening=written.opening,
        hole=_bored(a, b) if written.opening == "needs hole" else "",
        standing=standing,
        chance=chance,
        source=source,
        size=written.size or 0,
        barred=barred,
        declared=True,
    )


def _gates(declared: Declared, touching: Gates, coach: Coach, ends: tuple[str, str]) -> Gates:
    """The mouths of a declared passage: the shared faces, or the part of them at the place it states.

    Through the roof an opening that exists is where it is, whatever the rules for new entries say.
    """
    exists = declared.passage.opening == "exists"
    if exists and "roof" in ends:
        space = coach.spaces[ends[0] if ends[1] == "roof" else ends[1]]
        if found := tuple(existing_entries(space, declared.at, coach)):
            return _ordered(space.id, found)
    if declared.at is None:
        return touching
    there: list[Gate] = []
    beside: list[Gate] = []
    off = coach.shop.clearances.working_room
    for gate in touching:
        near, far = (_common_beside(side, declared.at, gate.axis, off) for side in (gate.near, gate.far))
        if near and far:
            (lo, hi), (first, last) = gate.near.hull(gate.far).span(gate.axis), declared.at.span(gate.axis)
            (there if lo <= last and first <= hi else beside).append(gate._replace(near=near, far=far))
    return tuple(there or beside)  # a place may be given a little too deep, or not deep enough


def _common_beside(mouth: Box, at: Box, through: int, off: int) -> Box | None:
    """The part of a mouth that lies in a place, or nearest to it where it was kept `off` [mm] from a corner.

    How deep the place is taken to be does not matter.
    """
    bounds = []
    for axis in (0, 1, 2):
        (m0, m1), (p0, p1) = mouth.span(axis), at.span(axis)
        lo, hi = (m0, m1) if axis == through else (max(m0, p0), min(m1, p1))
        if lo - hi > off:
            return None
        if lo > hi:
            lo = hi = min(max(p0, m0), m1)
        bounds += [lo, hi]
    return Box(*bounds)
