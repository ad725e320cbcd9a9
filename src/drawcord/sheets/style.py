"""How every sheet looks: page, type, tints and hatches, as data. Lengths on paper in mm, type in points.

Hatch and tint both tell the kinds of space apart, so that a grey copy still reads.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

import matplotlib as mpl

from drawcord.coach.kinds import SpaceKind

A4 = (210.0, 297.0)
MARGIN = 8.0
POINT = 25.4 / 72  # mm

SMALL, BODY, HEAD, TITLE = 6.0, 6.5, 7.5, 12.0
LEADING = 1.32  # line height in terms of the type size

FONTS = Path(mpl.get_data_path()) / "fonts" / "ttf"  # shipped with matplotlib, so the same everywhere
PLAIN, BOLD = FONTS / "DejaVuSans.ttf", FONTS / "DejaVuSans-Bold.ttf"

Dashes = str | tuple[float, tuple[float, ...]]


class Look(NamedTuple):
    """How a patch is drawn; `ink` colours edge and hatch."""

    tint: str
    hatch: str
    ink: str
    line: Dashes = "-"
    width: float = 0.5


# A new kind of space needs a row with a hatch of its own. The roof and the rooms are the paper on which the
# others lie, and never share a view.
LOOKS: dict[SpaceKind, Look] = {
    "roof": Look("#ffffff", "", "#4a4a4a"),
    "room": Look("#ffffff", "", "#b9b4a8"),
    "cabinet": Look("#f7e9cb", "///", "#c7a45e"),
    "chase": Look("#cfeadb", "|||||", "#4d9a74"),
    "vent stack": Look("#cfe3f4", "o", "#4a82b0"),
    "appliance vent": Look("#e6d9f0", "++++", "#8d6bab"),
    "panel wall": Look("#dedbd3", "xxxxx", "#8a857a"),
    "void": Look("#edf1c6", "..", "#8f9638"),
    "bay": Look("#dbe5ee", "\\\\\\", "#7f9cb8"),
    "gas locker": Look("#f6d3cb", "**", "#b4553f"),
    "underfloor": Look("#efe4da", "---", "#b5937a"),
}

SHELL = Look("#ffffff", "", "#2b2b2b", width=1.0)
SLAB = Look("#c9c6c0", "", "#2b2b2b", width=0.5)
DRAWN = Look("none", "", "#3d5a80", width=1.0)
MOVED = Look("none", "", "#3d5a80", line=(0, (4, 2)), width=0.8)
SWEEP = Look("none", "/", "#8aa4c4", line=":", width=0.6)
OBSTACLE = Look("#d4d4d4", "", "#3a3a3a", width=0.7)
HAZARD = Look("#c8500f", "", "#7a2a00", width=0.8)  # the darkest patch, so that it warns in grey too
KEEP = Look("none", "", "#7a2a00", line=(0, (1, 1.5)), width=0.8)
OBSTRUCTION = Look("#8c8c8c59", "", "#5c5c5c", width=0.5)  # see-through: it lies in spaces
WAY_IN = Look("#ffe26a", "", "#7a6200", width=0.6)
GHOST = Look("none", "", "#6f6a60", line=(0, (3, 2)), width=0.6)

DOOR = Look("#ffffff", "", "#1a1a1a", line=(0, (5, 1.2)), width=0.7)
WINDOW = Look("#e8f3f8", "", "#5b7c8d", width=0.6)
PARTITION = Look("#6e6a62", "", "#6e6a62", width=0.4)

INK, RULE = "#1a1a1a", "#d9d9d9"
CABLE, CABLE_WIDTH = "#7a0f5c", 1.7
SEEN_THROUGH = (0, (2.2, 1.6))
JOINT = "#ffd23f"
USED_WIDTH = 1.3  # outline of a space the route runs in


def hung(look: Look) -> Look:
    """The look of a space that hangs above the counter, in a plan of what stands below."""
    return look._replace(line=GHOST.line, tint="none", hatch="", width=0.8)


@contextmanager
def house_style() -> Iterator[None]:
    """The defaults of matplotlib, whatever the user's settings are, with the few that sheets change."""
    with mpl.rc_context():
        mpl.rcdefaults()
        mpl.rcParams.update(
            {
                "font.family": ["DejaVu Sans", "sans-serif"],  # a browser takes the next where one is missing
                "font.sans-serif": ["DejaVu Sans", "sans-serif"],
                "hatch.linewidth": 0.35,
                "lines.solid_capstyle": "butt",
                "path.simplify": False,
                "svg.fonttype": "none",  # text stays text: small, and a search finds it
                "text.hinting": "none",  # text as wide on every device as it was measured
                "svg.hashsalt": "drawcord",
            }
        )
        yield
