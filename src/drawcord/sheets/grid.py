"""A table on the page, its cells wrapped to their columns, and how high it will be."""

from matplotlib.axes import Axes

from drawcord.sheets.style import INK, RULE, SMALL
from drawcord.sheets.text import line_height, text_width, wrap, write

PAD = 1.2  # mm between columns


def column_widths(rows: list[list[str]], width: float) -> list[float]:
    """Widths [mm] that fill `width`: what the widest cells ask, less in the widest columns if need be."""
    by_column = zip(*rows, strict=True)
    asked = [max(text_width(cell, SMALL, bold=not i) for i, cell in enumerate(cells)) for cells in by_column]
    room = width - PAD * (len(asked) - 1)
    limit = max(asked)
    while sum(min(a, limit) for a in asked) > room and limit > 4:
        limit -= 0.25
    widths = [min(a, limit) for a in asked]
    widths[-1] += max(0.0, room - sum(widths))
    return widths


def table_height(rows: list[list[str]], width: float) -> float:
    """How high a table of this width becomes [mm]."""
    return sum(_height(row, column_widths(rows, width), bold=not i) for i, row in enumerate(rows))


def draw_table(page: Axes, x: float, y: float, width: float, rows: list[list[str]]) -> float:
    """Draw rows, the first of them the header, with the upper left at (x, y) [mm]; returns the lower edge."""
    widths = column_widths(rows, width)
    for index, row in enumerate(rows):
        left = x
        for cell, column in zip(row, widths, strict=True):
            for number, line in enumerate(wrap(cell, column, SMALL, bold=not index)):
                write(page, left, y - 0.55 - number * line_height(SMALL), line, size=SMALL, bold=not index)
            left += column + PAD
        y -= _height(row, widths, bold=not index)
        page.plot([x, x + width], [y, y], color=RULE if index else INK, linewidth=0.5)
    return y


def _height(row: list[str], widths: list[float], *, bold: bool) -> float:
    most = max(len(wrap(cell, width, SMALL, bold)) for cell, width in zip(row, widths, strict=True))
    return most * line_height(SMALL) + 0.9
