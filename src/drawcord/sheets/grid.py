"""A table on the page, its cells wrapped to their columns, and how high it will be."""

from matplotlib.axes import Axes

from drawcord.sheets.style import INK, RULE, SMALL
from drawcord.sheets.text import line_height, text_width, wrap, write

PAD = 1.2  # mm between columns
STEP = 0.25  # mm by which a column is narrowed


def column_widths(rows: list[list[str]], width: float) -> list[float]:
    """Widths [mm] that fill `width`, taken from where the most can go before a word breaks."""
    columns = [
        [(cell, not number) for number, cell in enumerate(column)] for column in zip(*rows, strict=True)
    ]
    widths = [max(text_width(cell, SMALL, bold) for cell, bold in column) for column in columns]
    least = [
        max(text_width(word, SMALL, bold) for cell, bold in column for word in cell.split(" "))
        for column in columns
    ]
    room = width - PAD * (len(widths) - 1)
    while sum(widths) > room and max(widths) > STEP:
        spare = [max(0.0, wide - word) for wide, word in zip(widths, least, strict=True)]
        widths[max(range(len(widths)), key=lambda i: (spare[i], widths[i]))] -= STEP
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
