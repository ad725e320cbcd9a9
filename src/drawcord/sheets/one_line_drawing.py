"""The one-line diagram drawn: chains of symbols from the top down, joined by bars, text to the right of each."""

from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.patches import Circle

from drawcord.sheets.drawing import draw_shape
from drawcord.sheets.flow import GAP
from drawcord.sheets.labels import Patch
from drawcord.sheets.one_line import Chain, Diagram, Part
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import BODY, INK, SMALL
from drawcord.sheets.symbols import SYMBOLS, draw_stroke, draw_symbol
from drawcord.sheets.text import line_height, wrap, write

ALONE = 0.57  # of the width, for a chain with none beside it: lists have the rest
SPINE, SLIM = 27.0, 9.0  # mm from the left to the conductor, with bonds or strings and without
BOND, HANG = 22.0, 4.9  # mm from the conductor to a bond, and from a pole down to what is written under it
APART = 8.5  # mm between like symbols in parallel
DRAWN = 3  # of these; where there are more, dots stand for the others
REACH = 5.0  # mm from the top of a row to the middle of its symbol
LEAST, AIR = 2 * REACH + 1.0, 2.5  # mm, of a row, and under its text
JOIN = 0.8  # mm over the end of a row, where strings join
BAR, BAR_WIDTH = 3.0, 1.8  # mm under a bar between two bands; points


class Lane(NamedTuple):
    """Where a chain runs: its conductor at `x`, its text up to `right` [mm]."""

    chain: Chain
    x: float
    right: float


def draw_diagram(page: Axes, one: Diagram, area: Patch, alone: float = ALONE) -> list[Patch]:
    """Draw a diagram from the top of an area; returns what it leaves free, beside it and under it.

    `alone`: the share of the width that a chain has with none beside it.
    """
    beside, corner = area.x1, area.y1
    bands = [_lanes(band, area, alone) for band in (one.arrays, one.charging, one.battery) if band]
    y = area.y1 if one.arrays else _bar(page, [], bands[0], area.y1)
    for number, lanes in enumerate(bands):
        # Chains of arrays end together, all others start together, and their last part reaches down to the bar.
        hanging = bool(one.arrays) and number == 0
        heights = _heights(lanes, hanging=hanging)
        for lane in lanes:
            last = len(lane.chain.parts) - 1
            mine = heights[len(heights) - last - 1 if hanging else 0 :]
            mine[last:] = [sum(mine[last:])]
            ends = (not hanging and not lane.chain.apart, number < len(bands) - 1)
            _chain(page, lane, y - sum(heights) + sum(mine), mine, ends)
        y -= sum(heights)
        if number < len(bands) - 1:
            y = _bar(page, lanes, bands[number + 1], y)
            ends_at = [bands[other][0].right for other in range(number + 1) if len(bands[other]) == 1]
            if len(ends_at) == number + 1:
                beside, corner = max(ends_at), y + BAR
    free = [Patch(beside + GAP, area.x1, corner + 2.0, area.y1)] if beside < area.x1 else []
    half = (area.x1 - area.x0 - GAP) / 2
    return [*free, *(Patch(x, x + half, area.y0, y - 1.0) for x in (area.x0, area.x1 - half))]


def _lanes(band: tuple[Chain, ...], area: Patch, alone: float) -> list[Lane]:
    step = (area.x1 - area.x0) * (alone if len(band) == 1 else 1 / len(band))
    lanes = []
    for number, chain in enumerate(band):
        left = area.x0 + number * step
        wide = number == 0 or any(part.bond or part.copies > 1 for part in chain.parts)
        lanes.append(Lane(chain, left + (SPINE if wide else SLIM), left + step - GAP))
    return lanes


def _heights(lanes: list[Lane], *, hanging: bool) -> list[float]:
    """How high each row of a band is [mm]."""
    depth = max(len(lane.chain.parts) for lane in lanes)
    heights = [0.0] * depth
    for lane in lanes:
        skipped = depth - len(lane.chain.parts) if hanging else 0
        for row, part in enumerate(lane.chain.parts, start=skipped):
            text = sum(line_height(BODY if bold else SMALL) for _, bold in _text(part, lane))
            bond = REACH + HANG - _pole(part)[1] + part.bond.count(", ") * line_height(SMALL) + AIR if part.bond else 0
            heights[row] = max(heights[row], LEAST, text + AIR, bond + line_height(SMALL))
    return heights


