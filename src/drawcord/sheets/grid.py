"""A table on the page, its cells wrapped to their columns, and how high it will be."""

from matplotlib.axes import Axes

from drawcord.sheets.style import INK, RULE, SMALL
from drawcord.sheets.text import line_height, text_width, wrap, write

PAD = 1.2  # mm between columns
STEP = 0.5  # mm by which a column is narrowed at a time


def natural_widths(rows: list[list[str]]) -> list[float]:
    """How wide each column would be if nothing wrapped [mm]."""
    columns = zip(*rows, strict=True)
    return [max(text_width(cell, SMALL, bold=not i) for i, cell in enumerate(column)) for column in columns]


def column_widths(rows: list[list[str]], width: float) -> list[float]:
    """Widths [mm] that fill `width`; where it is too little, first the headers wrap, then the longest cells."""
    widths = natural_widths(rows)
    room = width - PAD * (len(widths) - 1)
    words = [
        [max(text_width(word, SMALL, bold=not i) for word in cell.split(" ")) for cell in row]
        for i, row in enumerate(rows)
    ]
    body = natural_widths([[""] * len(widths), *rows[1:]])
    for least in (
        [max(pair) for pair in zip(body, words[0], strict=True)],  # every row in one line, headers in more
        [max(column) for column in zip(*words, strict=True)],  # no word broken
        [STEP] * len(widths),
    ):
        while sum(widths) > room:
            spare = [wide - floor for wide, floor in zip(widths, least, strict=True)]
            if max(spare) <= 0:
                break
            widths[spare.index(max(spare))] -= min(STEP, max(spare))
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
