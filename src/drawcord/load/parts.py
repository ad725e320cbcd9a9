"""Everything small that a plan needs, counted by the shop's rules; what its cables share is counted once."""

from collections.abc import Sequence
from math import ceil, pi

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable
from drawcord.coach.parts import Parts, Spacing
from drawcord.load.ends import ends, joined, joints, protection
from drawcord.load.holes import register
from drawcord.load.needs import Needs, PartNeed
from drawcord.load.pieces import Pieces
from drawcord.plan.plan import Plan
from drawcord.plan.raceways import Piece, beyond
from drawcord.plan.raceways import length as length_of
from drawcord.plan.raceways import pieces as split
from drawcord.routes.route import Route
from drawcord.wire.cable import area_mm2

RULES = "the shop's parts.yaml"


def parts(plan: Plan, rules: Parts, pieces: Sequence[Pieces] = ()) -> tuple[PartNeed, ...]:
    """What the chosen routes, and the circuits if there are any, need; by part id.

    Holes and raceway that several cables use are counted once. `pieces` are what the plan's cables are made of; a
    cable that has none is jointed as its route says.
    """
    needs = Needs()
    job = plan.coach.job
    if job is None:
        return ()
    for name, taken in plan.chosen.items():
        cable = job.cables[name]
        _held(needs, plan.coach, name, taken.route, rules)
        labels = 2 + 2 * len(taken.route.passages)
        why = f"{name}: 2 ends + 2 · {len(taken.route.passages)} entries and exits"
        needs.add("label", labels, why, source="common practice, no source")
        mine = [one for one in pieces if (one.run.job, one.run.cable) == (job.job, name)]
        laid = [piece for one in mine for piece in one.laid] if all(one.laid for one in mine) else []
        ready = (laid[0].piece.fitted, laid[-1].piece.fitted) if laid else (False, False)
        ends(needs, plan.coach, name, cable, rules, ready)
        made = joined(mine) if laid else [(joint.space, 0) for joint in taken.route.joints]
        joints(needs, plan.coach, name, cable, made, rules)
    _raceway(needs, plan, rules)
    protection(needs, plan, rules)
    _holes(needs, plan, rules)
    _screws(needs, rules)
    return needs.all()


def spacing(coach: Coach, cable: Cable, rules: Parts) -> Spacing:
    """How far apart the clips of a cable are; PV cable of unknown section is held as if thick."""
    stocked = coach.types.cables.get(cable.type) if cable.type else None
    section = (stocked.section if stocked else None) or cable.conductor
    if cable.carries == "PV" and (not section or area_mm2(section) > area_mm2("8 AWG")):
        return rules.thick_pv
    return rules.clips[cable.carries]


def clips(length: int, every: int) -> int:
    """Clips on a stretch [mm]: one at either end, and none further than `every` [mm] from the next."""
    return ceil(length / every) + 1 if length > 0 else 0


def _held(needs: Needs, coach: Coach, name: str, route: Route, rules: Parts) -> None:
    """Clips and loom of each leg."""
    job = coach.job
    if job is None:
        return
    cable = job.cables[name]
    rule = spacing(coach, cable, rules)
    for number, leg in enumerate(route.legs):
        length = leg.length - leg.through_length
        fixing = rules.fixing[coach.spaces[leg.space].kind]
        where = f"{name} in {leg.space}"
        if leg.zone == "wet and stony":
            metres = length * (1 + rules.spare) / 1000
            why = f"{where}: {length} mm · {1 + rules.spare:g}"
            needs.add("loom", metres, why, unit="m", source=RULES)
        if fixing in ("raceway", "drawn through"):
            continue
        free = _free(coach, cable, rules, first=number == 0, last=number == len(route.legs) - 1)
        held = max(0, length - free)
        said = f"{held} mm" if not free else f"({length} - {free} by a battery) mm"
        why = f"{where}: {said} / {rule.every} mm, up, + 1"
        needs.add("roof clip" if fixing == "roof clips" else "clip", clips(held, rule.every), why, source=rule.source)


