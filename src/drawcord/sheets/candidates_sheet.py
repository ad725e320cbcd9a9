"""The candidates of one cable side by side: a small plan and section each, and their figures under them."""

import math
from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from drawcord.coach.coach import Coach
from drawcord.routes.route import Answer, Candidate, Route
from drawcord.sheets import marks, style
from drawcord.sheets import page as sheet
from drawcord.sheets.cautions import UNCHECKED, Power, cautions
from drawcord.sheets.drawing import draw_line
from drawcord.sheets.lengths import length
from drawcord.sheets.listing import SWATCH, Draw, sample, symbols
from drawcord.sheets.mini import draw_small, small_views, stretch_x
from drawcord.sheets.panel import EDGE, fitting_scale, stack
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import HEAD, INK, LOOKS, MARGIN, RULE, SMALL, house_style
from drawcord.sheets.tables import DROP, figure_named
from drawcord.sheets.text import line_height, text_width, wrap, write
from drawcord.sheets.views import View
from drawcord.words.finding import Finding
from drawcord.words.units import format_minutes

MOST_CARDS = 6  # on a sheet, in one row up to three, else in two
GAP = 4.0
FEW_LINES = 8  # of words under the figures of a card; where any has more, a sheet has one row
STEP = line_height(SMALL)
RULER = 4.0  # mm under the pictures


