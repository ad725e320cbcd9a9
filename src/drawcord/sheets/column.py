"""The column of views that the sheets of a route, of all cables and of a rig share."""

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.sheets.backdrop import draw_backdrop
from drawcord.sheets.key import Key
from drawcord.sheets.page import front_arrow, ruler, scale_bar, ticks
from drawcord.sheets.panel import EDGE, GUTTER, Panel, fitting_scale, stack
from drawcord.sheets.scene import Scene
from drawcord.sheets.segments import Flat
from drawcord.sheets.solids import draw_moving, draw_openings, draw_spaces, draw_things
from drawcord.sheets.style import A4, MARGIN, SMALL
from drawcord.sheets.tags import tag_spaces, tag_things
from drawcord.sheets.text import write
from drawcord.sheets.views import span_x

BELOW = 7.5  # mm under the views, for the ruler and the scale bar
TITLED = 14.0  # mm from the left to the title of a view, behind the arrow to the front
SIDE_NAMES = 3.0  # mm beside the plans, for street and curb
LISTS = 59.0  # mm at least beside the column


def column_scale(scene: Scene, height: float) -> int:
    """The scale 1:n at which the views fit `height` [mm] and leave room for lists beside them."""
    width = A4[0] - 2 * MARGIN - LISTS - SIDE_NAMES
    return fitting_scale(scene.views, span_x(scene.coach), width, height - BELOW)


def column_width(scene: Scene, scale: int) -> float:
    """How wide the column is at a scale [mm]."""
    low, high = span_x(scene.coach)
    return (high - low) / scale + 2 * EDGE + SIDE_NAMES


def column_height(scene: Scene, scale: int) -> float:
    """How high the column is at a scale, with ruler and bar [mm]."""
    return sum((view.high - view.low) / scale + 2 * EDGE + GUTTER for view in scene.views) + BELOW


def draw_column(
    figure: Figure,
    page: Axes,
    scene: Scene,
    key: Key,
    corner: Flat,
    scale: int,
    units: str,
    *,
    on_a4: bool = True,
) -> float:
    """Draw every view in a column whose upper left is `corner`.

    The scale is written only if it holds `on_a4`; the bar always does.

    Returns the width of the column [mm].
    """
    coach = scene.coach
    panels = list(stack(figure, page, scene.views, span_x(coach), corner, scale))
    tagged: set[str] = set()
    for panel in panels:
        _title(panel, coach)
        draw_backdrop(panel, coach, ticks(coach, units))
        draw_spaces(panel, coach, scene.used or frozenset())
        draw_moving(panel, coach)
        draw_things(panel, coach)
        draw_openings(panel, coach, scene.used)
        scene.draw(panel)
        tag_spaces(panel, coach, key, home=True)
        tag_things(panel, coach, key, tagged)
        tag_spaces(panel, coach, key, home=False)
    last = panels[-1]
    xs = [(tick, last.at((tick, 0))[0]) for tick in ticks(coach, units)]
    y = ruler(page, coach, xs, last.corner[1] - EDGE, units)
    scale_bar(page, last.corner[0], y - 0.5, scale, units, on_a4=on_a4)
    return column_width(scene, scale)


def _title(panel: Panel, coach: Coach) -> None:
    """The title over a view, the arrow to the front, and beside a plan which edge is which side."""
    left, low = panel.corner[0] - EDGE, panel.corner[1] - EDGE
    top, right = low + (panel.view.high - panel.view.low) / panel.scale + 2 * EDGE, panel.board.bounds.x1
    front_arrow(panel.page, left, top + GUTTER / 2 - 0.2)
    write(panel.page, left + TITLED, top + GUTTER / 2 - 0.2, panel.view.title, size=SMALL, bold=True, va="center")
    if panel.view.up == 1:
        names = ("STREET", "CURB") if coach.street_is_left else ("CURB", "STREET")
        for name, share in zip(names, (0.25, 0.75), strict=True):
            y = low + share * (top - low)
            write(panel.page, right + 1.6, y, name, size=SMALL, rotation=90, ha="center", va="center")