def _free(coach: Coach, cable: Cable, rules: Parts, *, first: bool, last: bool) -> int:
    """The length of a leg that needs no clip, as battery cable near its battery [mm]."""
    if cable.carries != "battery DC" or coach.job is None:
        return 0
    devices = [end.split(".")[0] for end, here in ((cable.start, first), (cable.end, last)) if here]
    return rules.free_of_battery * sum(coach.job.equipment[device].kind == "battery" for device in devices)


def _raceway(needs: Needs, plan: Plan, rules: Parts) -> None:
    """Raceway with its corners, ends and screws; of each cable what those before it have not put up already."""
    runs = [
        (name, leg.space, beyond(leg.points, leg.through_length))
        for name, taken in plan.chosen.items()
        for leg in taken.route.legs
        if rules.fixing[plan.coach.spaces[leg.space].kind] == "raceway"
    ]
    up, corners, stops = set[Piece](), set[tuple[str, Point]](), set[tuple[str, Point]]()
    for (name, space, points), pieces in zip(runs, split([run[1:] for run in runs]), strict=True):
        length, whole = length_of(set(pieces) - up), length_of(pieces)
        if length <= 0:
            continue
        where = f"{name} in {space}"
        said = f"{length} mm" if length == whole else f"({whole} - {whole - length} that is up already) mm"
        why = f"{where}: {said} · {1 + rules.spare:g} / {rules.raceway_piece} mm"
        needs.add("raceway", length * (1 + rules.spare) / rules.raceway_piece, why, source=RULES)
        bends, ends = {(space, point) for point in points[1:-1]}, {(space, points[0]), (space, points[-1])}
        needs.add("raceway corner", len(bends - corners), f"{where}: bends", source="geometry")
        needs.add("raceway end", len(ends - stops), f"{where}: ends", source=RULES)
        screws = clips(length, rules.raceway_screws)
        needs.add("screw", screws, f"{where}: {said} / {rules.raceway_screws} mm, up, + 1", source=RULES)
        up, corners, stops = up | set(pieces), corners | bends, stops | ends


def _holes(needs: Needs, plan: Plan, rules: Parts) -> None:
    """Fittings, sealant and cleaner."""
    flange = plan.coach.shop.clearances.flange
    skin = plan.coach.rig.shell.roof_skin
    bead = pi / 4 * rules.bead**2 / 1000  # ml a mm
    for hole in register(plan, rules):
        needs.add(hole.part, 1, hole.id, size=hole.size, source=hole.source)
        if hole.hole.kind == "roof":
            ml = rules.beads * 4 * flange * bead
            why = f"{hole.id}: {rules.beads} beads · 4 · {flange} mm · π/4 · ({rules.bead} mm)² = {ml:.1f} ml"
            needs.add("sealant", ml / rules.cartridge, f"{why} of {rules.cartridge:g} ml", size=skin, source=RULES)
            needs.add("cleaner", rules.cleaner_entry, f"{hole.id}", unit="ml", source=RULES)
            needs.add("screw", rules.entry_screws, f"{hole.id}: flange", source=RULES)
    dabs = needs.amount(["roof clip"])
    why = f"{dabs:g} roof clips · {rules.dab:g} ml of {rules.cartridge:g} ml"
    needs.add("sealant", dabs * rules.dab / rules.cartridge, why, size=skin, source=RULES)
    why = f"{dabs:g} roof clips · {rules.cleaner_clip:g} ml"
    needs.add("cleaner", dabs * rules.cleaner_clip, why, unit="ml", source=RULES)


def _screws(needs: Needs, rules: Parts) -> None:
    held = needs.amount(["clip"])
    needs.add("screw", held * rules.clip_screws, f"{held:g} clips · {rules.clip_screws}", source=RULES)