def _bar(page: Axes, above: list[Lane], below: list[Lane], y: float) -> float:
    """The bar between two bands, and the conductors under it; returns where the lower band starts."""
    lower = [lane.x for lane in below if not lane.chain.apart]
    xs = [lane.x for lane in above if not lane.chain.apart] + lower
    draw_stroke(page, (0, y), ((min(xs), 0), (max(xs), 0)), width=BAR_WIDTH)
    for x in lower:
        draw_stroke(page, (x, y), ((0, 0), (0, -BAR)))
    return y - BAR


def _text(part: Part, lane: Lane) -> list[tuple[str, bool]]:
    """The lines beside a part, and whether they are bold."""
    room = lane.right - lane.x - _right(part)
    plain = [(line, False) for text in part.lines for line in wrap(text, room, SMALL)]
    return [*((line, True) for line in wrap(part.title, room, BODY, bold=True)), *plain]


def _right(part: Part) -> float:
    """How far text stands from the conductor [mm]."""
    return 5.5 + _offsets(part)[-1]


def _offsets(part: Part) -> list[float]:
    count = min(part.copies, DRAWN)
    return [APART * (number - (count - 1) / 2) for number in range(count)]


def _chain(page: Axes, lane: Lane, y: float, heights: list[float], ends: tuple[bool, bool]) -> None:
    """Draw parts under one another from y [mm]; `ends` say whether a conductor leads on above and below."""
    parts = lane.chain.parts
    for number, (part, height) in enumerate(zip(parts, heights, strict=True)):
        enters, leaves = number > 0 or ends[0], number < len(parts) - 1 or ends[1]
        joins = part.copies > 1 and (number == len(parts) - 1 or parts[number + 1].copies == 1)
        half, offsets = SYMBOLS[part.symbol].half, _offsets(part)
        for offset in offsets:
            at = (lane.x + offset, y - REACH)
            draw_symbol(page, part.symbol, at, dashed=part.open, gid=f"one-line-{part.symbol}")
            if enters:
                draw_stroke(page, at, ((0, REACH), (0, half)))
            if leaves:
                draw_stroke(page, at, ((0, -half), (0, REACH - height + (JOIN if joins else 0))))
        if joins:
            draw_stroke(page, (lane.x, y - height), ((offsets[0], JOIN), (offsets[-1], JOIN)))
            draw_stroke(page, (lane.x, y - height), ((0, JOIN), (0, 0)))
        _marks(page, (lane.x, y - REACH), part)
        text_y = y
        for line, bold in _text(part, lane):
            write(page, lane.x + _right(part), text_y, line, size=BODY if bold else SMALL, bold=bold)
            text_y -= line_height(BODY if bold else SMALL)
        y -= height


def _marks(page: Axes, at: Flat, part: Part) -> None:
    """Dots for the strings that are not drawn, the number of a cable's conductors, and a bond to the left."""
    x, y = at
    if part.copies > DRAWN:
        for dot in (-0.45, 0.0, 0.45):
            draw_shape(page, Circle((x + APART / 2 + dot, y), 0.15, facecolor=INK, edgecolor="none", zorder=6))
    if part.cores:
        write(page, x - 1.8, y, str(part.cores), size=SMALL, ha="right", va="center")
    if part.bond:
        pole = _pole(part)
        draw_stroke(page, at, (pole, (-BOND, pole[1]), (-BOND, pole[1] - 1.5)), dashed=True)
        draw_symbol(page, "chassis", (x - BOND, y + pole[1] - 3.0))
        for number, line in enumerate(part.bond.split(", ")):
            line_y = y + pole[1] - HANG - number * line_height(SMALL)
            write(page, x - BOND, line_y, line, size=SMALL, ha="center")


def _pole(part: Part) -> Flat:
    """Where a bond joins a part, counted from its middle [mm]: a battery at its negative plate."""
    return (-1.7, -2.1) if part.symbol == "battery" else (_offsets(part)[0] - 3.5, 0.0)
