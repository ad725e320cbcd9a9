"""Signs on the cable: holes, joints and both ends, each with its tag."""

from typing import NamedTuple

from matplotlib.axes import Axes

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.routes.route import Bore, Route
from drawcord.sheets.drawing import draw_line
from drawcord.sheets.holes import from_edge
from drawcord.sheets.labels import Patch
from drawcord.sheets.lengths import length
from drawcord.sheets.panel import Panel
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import CABLE, JOINT, POINT
from drawcord.sheets.tags import END_TAG, HOLE_TAG, TagLook, put_tag
from drawcord.sheets.views import owns


class Symbol(NamedTuple):
    """A marker of matplotlib's: its sign, size and edge [pt], and what fills it."""

    sign: str
    size: float
    fill: str
    edge: float


LITTLE = 15.0  # mm of leader, in terms of which a board counts what a tag hides
FRAME = Symbol("s", 6.4, "white", 0.8)
ROOF_HOLE = (FRAME, Symbol("x", 3.6, CABLE, 0.9))
INNER_HOLE = (FRAME, Symbol("+", 4.4, CABLE, 0.9))
JOINED = (Symbol("D", 4.2, JOINT, 0.9),)
START, END = (Symbol("^", 5.5, CABLE, 0.8),), (Symbol("v", 5.5, CABLE, 0.8),)


class Mark(NamedTuple):
    """A place on the route: its id and tag, where it is drawn, and the points that make a view its home."""

    gid: str
    tag: str
    look: TagLook
    symbols: tuple[Symbol, ...]
    at: Point
    homes: tuple[Point, ...]


def marks_of(coach: Coach, route: Route) -> list[Mark]:
    """Ends, holes and joints of a route."""
    start, end = route.legs[0].points[0], route.legs[-1].points[-1]
    first, last = ends_of(coach, route)
    marks = [
        Mark("start", first, END_TAG, START, start, (start,)),
        Mark("end", last, END_TAG, END, end, (end,)),
    ]
    marks += [hole_mark(hole, hole.id) for hole in route.holes]
    for number, joint in enumerate(route.joints, start=1):
        name = f"J{number}"
        marks.append(Mark(f"joint-{name}", name, HOLE_TAG, JOINED, joint.point, (joint.point,)))
    return marks


def hole_mark(hole: Bore, tag: str) -> Mark:
    """A hole with its tag, the first word of which is its name."""
    symbols = ROOF_HOLE if hole.kind == "roof" else INNER_HOLE
    x, y, z = ((a + b) // 2 for a, b in zip(hole.near, hole.far, strict=True))
    outside = max(hole.near, hole.far, key=lambda point: point[2])  # of the roof: a plan below shows no hole in it
    homes = (outside,) if hole.kind == "roof" else (hole.near, hole.far)
    return Mark(f"hole-{tag.split(maxsplit=1)[0]}", tag, HOLE_TAG, symbols, (x, y, z), homes)


def ends_of(coach: Coach, route: Route) -> tuple[str, str]:
    """The names of the terminals that a route joins."""
    cable = coach.job.cables.get(route.cable) if coach.job else None
    return (cable.start, cable.end) if cable else ("start", "end")


def draw_marks(panel: Panel, coach: Coach, route: Route) -> list[Mark]:
    """Draw every mark that is at home in a view; returns these."""
    marks = [mark for mark in marks_of(coach, route) if any(owns(coach, panel.view, at, at) for at in mark.homes)]
    for mark in marks:
        for symbol in mark.symbols:
            draw_symbol(panel, panel.view.flat(mark.at), symbol, mark.gid)
    return marks


def tag_marks(panel: Panel, coach: Coach, marks: list[Mark], units: str) -> None:
    """Name the marks; in the roof plan a roof hole says what a tape reads, if that hides little."""
    for mark in marks:
        anchor = panel.at(panel.view.flat(mark.at))
        if panel.view.name == "roof" and mark.symbols == ROOF_HOLE:
            edge, across = from_edge(coach, mark.at[1], on_roof=True)
            front = length(mark.at[0] - coach.bounds[0], units)
            text = f"{mark.tag}: {front} from front,\n{length(across, units)} from {edge}"
            if put_tag(panel.page, panel.board, text, mark.look, (), anchor, LITTLE):
                continue
        put_tag(panel.page, panel.board, mark.tag, mark.look, (), anchor)


def draw_symbol(panel: Panel, at: Flat, symbol: Symbol, gid: str, ink: str = CABLE) -> Axes:
    """Draw a symbol at a point of the view, and keep tags off it."""
    x, y = at
    mark = draw_line(panel.ax, [x], [y], marker=symbol.sign, markersize=symbol.size, color=ink, zorder=12)
    mark.set(markerfacecolor=symbol.fill, markeredgewidth=symbol.edge)
    mark.set_gid(f"{panel.view.name}-{gid}{'' if symbol is not FRAME else '-frame'}")
    size = (symbol.size + symbol.edge) * POINT
    panel.board.block(Patch.around(panel.at((x, y)), size, size))
    return panel.ax
