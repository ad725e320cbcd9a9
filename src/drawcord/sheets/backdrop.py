"""What stands still behind a view: shell, slabs, metre lines, doors, windows and partitions."""

from matplotlib.axes import Axes
from matplotlib.patches import Polygon

from drawcord.coach.box import Box
from drawcord.coach.coach import Coach
from drawcord.sheets.panel import Panel, thick
from drawcord.sheets.style import INK, RULE, SHELL, SLAB, Look
from drawcord.sheets.views import shows

DOOR = Look("#ffffff", "", INK, width=0.7)
WINDOW = Look("#e8f3f8", "", "#5b7c8d", width=0.6)
PARTITION = Look("#6e6a62", "", "#6e6a62", width=0.4)


def draw_backdrop(panel: Panel, coach: Coach, ticks: list[int]) -> Axes:
    """Draw the shell as the view sees it, with a line at every tick [mm from the front]."""
    if panel.view.up == 1:
        outline = Polygon(
            coach.outline, closed=True, facecolor=SHELL.tint, edgecolor=SHELL.ink, linewidth=SHELL.width, zorder=1
        )
        outline.set_gid(f"{panel.view.name}-shell")
        panel.ax.add_patch(outline)
    else:
        _section(panel, coach)
    for tick in ticks:
        panel.ax.plot([tick, tick], panel.ax.get_ylim(), color=RULE, linewidth=0.4, zorder=1.5)
    _walls(panel, coach)
    return panel.ax


def _section(panel: Panel, coach: Coach) -> None:
    """Floor and roof slabs, stepped where they step, and the end walls between them."""
    x0, x1, y0, y1 = coach.bounds
    levels = coach.levels
    edges = sorted({x0, x1} | {edge for s in levels.steps for edge in (s.x0, s.x1) if x0 < edge < x1})
    panel.draw(Box(x0, x1, y0, y1, levels.at("floor", x0, x0), levels.roof), SHELL, 1, "shell")
    for start, end in zip(edges, edges[1:], strict=False):
        floor, ceiling = levels.at("floor", start, end), levels.at("ceiling", start, end)
        panel.draw(Box(start, end, y0, y1, floor - levels.floor_thickness, floor), SLAB, 2)
        panel.draw(Box(start, end, y0, y1, ceiling, levels.roof), SLAB, 2)


def _walls(panel: Panel, coach: Coach) -> None:
    """Doors, windows and partitions; what is flat in this view gets a stroke wide enough to see."""
    kinds = (("partition", PARTITION, coach.partitions), ("window", WINDOW, coach.windows), ("door", DOOR, coach.doors))
    for kind, look, boxes in kinds:
        for name, box in boxes.items():
            if shows(coach, panel.view, box) and panel.view.name != "roof":
                at_wall = kind != "partition" and box.y0 != box.y1
                shape = panel.draw(thick(box, panel, 0.9), look, 3 if at_wall else 3.2, f"{kind}-{name}")
                if kind == "door":
                    shape.set_linestyle((0, (5, 1.2)))
