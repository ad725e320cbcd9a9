"""A list on the page: headings, signs with their meaning, and tags with names in columns."""

from collections.abc import Callable
from itertools import accumulate
from math import ceil
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from drawcord.sheets.drawing import draw_line, draw_shape
from drawcord.sheets.labels import Patch
from drawcord.sheets.marks import Symbol
from drawcord.sheets.page import heading
from drawcord.sheets.style import BODY, CABLE, POINT, Dashes, Look
from drawcord.sheets.text import line_height, text_width, wrap, write

SWATCH = (5.0, 2.3)
AIR = 0.7  # mm between a sign and the items under it
TEXT = SWATCH[0] + 1.4  # mm from the left of a sign to its meaning
Draw = Callable[[Axes, float, float], object]


class Row(NamedTuple):
    """A row: how high it is [mm], what draws it with its upper left at (x, y), whether it is a heading or items."""

    height: float
    draw: Draw
    opens: bool = False
    lists: bool = False


class Listing:
    """Rows of one width [mm] in one size of type [pt], drawn downwards when all are known."""

    def __init__(self, width: float, size: float) -> None:
        self.width, self.size = width, size
        self.step = size * POINT * 1.2  # from line to line
        self.tab = size * 0.78  # from a tag to its name
        self.rows: list[Row] = []

    @property
    def height(self) -> float:
        """How high all rows are together [mm]."""
        return sum(row.height for row in self.rows)

    def pour(self, page: Axes, area: Patch, onward: str, least: int) -> tuple[float, "Listing | None"]:
        """Draw as many rows as fit into the area from its top, but at least `least`; see flow.Block."""
        tops = [area.y1, *(area.y1 - height for height in accumulate(row.height for row in self.rows))]
        shown = len(self.rows)
        if tops[-1] < area.y0:
            room = area.y0 + self.step  # for the line that says where it goes on
            shown = max(least, sum(top >= room for top in tops[1:]))
            shown -= shown > least and self.rows[shown - 1].opens
        for row, top in zip(self.rows[:shown], tops, strict=False):
            row.draw(page, area.x0, top)
        if shown == len(self.rows):
            return tops[-1], None
        write(page, area.x0, tops[shown], onward, size=self.size)
        rest = Listing(self.width, self.size)
        rest.head("Key, continued")
        rest.rows += self.rows[shown:]
        return area.y0, rest

    def head(self, title: str) -> None:
        """Add a heading."""
        height = line_height(BODY) + 1.5

        def draw(page: Axes, x: float, y: float) -> None:
            heading(page, x, y - 0.6, title, self.width)

        self.rows.append(Row(height, draw, opens=True))

    def sign(self, draw: Draw, text: str, *, bold: bool = False) -> None:
        """Add a sign and what it means."""
        lines = wrap(text, self.width - TEXT, self.size, bold)
        height = max(SWATCH[1] + 0.6, self.step * len(lines))

        def both(page: Axes, x: float, y: float) -> None:
            draw(page, x, y - height / 2 + SWATCH[1] / 2)
            for number, line in enumerate(lines):
                middle = y - height / 2 + self.step * ((len(lines) - 1) / 2 - number)
                write(page, x + TEXT, middle, line, size=self.size, bold=bold, va="center")

        self.rows.append(Row(height, both))

    def items(self, items: list[tuple[str, str]]) -> None:
        """Add tags with names in columns; a long name takes several, one too long for a row is wrapped."""
        across = max(2, int(self.width / (3.4 * self.size)))
        wide = self.width / across
        waiting: list[tuple[int, str, tuple[str, ...]]] = []  # first column, tag, lines
        column = 0
        for tag, name in items:
            span = min(across, ceil((self.tab + text_width(name, self.size) + 1.0) / wide))
            if column + span > across:
                self._item_row(waiting, wide)
                waiting, column = [], 0
            waiting.append((column, tag, wrap(name, span * wide - self.tab, self.size)))
            column += span
        if waiting:
            self._item_row(waiting, wide)

    def _item_row(self, items: list[tuple[int, str, tuple[str, ...]]], wide: float) -> None:
        air = AIR * bool(self.rows and not self.rows[-1].lists)  # off the sign above

        def draw(page: Axes, x: float, y: float) -> None:
            for column, tag, lines in items:
                write(page, x + column * wide, y - air, tag, size=self.size, bold=True)
                for number, line in enumerate(lines):
                    write(page, x + column * wide + self.tab, y - air - number * self.step, line, size=self.size)

        self.rows.append(Row(air + self.step * max(len(lines) for _, _, lines in items), draw, lists=True))


def sample(look: Look) -> Draw:
    """Draws a small sample of a look."""

    def draw(page: Axes, x: float, y: float) -> None:
        box = Rectangle((x, y - SWATCH[1]), *SWATCH, hatch=look.hatch or None, linestyle=look.line)
        box.set(facecolor=look.tint, edgecolor=look.ink, linewidth=max(look.width, 0.6))
        draw_shape(page, box)

    return draw


def stroke(width: float, dashes: Dashes) -> Draw:
    """Draws a stretch of cable."""

    def draw(page: Axes, x: float, y: float) -> None:
        line = (y - SWATCH[1] / 2,) * 2
        draw_line(page, [x, x + SWATCH[0]], line, color=CABLE, linewidth=width, linestyle=dashes)

    return draw


def symbols(*drawn: Symbol) -> Draw:
    """Draws symbols over one another."""

    def draw(page: Axes, x: float, y: float) -> None:
        for sign, size, fill, edge in drawn:
            mark = draw_line(page, [x + SWATCH[0] / 2], [y - SWATCH[1] / 2], marker=sign, markersize=size)
            mark.set(color=CABLE, markerfacecolor=fill, markeredgewidth=edge)

    return draw
