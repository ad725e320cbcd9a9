"""The sheets of a rig alone, to check the sketch against the vehicle."""

from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.sheets.cautions import cautions
from drawcord.sheets.column import column_scale, draw_column
from drawcord.sheets.flow import GAP, follow, pour
from drawcord.sheets.key import key_of
from drawcord.sheets.labels import Patch
from drawcord.sheets.legend import legend
from drawcord.sheets.lengths import length
from drawcord.sheets.page import foot, head, new_page
from drawcord.sheets.scene import rig_scene
from drawcord.sheets.style import A4, MARGIN, house_style


def rig_sheets(coach: Coach, units: str = "mm") -> list[Figure]:
    """Draw a coach on an upright A4 sheet, and its key on a second where it is long.

    `units` is `mm`, `cm`, `m` or `in`.
    """
    x0, x1, y0, y1 = coach.bounds
    levels = coach.levels
    sizes = {
        "length": x1 - x0,
        "width": y1 - y0,
        "ceiling above the main floor": levels.ceiling,
        "roof above the ground": levels.roof - levels.ground,
    }
    measured = ", ".join(f"{name} {length(size, units)}" for name, size in sizes.items())
    said, scene = cautions((), ()), rig_scene(coach)
    with house_style():
        figure, page = new_page(upright=True)
        top = head(page, coach.rig.name, [f"Rig {coach.rig.rig}: {measured}."])
        low = foot(page, said)
        key = key_of(coach)
        scale = column_scale(scene, top - low)
        x = MARGIN + GAP + draw_column(figure, page, scene, key, (MARGIN, top), scale, units)
        area = Patch(x, A4[0] - MARGIN, low, top)
        listing = legend(scene, key, (area.x1 - area.x0, area.y1 - area.y0))
        return follow([(figure, page)], pour(page, [listing], [area], 1), coach.rig.name, said)
