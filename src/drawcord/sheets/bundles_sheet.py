"""Cuts through the narrow places of a joint plan with their bundles to scale, several on a sheet."""

from collections.abc import Mapping

from matplotlib.figure import Figure

from drawcord.coach.job import Cable
from drawcord.plan.bundle import strands
from drawcord.plan.plan import Plan
from drawcord.sheets import lengths
from drawcord.sheets import page as sheet
from drawcord.sheets.bundle_card import Card
from drawcord.sheets.bundles import kept_apart, places
from drawcord.sheets.cautions import cautions, powered
from drawcord.sheets.flow import COLUMN, GAP, Block, follow, pour
from drawcord.sheets.labels import Patch
from drawcord.sheets.style import MARGIN, house_style
from drawcord.sheets.traces import Trace, traces

READ = (
    "What cables share comes first, then the tightest. The thickest is laid to the lowest spot where it touches what is"
    " there, then the next: where they really lie is up to who draws them in. Hatched: the largest of a cable, its plug"
    " or all its cores together."
)


def bundles_sheets(plan: Plan, units: str = "mm") -> list[Figure]:
    """Draw the narrow places of the joint plan on upright A4 sheets, if there are any; `units` as in `tables`."""
    job = plan.coach.job
    looks = traces(sorted(plan.chosen))
    found = places(plan, looks, units)
    if not found or job is None:
        return []
    cables = {name: job.cables[name] for name in looks}
    routes = [one.route for one in plan.chosen.values()]
    said = cautions([cable.carries for cable in cables.values()], routes, powered(plan.circuits, cables))
    title = f"{job.name}: bundles in narrow places"
    lines = [READ, _key(cables, looks, units)]
    if apart := kept_apart(plan):
        lines.append(f"Not drawn, since cables keep apart there: {', '.join(apart)}.")
    blocks: list[Block] = [Card(place, looks, units) for place in found]
    with house_style():
        figure, page = sheet.new_page(upright=True)
        top, low = sheet.head(page, title, lines) - 1.0, sheet.foot(page, said)
        areas = [Patch(x, x + COLUMN, low, top) for x in (MARGIN, MARGIN + COLUMN + GAP)]
        return follow([(figure, page)], pour(page, blocks, areas, 1), title, said)


def _key(cables: Mapping[str, Cable], looks: Mapping[str, Trace], units: str) -> str:
    """Each cable's letter with what of it lies in a bundle."""

    def thick(name: str, cable: Cable) -> str:
        parts, largest = strands(cable), lengths.bore(cable.largest_plug, units)
        cores = f"{len(parts)} × " if len(parts) > 1 else ""
        return f"{looks[name].tag} {name} ({cores}⌀ {lengths.bore(parts[0], units)}, the largest of it ⌀ {largest})"

    return "; ".join(thick(name, cable) for name, cable in cables.items()) + "."
