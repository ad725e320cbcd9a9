"""The lists beside the drawings: signs, kinds of space with their numbers, things with their letters."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from drawcord.coach.coach import Coach
from drawcord.sheets import marks, style
from drawcord.sheets.cable import UPRIGHT
from drawcord.sheets.key import Key, listed, spaces_by_kind, things_by_section
from drawcord.sheets.marks import Symbol
from drawcord.sheets.page import heading
from drawcord.sheets.style import LOOKS, SMALL, Look
from drawcord.sheets.text import line_height, text_width, wrap, write

SWATCH = (5.0, 2.5)
SIZES = (8.0, 7.5, 7.0, 6.5, SMALL)  # of type, the largest with which a list fits is taken
TAB = 0.78  # from a tag to its name, in mm to the point of type


class Row(NamedTuple):
    """A row of a list: how high it is [mm], and what draws it with its upper left at (x, y)."""

    height: float
    draw: Callable[[Axes, float, float], object]


def draw_rows(page: Axes, x: float, y: float, floor: float, rows: list[Row]) -> float:
    """Draw rows downwards as far as they stand above `floor` [mm]; what is left out is counted in words."""
    for index, row in enumerate(rows):
        last = index == len(rows) - 1
        if y - row.height - (0 if last else STEP) < floor:
            write(page, x, y, f"… and {len(rows) - index} more lines: see the rig's sheet", size=SMALL)
            return y - STEP
        row.draw(page, x, y)
        y -= row.height
    return y


def headed(title: str, width: float) -> Row:
    """A heading as a row."""
    return Row(line_height(style.BODY) + 1.5, lambda page, x, y: heading(page, x, y - 0.6, title, width))


def all_rows(width: float, coach: Coach, key: Key, *, route: bool) -> list[Row]:
    """Signs, spaces and things; `route` asks for the signs of a route too."""
    return [*_sign_rows(width, route=route), *_space_rows(width, coach, key), *_thing_rows(width, coach, key)]


def _sign_rows(width: float, *, route: bool) -> Iterator[Row]:
    """What strokes, marks and tags mean."""
    yield headed("Signs", width)
    if route:
        yield _sign(_stroke(style.CABLE, style.CABLE_WIDTH, "-"), "cable, with the number of its leg")
        yield _sign(_stroke(style.CABLE, 0.8, style.SEEN_THROUGH), "cable on another level or side")
        yield _sign(_symbols(UPRIGHT), "cable going straight up or down")
        yield _sign(_symbols(*marks.ROOF_HOLE), "H  hole through the roof")
        yield _sign(_symbols(*marks.INNER_HOLE), "H  hole inside")
        yield _sign(_symbols(*marks.JOINED), "J  joint between two pieces")
        yield _sign(_symbols(*marks.START), "start of the cable")
        yield _sign(_symbols(*marks.END), "end of the cable")
    yield _sign(_sample(style.DRAWN), "moving part where it is drawn")
    yield _sign(_sample(style.MOVED), "and where it moves")
    yield _sign(_sample(style.SWEEP), "swept by it: no cable")
    yield _sign(_sample(style.WAY_IN), "way to reach in")
    yield _sign(_sample(style.OBSTACLE), "obstacle on the roof")
    yield _sign(_sample(style.HAZARD), "hot or dangerous")
    yield _sign(_sample(style.KEEP), "clearance to keep")
    yield _sign(_sample(style.OBSTRUCTION), "framing, tank, line, axle …")


def _space_rows(width: float, coach: Coach, key: Key) -> Iterator[Row]:
    """Every space by kind, with a sample of its hatch and tint."""
    yield headed("Spaces", width)
    for kind, spaces in spaces_by_kind(coach):
        yield _sign(_sample(LOOKS[kind]), kind, bold=True)
        items = [(key.spaces[space.id], listed(space, key)) for space in spaces]
        yield from _items(sorted(items, key=lambda item: int(item[0])), width)


def _thing_rows(width: float, coach: Coach, key: Key) -> Iterator[Row]:
    """Every thing with its letter, under what it is to the work."""
    for title, rows in things_by_section(coach, key):
        yield headed(title.capitalize(), width)
        yield from _items([(tag, name) for tag, name, _ in rows], width)


def _items(items: list[tuple[str, str]], width: float) -> Iterator[Row]:
    """Tags with names in as many columns as `width` has room for; a name too long for one takes them all."""
    across = max(2, int(width / 29))
    column = width / across
    waiting: list[tuple[str, list[str]]] = []
    for tag, name in items:
        short = text_width(name, SMALL) <= column - TAB - 0.8
        if waiting and not short:
            yield _item_row(waiting, column)
            waiting = []
        waiting.append((tag, [name] if short else wrap(name, width - TAB, SMALL)))
        if not short or len(waiting) == across:
            yield _item_row(waiting, column)
            waiting = []
    if waiting:
        yield _item_row(waiting, column)


def _item_row(items: list[tuple[str, list[str]]], wide: float) -> Row:
    def draw(page: Axes, x: float, y: float) -> None:
        for column, (tag, lines) in enumerate(items):
            write(page, x + column * wide, y, tag, size=SMALL, bold=True)
            for number, line in enumerate(lines):
                write(page, x + column * wide + TAB, y - number * STEP, line, size=SMALL)

    return Row(STEP * max(len(lines) for _, lines in items), draw)


def _sign(draw: Callable[[Axes, float, float], object], text: str, *, bold: bool = False) -> Row:
    def both(page: Axes, x: float, y: float) -> None:
        draw(page, x, y - 0.1)
        write(page, x + SWATCH[0] + 1.4, y - 0.1, text, size=SMALL, bold=bold)

    return Row(SWATCH[1] + 0.7, both)


def _sample(look: Look) -> Callable[[Axes, float, float], object]:
    def draw(page: Axes, x: float, y: float) -> None:
        box = Rectangle((x, y - SWATCH[1]), *SWATCH, hatch=look.hatch or None, linestyle=look.line)
        box.set(facecolor=look.tint, edgecolor=look.ink, linewidth=max(look.width, 0.6))
        page.add_patch(box)

    return draw


def _stroke(colour: str, width: float, dashes: object) -> Callable[[Axes, float, float], object]:
    def draw(page: Axes, x: float, y: float) -> None:
        line = (y - SWATCH[1] / 2,) * 2
        page.plot([x, x + SWATCH[0]], line, color=colour, linewidth=width, linestyle=dashes)

    return draw


def _symbols(*symbols: Symbol) -> Callable[[Axes, float, float], object]:
    def draw(page: Axes, x: float, y: float) -> None:
        for sign, size, fill, edge in symbols:
            (mark,) = page.plot(x + SWATCH[0] / 2, y - SWATCH[1] / 2, marker=sign, markersize=size)
            mark.set(color=style.CABLE, markerfacecolor=fill, markeredgewidth=edge)

    return draw
