"""Sheets of a scene: every view at one scale, aligned, with tables and the key."""

from collections.abc import Sequence

from matplotlib.figure import Figure

from drawcord.sheets import page as sheet
from drawcord.sheets.column import column_scale, column_width, draw_column
from drawcord.sheets.flow import GAP, WIDTH, Block, Table, follow, pour
from drawcord.sheets.grid import natural_width
from drawcord.sheets.key import Key
from drawcord.sheets.labels import Patch
from drawcord.sheets.legend import legend
from drawcord.sheets.scene import Scene
from drawcord.sheets.style import A4, MARGIN, house_style
from drawcord.words.finding import Finding

BESIDE = 90.0  # mm with which the tables stand beside the views instead of under them
UNDER = 75.0  # mm at most under the views
RIGHT = A4[0] - MARGIN
Column = tuple[float, float, Sequence[Table]]  # where it starts and how wide it is [mm], and what stands in it


def views_sheets(
    scene: Scene,
    key: Key,
    head: tuple[str, list[str]],
    tables: Sequence[Table],
    said: Sequence[Finding],
    units: str,
    more: Sequence[Table] = (),
) -> list[Figure]:
    """Draw a scene on upright A4 sheets, under a `head` of a title and lines; with at least one table.

    The first has the views and as much of tables and key as fits; what is left goes onto others, and so does `more`
    where tables stand under the views, which are the larger for it.
    """
    title, lines = head
    with house_style():
        figure, page = sheet.new_page(upright=True)
        top, low = sheet.head(page, title, lines), sheet.foot(page, said)
        scale = column_scale(scene, top - low)
        side = WIDTH - GAP - column_width(scene, scale)
        if side >= BESIDE:
            columns: list[Column] = [(RIGHT - side, side, [*tables, *more])]
            most = top - low - legend(scene, key, (side, 0)).height  # the key in its smallest type
        else:
            columns, most = _in_two(tables), UNDER
        high = low + min(most, max(map(_height, columns)))
        rest: list[Block] = [] if side >= BESIDE else [*more]
        for x, width, blocks in columns:
            rest += pour(page, blocks, [Patch(x, x + width, low, high)], 1)
        if side < BESIDE:
            scale = column_scale(scene, top - high)
        x = MARGIN + GAP + draw_column(figure, page, scene, key, (MARGIN, top), scale, units)
        listing = legend(scene, key, (RIGHT - x, top - high))
        rest += pour(page, [listing], [Patch(x, RIGHT, high, top)], 1)
        return follow([(figure, page)], rest, title, said)


def _in_two(tables: Sequence[Table]) -> list[Column]:
    """The tables in two columns: the first left, the second right, the rest where it makes less height; one alone."""
    if len(tables) == 1:
        return [(MARGIN, WIDTH, tables)]
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
