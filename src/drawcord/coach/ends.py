"""Ways to reach in, passages that people declare, and the terminals of a job."""

from drawcord.coach.coach import Declared, Opening, Space, Terminal
from drawcord.coach.kinds import NATURE
from drawcord.coach.laying import Laying
from drawcord.coach.resolve import Unplaced, resolve_point, resolve_within
from drawcord.coach.rig import Access, Passage
from drawcord.words.faults import Path, Problem
from drawcord.words.nearest import nearest
from drawcord.words.quantity import Height


def openings(laying: Laying) -> dict[str, Opening]:
    """Ways to reach in: the doors of spaces, and what the sketch lists beside them."""
    minutes = laying.shop.labour.access
    found: dict[str, Opening] = {}
    for name, entry in laying.written.items():
        if entry.door and name in laying.boxes:
            kind = NATURE[entry.kind].opened_by
            face = laying.direction(entry.door).face(laying.boxes[name])
            found[f"{name}.door"] = Opening(f"{name}.door", name, kind, face, minutes[kind])
    for name, access in laying.layered.section("access", Access):
        if access.into in laying.lost:
            continue
        if access.into not in laying.written:
            hint = nearest(access.into, laying.written)
            laying.layered.add(name, f"{name} opens {access.into}, but there is no such space{hint}", "into")
            continue
        face = laying.direction(access.face).face(laying.boxes[access.into])
        try:
            face = resolve_within(access, laying.frame, laying.layered.path(name), face)
        except Unplaced as error:
            laying.layered.adopt(name, error.problems)
        seconds = minutes[access.kind] if access.minutes is None else access.minutes
        found[name] = Opening(name, access.into, access.kind, face, seconds)
    return dict(sorted(found.items()))


def declared(laying: Laying) -> dict[str, Declared]:
    """Passages that the sketch or the job declares, each with its place if it states one."""
    found: dict[str, Declared] = {}
    for name, passage in laying.layered.section("passages", Passage):
        missing = [end for end in passage.between if end != "roof" and end not in laying.written]
        for end in missing:
            hint = nearest(end, laying.written)
            laying.layered.add(name, f"{name} joins {end}, but there is no such space{hint}", "between")
        if passage.between[0] == passage.between[1]:
            laying.layered.add(name, f"{name} joins {passage.between[0]} to itself", "between")
        frame = laying.roof_frame if "roof" in passage.between else laying.frame
        at = laying.box(name, passage.at, frame, keys=("at",)) if passage.at else None
        found[name] = Declared(name, passage, at)
    return found


def terminals(laying: Laying, spaces: dict[str, Space]) -> dict[str, Terminal]:
    """The terminals of the job's equipment, by `equipment.terminal`."""
    found: dict[str, Terminal] = {}
    for name, device in sorted((laying.job.equipment if laying.job else {}).items()):
        base: Path = ("equipment", name)
        if device.space in laying.lost:
            continue
        if device.space not in spaces:
            hint = nearest(device.space, {*laying.written, "roof"})
            sentence = f"{name} sits in {device.space}, but there is no such space{hint}"
            laying.problems.append(Problem((*base, "in"), sentence, file="job"))
            continue
        on_roof = device.space == "roof"
        for terminal, spot in sorted(device.terminals.items()):
            path = base if spot is None else (*base, "terminals", terminal)
            height = Height("roof", 0) if on_roof else None
            try:
                point = resolve_point(spot or device, laying.roof_frame if on_roof else laying.frame, path, height)
            except Unplaced as error:
                laying.problems.extend(Problem(p.path, p.sentence, file="job") for p in error.problems)
                continue
            found[f"{name}.{terminal}"] = Terminal(f"{name}.{terminal}", device.space, point, device.kind)
    return found
