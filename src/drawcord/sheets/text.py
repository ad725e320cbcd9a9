"""Text on the page: how wide it is, how it wraps, and the one way to write it."""

from functools import lru_cache
from typing import Any

from matplotlib.axes import Axes
from matplotlib.font_manager import FontProperties, get_font
from matplotlib.text import Text

from drawcord.sheets.lines import words
from drawcord.sheets.style import BODY, BOLD, INK, LEADING, PLAIN, POINT


def line_height(size: float) -> float:
    """The distance between two lines [mm]."""
    return size * POINT * LEADING


@lru_cache(maxsize=4096)
def text_width(text: str, size: float, bold: bool = False) -> float:
    """The width of one line [mm]."""
    font = get_font(BOLD if bold else PLAIN)
    font.set_size(size * 16, 72)  # large, for hinting rounds to whole pixels
    font.set_text(text, 0)
    return float(font.get_width_height()[0]) / 64 / 16 * POINT


@lru_cache(maxsize=4096)
def wrap(text: str, width: float, size: float, bold: bool = False) -> tuple[str, ...]:
    """Lines no wider than `width` [mm]; only what may not break and is wider by itself is broken."""
    lines = [""]
    for word in words(text):
        longer = f"{lines[-1]} {word}".lstrip()
        if text_width(longer, size, bold) <= width:
            lines[-1] = longer
            continue
        lines.append(word)
        while text_width(lines[-1], size, bold) > width and len(lines[-1]) > 1:
            keep = len(lines[-1]) - 1
            while keep > 1 and text_width(lines[-1][:keep], size, bold) > width:
                keep -= 1
            lines[-1:] = [lines[-1][:keep], lines[-1][keep:]]
    return tuple(line for line in lines if line) or ("",)


def write(
    page: Axes, x: float, y: float, text: str, *, size: float = BODY, bold: bool = False, **more: object
) -> Text:
    """Write text on the page with its top left corner at (x, y) [mm], unless `ha` or `va` say otherwise.

    Text is data: a dollar sign is a dollar sign.
    """
    look: dict[str, Any] = {"ha": "left", "va": "top", "color": INK, "zorder": 20} | more
    font = FontProperties(fname=str(BOLD if bold else PLAIN), weight="bold" if bold else "normal", size=size)
    return page.text(x, y, text, fontproperties=font, parse_math=False, **look)
