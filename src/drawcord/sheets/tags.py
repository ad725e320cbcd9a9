"""Tags on the page: numbers of spaces, letters of things, and what names legs, holes, joints and ends."""

import math
from collections.abc import Iterable
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.patches import FancyBboxPatch

from drawcord.coach.coach import Coach
from drawcord.sheets.drawing import draw_line, draw_shape
from drawcord.sheets.key import Key
from drawcord.sheets.labels import Board
from drawcord.sheets.panel import Panel
from drawcord.sheets.segments import Flat
from drawcord.sheets.solids import anchor_in, spaces_in, wishes_in
from drawcord.sheets.style import CABLE, INK, SMALL
from drawcord.sheets.text import line_height, text_width, write
from drawcord.sheets.views import shows

HEIGHT = 2.7  # mm, of every tag of one line


class TagLook(NamedTuple):
    """How a tag is drawn; `round_by` [mm] rounds its corners, `pad` [mm] stands on both sides of its text."""

    fill: str
    edge: str
    text: str
    bold: bool
    round_by: float
    pad: float


SPACE_TAG = TagLook("#ffffff", "none", INK, bold=False, round_by=0.5, pad=0.25)
THING_TAG = TagLook("#ffffff", "#4a4a4a", "#4a4a4a", bold=True, round_by=0.1, pad=0.6)
LEG_TAG = TagLook(CABLE, "#ffffff", "#ffffff", bold=True, round_by=1.3, pad=0.7)
HOLE_TAG = TagLook("#ffffff", CABLE, CABLE, bold=True, round_by=0.1, pad=0.5)
END_TAG = TagLook("#ffffff", INK, INK, bold=True, round_by=0.8, pad=0.6)


def put_tag(
    page: Axes,
    board: Board,
    text: str,
    look: TagLook,
    wishes: Iterable[Flat],
    anchor: Flat | None = None,
    most: float = math.inf,
) -> bool:
    """Place and draw a tag, with a leader to its anchor if no wish was free; see Board.place. False if left out."""
    lines = text.split("\n")
    step = line_height(SMALL) * 0.9
    width = max(max(text_width(line, SMALL, look.bold) for line in lines) + 2 * look.pad, HEIGHT * (look.round_by > 1))
    height = HEIGHT + (len(lines) - 1) * step
    spot = board.place((width, height), wishes, anchor, most)
    if spot is None:
        return False
    x, y = spot.centre
    if spot.foot and anchor:
        xs, ys = zip(spot.foot, anchor, strict=True)
        draw_line(page, xs, ys, color=INK, linewidth=0.4, zorder=17)
        draw_line(page, [anchor[0]], [anchor[1]], color=INK, marker="o", markersize=1.3, zorder=17)
    rounding = min(look.round_by, HEIGHT / 2 - 0.01)
    box = FancyBboxPatch(
        (x - width / 2, y - height / 2),
        width,
        height,
        boxstyle=f"round,pad=0,rounding_size={rounding}",
        facecolor=look.fill,
        edgecolor=look.edge,
        linewidth=0.6,
        alpha=0.88 if look is SPACE_TAG else 1.0,
        zorder=18,
    )
    box.set_gid(f"tag-{board.name}-{' '.join(lines)}")
    draw_shape(page, box)
    y += (len(lines) - 1) * step / 2 - 0.12
    for line in lines:
        write(page, x, y, line, size=SMALL, bold=look.bold, color=look.text, ha="center", va="center")
        y -= step
    return True


def tag_spaces(panel: Panel, coach: Coach, key: Key, *, home: bool) -> None:
    """Number the spaces: those at home in this view for certain, the others where the number fits inside."""
    spaces = spaces_in(panel, coach)
    patches = [panel.patch(space.box) for space in spaces]
    for index, space in enumerate(spaces):
        if (home_of(panel, coach, space.id) == panel.view.name) != home:
            continue
        text, patch, over = key.spaces[space.id], patches[index], patches[index + 1 :]
        size = (text_width(text, SMALL) + 2 * SPACE_TAG.pad, HEIGHT)
        anchor = anchor_in(patch, over) if home else None
        put_tag(panel.page, panel.board, text, SPACE_TAG, wishes_in(patch, size, over), anchor)


def home_of(panel: Panel, coach: Coach, name: str) -> str:
    """The view in which a space is numbered for certain."""
    plans = (panel.view._replace(name=level, up=1) for level in ("cabin", "overhead", "below"))
    return next((plan.name for plan in plans if shows(coach, plan, coach.spaces[name].box)), "cabin")


def tag_things(panel: Panel, coach: Coach, key: Key, tagged: set[str]) -> None:
    """Letter the moving parts and things that no view above has lettered yet; adds them to `tagged`."""
    boxes = {name: part.drawn for name, part in coach.moving_parts.items()}
    for section in (coach.obstacles, coach.hazards, coach.obstructions):
        boxes |= {name: thing.box for name, thing in section.items()}
    for name, box in boxes.items():
        if name in tagged or not shows(coach, panel.view, box):
            continue
        text, patch = key.things[name], panel.patch(box)
        size = (text_width(text, SMALL, bold=True) + 2 * THING_TAG.pad, HEIGHT)
        wishes = wishes_in(patch, size, [], air=0.6)
        if put_tag(panel.page, panel.board, text, THING_TAG, wishes, anchor_in(patch, [])):
            tagged.add(name)
