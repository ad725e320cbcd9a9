"""Why no cable gets from one space straight into another, even with nothing in the way: how far apart they lie."""

from drawcord.coach.box import between
from drawcord.coach.coach import Coach, Space
from drawcord.coach.faces import Direction
from drawcord.routes.said import said
from drawcord.ways.contact import LEAST
from drawcord.ways.through_roof import bore, reaches_roof

ALONG = ("from front to rear", "from side to side", "in height")  # the axes, as people say them


def apart(coach: Coach, one: str, other: str) -> str:
    """In a sentence, why two spaces have no passage."""
    if "roof" in (one, other):
        return _below_roof(coach, coach.spaces[other if one == "roof" else one])
    a, b = coach.spaces[one], coach.spaces[other]
    gaps = [max(a.box.span(i)[0], b.box.span(i)[0]) - min(a.box.span(i)[1], b.box.span(i)[1]) for i in (0, 1, 2)]
    off = [axis for axis, gap in enumerate(gaps) if gap >= 0]
    touching = [_tolerance(coach, one, other, axis) for axis in (0, 1, 2)]
    if not off:
        return f"{one} and {other} lie one in the other, and share no side that a hole could go through"
    if far := [axis for axis in off if gaps[axis] > touching[axis]]:
        lie = " and ".join(f"{said(coach, gaps[axis])} {ALONG[axis]}" for axis in far)
        most = " and ".join(dict.fromkeys(said(coach, touching[axis]) for axis in far))
        return f"{one} and {other} do not touch: they lie {lie} apart, and no more than {most} counts as touching"
    if len(off) > 1:
        return f"{one} and {other} meet only at an edge: there is no face between them to go through"
    return f"{one} and {other} have no face that a hole could go through: {_in_face(coach, a, b, off[0])}"


def _tolerance(coach: Coach, one: str, other: str, axis: int) -> int:
    stated = coach.touching.get((min(one, other), max(one, other)))
    if stated is not None:
        return stated
    return coach.levels.floor_thickness if axis == 2 else coach.shop.clearances.contact


def _in_face(coach: Coach, a: Space, b: Space, axis: int) -> str:
    """What makes the face between two touching spaces useless."""
    sign = 1 if a.box.span(axis)[0] < b.box.span(axis)[0] else -1
    for space, face in ((a, Direction(axis, sign)), (b, Direction(axis, -sign))):
        if space.front == face:
            return f"it is the front of {space.id}, with its door"
    slab = between(a.box, b.box)
    narrow = min(slab.span(side)[1] - slab.span(side)[0] for side in (0, 1, 2) if side != axis)
    if narrow < LEAST:
        return f"they share a strip of only {said(coach, narrow)}, and a hole takes {said(coach, LEAST)}"
    third = [
        space.id
        for space in coach.spaces.values()
        if space not in (a, b) and space.kind not in ("room", "roof") and space.box.overlap(slab)
    ]
    if third:
        return f"{' and '.join(third)} {'lies' if len(third) == 1 else 'lie'} between them"
    rooms = [space.id for space in (a, b) if space.kind == "room"]
    return f"no wall of {' or '.join(rooms)} there takes raceway" if rooms else "nothing of it is left"


def _below_roof(coach: Coach, space: Space) -> str:
    if not reaches_roof(space, coach):
        below = coach.levels.at("ceiling", space.box.x0, space.box.x1) - space.box.z1
        return f"no entry leads from the roof into {space.id}: it ends {said(coach, below)} below the ceiling"
    if space.kind == "room" and not (coach.job and "roof into room" in coach.job.owner.consents):
        return f"the owner has not agreed to an entry from the roof straight into {space.id}"
    hole, flange = said(coach, bore(coach)), said(coach, coach.shop.clearances.flange)
    return (
        f"no entry fits over {space.id}: nowhere does a bore of {hole} land inside for sure "
        f"while its flange of {flange} lies clear on the roof"
    )
