"""A route small: one plan and one section of the stretch that it uses, all levels seen through."""

from itertools import pairwise

from matplotlib.axes import Axes

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.routes.route import Route
from drawcord.sheets import style
from drawcord.sheets.backdrop import draw_shell
from drawcord.sheets.drawing import draw_line
from drawcord.sheets.lanes import Stretch, set_apart
from drawcord.sheets.marks import END, INNER_HOLE, JOINED, ROOF_HOLE, START, Symbol
from drawcord.sheets.panel import Panel
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import LOOKS, Look
from drawcord.sheets.views import View, shell_of, span_x, views

APART = 1.3  # mm of paper between stretches that run together
NEAR = 1.5  # mm of paper within which a symbol would hide another
AROUND = 600  # mm shown before and behind what the routes use
LITTLE = 200  # mm shown above and below the body and the route
FAINT = Look("none", "", "#c4bfb4", width=0.4)


def stretch_x(coach: Coach, route: Route, least: int = 0) -> tuple[int, int]:
    """The stretch along the vehicle that a route uses with a margin, or `least` of the vehicle around it [mm]."""
    xs = [x for leg in route.legs for x, _, _ in leg.points]
    low, high = min(xs) - AROUND, max(xs) + AROUND
    more = max(0, least - (high - low)) // 2
    first, last = span_x(coach)
    low, high = max(first, low - more), min(last, high + more)
    return max(first, min(low, high - least)), min(last, max(high, low + least))


def small_views(coach: Coach, route: Route) -> tuple[View, View]:
    """The plan and the section of a card; the section no higher than the body and the route in it."""
    shown = views(coach, frozenset())
    plan, section = shown[0], shown[-1]
    zs = [z for leg in route.legs for _, _, z in leg.points]
    low = max(section.low, min(-coach.levels.floor_thickness, *zs) - LITTLE)
    high = min(section.high, max(coach.levels.roof, *zs) + LITTLE)
    return (
        plan._replace(name="plan", title="from above"),
        section._replace(name="section", title="from the side", low=low, high=high),
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
    _run(panel, coach, route)
    return panel.ax


def _run(panel: Panel, coach: Coach, route: Route) -> None:
    flat = panel.view.flat
    stretches = [
        Stretch(number, flat(start), flat(end), own=True)
        for number, leg in enumerate(route.legs, start=1)
        for start, end in pairwise(leg.points)
        if flat(start) != flat(end)
    ]
    for points in set_apart(stretches, APART * panel.scale, shell_of(panel.view, coach)):
        xs, ys = zip(*points, strict=True)
        draw_line(panel.ax, xs, ys, color="white", linewidth=2.6, zorder=8, solid_capstyle="round")
        draw_line(panel.ax, xs, ys, color=style.CABLE, linewidth=1.3, zorder=9, solid_capstyle="round")
    shown: list[Flat] = []
    for point, symbols in _marks(route):
        x, y = flat(point)
        if all(max(abs(x - a), abs(y - b)) > NEAR * panel.scale for a, b in shown):
            shown.append((x, y))
            for symbol in symbols:
                mark = draw_line(panel.ax, [x], [y], marker=symbol.sign, color=style.CABLE, zorder=10)
                mark.set(markersize=symbol.size, markerfacecolor=symbol.fill, markeredgewidth=symbol.edge)


def _marks(route: Route) -> list[tuple[Point, tuple[Symbol, ...]]]:
    """Symbols by place, those first that are drawn where several coincide."""
    ends = [(route.legs[0].points[0], START), (route.legs[-1].points[-1], END)]
    holes = [(hole.near, ROOF_HOLE if hole.kind == "roof" else INNER_HOLE) for hole in route.holes]
    holes.sort(key=lambda mark: mark[1] is not ROOF_HOLE)
    return [*ends, *holes, *((joint.point, JOINED) for joint in route.joints)]
