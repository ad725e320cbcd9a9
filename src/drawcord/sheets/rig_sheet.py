"""The sheet of a rig alone, to check the sketch against the vehicle."""

from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.sheets.column import draw_column
from drawcord.sheets.key import key_of
from drawcord.sheets.legend import all_rows, draw_rows
from drawcord.sheets.page import foot, head, new_page
from drawcord.sheets.style import A4, MARGIN, house_style
from drawcord.words.units import format_length

SIDE = 58.0  # mm at least for the lists beside the views
GAP = 4.0


def rig_sheet(coach: Coach, units: str = "mm") -> Figure:
    """Draw a coach on one upright A4 sheet; `units` is `mm`, `m` or `in`."""
    x0, x1, y0, y1 = coach.bounds
    levels = coach.levels
    sizes = ", ".join(
        f"{name} {format_length(size, units)}"
        for name, size in (
            ("length", x1 - x0),
            ("width", y1 - y0),
            ("ceiling above the main floor", levels.ceiling),
            ("roof above the ground", levels.roof - levels.ground),
        )
    )
    with house_style():
        figure, page = new_page(upright=True)
        top = head(page, coach.rig.name, [f"Rig {coach.rig.rig}: {sizes}."])
        low = foot(page)
        key = key_of(coach)
        room = (A4[0] - 2 * MARGIN - SIDE - GAP, top - low)
        x = MARGIN + GAP + draw_column(figure, page, coach, key, (MARGIN, top), room, units)
        width = A4[0] - MARGIN - x
        draw_rows(page, x, top, low, all_rows(width, coach, key, route=False))
        return figure
