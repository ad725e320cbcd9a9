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
from drawcord.sheets.tables import DROP, figure_named
from drawcord.sheets.text import line_height, wrap, write
from drawcord.sheets.views import span_x
from drawcord.words.units import format_length, format_minutes

MOST_CARDS = 6  # on a page, in one row up to three, else in two
GAP = 4.0
MOST = 6  # lines of words under the figures of a card
STEP = line_height(SMALL)


def candidates_sheets(coach: Coach, answer: Answer, units: str = "mm") -> list[Figure]:
    """Draw the candidates of a cable, six to a lying A4 sheet; none gives an empty list."""
    starts = range(0, len(answer.candidates), MOST_CARDS)
    pages = [answer.candidates[start : start + MOST_CARDS] for start in starts]
    numbers = [f", sheet {number} of {len(pages)}" if len(pages) > 1 else "" for number in range(1, len(pages) + 1)]
    with house_style():
        return [_page(coach, answer, *each, units) for each in zip(pages, numbers, strict=True)]


def _page(coach: Coach, answer: Answer, shown: tuple[Candidate, ...], number: str, units: str) -> Figure:
    figure, page = sheet.new_page(upright=False)
    title = f"{answer.cable}: {answer.start} to {answer.end}, candidates{number}"
    bottom, above = ("street", "curb") if coach.street_is_left else ("curb", "street")
    look = f"Front on the left; from above, the {bottom} side is below and the {above} side above."
    top = sheet.head(page, title, [f"{coach.rig.name}. {answer.guarantee}", look]) - 1.0
    rows = 1 if len(shown) <= MOST_CARDS // 2 else 2
    across = -(-len(shown) // rows)
    width = (sheet.paper(page)[0] - 2 * MARGIN - (across - 1) * GAP) / across
    height = (top - sheet.foot(page) - (rows - 1) * GAP) / rows
    words = [_words(candidate, width) for candidate in shown]
    texts = (len(facts(shown[0], units)) / 2 + max(map(len, words))) * STEP + 2.0
    pictures = height - line_height(HEAD) - 0.8 - texts
    scale = fitting_scale(small_views(coach), span_x(coach), width, pictures)
    for index, candidate in enumerate(shown):
        down, along = divmod(index, across)
        corner = (MARGIN + along * (width + GAP), top - down * (height + GAP))
        low = _pictures(figure, page, coach, candidate, corner, width, scale)
        _text(page, facts(candidate, units), words[index], (corner[0], low), width)
    return figure


def _pictures(
    figure: Figure, page: Axes, coach: Coach, candidate: Candidate, corner: Flat, width: float, scale: int
) -> float:
    """The name of a candidate, its plan and its section under `corner`; returns where they end."""
    x, y = corner
    page.plot([x, x + width], [y, y], color=INK, linewidth=1.2)
    write(page, x, y - 0.8, f"{candidate.id}, {candidate.offered_as}", size=HEAD, bold=True)
    y -= 0.8 + line_height(HEAD)
    for panel in stack(figure, page, small_views(coach), span_x(coach), (x, y), scale):
        draw_small(panel, coach, candidate.route)
        write(page, x, panel.board.bounds.y1 + 0.4, panel.view.title, size=SMALL, va="bottom")
        y = panel.board.bounds.y0
    return y - 0.6


def _text(page: Axes, pairs: list[tuple[str, str]], words: tuple[str, ...], corner: Flat, width: float) -> None:
    """The figures in two columns, then the words."""
    x, y = corner
    half = (len(pairs) + 1) // 2
    for number, (name, value) in enumerate(pairs):
        left, at = x + (number // half) * width / 2, y - (number % half) * STEP
        write(page, left, at, name, size=SMALL)
        write(page, left + width / 2 - 2, at, value, size=SMALL, bold=True, ha="right")
    y -= half * STEP + 0.5
    page.plot([x, x + width], [y, y], color=RULE, linewidth=0.5)
    sheet.write_lines(page, x, y - 0.4, words, size=SMALL)


def _words(candidate: Candidate, width: float) -> tuple[str, ...]:
    """The way, what it is best at, what needs consent and why it ranks there, in at most MOST lines."""
    best = f"Best at: {', '.join(candidate.best_at)}. " if candidate.best_at else ""
    ask = "".join(f"Ask the owner first: {consent}. " for consent in candidate.route.consents)
    lines = wrap(f"{' > '.join(candidate.route.spaces)}. {best}{ask}{candidate.reason}", width, SMALL)
    return lines if len(lines) <= MOST else (*lines[: MOST - 1], "… see the comparison")


def facts(candidate: Candidate, units: str) -> list[tuple[str, str]]:
    """The figures of a candidate as (name, value)."""
    route = candidate.route
    criteria = route.criteria
    volts, percent = (figure_named(route, name) for name in DROP)
    drop = f"{volts.value:.2f} V, {percent.value:.1f} %" if volts and percent else "none"
    chance = f", {100 * math.exp(-criteria.doubt / 1e6):.0f} % clear" if criteria.doubt else ""
    reach = "" if route.reachable else ", out of reach"
    return [
        ("length", format_length(criteria.length, units)),
        ("in sight", format_length(criteria.in_sight, units)),
        ("roof, inner holes", f"{criteria.roof_holes}, {criteria.inner_holes}"),
        ("work", format_minutes(criteria.seconds)),
        ("cut, a core", format_length(route.cut_length[1], units)),
        ("unproven places", f"{len(route.unproven)}{chance}"),
        ("joints", f"{len(route.joints)}{reach}"),
        ("drop", drop),
    ]
