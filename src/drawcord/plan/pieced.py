"""A cable of more than one type, joined where a hand reaches, for a route of which no type may run all the way."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from drawcord.coach.coach import Coach
from drawcord.plan.grown import of_type, thin_to_thick
from drawcord.plan.room import cramped
from drawcord.plan.section import Case, Tried, may_run
from drawcord.routes.allowance import joint_places
from drawcord.routes.devices import cut_places
from drawcord.routes.route import Joint, Leg
from drawcord.words.finding import Finding, Severity
from drawcord.words.units import tape_length

Way = tuple[int, tuple[tuple[str, int], ...]]  # joints, and each type with the number of the leg that it begins in


@dataclass(frozen=True)
class Piece:
    """A stretch of one type through `spaces`, from the `joint` with the piece before it, None at the start."""

    tried: Tried
    spaces: tuple[str, ...]
    joint: Joint | None


def pieced(case: Case) -> tuple[Piece, ...]:
    """The fewest pieces of one section of which each may run where it lies; the thinnest section that serves.

    Each piece carries the whole circuit's current along its own legs, and loses no more than the limit even if all of
    the cable were of its type. Nothing if no types joined serve.
    """
    coach, cable, legs = case.coach, case.cable, case.route.legs
    joints = joint_places(coach, legs, cut_places(coach, case.name, legs))
    places = {joint.space: joint for joint in reversed(joints)}
    areas = thin_to_thick(coach.types, cable, case.rules.name)
    for _, group in groupby(areas, key=areas.__getitem__):
        way = _fewest(coach, tuple(group), legs, places)
        if way is None or not way[0]:
            continue
        found = []
        ends = [*(start for _, start in way[1][1:]), len(legs) - 1]
        for (type_id, start), end in zip(way[1], ends, strict=True):
            part = case.part(start, end)
            tried = part.held(type_id)
            fit = of_type(cable, type_id, coach.types.cables[type_id])
            tight = cramped(coach, fit, cable.largest_plug, part.route)
            tried = replace(tried, against=(*tried.against, *tight))
            joint = places[legs[start].space] if start else None
            found.append(Piece(tried, tuple(leg.space for leg in part.route.legs), joint))
        if not any(piece.tried.against for piece in found):
            return tuple(found)
    return ()


def joined(coach: Coach, name: str, pieces: Sequence[Piece]) -> Finding:
    """In a sentence: which type goes how far, why not on, and where the joint can be reached."""
    said = f"no type may run all the way: {pieces[0].tried.type_id}"
    for before, piece in pairwise(pieces):
        zones = sorted({coach.spaces[space].zone for space in piece.spaces})
        barred = [zone for zone in zones if not may_run(before.tried.cable, zone)]
        if piece.joint:
            at = f"{tape_length(piece.joint.at, coach.units)} along in {piece.joint.space}"
            why = f", which may not run in {' or '.join(barred)}," if barred else ""
            said += f"{why} is joined {at}, reached through {piece.joint.opening}, to {piece.tried.type_id}"
    return Finding(Severity.CAUTION, name, said, "zones of the types of cable")


def _fewest(coach: Coach, types: Sequence[str], legs: Sequence[Leg], places: dict[str, Joint]) -> Way | None:
    """The types along the legs with the fewest joints, of equals the first by types and legs; None if there is none.

    A joint lies in a leg in which both of its types may run.
    """
    made = {name: coach.types.cables[name].made() for name in types}
    best: list[Way] = [(0, ((name, 0),)) for name in types]
    for number, leg in enumerate(legs):
        able = [name for name in types if may_run(made[name], leg.zone)]
        came = [way for way in best if way[1][-1][0] in able]
        if number and leg.space in places:
            came += [(count + 1, (*way, (name, number))) for count, way in came for name in able if name != way[-1][0]]
        best = [min(way for way in came if way[1][-1][0] == name) for name in {way[1][-1][0]: 0 for way in came}]
    return min(best, default=None)
