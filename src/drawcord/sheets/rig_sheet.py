"""The sheet of a rig alone, to check the sketch against the vehicle."""

from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.sheets.column import column_scale, draw_column
from drawcord.sheets.key import key_of
from drawcord.sheets.labels import Patch
from drawcord.sheets.legend import draw_legend
from drawcord.sheets.page import foot, head, new_page
from drawcord.sheets.style import A4, MARGIN, house_style
from drawcord.words.units import format_length

GAP = 4.0  # mm between the views and the lists


def rig_sheet(coach: Coach, units: str = "mm") -> Figure:
    """Draw a coach on one upright A4 sheet; `units` is `mm`, `m` or `in`."""
    x0, x1, y0, y1 = coach.bounds
    levels = coach.levels
    sizes = {
        "length": x1 - x0,
        "width": y1 - y0,
        "ceiling above the main floor": levels.ceiling,
        "roof above the ground": levels.roof - levels.ground,
    }
    measured = ", ".join(f"{name} {format_length(size, units)}" for name, size in sizes.items())
    with house_style():
        figure, page = new_page(upright=True)
        top = head(page, coach.rig.name, [f"Rig {coach.rig.rig}: {measured}."])
        low = foot(page)
        key = key_of(coach)
        scale = column_scale(coach, None, top - low)
        x = MARGIN + GAP + draw_column(figure, page, coach, key, (MARGIN, top), scale, units)
        draw_legend(page, Patch(x, A4[0] - MARGIN, low, top), coach, key, route=False)
        return figure
