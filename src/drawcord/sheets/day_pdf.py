"""The sheet for the day as PDF. Texts go to typst as data, never as markup; the same day gives the same bytes."""

import json
import re
from collections.abc import Iterator
from typing import Any

import typst

from drawcord.sheets.day_layout import LAYOUT
from drawcord.sheets.day_parts import Beside, Blanks, Block, Day, Grid, Labels, Picture, Steps, Words
from drawcord.sheets.lines import bound
from drawcord.sheets.style import FONTS
from drawcord.sheets.tables import Rows
from drawcord.sheets.text import text_width

WIDTH, BLANK = 186.0, 17.0  # mm: of a page, of a column to write in
TYPE, PAD = 8.0, 2.8  # points; mm of air in a cell
LONG, PIECE = 15, 16  # letters: words from this length on may break behind _JOINTS, and at the latest after so many
_JOINTS = re.compile(r"(?<=[~_./-])")
AT = 0  # the time that the PDF says it was made at [s of Unix time]: no clock


def to_pdf(day: Day) -> bytes:
    """The sheet on upright A4 pages."""
    made: bytes = typst.compile(_files(day), **_settings(), format="pdf")
    return made


def to_pages(day: Day, dots: float = 100) -> list[bytes]:
    """Each page as PNG at `dots` per inch, to be looked at."""
    pages = typst.compile(_files(day), **_settings(), format="png", ppi=dots)
    return [pages] if isinstance(pages, bytes) else pages


def _settings() -> dict[str, Any]:
    return {"font_paths": [str(FONTS)], "ignore_system_fonts": True, "timestamp": AT}


def _files(day: Day) -> dict[str, bytes]:
    """The layout, the day as JSON, and its pictures."""
    pictures: dict[str, bytes] = {}
    sections = [
        {
            "title": one.title,
            "fresh": one.fresh,
            "whole": one.whole,
            "blocks": [_block(each, pictures) for each in one.blocks],
        }
        for one in day.sections
    ]
    breaks = {"long": LONG, "piece": PIECE}
    told = {"title": day.title, "lines": day.lines, "foot": day.foot, "sections": sections, **breaks}
    return {"main": LAYOUT.encode(), "day.json": json.dumps(told, ensure_ascii=False).encode(), **pictures}


def _block(block: Block, pictures: dict[str, bytes]) -> dict[str, Any]:
    match block:
        case Words(lines, strong):
            return {"kind": "words", "lines": list(map(bound, lines)), "strong": strong}
        case Steps(title, lines, tick):
            return {"kind": "steps", "title": title, "lines": list(map(bound, lines)), "tick": tick}
        case Grid(title, rows):
            kept = [list(map(bound, row)) for row in rows]
            return {"kind": "grid", "title": title, "rows": kept, "widths": widths(kept)}
        case Picture(caption, svg, (width, height), floats):
            name = f"{len(pictures) + 1}.svg"
            pictures[name] = svg
            size = {"width": width, "height": height, "floats": floats}
            return {"kind": "picture", "caption": caption, "file": name, **size}
        case Beside(picture, steps):
            return {"kind": "beside", "picture": _block(picture, pictures), "steps": _block(steps, pictures)}
        case Blanks(title, names):
            return {"kind": "blanks", "title": title, "names": names}
        case Labels(texts):
            return {"kind": "labels", "texts": [list(map(bound, text)) for text in texts]}


def widths(rows: Rows) -> list[float]:
    """How wide each column of a table is [mm]: no narrower than what may not break, the rest shared out by need.

    The need is that which makes the sum of squares of all cells' lines least, so that no row grows tall while others
    have room to spare; no column is wider than its longest cell, unless all are.
    """
    least, need, most = [], [], []
    for column in zip(*rows, strict=True):
        blank = BLANK if any(not cell for cell in column) else 0.0
        word = max((text_width(part, TYPE, bold=True) for cell in column for part in _unbroken(cell)), default=0.0)
        whole = [text_width(cell, TYPE, bold=True) for cell in column]
        least.append(max(blank, word + PAD))
        need.append(sum(one * one for one in whole) ** (1 / 3))
        most.append(max(least[-1], *(one + PAD for one in whole)))

    def shared(scale: float) -> list[float]:
        return [max(low, min(high, scale * by)) for low, by, high in zip(least, need, most, strict=True)]

    low, high = 0.0, WIDTH
    for _ in range(50):  # halves what is between them
        middle = (low + high) / 2
        low, high = (low, middle) if sum(shared(middle)) > WIDTH else (middle, high)
    found = shared(low)
    return [round(WIDTH * one / sum(found), 3) for one in found]


def _unbroken(cell: str) -> Iterator[str]:
    """The parts of a cell that the layout does not break."""
    for word in cell.split(" "):
        for part in _JOINTS.split(word) if len(word) >= LONG else [word]:
            yield part[:PIECE]
