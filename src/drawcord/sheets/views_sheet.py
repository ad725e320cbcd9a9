"""Sheets of views with what lies over them: every view at one scale, aligned, with tables and the key."""

from collections.abc import Sequence

from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.sheets import page as sheet
from drawcord.sheets.column import column_scale, column_width, draw_column
from drawcord.sheets.flow import GAP, WIDTH, Block, Table, follow, pour
from drawcord.sheets.grid import natural_width
from drawcord.sheets.key import key_of
from drawcord.sheets.labels import Patch
from drawcord.sheets.legend import legend
from drawcord.sheets.overlay import Overlay
from drawcord.sheets.style import A4, MARGIN, house_style
from drawcord.words.finding import Finding

BESIDE = 90.0  # mm with which the tables stand beside the views instead of under them
UNDER = 75.0  # mm at most under the views
RIGHT = A4[0] - MARGIN
Column = tuple[float, float, Sequence[Table]]  # where it starts and how wide it is [mm], and what stands in it


def views_sheets(
    coach: Coach,
    over: Overlay,
    head: tuple[str, list[str]],
    tables: Sequence[Table],
    said: Sequence[Finding],
    units: str,
) -> list[Figure]:
    """Draw on upright A4 sheets what lies over the views, under a `head` of a title and lines; at least one table.

    The first has the views and as much of tables and key as fits; what is left goes onto others.
    """
    title, lines = head
    with house_style():
        key = key_of(coach)
        figure, page = sheet.new_page(upright=True)
        top, low = sheet.head(page, title, lines), sheet.foot(page, said)
        scale = column_scale(coach, over.used, top - low)
        side = WIDTH - GAP - column_width(coach, scale)
        if side >= BESIDE:
            columns: list[Column] = [(RIGHT - side, side, tables)]
            most = top - low - legend(coach, key, (side, 0), over).height  # the key in its smallest type
        else:
            columns, most = _in_two(tables), UNDER
        high = low + min(most, max(map(_height, columns)))
        rest: list[Block] = []
        for x, width, blocks in columns:
            rest += pour(page, blocks, [Patch(x, x + width, low, high)], 1)
        if side < BESIDE:
            scale = column_scale(coach, over.used, top - high)
        x = MARGIN + GAP + draw_column(figure, page, coach, key, (MARGIN, top), scale, units, over)
        listing = legend(coach, key, (RIGHT - x, top - high), over)
        rest += pour(page, [listing], [Patch(x, RIGHT, high, top)], 1)
        return follow([(figure, page)], rest, title, said)


def _in_two(tables: Sequence[Table]) -> list[Column]:
    """The tables in two columns: the first left, the second right, the rest where it makes less height."""
    left = min(max(natural_width(tables[0].rows) + 0.1, 0.3 * WIDTH), 0.5 * WIDTH)
    right = WIDTH - left - GAP
    first, second, rest = tables[:1], tables[1:2], tables[2:]
    ways: list[list[Column]] = [
        [(MARGIN, left, one), (MARGIN + left + GAP, right, other)]
        for one, other in (([*first], [*second, *rest]), ([*first, *rest], [*second]))
    ]
    return min(ways, key=lambda across: max(map(_height, across)))


def _height(column: Column) -> float:
    _, width, tables = column
    return sum(table.height(width) for table in tables)