def candidates_sheets(coach: Coach, answer: Answer, units: str = "mm", power: Power = UNCHECKED) -> list[Figure]:
    """Draw the candidates of a cable, up to six to a lying A4 sheet; none gives an empty list."""
    width = _card_width(MOST_CARDS // 2)
    long = any(len(_words(candidate, width)) > FEW_LINES for candidate in answer.candidates)
    most = MOST_CARDS // 2 if long else MOST_CARDS
    starts = range(0, len(answer.candidates), most)
    classes = [coach.job.cables[answer.cable].carries] if coach.job else []
    said = cautions(classes, [candidate.route for candidate in answer.candidates], power)
    with house_style():
        sheets = [_sheet(coach, answer, answer.candidates[start : start + most], units, said) for start in starts]
        for number, (_, page) in enumerate(sheets, start=1):
            if len(sheets) > 1:
                sheet.number_sheet(page, number, len(sheets))
    return [figure for figure, _ in sheets]


def _card_width(across: int) -> float:
    return (style.A4[1] - 2 * MARGIN - (across - 1) * GAP) / across


def _sheet(
    coach: Coach, answer: Answer, shown: tuple[Candidate, ...], units: str, said: Sequence[Finding]
) -> tuple[Figure, Axes]:
    figure, page = sheet.new_page(upright=False)
    title = f"{answer.cable}: {answer.start} to {answer.end}, candidates"
    bottom, above = ("street", "curb") if coach.street_is_left else ("curb", "street")
    look = (
        f"Front on the left; from above, the {bottom} side is below and the {above} side above."
        " Under the pictures stand distances from the front."
    )
    top = sheet.head(page, title, [f"{coach.rig.name}. {answer.guarantee}", look])
    top = _key(page, top, shown) - 1.0
    rows = 1 if len(shown) <= MOST_CARDS // 2 else 2
    across = -(-len(shown) // rows)
    width = _card_width(across)
    height = (top - sheet.foot(page, said) - (rows - 1) * GAP) / rows
    words = [_words(candidate, width) for candidate in shown]
    texts = (len(facts(shown[0], units)) / 2 + max(map(len, words))) * STEP + 2.0
    pictures = height - line_height(HEAD) - 0.8 - texts - RULER
    for index, candidate in enumerate(shown):
        down, along = divmod(index, across)
        x, y = MARGIN + along * (width + GAP), top - down * (height + GAP)
        draw_line(page, [x, x + width], [y, y], color=INK, linewidth=1.2)
        write(page, x, y - 0.8, f"{candidate.id}, {candidate.offered_as}", size=HEAD, bold=True)
        corner = (x, y - 0.8 - line_height(HEAD))
        draw_pair(figure, page, coach, candidate.route, corner, (width, pictures), units)
        _text(page, facts(candidate, units), words[index], (x, corner[1] - pictures - RULER), width)
    return figure, page


def draw_pair(figure: Figure, page: Axes, coach: Coach, route: Route, corner: Flat, room: Flat, units: str) -> float:
    """Plan and section from `corner` within room [mm], under one another or side by side, as makes them larger.

    Returns how far down they reach [mm].
    """
    plan, section = small_views(coach, route)
    span = stretch_x(coach, route)
    (x, y), (width, height) = corner, room
    scale = fitting_scale((plan, section), span, width, height)
    beside = max(fitting_scale((view,), span, (width - GAP) / 2, height) for view in (plan, section))
    groups: list[tuple[float, tuple[View, ...]]] = [(x, (plan, section))]
    if beside < scale:
        scale, width = beside, (width - GAP) / 2
        groups = [(x, (plan,)), (x + width + GAP, (section,))]
    span = stretch_x(coach, route, int((width - 2 * EDGE) * scale))
    lowest = y
    for left, views in groups:
        for panel in stack(figure, page, views, span, (left, y), scale):
            draw_small(panel, coach, route)
            title = f"{panel.view.title}, 1:{scale}"
            write(page, left, panel.board.bounds.y1 + 0.4, title, size=SMALL, va="bottom")
        ticks = [(tick, panel.at((tick, 0))[0]) for tick in sheet.ticks(coach, units) if span[0] <= tick <= span[1]]
        lowest = min(lowest, sheet.ruler(page, coach, ticks, panel.corner[1] - EDGE, units))
    return lowest


def _key(page: Axes, y: float, shown: tuple[Candidate, ...]) -> float:
    """What the signs in the pictures mean, in lines; returns where they end."""
    signs: list[tuple[Draw, str]] = [
        (symbols(*marks.START), "start"),
        (symbols(*marks.END), "end"),
        (symbols(*marks.ROOF_HOLE), "hole through the roof"),
        (symbols(*marks.INNER_HOLE), "hole inside"),
        (symbols(*marks.JOINED), "joint"),
        (sample(style.OBSTACLE), "obstacle on the roof"),
        (sample(style.SWEEP), "swept by a moving part"),
    ]
    kinds = {leg.kind for candidate in shown for leg in candidate.route.legs}
    signs += [(sample(look), kind) for kind, look in LOOKS.items() if kind in kinds - {"roof", "room"}]
    x = MARGIN
    for draw, meaning in signs:
        wide = SWATCH[0] + 1.0 + text_width(meaning, SMALL)
        if x + wide > sheet.paper(page)[0] - MARGIN:
            x, y = MARGIN, y - STEP - 0.6
        draw(page, x, y - 0.3)
        write(page, x + SWATCH[0] + 1.0, y - 0.3 - SWATCH[1] / 2, meaning, size=SMALL, va="center")
        x += wide + GAP
    return y - STEP - 0.6


def _text(page: Axes, pairs: list[tuple[str, str]], words: tuple[str, ...], corner: Flat, width: float) -> None:
    """The figures in two columns, then the words."""
    x, y = corner
    half = (len(pairs) + 1) // 2
    for number, (name, value) in enumerate(pairs):
        left, at = x + (number // half) * width / 2, y - (number % half) * STEP
        write(page, left, at, name, size=SMALL)
        write(page, left + width / 2 - 2, at, value, size=SMALL, bold=True, ha="right")
    y -= half * STEP + 0.5
    draw_line(page, [x, x + width], [y, y], color=RULE, linewidth=0.5)
    sheet.write_lines(page, x, y - 0.4, words, size=SMALL)


def _words(candidate: Candidate, width: float) -> tuple[str, ...]:
    """The way, what it is best at, what needs consent and why it ranks there, in lines."""
    best = f"Best at: {', '.join(candidate.best_at)}. " if candidate.best_at else ""
    ask = "".join(f"Ask the owner first: {consent}. " for consent in candidate.route.consents)
    return wrap(f"{' > '.join(candidate.route.spaces)}. {best}{ask}{candidate.reason}", width, SMALL)


def facts(candidate: Candidate, units: str) -> list[tuple[str, str]]:
    """The figures of a candidate as (name, value)."""
    route = candidate.route
    criteria = route.criteria
    volts, percent = (figure_named(route, name) for name in DROP)
    drop = f"{volts.value:.2f} V, {percent.value:.1f} %" if volts and percent else "none"
    chance = f", {100 * math.exp(-criteria.doubt / 1e6):.0f} % clear" if criteria.doubt else ""
    reach = "" if route.reachable else ", out of reach"
    return [
        ("length", length(criteria.length, units)),
        ("in sight", length(criteria.in_sight, units)),
        ("roof, inner holes", f"{criteria.roof_holes}, {criteria.inner_holes}"),
        ("work", format_minutes(criteria.seconds)),
        ("cut, a core", length(route.cut_length[1], units)),
        ("unproven places", f"{len(route.unproven)}{chance}"),
        ("joints", f"{len(route.joints)}{reach}"),
        ("drop", drop),
    ]
