"""A table on the page, its cells wrapped to their columns, and how high it will be."""

from matplotlib.axes import Axes

from drawcord.sheets.lines import words
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
    longest = [
        [max(text_width(word, SMALL, bold=not i) for word in words(cell)) for cell in row]
        for i, row in enumerate(rows)
    ]
    body = natural_widths([[""] * len(widths), *rows[1:]])
    for least in (
        [max(pair) for pair in zip(body, longest[0], strict=True)],  # every row in one line, headers in more
        [max(column) for column in zip(*longest, strict=True)],  # nothing broken that may not break
        [STEP] * len(widths),
    ):
        while sum(widths) > room:
            spare = [wide - floor for wide, floor in zip(widths, least, strict=True)]
            if max(spare) <= 0:
                break
            widths[spare.index(max(spare))] -= min(STEP, max(spare))
    widths[-1] += max(0.0, room - sum(widths))
    return widths


def row_heights(rows: list[list[str]], width: float) -> list[float]:
    """How high each row of a table of this width becomes [mm]."""
    widths = column_widths(rows, width)
    return [
        max(len(wrap(cell, column, SMALL, bold=not index)) for cell, column in zip(row, widths, strict=True))
        * line_height(SMALL)
        + 0.9
        for index, row in enumerate(rows)
    ]


def draw_table(page: Axes, x: float, y: float, width: float, rows: list[list[str]], shown: int) -> float:
    """Draw the header and the first `shown` rows under it, with the upper left at (x, y) [mm].

    Returns the lower edge. The columns are as wide as all rows ask.
    """
    widths = column_widths(rows, width)
    heights = row_heights(rows, width)
    for index, row in enumerate(rows[: shown + 1]):
        left = x
        for cell, column in zip(row, widths, strict=True):
            for number, line in enumerate(wrap(cell, column, SMALL, bold=not index)):
                write(page, left, y - 0.55 - number * line_height(SMALL), line, size=SMALL, bold=not index)
            left += column + PAD
        y -= heights[index]
        page.plot([x, x + width], [y, y], color=RULE if index else INK, linewidth=0.5)
    return y
