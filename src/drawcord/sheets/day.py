"""The sheet for the day: what a crew takes onto the roof, in the order in which it is needed."""

from drawcord.load.bring import Load
from drawcord.load.gear import Gear
from drawcord.plan.card import Card
from drawcord.plan.named import named
from drawcord.plan.plan import Plan
from drawcord.sheets.day_care import care, consents, unmeasured
from drawcord.sheets.day_cuts import cuts
from drawcord.sheets.day_glance import glance
from drawcord.sheets.day_holes import holes
from drawcord.sheets.day_lists import joints, labels, small_parts
from drawcord.sheets.day_look import look
from drawcord.sheets.day_parts import Day, Section
from drawcord.sheets.day_pictures import diagram, key, together, ways
from drawcord.sheets.day_readings import readings

DRAFT = "Worked out from a sketch, not inspected: measure again, look behind the face, isolate, test, then drill."


def day(plan: Plan, card: Card, load: Load | None = None, gear: Gear | None = None) -> Day:
    """Lay out the sheet of a plan and the card of its cables; a section with nothing in it is left out.

    `load`: that of this job alone, by which cables are cut; the plan is jointed by it. `gear`: what else it takes.
    Whatever it shows of a hole bears the name that the joint plan has for it.
    """
    job = plan.coach.job
    if job is None:
        raise LookupError("a coach without a job has no day")
    plan = named(plan)
    sections: list[Section] = [
        glance(plan, load),
        care(plan),
        look(plan, card),
        together(plan),
        *ways(plan, card),
        key(plan),
        cuts(plan, load),
        small_parts(plan, gear),
        holes(plan, gear),
        joints(plan, load),
        diagram(plan),
        readings(plan),
        consents(plan),
        unmeasured(plan),
        labels(plan),
    ]
    return Day(
        job.name,
        (f"{plan.coach.rig.name}. Job {job.job}, rules {job.rules}.",),
        DRAFT,
        tuple(section for section in sections if section.blocks),
    )
