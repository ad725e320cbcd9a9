"""A view on the page: its axes, placed by hand in mm so that all views share one scale and one x."""

from collections.abc import Iterator
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon

from drawcord.coach.box import Box
from drawcord.sheets.drawing import draw_shape
from drawcord.sheets.labels import Board, Patch
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import SMALL, Look
from drawcord.sheets.text import line_height
from drawcord.sheets.views import View

SCALES: tuple[int, ...] = (*range(10, 150, 5), *range(150, 300, 10), 300, 400, 500)  # 1:n
EDGE = 1.2  # mm of paper drawn beyond what a view spans, on every side
GUTTER = 3.4  # mm between two views, for the title of the lower one


@dataclass(frozen=True)
class Panel:
    """A view's axes `ax`, whose data are mm of coach, on the page `page`, whose data are mm of paper."""

    view: View
    ax: Axes
    page: Axes
    board: Board
    corner: Flat  # on paper, of the least x and least height that the view spans
    origin: tuple[int, int]  # those two [mm of coach]
    scale: int

    def at(self, flat: Flat) -> Flat:
        """Where a point of the view lies on the page."""
        x, y = (value - first for value, first in zip(flat, self.origin, strict=True))
        return self.corner[0] + x / self.scale, self.corner[1] + y / self.scale

    def patch(self, box: Box) -> Patch:
        """The rectangle on the page that a box covers."""
        low, high = box.span(self.view.up)
        (x0, y0), (x1, y1) = self.at((box.x0, low)), self.at((box.x1, high))
        return Patch(x0, x1, y0, y1)

    def draw(self, box: Box, look: Look, zorder: float, gid: str = "") -> None:
        """Draw a box as this view sees it."""
        low, high = box.span(self.view.up)
        shape = Polygon(  # a `Rectangle` asks for its units and its place anew whenever it is looked at
            [(box.x0, low), (box.x1, low), (box.x1, high), (box.x0, high)],
            facecolor=look.tint,
            edgecolor=look.ink,
            hatch=look.hatch or None,
            linewidth=look.width,
            linestyle=look.line,
            zorder=zorder,
            joinstyle="miter",
        )
        if gid:
            shape.set_gid(f"{self.view.name}-{gid}")
        draw_shape(self.ax, shape)


def thick(box: Box, panel: Panel, least: float) -> Box:
    """The box, in plan at least `least` [mm of paper] thick, so that what is flat can be seen."""
    size = int(least * panel.scale)
    along, across = (max(0, size - (high - low)) // 2 for low, high in (box.span(0), box.span(1)))
    return box.grow(along, across, 0)


def fitting_scale(shown: tuple[View, ...], span: tuple[int, int], width: float, height: float) -> int:
    """The largest scale 1:n of the series at which the views, stacked, fit width × height [mm of paper]."""
    along = span[1] - span[0]
    up = sum(view.high - view.low for view in shown)
    room = height - len(shown) * (GUTTER + 2 * EDGE)
    return next((n for n in SCALES if along / n <= width - 2 * EDGE and up / n <= room), SCALES[-1])


def stack(
    figure: Figure, page: Axes, shown: tuple[View, ...], span: tuple[int, int], top: Flat, scale: int
) -> Iterator[Panel]:
    """Panels for the views, one under another, aligned in x; `top` is the upper left corner of the first."""
    paper = figure.get_size_inches() * 25.4
    left, upper = top
    for view in shown:
        width, height = (span[1] - span[0]) / scale + 2 * EDGE, (view.high - view.low) / scale + 2 * EDGE
        lower = upper - GUTTER - height
        ax = figure.add_axes(
            (left / paper[0], lower / paper[1], width / paper[0], height / paper[1]), label=view.name
        )
        ax.set_xlim(span[0] - EDGE * scale, span[1] + EDGE * scale)
        ax.set_ylim(view.low - EDGE * scale, view.high + EDGE * scale)
        ax.set_axis_off()
        title = line_height(SMALL) + 0.4
        board = Board(view.name, Patch(left, left + width, lower - 0.2, upper - title))
        yield Panel(view, ax, page, board, (left + EDGE, lower + EDGE), (span[0], view.low), scale)
        upper = lower
