"""The symbols of the one-line diagram, in the simple form of IEC 60617 (from memory), as strokes in mm.

A symbol's middle is (0, 0), its conductor enters at the top and leaves at the bottom.
"""

import math
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.lines import Line2D

from drawcord.sheets.drawing import draw_line
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import INK, SMALL, Dashes
from drawcord.sheets.text import write

FINE = 0.7  # points; plates of a battery and cell are thicker
THICK = 2.4 * FINE
DASHES: Dashes = (0, (3.0, 2.0))

Stroke = tuple[Flat, ...]


class Symbol(NamedTuple):
    """What a symbol is called in the key; how far it reaches up and down; its strokes, thick ones, and a letter."""

    name: str
    half: float
    strokes: tuple[Stroke, ...]
    thick: tuple[Stroke, ...] = ()
    letter: str = ""


def _box(half: float, high: float) -> Stroke:
    return (-half, -high), (half, -high), (half, high), (-half, high), (-half, -high)


def _line(top: float, bottom: float) -> Stroke:
    return (0.0, top), (0.0, bottom)


def _bar(half: float, y: float) -> Stroke:
    return (-half, y), (half, y)


def _light(x: float, y: float) -> tuple[Stroke, Stroke]:
    """An arrow from the upper left that ends at (x, y)."""
    return ((x - 1.6, y + 1.6), (x, y)), ((x - 0.9, y + 0.2), (x, y), (x - 0.2, y + 0.9))


def _direct(x: float, y: float) -> tuple[Stroke, ...]:
    """Direct current: a line over a broken one."""
    return ((x - 1.2, y + 0.4), (x + 1.2, y + 0.4)), *(((x + s, y - 0.4), (x + s + 0.8, y - 0.4)) for s in (-1.2, 0.4))


def _ring(y: float, radius: float) -> Stroke:
    turns = (math.tau * number / 12 for number in range(13))
    return tuple((radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns)


_WAVE = tuple((0.8 + 0.2 * n, -2.2 + 0.7 * math.sin(math.tau * n / 12)) for n in range(13))
_OPEN = (_line(3.5, 2.2), _line(-2.2, -3.5), ((0.0, -2.2), (-2.2, 1.9)))  # a contact that stands open
_DIAGONAL = ((-4.0, -4.0), (4.0, 4.0))

SYMBOLS = {
    "generator": Symbol(
        "PV generator: the modules of a string",
        4.0,
        (_box(3.5, 4.0), *_light(-1.2, -0.5), *_light(0.4, -0.5), _line(-2.2, -4.0)),
        (_bar(2.2, -1.2), _bar(1.1, -2.2)),
        "G",
    ),
    "fuse": Symbol("fuse", 3.5, (_box(1.3, 3.0), _line(3.5, -3.5))),
    "breaker": Symbol("circuit breaker", 3.5, (*_OPEN, ((-0.8, 1.4), (0.8, 3.0)), ((-0.8, 3.0), (0.8, 1.4)))),
    "switch": Symbol("switch-disconnector", 3.5, (*_OPEN, _bar(1.2, 2.6), _ring(2.0, 0.6))),
    "cable": Symbol("cable and the number of its conductors", 3.5, (_line(3.5, -3.5), ((-1.1, -1.1), (1.1, 1.1)))),
    "converter": Symbol(
        "charge controller: DC converter", 4.0, (_box(4.0, 4.0), _DIAGONAL, *_direct(-2.0, 2.2), *_direct(2.0, -2.2))
    ),
    "inverter": Symbol("inverter", 4.0, (_box(4.0, 4.0), _DIAGONAL, *_direct(-2.0, 2.2), _WAVE)),
    "battery": Symbol(
        "battery", 2.1, (_bar(3.4, 2.1), _bar(3.4, -0.7)), (_bar(1.7, 0.7), _bar(1.7, -2.1))
    ),
    "equipment": Symbol("other equipment", 2.8, (_box(4.0, 2.8),)),
    "chassis": Symbol(
        "bond to the chassis",
        1.5,
        (_line(1.5, 0), _bar(2.0, 0), *(((x, 0), (x - 0.9, -1.5)) for x in (-1.6, 0.0, 1.6))),
    ),
}


def draw_symbol(page: Axes, kind: str, at: Flat, *, dashed: bool = False, gid: str = "") -> None:
    """Draw a symbol with its middle at a point of the page [mm], dashed where nobody worked out what it stands for."""
    symbol = SYMBOLS[kind]
    for stroke in symbol.strokes:
        draw_stroke(page, at, stroke, dashed=dashed).set_gid(gid or None)
    for stroke in symbol.thick:
        draw_stroke(page, at, stroke, width=THICK)
    if symbol.letter:
        write(page, at[0] + 1.9, at[1] + 2.3, symbol.letter, size=SMALL, ha="center", va="center")


def draw_stroke(page: Axes, at: Flat, stroke: Stroke, *, dashed: bool = False, width: float = FINE) -> Line2D:
    """Draw one stroke, its points counted from `at` [mm]."""
    xs, ys = zip(*((at[0] + x, at[1] + y) for x, y in stroke), strict=True)
    return draw_line(page, xs, ys, color=INK, linewidth=width, linestyle=DASHES if dashed else "-", zorder=5)
