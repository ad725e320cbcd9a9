"""What stands still behind a view: shell, slabs, metre lines, doors, windows and partitions."""

from itertools import pairwise

from matplotlib.axes import Axes
from matplotlib.patches import Polygon

from drawcord.coach.box import Box
from drawcord.coach.coach import Coach
from drawcord.sheets.drawing import draw_line, draw_shape
from drawcord.sheets.panel import Panel, thick
from drawcord.sheets.style import DOOR, PARTITION, RULE, SHELL, SLAB, WINDOW
from drawcord.sheets.views import shows


def draw_backdrop(panel: Panel, coach: Coach, ticks: list[int]) -> Axes:
    """Draw the shell as the view sees it, with a line at every tick [mm from the front]."""
    draw_shell(panel, coach)
    if panel.view.up == 2:
        _slabs(panel, coach)
    for tick in ticks:
        draw_line(panel.ax, [tick, tick], panel.ax.get_ylim(), color=RULE, linewidth=0.4, zorder=1.5)
    _walls(panel, coach)
    return panel.ax


def draw_shell(panel: Panel, coach: Coach) -> Axes:
    """Draw the outline of the vehicle alone."""
    corners = coach.outline if panel.view.up == 1 else _silhouette(coach)
    shell = Polygon(corners, closed=True, facecolor=SHELL.tint, edgecolor=SHELL.ink, zorder=1)
    shell.set_linewidth(SHELL.width)
    shell.set_gid(f"{panel.view.name}-shell")
    draw_shape(panel.ax, shell)
    return panel.ax


def _stretches(coach: Coach) -> list[tuple[int, int]]:
    """The stretches along the vehicle over which floor and ceiling stay level."""
    x0, x1, _, _ = coach.bounds
    steps = {edge for step in coach.levels.steps for edge in (step.x0, step.x1) if x0 < edge < x1}
    return list(pairwise(sorted({x0, x1} | steps)))


def _silhouette(coach: Coach) -> list[tuple[int, int]]:
    """The outline from the side: roof, ends, and the underside of the floor as it steps."""
    x0, x1, _, _ = coach.bounds
    levels = coach.levels
    under = [(x, levels.at("belly", *stretch)) for stretch in _stretches(coach) for x in stretch]
    return [(x1, levels.roof), (x0, levels.roof), *under]


def _slabs(panel: Panel, coach: Coach) -> None:
    """Floor and roof as thick as they are."""
    _, _, y0, y1 = coach.bounds
    levels = coach.levels
    for start, end in _stretches(coach):
        floor, ceiling = levels.at("floor", start, end), levels.at("ceiling", start, end)
        panel.draw(Box(start, end, y0, y1, floor - levels.floor_thickness, floor), SLAB, 2)
        panel.draw(Box(start, end, y0, y1, ceiling, levels.roof), SLAB, 2)


def _walls(panel: Panel, coach: Coach) -> None:
    """Doors, windows and partitions; what is flat in this view gets a stroke wide enough to see."""
    kinds = (
        ("partition", PARTITION, coach.partitions),
        ("window", WINDOW, coach.windows),
        ("door", DOOR, coach.doors),
    )
    for kind, look, boxes in kinds:
        for name, box in boxes.items():
            if shows(coach, panel.view, box) and panel.view.name != "roof":
                at_wall = kind != "partition" and box.y0 != box.y1
                panel.draw(thick(box, panel, 0.9), look, 3 if at_wall else 3.2, f"{kind}-{name}")
