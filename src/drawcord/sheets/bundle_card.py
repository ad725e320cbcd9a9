"""A narrow place cut square, drawn twice to scale: its bundle in place, and while the largest plug passes."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.patches import Circle, Rectangle

from drawcord.sheets import lengths
from drawcord.sheets import page as sheet
from drawcord.sheets.bundles import Item, Moment, Place, percent
from drawcord.sheets.drawing import draw_line, draw_shape
from drawcord.sheets.flow import AFTER, HAIR, HEADING
from drawcord.sheets.labels import Board, Patch
from drawcord.sheets.packing import Bore, Cut
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import BODY, INK, OBSTRUCTION, SLAB, SMALL, Look
from drawcord.sheets.tags import END_TAG, put_tag
from drawcord.sheets.text import line_height, text_width, wrap, write
from drawcord.sheets.traces import Trace

HIGH, BESIDE, OVER, UNDER, GAP = 30.0, 13.0, 3.6, 6.2, 3.0  # mm: a drawing at most; for dimensions and tags; between
SHARES: tuple[tuple[float, str], ...] = (  # of the size in the vehicle, and how that is said
    *((4.0, "4:1"), (3.0, "3:1"), (2.0, "2:1"), (1.5, "3:2"), (1.0, "1:1"), (0.5, "1:2")),
    *((1 / 3, "1:3"), (0.2, "1:5"), (0.1, "1:10"), (1 / 15, "1:15"), (0.05, "1:20"), (1 / 30, "1:30")),
    *((0.02, "1:50"), (0.01, "1:100")),
)
COVERED = 3.0  # mm of leader that it is worth not to cover a thing
ENLARGED = 3.0  # by which a part is drawn larger, at least, than the whole that it is cut from
TAKEN = Look(OBSTRUCTION.tint, "xxxx", OBSTRUCTION.ink, width=0.5)


class Window(NamedTuple):
    """What a drawing shows [mm of vehicle], where its lower left lies on the page [mm], and at which share."""

    shown: Patch
    corner: Flat
    share: float
    said: str

    @property
    def size(self) -> Flat:
        """Its width and height on the page [mm]."""
        return (self.shown.x1 - self.shown.x0) * self.share, (self.shown.y1 - self.shown.y0) * self.share

    def at(self, x: float, y: float) -> Flat:
        """Where a point lies on the page."""
        return self.corner[0] + (x - self.shown.x0) * self.share, self.corner[1] + (y - self.shown.y0) * self.share


@dataclass(frozen=True)
class Card:
    """A place with the traces of its cables; a block of the sheet, drawn whole."""

    place: Place
    looks: Mapping[str, Trace]
    units: str

    def pour(self, page: Axes, area: Patch, onward: str, least: int) -> tuple[float, "Card | None"]:  # noqa: ARG002
        """See Block."""
        width, step = area.x1 - area.x0, line_height(SMALL)
        title, texts = self._title(width), self._texts(width)
        half = (width - GAP) / 2
        windows = [self._window(half, moment, detail=bool(n)) for n, moment in enumerate(self.place.moments)]
        high = OVER + max(window.size[1] for window in windows) + UNDER
        height = HEADING + (len(title) - 1) * step + high + step + 0.4 + len(texts) * step + AFTER + 1.6
        if height > area.y1 - area.y0 + HAIR and not least:
            return area.y1, self
        y = sheet.heading(page, area.x0, area.y1, title[0], width)
        y = sheet.write_lines(page, area.x0, y, title[1:], bold=True)
        for number, (moment, window) in enumerate(zip(self.place.moments, windows, strict=True)):
            left = area.x0 + number * (half + GAP)
            part = Patch(left, left + half, y - high, y)
            low = y - OVER - (high - OVER - UNDER + window.size[1]) / 2
            at = (left + BESIDE / 2 + (half - BESIDE - window.size[0]) / 2, low)
            said = self._drawing(page, part, moment, window._replace(corner=at), number)
            write(page, left + half / 2, y - high, f"{moment.title}, {said}", size=SMALL, ha="center")
        y = sheet.write_lines(page, area.x0, y - high - step - 0.4, texts, size=SMALL)
        return y - AFTER - 1.6, None

    def _title(self, width: float) -> tuple[str, ...]:
        letters = " ".join(self.looks[name].tag for name in self.place.cables)
        return wrap(f"{', '.join(self.place.names)} for {letters}: {self.place.what}", width, BODY, bold=True)

    def _texts(self, width: float) -> list[str]:
        place = self.place
        taken = f"{place.fill * place.area:.0f} of {place.area:.0f} mm², {percent(place.fill)}"
        fill = f"In place the bundle fills {taken}."
        return [line for text in (fill, place.checked, place.note) if text for line in wrap(text, width, SMALL)]

    def _drawing(self, page: Axes, part: Patch, moment: Moment, window: Window, number: int) -> str:
        """Draw a moment in a part of the page; says the scale."""
        board = Board(f"bundle-{self.place.names[0]}-{number}", part)
        draw_room(page, window, self.place.room)
        for taken in self._dimensions(page, window):
            board.block(taken)
        if moment.laid is None:
            return f"{window.said}: NO PACKING FOUND"
        for item, at in zip(moment.items, moment.laid, strict=True):
            self._thing(page, board, window, item, at.centre)
        said: set[tuple[str, bool]] = set()
        for item, at in sorted(zip(moment.items, moment.laid, strict=True), key=lambda one: -one[1].diameter):
            text = self.looks[item.cable].tag
            if (item.cable, item.plug) not in said:
                text = f"{text} ⌀ {lengths.bore(item.diameter, self.units)}"
                said.add((item.cable, item.plug))
            self._tag(page, board, window, item, at.centre, text)
        return window.said if window.shown == whole_of(self.place.room) else f"{window.said}, a part"

    def _window(self, width: float, moment: Moment, *, detail: bool) -> Window:
        """The whole place, or as a `detail` the part around the bundle if that can be drawn far larger."""
        whole = whole_of(self.place.room)
        window = _fitted(whole, width)
        if not detail or isinstance(self.place.room, Bore) or not moment.laid:
            return window
        sides = [Patch.around(one.centre, one.diameter, one.diameter) for one in moment.laid]
        air = 0.3 * max(one.diameter for one in moment.laid)
        part = Patch(
            max(whole.x0, min(side.x0 for side in sides) - air),
            min(whole.x1, max(side.x1 for side in sides) + air),
            max(whole.y0, min(side.y0 for side in sides) - air),
            min(whole.y1, max(side.y1 for side in sides) + air),
        )
        larger = _fitted(part, width)
        return larger if larger.share >= ENLARGED * window.share else window

    def _thing(self, page: Axes, board: Board, window: Window, item: Item, centre: Flat) -> None:
        look, at, wide = self.looks[item.cable], window.at(*centre), item.diameter * window.share
        circle = Circle(at, wide / 2, facecolor="white", edgecolor=look.ink, linestyle=look.line, linewidth=1.0)
        circle.set(zorder=6, hatch="///" if item.plug else None)
        circle.set_gid(f"{board.name}-{'plug' if item.plug else 'core'}-{look.tag}")
        draw_shape(page, circle)
        board.avoid(Patch.around(at, wide, wide), COVERED)

    def _tag(self, page: Axes, board: Board, window: Window, item: Item, centre: Flat, text: str) -> None:
        ink, at = self.looks[item.cable].ink, window.at(*centre)
        tag = END_TAG._replace(edge=ink, text=ink)
        inside = text_width(text, SMALL, bold=True) + 2 * tag.pad < item.diameter * window.share - 0.4
        put_tag(page, board, text, tag, [at] if inside else (), at)

    def _dimensions(self, page: Axes, window: Window) -> list[Patch]:
        """The width of a whole place under it, the height of a cut beside it; returns what they cover."""
        shown, room, step = window.shown, self.place.room, line_height(SMALL)
        if shown != whole_of(room):
            return []
        (x0, y0), (x1, y1) = window.at(shown.x0, shown.y0), window.at(shown.x1, shown.y1)
        below, beside, middle = y0 - 2.2, x0 - 2.2, (x0 + x1) / 2
        arrow(page, (x0, below), (x1, below))
        wide = lengths.bore(round(shown.x1 - shown.x0), self.units)
        said = f"⌀ {wide}" if isinstance(room, Bore) else wide
        write(page, middle, below - 0.5, said, size=SMALL, ha="center")
        half = max(x1 - x0, text_width(said, SMALL)) / 2
        taken = [Patch(middle - half, middle + half, below - 0.5 - step, below + 0.6)]
        if isinstance(room, Cut):
            arrow(page, (beside, y0), (beside, y1))
            high = lengths.bore(round(room.height), self.units)
            write(page, beside - 0.8, (y0 + y1) / 2, high, size=SMALL, rotation=90, ha="right", va="center")
            half = max(y1 - y0, text_width(high, SMALL)) / 2
            taken.append(Patch(beside - 0.8 - step, beside + 0.6, (y0 + y1) / 2 - half, (y0 + y1) / 2 + half))
        return taken


def whole_of(room: Bore | Cut) -> Patch:
    """The rectangle around a room [mm]."""
    if isinstance(room, Cut):
        return Patch(0.0, room.width, 0.0, room.height)
    return Patch.around((0.0, 0.0), room.diameter, room.diameter)


def _fitted(shown: Patch, width: float) -> Window:
    """The largest window at a stated share for a part of the page of this width."""
    wide, high = shown.x1 - shown.x0, shown.y1 - shown.y0
    fitting = (one for one in SHARES if wide * one[0] <= width - BESIDE and high * one[0] <= HIGH)
    return Window(shown, (0.0, 0.0), *next(fitting, SHARES[-1]))


def draw_room(page: Axes, window: Window, room: Bore | Cut) -> None:
    """Draw the wall around a bore, or the rectangle with what is taken in it; a part ends without a line."""
    (x0, y0), (x1, y1) = window.at(window.shown.x0, window.shown.y0), window.at(window.shown.x1, window.shown.y1)
    if isinstance(room, Bore):
        wall = Rectangle((x0 - 1.2, y0 - 1.2), x1 - x0 + 2.4, y1 - y0 + 2.4, facecolor=SLAB.tint, edgecolor="none")
        draw_shape(page, wall)
        bore = Circle(window.at(0.0, 0.0), room.diameter / 2 * window.share, facecolor="white", edgecolor=INK)
        bore.set(linewidth=1.0, zorder=4, gid="bore")
        draw_shape(page, bore)
        return
    for part in _taken(window, room):
        box = Rectangle((part.x0, part.y0), part.x1 - part.x0, part.y1 - part.y0, linewidth=TAKEN.width)
        box.set(facecolor=TAKEN.tint, edgecolor=TAKEN.ink, hatch=TAKEN.hatch, zorder=5, gid="taken")
        draw_shape(page, box)
    whole, shown = whole_of(room), window.shown
    sides = (
        (shown.x0 == whole.x0, (x0, x0), (y0, y1)),
        (shown.x1 == whole.x1, (x1, x1), (y0, y1)),
        (shown.y0 == whole.y0, (x0, x1), (y0, y0)),
        (shown.y1 == whole.y1, (x0, x1), (y1, y1)),
    )
    for wall_there, xs, ys in sides:
        width, dashes = (1.2, "-") if wall_there else (0.5, (0, (1, 2)))
        draw_line(page, xs, ys, color=INK, linewidth=width, linestyle=dashes)


def _taken(window: Window, room: Cut) -> Iterator[Patch]:
    shown = window.shown
    for x0, x1, y0, y1 in room.taken:
        part = Patch(max(x0, shown.x0), min(x1, shown.x1), max(y0, shown.y0), min(y1, shown.y1))
        if part.x0 < part.x1 and part.y0 < part.y1:
            (left, low), (right, top) = window.at(part.x0, part.y0), window.at(part.x1, part.y1)
            yield Patch(left, right, low, top)


def arrow(page: Axes, start: Flat, end: Flat) -> None:
    """A dimension line with an arrowhead at both ends."""
    look = {"arrowstyle": "<|-|>", "linewidth": 0.5, "color": INK, "mutation_scale": 4, "shrinkA": 0, "shrinkB": 0}
    page.annotate("", start, end, arrowprops=look)
