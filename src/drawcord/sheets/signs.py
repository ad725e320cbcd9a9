"""The key to the symbols of a one-line diagram, as a block of a sheet."""

from dataclasses import dataclass
from typing import Self

from matplotlib.axes import Axes

from drawcord.sheets import page as sheet
from drawcord.sheets.flow import AFTER, GAP, HEADING
from drawcord.sheets.labels import Patch
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import SMALL
from drawcord.sheets.symbols import SYMBOLS, draw_symbol
from drawcord.sheets.text import text_width, write

NAME, ROW = 10.5, 9.5  # mm from the left of a sign to its name, and from row to row


@dataclass(frozen=True)
class Signs:
    """What each of some symbols stands for, in rows."""

    kinds: tuple[str, ...]

    def pour(self, page: Axes, area: Patch, onward: str, least: int) -> tuple[float, Self | None]:  # noqa: ARG002
        """See Block; it is drawn whole."""
        places = self._places(area.x1 - area.x0)
        height = HEADING - places[-1][1] + ROW / 2 + AFTER
        if height > area.y1 - area.y0 and not least:
            return area.y1, self
        top = sheet.heading(page, area.x0, area.y1, "Signs", area.x1 - area.x0)
        for kind, (x, y) in zip(self.kinds, places, strict=True):
            draw_symbol(page, kind, (area.x0 + x + 4.5, top + y))
            write(page, area.x0 + x + NAME, top + y, SYMBOLS[kind].name, size=SMALL, va="center")
        return area.y1 - height, None

    def _places(self, width: float) -> list[Flat]:
        """Where each sign goes, counted from under the heading [mm]."""
        places, x, y = [], 0.0, -ROW / 2
        for kind in self.kinds:
            wide = NAME + text_width(SYMBOLS[kind].name, SMALL) + GAP
            if x and x + wide > width + GAP:
                x, y = 0.0, y - ROW
            places.append((x, y))
            x += wide
        return places
