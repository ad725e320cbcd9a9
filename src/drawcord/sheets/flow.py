"""Blocks poured into the areas of a sheet, and what finds no room onto further sheets: nothing is left out."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol, Self

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from drawcord.sheets import page as sheet
from drawcord.sheets.grid import draw_table, row_heights
from drawcord.sheets.labels import Patch
from drawcord.sheets.style import A4, BODY, MARGIN, SMALL
from drawcord.sheets.text import line_height, write
from drawcord.words.finding import Finding

GAP = 4.0  # mm between columns
WIDTH = A4[0] - 2 * MARGIN
COLUMN = (WIDTH - GAP) / 2  # mm, of each of the two on a further sheet
HEADING, AFTER = line_height(BODY) + 0.7, 1.5  # mm over a table, for its title, and under it
HAIR = 1e-6  # mm by which sums of heights may miss


class Block(Protocol):
    """What can be poured."""

    def pour(self, page: Axes, area: Patch, onward: str, least: int) -> tuple[float, Self | None]:
        """Draw as many rows as fit into the area from its top, but at least `least`.

        Returns where the next block may start, and what is left; where that is not all, `onward` is written.
        """


@dataclass(frozen=True)
class Table:
    """A title over rows of cells, of which the first is the header."""

    title: str
    rows: list[list[str]]

    def height(self, width: float) -> float:
        """How high it is when no row is left [mm]."""
        return HEADING + sum(row_heights(self.rows, width)) + AFTER

    def pour(self, page: Axes, area: Patch, onward: str, least: int) -> tuple[float, "Table | None"]:
        """See Block."""
        width, room = area.x1 - area.x0, area.y1 - area.y0 + HAIR
        heights = row_heights(self.rows, width)
        whole = self.height(width) <= room
        room -= HEADING + AFTER + line_height(SMALL)
        fitting = [count for count in range(len(heights)) if whole or sum(heights[: count + 1]) <= room]
        shown = max(least, *fitting, 0)
        if not shown:
            return area.y1, self
        y = draw_table(page, area.x0, sheet.heading(page, area.x0, area.y1, self.title, width), width, self.rows, shown)
        if shown + 1 == len(self.rows):
            return y - AFTER, None
        write(page, area.x0, y - 0.5, onward, size=SMALL)
        return area.y0, Table(continued(self.title), [self.rows[0], *self.rows[shown + 1 :]])


def continued(title: str) -> str:
    """The title of what goes on."""
    return title if title.endswith(", continued") else f"{title}, continued"


def pour(page: Axes, blocks: Sequence[Block], areas: Sequence[Patch], number: int, least: int = 0) -> list[Block]:
    """Fill areas of sheet `number` with blocks, one after another; returns what is left for the next sheet.

    The first block of each area is given `least` rows whether they fit or not.
    """
    waiting = list(blocks)
    for area in areas:
        onward = f"… continued on sheet {number + 1}" if area is areas[-1] else "… continued in the next column"
        y = area.y1
        while waiting:
            y, left = waiting[0].pour(page, area._replace(y1=y), onward, least if y == area.y1 else 0)
            waiting[:1] = [left] if left else []
            if left:
                break
    return waiting


def follow(
    first: Sequence[tuple[Figure, Axes]],
    rest: list[Block],
    title: str,
    cautions: Sequence[Finding],
    *,
    across: int = 2,
) -> list[Figure]:
    """The first sheets and those that the rest of their blocks take, in so many columns; several are numbered."""
    wide = (WIDTH - (across - 1) * GAP) / across
    sheets = [*first]
    while rest:
        figure, page = sheet.new_page(upright=True)
        top, low = sheet.head(page, continued(title), []) - 1.0, sheet.foot(page, cautions)
        lefts = [MARGIN + number * (wide + GAP) for number in range(across)]
        areas = [Patch(x, x + wide, low, top) for x in lefts]
        sheets.append((figure, page))
        rest = pour(page, rest, areas, len(sheets), least=1)
    for number, (_, page) in enumerate(sheets, start=1):
        if len(sheets) > 1:
            sheet.number_sheet(page, number, len(sheets))
    return [figure for figure, _ in sheets]
