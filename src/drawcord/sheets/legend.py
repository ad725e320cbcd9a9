"""The lists beside the drawings: kinds of space with their numbers, things with their letters, symbols."""

from collections.abc import Iterable

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from drawcord.coach.coach import Coach
from drawcord.sheets.key import Key, remark, spaces_by_kind, things_by_section
from drawcord.sheets.page import heading
from drawcord.sheets.style import CABLE, CABLE_WIDTH, INK, LOOKS, SMALL, SWEEP, Look
from drawcord.sheets.text import line_height, text_width, wrap, write

SWATCH = (5.0, 2.6)
STEP = line_height(SMALL) + 0.15


def swatch(page: Axes, x: float, y: float, look: Look) -> None:
    """A small sample of a look, its upper left at (x, y)."""
    box = Rectangle((x, y - SWATCH[1]), *SWATCH, facecolor=look.tint, edgecolor=look.ink, hatch=look.hatch or None)
    box.set_linewidth(max(look.width, 0.6))
    box.set_linestyle(look.line)
    page.add_patch(box)


def list_items(page: Axes, x: float, y: float, width: float, items: Iterable[tuple[str, str]]) -> float:
    """Tags with their names, flowing over two columns; a name too long for one takes the line. Returns the end."""
    half, tab, at = width / 2, 4.6, 0.0
    for tag, name in items:
        lines = wrap(name, (half if text_width(name, SMALL) <= half - tab - 0.8 else width) - tab, SMALL)
        wide = len(lines) > 1 or text_width(lines[0], SMALL) > half - tab - 0.8
        if at and wide:
            y, at = y - STEP, 0.0
        write(page, x + at, y, tag, size=SMALL, bold=True)
        for number, line in enumerate(lines):
            write(page, x + at + tab, y - number * STEP, line, size=SMALL)
        if wide or at:
            y, at = y - len(lines) * STEP, 0.0
        else:
            at = half
    return y - (STEP if at else 0.0)


def space_list(page: Axes, x: float, y: float, width: float, coach: Coach, key: Key) -> float:
    """Every space by kind, with a sample of its hatch and tint."""
    y = heading(page, x, y, "Spaces", width)
    for kind, spaces in spaces_by_kind(coach):
        swatch(page, x, y, LOOKS[kind])
        write(page, x + SWATCH[0] + 1.2, y - 0.1, kind, size=SMALL, bold=True)
        items = [(key.spaces[s.id], f"{s.id} ({remark(s)})" if remark(s) else s.id) for s in spaces]
        items.sort(key=lambda item: int(item[0]))
        y = list_items(page, x, y - SWATCH[1] - 0.3, width, items) - 0.5
    return y


def thing_list(page: Axes, x: float, y: float, width: float, coach: Coach, key: Key) -> float:
    """Every thing with its letter, under what it is to the work."""
    for title, rows in things_by_section(coach, key):
        y = heading(page, x, y, title.capitalize(), width)
        y = list_items(page, x, y, width, [(tag, name) for tag, name, _ in rows]) - 0.6
    return y


def symbol_list(page: Axes, x: float, y: float, width: float, *, route: bool) -> float:
    """What the strokes and marks mean."""
    y = heading(page, x, y, "Signs", width)
    strokes = [("slide or roof: where it is, where it goes", "-"), ]
    for text, dashes in strokes:
        page.plot([x, x + SWATCH[0]], [y - 1.3, y - 1.3], color=CABLE, linewidth=CABLE_WIDTH, linestyle=dashes)
        write(page, x + SWATCH[0] + 1.2, y, text, size=SMALL)
        y -= STEP
    return y
