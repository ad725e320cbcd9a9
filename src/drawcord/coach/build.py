"""From rig, job and shop to a coach: every entry placed, every derived fact derived, every problem at once."""

from dataclasses import replace

from drawcord.coach import checks, ends, moving, notices, orders, outside, things, typed
from drawcord.coach import standing as standings
from drawcord.coach.coach import Coach
from drawcord.coach.job import Job
from drawcord.coach.laying import Laying
from drawcord.coach.rig import Rig
from drawcord.coach.shop import Shop
from drawcord.coach.spaces import spaces_of
from drawcord.words.faults import BadInput

SOLID = ("tank", "duct", "axle", "jack", "step")  # obstructions that fill the space a cable would need


def build(rig: Rig, job: Job | None, shop: Shop) -> Coach:
    """Place everything.

    Raises BadInput with every problem of references and geometry at once; a problem's `file` is "rig" or
    "job", for the reader of the files to turn into a name and a line.
    """
    laying = Laying(rig, job, shop)
    laying.place_spaces()
    moved = moving.place(laying)
    outside.spaces(laying, moved)
    hazards, obstructions = things.hazards(laying), things.obstructions(laying)
    solid = [thing.keep for thing in hazards.values()]
    solid += [thing.box for thing in obstructions.values() if thing.kind in SOLID]
    known = standings.found(job, shop.preferences)
    spaces = spaces_of(laying, known, {name: part.sweep for name, part in moved.items()}, solid)
    coach = Coach(
        rig=rig,
        job=job,
        shop=shop,
        outline=laying.corners,
        levels=laying.levels,
        street_is_left=laying.left,
        spaces=spaces,
        moving_parts=moving.with_riders(moved, spaces),
        obstacles=things.obstacles(laying),
        hazards=hazards,
        obstructions=obstructions,
        doors=things.in_walls(laying, "doors"),
        windows=things.in_walls(laying, "windows"),
        partitions=things.in_walls(laying, "partitions"),
        openings=ends.openings(laying),
        declared=ends.declared(laying),
        terminals=ends.terminals(laying, spaces),
        touching=checks.pairs(rig, laying.written, laying.problems),
        found={what: facts for what, facts in known.items() if what not in spaces},
        written=laying.layered.places,
    )
    outside.things(coach, laying)
    checks.geometry(coach, laying)
    laying.problems.extend(orders.orders(coach, laying))
    typed.check(job, coach.types, laying.problems)
    if laying.problems:
        raise BadInput(laying.problems)
    return replace(coach, findings=tuple(sorted(notices.notices(coach, laying))))
