"""The register of holes on the sheet for the day: each bore once, as it is to be drilled, and the bits for all."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from drawcord.load.bits import Found
from drawcord.load.gear import Gear
from drawcord.load.holes import HoleEntry, register
from drawcord.load.tools import serves, tools
from drawcord.plan.plan import Plan
from drawcord.routes.route import Route
from drawcord.sheets.day_parts import Block, Grid, Section
from drawcord.sheets.holes import from_edges, holes_table, short
from drawcord.sheets.lengths import bore, drill
from drawcord.sheets.tables import Rows

Bores = Mapping[str, str]  # of one route: the size to drill each of its holes, by the hole's id


def bores(plan: Plan, cable: str, other: Route | None = None) -> Bores:
    """What each hole of a cable's chosen route is drilled with.

    Of another route, if one is given, by itself; but those holes that are bored anyway as all cables need them.
    """
    if other is None:
        return _bores(plan, cable)
    instead = replace(plan, chosen={cable: replace(plan.chosen[cable], route=other)})
    anyway = {hole: size for name in plan.chosen for hole, size in _bores(plan, name).items()} if plan.together else {}
    return {hole: anyway.get(hole, size) for hole, size in _bores(instead, cable).items()}


def _bores(plan: Plan, cable: str) -> Bores:
    units, rules = plan.coach.units, plan.coach.shop.parts
    planned = {hole.id: bore(hole.diameter, units) for hole in plan.chosen[cable].route.holes}
    found = register(plan, rules) if rules else ()
    return planned | {mine: _drill(one, units) for one in found for name, mine in one.own if name == cable}


def holes(plan: Plan, gear: Gear | None) -> Section:
    """Where each hole lies, what goes into it, and what to bore it with; without rules for parts, only where."""
    rules, units = plan.coach.shop.parts, plan.coach.units
    found = register(plan, rules) if rules else ()
    blocks: list[Block] = []
    rows = _registered(plan, found) if found else _planned(plan)
    if len(rows) > 1:
        blocks.append(Grid("Where", rows))
    if found:
        into = [[one.id, one.fitting, one.seal, "; ".join(one.behind), one.consent] for one in found]
        blocks.append(Grid("What goes into each", [["hole", "fitting", "seal", "look behind for", "consent"], *into]))
    if found and rules:
        needed = gear.tools if gear else [Found(one, "", "", "") for one in tools(found, rules)]
        said = [[one.need.kind, _size(one, units), *_taken(one, gear), _for(one), "☐"] for one in needed]
        header = ["tool", "bores", "take", "in chuck", "for", "packed"]
        blocks.append(Grid("Bits and saws", [header, *said]))
    return Section("Holes", tuple(blocks))


def _registered(plan: Plan, found: Sequence[HoleEntry]) -> Rows:
    """Where a tape finds each bore, whoever goes through it, and the size to drill."""
    header, *rows = short(holes_table(plan.coach, [one.hole for one in found], plan.coach.units))
    told = []
    for one, (_, between, _, front, across, height, _, side) in zip(found, rows, strict=True):
        where = [_drill(one, plan.coach.units), front, across, height, _faces(plan, one), side]
        told.append([one.id, ", ".join(one.cables), between, *where, "☐"])
    return [["hole", "for", header[1], "drill", *header[3:], "looked behind"], *told]


def _planned(plan: Plan) -> Rows:
    """The same as it is planned, a row for each cable that goes through."""
    holes = [(name, hole) for name, one in plan.chosen.items() for hole in one.route.holes]
    header, *rows = short(holes_table(plan.coach, [hole for _, hole in holes], plan.coach.units))
    told = [[hole.id, name, *row[1:], "☐"] for (name, hole), row in zip(holes, rows, strict=True)]
    return [["hole", "for", *header[1:], "looked behind"], *told]


def _faces(plan: Plan, entry: HoleEntry) -> str:
    """Each face from two edges of the space that it opens into; that on the roof stands in the row already."""
    faces = [face for face in (0, 1) if entry.hole.between[face] != "roof"]
    return "; ".join(from_edges(plan.coach, entry.hole, face, plan.coach.units) for face in faces)


def _drill(one: HoleEntry, units: str) -> str:
    return drill(one.bore, *serves(one), units)


def _size(one: Found, units: str) -> str:
    return drill(one.need.diameter, one.need.least, one.need.most, units)


def _taken(one: Found, gear: Gear | None) -> list[str]:
    """The van's bit and chuck; without a van what the chuck has to take."""
    if gear is None:
        return ["", f"that takes {one.need.shank} mm"]
    return [one.bit, one.chuck] if one.bit else [f"LACKING: {one.lacking}", f"one that takes {one.need.shank} mm"]


def _for(one: Found) -> str:
    return ", ".join(name.partition(": ")[2] or name for name in one.need.holes)
