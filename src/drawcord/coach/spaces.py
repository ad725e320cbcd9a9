"""Every placed space, with what is taken from it and what is known of it."""

from collections.abc import Iterable

from drawcord.coach.box import Box
from drawcord.coach.coach import Space
from drawcord.coach.kinds import NATURE
from drawcord.coach.laying import Laying
from drawcord.coach.moving import rides
from drawcord.coach.nesting import nested
from drawcord.coach.rig import Space as WrittenSpace
from drawcord.coach.standing import Known, logged, of_space
from drawcord.words.quantity import Height

NEARLY = 50  # mm: a space that ends this close to floor and ceiling reaches from one to the other


def spaces_of(
    laying: Laying, known: dict[str, Known], sweeps: dict[str, Box], solids: Iterable[Box]
) -> dict[str, Space]:
    """Every placed space, in order of id, and the roof, which is there by itself."""
    solids = (*sweeps.values(), *solids)
    spaces = {"roof": _roof(laying)}
    for name, box in laying.boxes.items():
        entry = laying.written[name]
        nature = NATURE[entry.kind]
        moving = rides(box, sweeps) if entry.kind != "room" else ""
        standing, chance, source = known.get(name) or logged(
            name, of_space(entry, laying.shop.preferences), laying.shop.history
        )
        nests = (other for key, other in laying.boxes.items() if nested(laying.written[key].kind, other, box))
        taken = (*solids, *nests, *_contents(laying, name, entry, box))
        floor, ceiling = (laying.levels.at(word, box.x0, box.x1) for word in ("floor", "ceiling"))
        spaces[name] = Space(
            id=name,
            kind=entry.kind,
            box=box,
            taken=tuple(sorted({clip for part in taken if (clip := part.overlap(box))})),
            zone=entry.zone or nature.zone,
            hidden=nature.hidden,
            tall=box.z0 <= floor + NEARLY and box.z1 >= ceiling - NEARLY,
            moving=moving,
            barred=_barred(laying, name, entry, moving, standing),
            standing=standing,
            chance=chance,
            front=laying.direction(entry.door) if entry.door else None,
            plain=tuple(sorted(laying.direction(face) for face in entry.plain)),
            cover=nature.cover,
            source=source,
        )
    return dict(sorted(spaces.items()))


def _barred(laying: Laying, name: str, entry: WrittenSpace, moving: str, standing: str) -> str:
    if NATURE[entry.kind].barred:
        return f"it is a {entry.kind}"
    if moving:
        return f"it moves with {moving}, or lies in its way"
    if laying.excludes(name):
        return "the owner excludes it"
    return "it is blocked" if standing == "blocked" else ""


def _roof(laying: Laying) -> Space:
    x0, x1, y0, y1 = laying.roof_frame.bounds
    nature = NATURE["roof"]
    return Space(
        id="roof",
        kind="roof",
        box=Box(x0, x1, y0, y1, laying.levels.roof, laying.levels.roof),
        taken=(),
        zone=nature.zone,
        hidden=nature.hidden,
        tall=False,
        moving="",
        barred="the owner excludes it" if laying.excludes("roof") else "",
        standing="proven",
        chance=1.0,
        front=None,
        plain=(),
        cover=nature.cover,
        source="sketch",
    )


def _contents(laying: Laying, name: str, entry: WrittenSpace, box: Box) -> list[Box]:
    """What fills a space: contents, all but a usable strip, the pipe of a stack."""
    rise = (Height("main", box.z0), Height("main", box.z1))
    parts = []
    for number, place in enumerate(entry.filled):
        part = laying.box(name, place, laying.frame, rise, keys=("filled", number))
        if part and not part.overlap(box):
            sentence = f"this part of what fills {name} lies outside of it: measure it again"
            laying.layered.add(name, sentence, "filled", number)
        elif part:
            parts.append(part)
    if entry.usable:
        parts.extend(box.minus([_strip(box, *laying.direction(face), depth) for face, depth in entry.usable.items()]))
    if entry.pipe:
        parts.append(laying.pipe(name, entry.pipe))
    return parts


def _strip(box: Box, axis: int, sign: int, depth: int) -> Box:
    """The part of a box against one of its faces, so deep [mm]."""
    bounds = list(box)
    if sign > 0:
        bounds[2 * axis] = max(bounds[2 * axis], bounds[2 * axis + 1] - depth)
    else:
        bounds[2 * axis + 1] = min(bounds[2 * axis + 1], bounds[2 * axis] + depth)
    return Box(*bounds)
