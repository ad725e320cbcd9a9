"""What is wrong with a placed coach: spaces that cannot be as they are sketched."""

from collections.abc import Collection
from itertools import combinations

from drawcord.coach.box import Box
from drawcord.coach.coach import Coach
from drawcord.coach.laying import Laying
from drawcord.coach.nesting import nested
from drawcord.coach.rig import Rig
from drawcord.words.faults import Problem
from drawcord.words.nearest import nearest
from drawcord.words.units import format_length, format_lengths


def geometry(coach: Coach, laying: Laying) -> None:
    """Record every space that has no size, crosses a step, is narrower than its pipe or runs into another."""
    spaces = [space for space in coach.spaces.values() if space.id != "roof"]
    for space in spaces:
        box, name = space.box, space.id
        if space.kind == "roof":
            laying.layered.add(name, f"{name} is of kind roof, but the roof is there by itself: leave it out", "kind")
        sizes = dict(zip(("length", "depth", "height"), _sizes(box), strict=True))
        if flat := [what for what, size in sizes.items() if size <= 0]:
            laying.layered.add(name, f"{name} has no {' and no '.join(flat)}: give it a size above zero")
            continue
        edge = coach.levels.straddled(box.x0, box.x1)
        if edge is not None and space.kind not in ("underfloor", "void", "bay"):
            where = f"{format_length(edge, laying.units)} from the front"
            laying.layered.add(name, f"{name} straddles the step in the floor or ceiling {where}: make two of it")
        for face, strip in laying.written[name].usable.items():
            deep = _sizes(box)[laying.direction(face).axis]
            if strip > deep:
                sizes_said = f"{format_length(strip, laying.units)} of {name} against `{face}`"
                sentence = f"{sizes_said} cannot be usable: it is {format_length(deep, laying.units)} deep there"
                laying.layered.add(name, sentence, "usable", face)
        pipe, room = laying.written[name].pipe, min(sizes["length"], sizes["depth"])
        if pipe and pipe > room:
            wide = f"{format_length(pipe, laying.units)} wide, in a space of {format_length(room, laying.units)}"
            laying.layered.add(name, f"the pipe of {name} does not fit: it is {wide}", "pipe")
        elif laying.written[name].pipe_at and not pipe and not laying.written[name].cap:
            laying.layered.add(name, f"{name} has neither a `pipe` nor a `cap` that could stand there", "pipe at")
        elif (across := laying.pipe(name, pipe or 1)) != across.overlap(box):
            laying.layered.add(name, f"the pipe of {name} stands partly outside of it: measure it again", "pipe at")
    for first, second in combinations(spaces, 2):
        common = first.box.overlap(second.box)
        if common and nested(first.kind, first.box, second.box) == nested(second.kind, second.box, first.box):
            sizes_and_place = _where(common, laying.units)
            laying.layered.add(
                second.id,
                f"{second.id} and {first.id} overlap in part, by {sizes_and_place}: "
                "one may lie within the other, or run through it as a stack does, but they may not share a corner",
            )


def _sizes(box: Box) -> tuple[int, int, int]:
    return box.x1 - box.x0, box.y1 - box.y0, box.z1 - box.z0


def _where(box: Box, units: str) -> str:
    """How large a box is and where it lies, for somebody with a tape."""
    along, across, up = (format_lengths(box.span(axis), units, " and ") for axis in (0, 1, 2))
    return (
        f"{format_lengths(_sizes(box), units, ' x ')} (along x across x up), between {along} from the front, "
        f"{across} from the left side, {up} up"
    )


def pairs(rig: Rig, written: Collection[str], problems: list[Problem]) -> dict[tuple[str, str], int]:
    """The contact tolerances stated for single pairs, by the two ids in order."""
    found: dict[tuple[str, str], int] = {}
    for key, gap in sorted(rig.touching.items()):
        names = [name.strip() for name in key.split("~")]
        pair = min(names), max(names)
        if len(set(names)) != 2 or len(names) != 2 or any(name not in written for name in names):
            hint = "".join(nearest(name, written) for name in names if name not in written)
            sentence = f"{key} does not name two spaces{hint}: write it as `linen~shower: 120 mm`"
            problems.append(Problem(("touching", key), sentence, file="rig", on_key=True))
        elif pair in found:
            sentence = f"{key} gives these two spaces a second tolerance: keep one"
            problems.append(Problem(("touching", key), sentence, file="rig", on_key=True))
        else:
            found[pair] = gap
    return found
