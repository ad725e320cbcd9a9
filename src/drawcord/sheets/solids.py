"""Spaces, moving parts, ways in and things as a view sees them."""

from collections.abc import Iterator

from matplotlib.axes import Axes

from drawcord.coach.coach import Coach, Space
from drawcord.sheets import style
from drawcord.sheets.labels import Patch
from drawcord.sheets.panel import Panel, thick
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import LOOKS
from drawcord.sheets.views import drawing_order, hangs, shows


def spaces_in(panel: Panel, coach: Coach) -> list[Space]:
    """The spaces that a view draws, largest first; the roof plan ghosts what stands from floor to ceiling."""
    inside = [s for s in coach.spaces.values() if s.kind != "roof"]
    if panel.view.name == "roof":
        shown = [s for s in inside if s.kind != "room" and s.tall and not s.barred]
    else:
        in_plan = panel.view.up == 1
        shown = [s for s in inside if shows(coach, panel.view, s.box) and (s.kind != "room" or in_plan)]
    return drawing_order(coach, shown, panel.view)


def draw_spaces(panel: Panel, coach: Coach, used: frozenset[str]) -> Axes:
    """Draw the spaces; those in `used` get a heavy outline, rooms apart, which surround the others."""
    ghost = panel.view.name == "roof"
    for rank, space in enumerate(spaces_in(panel, coach)):
        look = LOOKS[space.kind]
        if ghost:
            tint = look.tint if space.id in used else "none"
            look = look._replace(line=style.GHOST.line, tint=tint, ink=style.GHOST.ink)
        elif panel.view.name == "cabin" and not panel.view.split and hangs(coach, space.box):
            look = style.hung(look)
        if space.kind != "room":
            panel.board.avoid(panel.patch(space.box), 0.3)
        panel.draw(space.box, look, 4 + rank / 1000, f"space-{space.id}")
        if space.id in used and space.kind != "room":
            bold = style.GHOST if ghost else style.Look("none", "", style.INK)
            panel.draw(space.box, bold._replace(width=style.USED_WIDTH, hatch=""), 5)
    return panel.ax


def draw_moving(panel: Panel, coach: Coach) -> Axes:
    """Draw every moving part as drawn, as moved, and what it sweeps."""
    for name, part in coach.moving_parts.items():
        if shows(coach, panel.view, part.sweep):
            if panel.view.name == "roof":
                panel.board.avoid(panel.patch(part.drawn), 4.0)
            panel.draw(part.sweep, style.SWEEP, 6, f"sweep-{name}")
            panel.draw(part.moved, style.MOVED, 6.1)
            panel.draw(part.drawn, style.DRAWN, 6.2, f"moving-{name}")
    return panel.ax


def draw_openings(panel: Panel, coach: Coach, into: frozenset[str] | None) -> Axes:
    """Draw the ways to reach into the spaces `into`, or into all: a bar edge-on, an outline face-on."""
    for name, opening in coach.openings.items():
        asked = into is None or opening.into in into
        if asked and panel.view.name != "roof" and shows(coach, panel.view, opening.box):
            low, high = opening.box.span(panel.view.up)
            flat = min(opening.box.x1 - opening.box.x0, high - low) == 0
            look = style.WAY_IN if flat else style.WAY_IN._replace(tint="none", line=style.KEEP.line)
            panel.draw(thick(opening.box, panel, 0.9), look, 8, f"opening-{name}")
    return panel.ax


def draw_things(panel: Panel, coach: Coach) -> Axes:
    """Draw roof obstacles, hazards and obstructions, the first two with what must be kept clear of them."""
    looks = (
        (coach.obstructions, style.OBSTRUCTION),
        (coach.obstacles, style.OBSTACLE),
        (coach.hazards, style.HAZARD),
    )
    for section, look in looks:
        for name, thing in section.items():
            if not shows(coach, panel.view, thing.box):
                continue
            if section is not coach.obstructions:
                keep = style.KEEP if section is coach.hazards else style.KEEP._replace(ink=style.OBSTACLE.ink)
                panel.draw(thing.keep, keep, 7)
            panel.draw(thing.box, look, 7.1, f"thing-{name}")
            panel.board.avoid(panel.patch(thing.box), 0.5 if section is coach.obstructions else 8.0)
    return panel.ax


def wishes_in(patch: Patch, size: Flat, over: list[Patch], air: float = -0.3) -> Iterator[Flat]:
    """Places for a tag within a rectangle where nothing that is drawn over it hides the tag, middle first.

    None if the rectangle is not larger than the tag by `air` [mm].
    """
    wide, high = patch.x1 - patch.x0 - size[0], patch.y1 - patch.y0 - size[1]
    if wide < air or high < air:
        return
    for v in (0.5, 0.15, 0.85):
        for u in (0.5, 0.2, 0.8, 0.35, 0.65, 0.05, 0.95):
            centre = (patch.x0 + size[0] / 2 + u * wide, patch.y0 + size[1] / 2 + v * high)
            if not any(Patch.around(centre, *size).meets(other) for other in over):
                yield centre


def anchor_in(patch: Patch, over: list[Patch]) -> Flat:
    """A point of a rectangle that nothing drawn over it hides, its middle if all is hidden."""
    points = [
        (patch.x0 + u * (patch.x1 - patch.x0), patch.y0 + v * (patch.y1 - patch.y0))
        for v in (0.5, 0.2, 0.8)
        for u in (0.5, 0.2, 0.8, 0.05, 0.95)
    ]
    dot = (0.2, 0.2)
    free = (p for p in points if not any(Patch.around(p, *dot).meets(other) for other in over))
    return next(free, points[0])
