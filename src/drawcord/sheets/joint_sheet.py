"""The joint plan as a picture: all cables of a job in every view, and in tables what they share."""

from dataclasses import replace

from matplotlib.figure import Figure

from drawcord.plan.plan import Plan
from drawcord.plan.together import Together
from drawcord.sheets import marks
from drawcord.sheets.cable import UPRIGHT
from drawcord.sheets.cables import RACEWAY, draw_cables, lay
from drawcord.sheets.cautions import cautions, powered
from drawcord.sheets.joint_marks import DEVICE, END_POINT, at_home, draw_marked, marked, tag_marked
from drawcord.sheets.joint_tables import joint_tables
from drawcord.sheets.key import key_of
from drawcord.sheets.listing import sample, symbols
from drawcord.sheets.mini import FAINT
from drawcord.sheets.panel import Panel
from drawcord.sheets.scene import Scene, Sign, crosses
from drawcord.sheets.together import saved_text
from drawcord.sheets.traces import Trace, drawn_as, traces
from drawcord.sheets.views import shows, views
from drawcord.sheets.views_sheet import views_sheets

APART_HERE = "Cables that run together are drawn side by side; the tables and the sheet of each route have the places."


def joint_sheets(plan: Plan, units: str = "mm") -> list[Figure]:
    """Draw the joint plan on upright A4 sheets; none where there are fewer than two cables to plan together.

    `units` is `mm`, `cm`, `m` or `in`.
    """
    together, job = plan.together, plan.coach.job
    if together is None or job is None or not plan.chosen:
        return []
    looks = traces(sorted(plan.chosen))
    routes = [one.route for one in plan.chosen.values()]
    said = cautions([job.cables[name].carries for name in plan.chosen], routes, powered(plan.circuits, plan.chosen))
    head = f"{job.name}: all cables together", [f"{plan.coach.rig.name}. {APART_HERE}", *_lines(together, units)]
    scene, (cables, *more) = joint_scene(plan, looks), joint_tables(plan, looks, units)
    return views_sheets(scene, key_of(plan.coach), head, [cables], said, units, more)


def joint_scene(plan: Plan, looks: dict[str, Trace]) -> Scene:
    """The cables of a plan with what is on them, in the views that are at home to any; other spaces faintly."""
    routes = {name: plan.chosen[name].route for name in looks}
    found = marked(plan, looks)
    kinds = {one.mark.symbols for one in found}
    signs: list[tuple[object, Sign]] = [
        *((True, (drawn_as(look), f"{look.tag}: {name}")) for name, look in looks.items()),
        (True, (symbols(UPRIGHT), "cable goes on in another view, or straight towards you")),
        (True, (symbols(*END_POINT), "what a cable ends at")),
        (marks.ROOF_HOLE in kinds, (symbols(*marks.ROOF_HOLE), "T1 AB: hole through the roof, for A and B")),
        (marks.INNER_HOLE in kinds, (symbols(*marks.INNER_HOLE), "T1 AB: hole inside")),
        (marks.JOINED in kinds, (symbols(*marks.JOINED), "J1 A: joint between two pieces of A")),
        (DEVICE in kinds, (symbols(*DEVICE), "P1 A: fuse, breaker or switch on A")),
        (any(leg.in_sight for route in routes.values() for leg in route.legs), (sample(RACEWAY), "raceway in sight")),
    ]

    def draw(panel: Panel) -> None:
        for space in plan.coach.spaces.values():
            if space.kind not in ("roof", "room") and space.id not in used and shows(plan.coach, panel.view, space.box):
                panel.draw(space.box, FAINT, 3.5)
        laid = lay(panel, plan.coach, routes)
        shown = at_home(panel, plan, found, laid)
        draw_marked(panel, shown)
        draw_cables(panel, plan.coach, routes, looks, laid, [at for _, at in shown])
        tag_marked(panel, shown)

    used = frozenset(space for route in routes.values() for space in route.spaces)
    spaces = {name: space for name, space in plan.coach.spaces.items() if name in used or space.kind == "roof"}
    shown = [one for one in views(plan.coach, used) if any(crosses(plan.coach, one, r) for r in routes.values())]
    drawn = replace(plan.coach, spaces=spaces, obstructions={})
    return Scene(drawn, tuple(shown), used, tuple(sign for here, sign in signs if here), draw)


def _lines(together: Together, units: str) -> list[str]:
    proof = "Proved the lightest on the graph" if together.proved else f"A gap of {together.gap_percent:.2f} % is left"
    out = [f"{saved_text(together.saved, units)} {proof}."]
    if together.left_out:
        out.append(f"NO ROUTE is left beside the others for {', '.join(together.left_out)}.")
    return out
