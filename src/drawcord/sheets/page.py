"""A sheet of paper: its figure, the overlay on which text is written in mm, and what every sheet carries."""

from collections.abc import Iterable, Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon, Rectangle

from drawcord.coach.coach import Coach
from drawcord.sheets.drawing import draw_line, draw_shape
from drawcord.sheets.lengths import length
from drawcord.sheets.style import A4, BODY, HEAD, INK, MARGIN, SMALL, TITLE
from drawcord.sheets.text import line_height, text_width, wrap, write
from drawcord.words.finding import Finding

NUMBER = 24.0  # mm in the upper right corner, for the number of the sheet


def new_page(*, upright: bool) -> tuple[Figure, Axes]:
    """An empty A4 sheet and its overlay."""
    return blank(A4 if upright else A4[::-1])


def blank(size: tuple[float, float]) -> tuple[Figure, Axes]:
    """Empty paper of a size [mm] and its overlay: axes over all of it whose data are mm from its lower left."""
    width, height = size
    figure = Figure(figsize=(width / 25.4, height / 25.4), facecolor="white")
    page = figure.add_axes((0, 0, 1, 1), label="page", zorder=10)
    page.set_xlim(0, width)
    page.set_ylim(0, height)
    page.set_axis_off()
    page.patch.set_alpha(0)
    return figure, page


def paper(page: Axes) -> tuple[float, float]:
    """Width and height of the sheet [mm]."""
    return page.get_xlim()[1], page.get_ylim()[1]


def write_lines(
    page: Axes, x: float, y: float, lines: Iterable[str], *, size: float = BODY, bold: bool = False
) -> float:
    """Write lines under one another from the top at y [mm]; returns where the next would start."""
    for line in lines:
        write(page, x, y, line, size=size, bold=bold)
        y -= line_height(size)
    return y


def head(page: Axes, title: str, lines: list[str]) -> float:
    """Title and the lines under it, closed by a rule; returns the height [mm] at which the sheet goes on."""
    width, height = paper(page)
    room = width - 2 * MARGIN
    titles = wrap(title, room - NUMBER, TITLE, bold=True)
    y = write_lines(page, MARGIN, height - MARGIN, titles, size=TITLE, bold=True)
    for line in lines:
        y = write_lines(page, MARGIN, y, wrap(line, room, HEAD), size=HEAD)
    draw_line(page, [MARGIN, width - MARGIN], [y, y], color=INK, linewidth=0.8)
    return y - 1.0


def number_sheet(page: Axes, number: int, count: int) -> None:
    """Write in the upper right corner which sheet of several this is."""
    width, height = paper(page)
    write(page, width - MARGIN, height - MARGIN - 1.0, f"sheet {number} of {count}", size=HEAD, ha="right")


def foot(page: Axes, cautions: Sequence[Finding]) -> float:
    """The cautions along the lower edge; returns the height [mm] above which the sheet is free."""
    width, _ = paper(page)
    text = " ".join(["CAUTION.", *(caution.sentence for caution in cautions)])
    lines = wrap(text, width - 2 * MARGIN - 4, SMALL, bold=True)
    rise = len(lines) * line_height(SMALL) + 1.6
    box = Rectangle((MARGIN, MARGIN), width - 2 * MARGIN, rise, facecolor="#fff4c2", edgecolor=INK)
    box.set_linewidth(0.6)
    draw_shape(page, box)
    write_lines(page, MARGIN + 2, MARGIN + rise - 0.9, lines, size=SMALL, bold=True)
    return MARGIN + rise + 1.5


def ticks(coach: Coach, units: str) -> list[int]:
    """Where metre lines stand [mm from the front]; every four feet for a reader in inches."""
    step = 1219.2 if units == "in" else 1000
    x0, x1, _, _ = coach.bounds
    return [x0 + round(step * number) for number in range(int((x1 - x0) / step) + 1)]


def ruler(page: Axes, coach: Coach, xs: list[tuple[int, float]], y: float, units: str) -> float:
    """Distances from the front under the views: `xs` pairs [mm of coach] with [mm on paper]."""
    style = "m" if units == "mm" else units
    taken = -1.0  # mm on paper up to which labels stand already
    for tick, x in xs:
        draw_line(page, [x, x], [y - 0.8, y], color=INK, linewidth=0.6)
        label = length(tick - coach.bounds[0], style)
        half = text_width(label, SMALL) / 2
        if x - half > taken:
            write(page, x, y - 1.0, label, size=SMALL, ha="center")
            taken = x + half + 1.0
    return y - 1.2 - line_height(SMALL)


def scale_bar(page: Axes, x: float, y: float, scale: int, units: str, *, on_a4: bool = True) -> float:
    """A bar of four parts with its length, and the scale if it holds `on_a4`; returns where the sheet goes on below."""
    part = 304.8 if units == "in" else 250
    for number in range(4):
        shade = INK if number % 2 == 0 else "white"
        box = Rectangle((x + number * part / scale, y - 1.6), part / scale, 1.2, linewidth=0.5)
        box.set(facecolor=shade, edgecolor=INK, gid=f"scale-bar-{number}")
        draw_shape(page, box)
    bar = length(round(4 * part), "m" if units == "mm" else units)
    write(page, x + 4 * part / scale + 1.2, y, f"{bar}, scale 1:{scale} on A4" if on_a4 else bar, size=SMALL)
    return y - 3.4


def front_arrow(page: Axes, x: float, y: float) -> None:
    """An arrow to the left with the word beside it; its middle is at height y."""
    draw_shape(page, Polygon([(x, y), (x + 3, y + 1.2), (x + 3, y - 1.2)], closed=True, facecolor=INK))
    write(page, x + 3.6, y, "FRONT", size=SMALL, bold=True, va="center")


def heading(page: Axes, x: float, y: float, text: str, width: float) -> float:
    """A heading over a block, its top at y, with a rule; returns where the block starts."""
    write(page, x, y, text, size=BODY, bold=True)
    y -= line_height(BODY)
    draw_line(page, [x, x + max(width, text_width(text, BODY, bold=True))], [y, y], color=INK, linewidth=0.5)
    return y - 0.7
