"""The chosen route in a view: cable, holes, joints and terminals, with their tags."""

from matplotlib.axes import Axes

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.routes.route import Route
from drawcord.sheets.labels import Flat, Patch
from drawcord.sheets.lanes import Stretch, set_apart
from drawcord.sheets.panel import Panel
from drawcord.sheets.style import CABLE, CABLE_WIDTH, JOINT, SEEN_THROUGH
from drawcord.sheets.holes import from_side
from drawcord.sheets.tags import END_TAG, HOLE_TAG, LEG_TAG, put_tag
from drawcord.sheets.views import owns
from drawcord.words.units import format_length

APART = 1.2  # mm of paper between stretches that run together
Line = tuple[Stretch, list[Flat]]


def lines(panel: Panel, coach: Coach, route: Route) -> list[Line]:
    """What to draw of each stretch of the route that has a length in this view."""
    stretches = [
        Stretch(number, panel.view.flat(start), panel.view.flat(end), owns(coach, panel.view, start, end))
        for number, leg in enumerate(route.legs, start=1)
        for start, end in zip(leg.points, leg.points[1:], strict=False)
        if panel.view.flat(start) != panel.view.flat(end)
    ]
    return list(zip(stretches, set_apart(stretches, APART * panel.scale), strict=True))


def draw_cable(panel: Panel, drawn: list[Line]) -> Axes:
    """Draw the cable: solid where it is at home in this view, ghosted where it is seen through."""
    for stretch, points in drawn:
        xs, ys = zip(*points, strict=True)
        if stretch.own:
            panel.ax.plot(xs, ys, color="white", linewidth=CABLE_WIDTH + 1.6, zorder=9, solid_capstyle="round")
        dashes = "-" if stretch.own else SEEN_THROUGH
        width = CABLE_WIDTH if stretch.own else 0.8
        (line,) = panel.ax.plot(
            xs, ys, color=CABLE, linewidth=width, linestyle=dashes, zorder=10, solid_capstyle="round"
        )
        line.set_gid(f"{panel.view.name}-leg-{stretch.leg}")
        for (x0, y0), (x1, y1) in zip(points, points[1:], strict=False):
            (left, low), (right, high) = panel.at((min(x0, x1), min(y0, y1))), panel.at((max(x0, x1), max(y0, y1)))
            panel.board.avoid(Patch(left - 0.3, right + 0.3, low - 0.3, high + 0.3), 4.0 if stretch.own else 1.0)
    return panel.ax


def draw_marks(panel: Panel, coach: Coach, route: Route) -> Axes:
    """Draw upright cable as rings on plans, and holes, joints and both ends as their own symbols."""
    for number, leg in enumerate(route.legs, start=1):
        for start, end in zip(leg.points, leg.points[1:], strict=False):
            if _end_on(panel, coach, start, end):
                _mark(panel, start, f"leg-{number}-end-on", "o", 3.6, fill="white", width=1.1)
    for number, hole in enumerate(route.holes, start=1):
        if _at_home(panel, coach, hole.near, hole.far):
            for marker, fill, size in (("s", "white", 5.2), ("x" if hole.kind == "roof" else "+", CABLE, 5.2)):
                _mark(panel, _between(hole.near, hole.far), f"hole-H{number}{marker}", marker, size, fill=fill, width=1.0)
    for number, joint in enumerate(route.joints, start=1):
        if owns(coach, panel.view, joint.point, joint.point):
            _mark(panel, joint.point, f"joint-J{number}", "D", 4.2, fill=JOINT, width=0.9)
    for name, point, marker in (("start", route.legs[0].points[0], "^"), ("end", route.legs[-1].points[-1], "v")):
        if owns(coach, panel.view, point, point):
            _mark(panel, point, f"terminal-{name}", marker, 5.5, fill=CABLE, width=0.8)
    return panel.ax


def _mark(panel: Panel, point: Point, gid: str, marker: str, size: float, *, fill: str, width: float) -> None:
    x, y = panel.view.flat(point)
    (mark,) = panel.ax.plot(
        [x], [y], marker=marker, markersize=size, color=CABLE, markerfacecolor=fill, markeredgewidth=width, zorder=12
    )
    mark.set_gid(f"{panel.view.name}-{gid}")
    half = (size + width) * 25.4 / 72 / 2
    panel.board.block(Patch.around(panel.at((x, y)), 2 * half, 2 * half))


def tag_route(panel: Panel, coach: Coach, route: Route, drawn: list[Line], units: str) -> None:
    """Number the legs where they are at home, and name holes, joints and both ends; a roof hole in the roof
    plan with what a tape reads from the front and from the nearer side."""
    page, board = panel.page, panel.board
    for number, leg in enumerate(route.legs, start=1):
        own = [points for stretch, points in drawn if stretch.leg == number and stretch.own]
        wishes = _along([[panel.at(p) for p in points] for points in own])
        upright = [
            panel.at(panel.view.flat(start))
            for start, end in zip(leg.points, leg.points[1:], strict=False)
            if _end_on(panel, coach, start, end)
        ]
        anchor = wishes[0] if wishes else upright[0] if upright else None
        if anchor:
            put_tag(page, board, str(number), LEG_TAG, wishes, anchor)
    cable = coach.job.cables.get(route.cable) if coach.job else None
    names = (cable.start, cable.end) if cable else ("start", "end")
    points = ((names[0], route.legs[0].points[0]), (names[1], route.legs[-1].points[-1]))
    for text, point in points:
        if owns(coach, panel.view, point, point):
            put_tag(page, board, text, END_TAG, (), panel.at(panel.view.flat(point)))
    for number, hole in enumerate(route.holes, start=1):
        if _at_home(panel, coach, hole.near, hole.far):
            text = f"H{number}"
            if hole.kind == "roof" and panel.view.name == "roof":
                side, across = from_side(coach, hole.near[1], on_roof=True)
                front = format_length(hole.near[0] - coach.bounds[0], units)
                text += f": {front} from front, {format_length(across, units)} from {side} edge"
            put_tag(page, board, text, HOLE_TAG, (), panel.at(panel.view.flat(_between(hole.near, hole.far))))
    for number, joint in enumerate(route.joints, start=1):
        if owns(coach, panel.view, joint.point, joint.point):
            put_tag(page, board, f"J{number}", HOLE_TAG, (), panel.at(panel.view.flat(joint.point)))


def _along(pieces: list[list[Flat]]) -> list[Flat]:
    """Points on the cable at which its number can sit, the middle of the longest straight first."""
    straights = [pair for points in pieces for pair in zip(points, points[1:], strict=False)]
    straights.sort(key=lambda pair: -abs(pair[0][0] - pair[1][0]) - abs(pair[0][1] - pair[1][1]))
    return [
        (a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1]))
        for part in (0.5, 0.3, 0.7, 0.15, 0.85)
        for a, b in straights
        if abs(a[0] - b[0]) + abs(a[1] - b[1]) > 3.5
    ]


def _end_on(panel: Panel, coach: Coach, start: Point, end: Point) -> bool:
    """Whether a stretch, longer than a slab is thick, is seen end on in its own view."""
    run = max(abs(a - b) for a, b in zip(start, end, strict=True))
    return panel.view.flat(start) == panel.view.flat(end) and run > 150 and owns(coach, panel.view, start, end)


def _at_home(panel: Panel, coach: Coach, *points: Point) -> bool:
    return any(owns(coach, panel.view, point, point) for point in points)


def _between(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) // 2, (a[1] + b[1]) // 2, (a[2] + b[2]) // 2
