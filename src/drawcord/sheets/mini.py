"""A route small: one plan and one section, all levels seen through, no tags."""

from itertools import pairwise

from matplotlib.axes import Axes

from drawcord.coach.coach import Coach
from drawcord.routes.route import Route
from drawcord.sheets import style
from drawcord.sheets.backdrop import draw_shell
from drawcord.sheets.lanes import Stretch, set_apart
from drawcord.sheets.panel import Panel
from drawcord.sheets.style import LOOKS, Look
from drawcord.sheets.views import View, views

APART = 1.0  # mm of paper between stretches that run together
FAINT = Look("none", "", "#c4bfb4", width=0.4)


def small_views(coach: Coach) -> tuple[View, View]:
    """The plan and the section of a card."""
    shown = views(coach, frozenset())
    plan, section = shown[0], shown[-1]
    return (
        plan._replace(name="plan", title="from above"),
        section._replace(name="section", title="from the side"),
    )


def draw_small(panel: Panel, coach: Coach, route: Route) -> Axes:
    """Draw the shell and all spaces faintly, those of the route in their hatch and tint, and the route."""
    draw_shell(panel, coach)
    for name, space in coach.spaces.items():
        if space.kind not in ("roof", "room"):
            panel.draw(space.box, FAINT, 3)
            if name in route.spaces:
                panel.draw(space.box, LOOKS[space.kind]._replace(width=0.8), 4, f"space-{name}")
    for part in coach.moving_parts.values():
        panel.draw(part.drawn, style.SWEEP, 5)
    for obstacle in coach.obstacles.values():
        panel.draw(obstacle.box, style.OBSTACLE._replace(width=0.4), 5)
    _run(panel, route)
    return panel.ax


def _run(panel: Panel, route: Route) -> None:
    flat = panel.view.flat
    stretches = [
        Stretch(number, flat(start), flat(end), own=True)
        for number, leg in enumerate(route.legs, start=1)
        for start, end in pairwise(leg.points)
        if flat(start) != flat(end)
    ]
    for points in set_apart(stretches, APART * panel.scale):
        xs, ys = zip(*points, strict=True)
        panel.ax.plot(xs, ys, color="white", linewidth=2.6, zorder=8, solid_capstyle="round")
        panel.ax.plot(xs, ys, color=style.CABLE, linewidth=1.3, zorder=9, solid_capstyle="round")
    marks = [(hole.near, "x" if hole.kind == "roof" else "+", 4.5) for hole in route.holes]
    marks += [(joint.point, "D", 2.8) for joint in route.joints]
    marks += [(route.legs[0].points[0], "^", 4.0), (route.legs[-1].points[-1], "v", 4.0)]
    for point, marker, size in marks:
        x, y = flat(point)
        panel.ax.plot(x, y, marker=marker, markersize=size, color=style.CABLE, markeredgewidth=1.0, zorder=10)
