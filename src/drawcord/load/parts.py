"""Everything small that a plan needs, counted by the shop's rules."""

from math import ceil, pi

from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable
from drawcord.coach.parts import Parts, Spacing
from drawcord.load.ends import ends, joints, protection
from drawcord.load.holes import register
from drawcord.load.needs import Needs, PartNeed
from drawcord.plan.plan import Plan
from drawcord.routes.route import Route
from drawcord.wire.cable import area_mm2

RULES = "the shop's parts.yaml"


def parts(plan: Plan, rules: Parts) -> tuple[PartNeed, ...]:
    """What the chosen routes, and the circuits if there are any, need; by part id.

    Each cable is counted by itself: raceway, loom and holes that several could share are not taken together.
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
        ends(needs, plan.coach, name, cable, rules)
        joints(needs, plan.coach, name, cable, taken.route, rules)
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
    """Clips, loom and raceway of each leg."""
    job = coach.job
    if job is None:
        return
    cable = job.cables[name]
    rule = spacing(coach, cable, rules)
    for number, leg in enumerate(route.legs):
        length = leg.length - leg.through_length
        fixing = rules.fixing[coach.spaces[leg.space].kind]
        where = f"{name} in {leg.space}"
        if fixing == "raceway":
            _raceway(needs, where, length, leg.bends, rules)
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


def _raceway(needs: Needs, where: str, length: int, bends: int, rules: Parts) -> None:
    if length <= 0:
        return
    amount = length * (1 + rules.spare) / rules.raceway_piece
    why = f"{where}: {length} mm · {1 + rules.spare:g} / {rules.raceway_piece} mm"
    needs.add("raceway", amount, why, source=RULES)
    needs.add("raceway corner", bends, f"{where}: bends", source="geometry")
    needs.add("raceway end", 2, f"{where}: both ends", source=RULES)
    screws = clips(length, rules.raceway_screws)
    needs.add("screw", screws, f"{where}: {length} mm / {rules.raceway_screws} mm, up, + 1", source=RULES)


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
