"""How each of several cables is drawn, so that every picture of them all tells them apart without colour."""

from collections.abc import Sequence
from itertools import count
from string import ascii_uppercase
from typing import NamedTuple

from matplotlib.axes import Axes

from drawcord.sheets.drawing import draw_line
from drawcord.sheets.listing import SWATCH, Draw
from drawcord.sheets.style import INK, Dashes


class Trace(NamedTuple):
    """A cable's letter, and the ink, dashes and width [pt] of its line; `core` [pt] of a white line within it."""

    tag: str
    ink: str
    line: Dashes
    width: float
    core: float = 0.0


# Line and width tell them apart in grey; the inks are dark, so that white letters can be read on them.
LINES: tuple[tuple[str, Dashes, float, float], ...] = (
    ("#0b4f8a", "-", 1.7, 0.0),
    ("#8a3d00", (0, (4.0, 1.2)), 1.7, 0.0),
    ("#1f6b2e", (0, (1.0, 0.9)), 1.9, 0.0),
    ("#5a2d82", "-", 2.0, 0.9),
    (INK, "-", 0.8, 0.0),
    ("#8c1d2f", (0, (6.0, 1.2, 1.2, 1.2)), 1.5, 0.0),
    ("#00666b", (0, (4.0, 1.0)), 2.0, 0.9),
    ("#5d5300", (0, (9.0, 2.5)), 1.0, 0.0),
)


def traces(names: Sequence[str]) -> dict[str, Trace]:
    """A trace for each cable, lettered in the order given; past the last line the first comes again with its letter."""
    looks = (LINES[number % len(LINES)] for number in count())
    return {name: Trace(_letters(n), *look) for n, (name, look) in enumerate(zip(names, looks, strict=False))}


def _letters(index: int) -> str:
    """The letters A, B and on, then AA, AB and on, without those that are taken for figures or other tags."""
    letters = [letter for letter in ascii_uppercase if letter not in "IJOPT"]
    more, last = divmod(index, len(letters))
    return (_letters(more - 1) if more else "") + letters[last]


def drawn_as(look: Trace) -> Draw:
    """Draws a sample of a cable's line for the key."""

    def draw(page: Axes, x: float, y: float) -> None:
        xs, ys = (x, x + SWATCH[0]), (y - SWATCH[1] / 2,) * 2
        draw_line(page, xs, ys, color=look.ink, linewidth=look.width, linestyle=look.line)
        if look.core:
            draw_line(page, xs, ys, color="white", linewidth=look.core)

    return draw
