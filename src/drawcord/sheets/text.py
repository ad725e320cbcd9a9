"""Text on the page: how wide it is, how it wraps, and the one way to write it."""

from bisect import bisect_left
from collections.abc import Callable
from functools import cache, lru_cache
from typing import Any

from matplotlib.axes import Axes
from matplotlib.font_manager import FontProperties, get_font
from matplotlib.ft2font import LoadFlags
from matplotlib.text import Text

from drawcord.sheets.lines import words
from drawcord.sheets.style import BODY, BOLD, INK, LEADING, PLAIN, POINT


def line_height(size: float) -> float:
    """The distance between two lines [mm]."""
    return size * POINT * LEADING


@lru_cache(maxsize=4096)
def text_width(text: str, size: float, bold: bool = False) -> float:
    """The width of one line [mm]: how far each letter brings it, before the one that follows."""
    return sum(_advance(text[at : at + 2], bold) for at in range(len(text))) * size * POINT


@cache
def _advance(pair: str, bold: bool) -> float:
    """How far the first of two letters brings a line, in terms of the type size; a last one stands alone.

    To lay out a line takes fifty times as long as to add up what is known of its pairs, and comes to the same within a
    thousandth: it differs where three letters are joined to one sign.
    """
    return _laid_out(pair, bold) - _laid_out(pair[1:], bold)


def _laid_out(text: str, bold: bool) -> float:
    """The width of a text in terms of the type size, without hinting."""
    font = get_font(BOLD if bold else PLAIN)
    font.set_size(font.units_per_EM, 72)
    font.set_text(text, 0, flags=LoadFlags.NO_HINTING)
    return float(font.get_width_height()[0]) / 64 / font.units_per_EM


@lru_cache(maxsize=4096)
def wrap(text: str, width: float, size: float, bold: bool = False) -> tuple[str, ...]:
    """Lines no wider than `width` [mm]; only what may not break and is wider by itself is broken."""
    lines, left = [""], words(text)
    while left:
        count = _fitting(lines[-1], left, lambda line: text_width(line, size, bold) <= width)
        lines[-1] = _longer(lines[-1], left[:count])
        lines += left[count : count + 1]
        left = left[count + 1 :]
        while text_width(lines[-1], size, bold) > width and len(lines[-1]) > 1:
            keep = len(lines[-1]) - 1
            while keep > 1 and text_width(lines[-1][:keep], size, bold) > width:
                keep -= 1
            lines[-1:] = [lines[-1][:keep], lines[-1][keep:]]
    return tuple(line for line in lines if line) or ("",)


def _longer(line: str, more: list[str]) -> str:
    return " ".join([line, *more]).lstrip()


def _fitting(line: str, more: list[str], fits: Callable[[str], bool]) -> int:
    """How many more words fit into a line: doubled until they do not, then halved, since measuring takes its time."""
    low, high = 0, 1
    while high <= len(more) and fits(_longer(line, more[:high])):
        low, high = high, 2 * high
    further = range(low + 1, min(high, len(more) + 1))
    return low + bisect_left(further, x=True, key=lambda count: not fits(_longer(line, more[:count])))


def write(
    page: Axes, x: float, y: float, text: str, *, size: float = BODY, bold: bool = False, **more: object
) -> Text:
    """Write text on the page with its top left corner at (x, y) [mm], unless `ha` or `va` say otherwise.

    Text is data: a dollar sign is a dollar sign.
    """
    look: dict[str, Any] = {"ha": "left", "va": "top", "color": INK, "zorder": 20} | more
    font = FontProperties(fname=str(BOLD if bold else PLAIN), weight="bold" if bold else "normal", size=size)
    return page.text(x, y, text, fontproperties=font, parse_math=False, **look)
