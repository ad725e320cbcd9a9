"""A table on the page, its cells wrapped to their columns, and how high it will be."""

import math
from functools import lru_cache
from itertools import product

from matplotlib.axes import Axes

from drawcord.sheets.drawing import draw_line
from drawcord.sheets.lines import words
from drawcord.sheets.style import INK, RULE, SMALL
from drawcord.sheets.text import line_height, text_width, wrap, write

PAD = 1.2  # mm between columns
STEP = 0.25  # mm to which widths are found
MORE_LINES, MOST_HEADS = 20, 3  # tried in cells, beyond the fewest that there may be, and in headers


def natural_width(rows: list[list[str]]) -> float:
    """How wide a table is if nothing wraps [mm]."""
    columns = zip(*rows, strict=True)
    return sum(_needed(column, 1, 1) for column in columns) + PAD * (len(rows[0]) - 1)


@lru_cache(maxsize=64)
def _column_widths(rows: tuple[tuple[str, ...], ...], width: float) -> tuple[float, ...]:
    room = width - PAD * (len(rows[0]) - 1)
    columns = list(zip(*rows, strict=True))
    natural = [_needed(column, 1, 1) for column in columns]
    ink = sum(_least(column[1:], 1, bold=False) for column in columns)
    fewest = max(1, math.ceil(ink / room))  # with fewer lines not even the longest cells alone would find room
    for lines, heads in product(range(fewest, fewest + MORE_LINES), range(1, MOST_HEADS + 1)):
        widths = [_needed(column, lines, heads) for column in columns]
        if sum(widths) <= room:
            break
    while sum(widths) > room:  # no way but to break what should not
        widths[widths.index(max(widths))] -= STEP
    while (spare := room - sum(widths)) > 0:
        short = [whole / max(wide, STEP) for whole, wide in zip(natural, widths, strict=True)]
        narrow = short.index(max(short)) if max(short) > 1 else -1
        widths[narrow] += min(spare, STEP) if max(short) > 1 else spare
    return tuple(widths)


def _needed(column: tuple[str, ...], lines: int, heads: int) -> float:
    """The least width [mm] in which the header takes no more than `heads` lines and no cell more than `lines`."""
    return max(_least(column[:1], heads, bold=True), _least(column[1:], lines, bold=False))


@lru_cache(maxsize=1024)
def _least(cells: tuple[str, ...], lines: int, *, bold: bool) -> float:
    """The least width [mm] in which no cell takes more lines and nothing breaks that may not, to a STEP."""
    low = max((text_width(word, SMALL, bold) for cell in cells for word in words(cell)), default=0.0)
    whole = max((text_width(cell, SMALL, bold) for cell in cells), default=0.0)
    low, high = max(low, whole / lines), whole
    while high - low > STEP:
        middle = (low + high) / 2
        if all(len(wrap(cell, middle, SMALL, bold)) <= lines for cell in cells):
            high = middle
        else:
            low = middle
    return low if all(len(wrap(cell, low, SMALL, bold)) <= lines for cell in cells) else high


def column_widths(rows: list[list[str]], width: float) -> tuple[float, ...]:
    """Widths [mm] that fill `width` with the fewest lines in the longest cell, then in the longest header.

    What is left over goes to the columns that are most short of room.
    """
    return _column_widths(tuple(map(tuple, rows)), width)


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
        draw_line(page, [x, x + width], [y, y], color=RULE if index else INK, linewidth=0.5)
    return y
