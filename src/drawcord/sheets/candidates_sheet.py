"""The candidates of one cable side by side: a small plan and section each, and their figures under them."""

import math

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.routes.route import Answer, Candidate
from drawcord.sheets import page as sheet
from drawcord.sheets.labels import Flat
from drawcord.sheets.mini import draw_small, small_views
from drawcord.sheets.panel import fitting_scale, stack
from drawcord.sheets.style import HEAD, INK, MARGIN, RULE, SMALL, house_style
from drawcord.sheets.tables import DROP, figure_named, unproven
from drawcord.sheets.text import line_height, wrap, write
from drawcord.sheets.views import span_x
from drawcord.words.units import format_length, format_minutes

ACROSS, DOWN = 3, 2
GAP = 4.0
TEXT = 10  # lines of text under the pictures of a card
STEP = line_height(SMALL)


def candidates_sheets(coach: Coach, answer: Answer, units: str = "mm") -> list[Figure]:
    """Draw the candidates of a cable, six to a lying A4 sheet; none gives an empty list."""
    each = ACROSS * DOWN
    pages = [answer.candidates[start : start + each] for start in range(0, len(answer.candidates), each)]
    numbers = [f"{number} of {len(pages)}" for number in range(1, len(pages) + 1)]
    with house_style():
        return [_page(coach, answer, *each, units) for each in zip(pages, numbers, strict=True)]


def _page(coach: Coach, answer: Answer, shown: tuple[Candidate, ...], number: str, units: str) -> Figure:
    figure, page = sheet.new_page(upright=False)
    title = f"{answer.cable}: {answer.start} to {answer.end}, candidates, sheet {number}"
    bottom, above = ("street", "curb") if coach.street_is_left else ("curb", "street")
    look = f"Front on the left; from above, the {bottom} side is below and the {above} side above."
    top = sheet.head(page, title, [f"{coach.rig.name}. {answer.guarantee}", look]) - 1.0
    low = sheet.foot(page)
    paper = sheet.paper(page)
    size = (
        (paper[0] - 2 * MARGIN - (ACROSS - 1) * GAP) / ACROSS,
        (top - low - (DOWN - 1) * GAP) / DOWN,
    )
    for index, candidate in enumerate(shown):
        down, across = divmod(index, ACROSS)
        corner = (MARGIN + across * (size[0] + GAP), top - down * (size[1] + GAP))
        _card(figure, page, coach, candidate, corner, size, units)
    return figure


def _card(
    figure: Figure, page: Axes, coach: Coach, candidate: Candidate, corner: Flat, size: Flat, units: str
) -> None:
    """One candidate in the rectangle of this size [mm] whose upper left is `corner`."""
    x, top = corner
    page.plot([x, x + size[0]], [top, top], color=INK, linewidth=1.2)
    write(page, x, top - 0.8, f"{candidate.id}, {candidate.offered_as}", size=HEAD, bold=True)
    y = top - 0.8 - line_height(HEAD)
    pair, span = small_views(coach), span_x(coach)
    scale = fitting_scale(pair, span, size[0], y - (top - size[1]) - TEXT * STEP)
    for panel in stack(figure, page, pair, span, (x, y), scale):
        draw_small(panel, coach, candidate.route)
        left, upper = panel.board.bounds.x0, panel.board.bounds.y1
        write(page, left, upper + 0.4, panel.view.title, size=SMALL, va="bottom")
        y = panel.board.bounds.y0
    _figures(page, candidate, (x, y - 0.6), size[0], top - size[1], units)


def _figures(page: Axes, candidate: Candidate, corner: Flat, width: float, floor: float, units: str) -> None:
    """The figures in two columns, then the way and the reason as far as they fit."""
    x, y = corner
    pairs = facts(candidate, units)
    half = (len(pairs) + 1) // 2
    for number, (name, value) in enumerate(pairs):
        left, at = x + (number // half) * width / 2, y - (number % half) * STEP
        write(page, left, at, name, size=SMALL)
        write(page, left + width / 2 - 2, at, value, size=SMALL, bold=True, ha="right")
    y -= half * STEP + 0.8
    page.plot([x, x + width], [y, y], color=RULE, linewidth=0.5)
    best = f"Best at: {', '.join(candidate.best_at)}. " if candidate.best_at else ""
    ask = "".join(f"Ask the owner first: {consent}. " for consent in candidate.route.consents)
    lines = wrap(f"{' > '.join(candidate.route.spaces)}. {best}{ask}{candidate.reason}", width, SMALL)
    fit = int((y - 0.4 - floor) / STEP)
    if len(lines) > fit:
        lines = [*lines[: fit - 1], lines[fit - 1][:-2] + " …"]
    sheet.write_lines(page, x, y - 0.4, lines, size=SMALL)


def facts(candidate: Candidate, units: str) -> list[tuple[str, str]]:
    """The figures of a candidate as (name, value)."""
    route = candidate.route
    criteria = route.criteria
    volts, percent = (figure_named(route, name) for name in DROP)
    drop = f"{volts.value:.2f} V, {percent.value:.1f} %" if volts and percent else "none"
    places = len(unproven(route))
    chance = f", {100 * math.exp(-criteria.doubt / 1e6):.0f} % clear" if criteria.doubt else ""
    reach = "" if route.reachable else ", out of reach"
    return [
        ("length", format_length(criteria.length, units)),
        ("in sight", format_length(criteria.in_sight, units)),
        ("roof, inner holes", f"{criteria.roof_holes}, {criteria.inner_holes}"),
        ("work", format_minutes(criteria.seconds)),
        ("cut, a core", format_length(route.cut_length[1], units)),
        ("unproven places", f"{places}{chance}"),
        ("joints", f"{len(route.joints)}{reach}"),
        ("drop", drop),
    ]
