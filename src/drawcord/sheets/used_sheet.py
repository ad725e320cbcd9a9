"""What the jobs on one rig planned and what they used: a row for each cable and each job's work."""

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from drawcord.coach.log import Log, Record
from drawcord.sheets import page as sheet
from drawcord.sheets.drawing import draw_line
from drawcord.sheets.lengths import length
from drawcord.sheets.style import CABLE, INK, MARGIN, RULE, SMALL, house_style
from drawcord.sheets.text import line_height, wrap, write
from drawcord.words.units import format_minutes

ROW = 2 * line_height(SMALL) + 0.8  # mm: two lines hold the longest ids
NAMES, WORDS = 76.0, 46.0  # mm for what a row is about, and for its figures
MOST = 2  # times what was planned, at the right end; what is beyond it is drawn as an arrowhead there
ROWS = 40  # on a sheet
Row = tuple[str, int, int, str]  # what, planned, used, both in words


def used_sheets(rig: str, log: Log, units: str) -> list[Figure]:
    """Draw the log of a rig, newest job first, as many upright A4 sheets as it takes."""
    records = sorted(log.jobs.items(), key=lambda one: (one[1].date or "", one[0]), reverse=True)
    rows = [row for name, record in records for row in _rows(name, record, units)]
    with house_style():
        pages = [_sheet(rig, rows[at : at + ROWS]) for at in range(0, max(1, len(rows)), ROWS)]
        for number, (_, page) in enumerate(pages, start=1):
            if len(pages) > 1:
                sheet.number_sheet(page, number, len(pages))
    return [figure for figure, _ in pages]


def _rows(name: str, record: Record, units: str) -> list[Row]:
    job = f"{record.date or 'no date'}  {name}"
    rows = [
        (f"{job}: {cable}", both.planned, both.used, f"{length(both.planned, units)}, {length(both.used, units)}")
        for cable, both in sorted(record.cables.items())
        if both.used
    ]
    if (work := record.minutes) and work.used and work.planned:
        said = f"{format_minutes(work.planned)}, {format_minutes(work.used)}"
        rows.append((f"{job}: work", work.planned, work.used, said))
    return rows


def _sheet(rig: str, rows: list[Row]) -> tuple[Figure, Axes]:
    figure, page = sheet.new_page(upright=True)
    about = (
        "Each row: used over planned, from its own plan at 1 (the line) to what was used (the dot; an arrowhead beyond"
        f" {MOST} ×). On the right: planned, used."
    )
    nothing = [] if rows else ["No job has recorded a length or its minutes yet."]
    y = sheet.head(page, f"{rig}: planned and used", [about, *nothing]) - ROW
    width, _ = sheet.paper(page)
    left, right = MARGIN + NAMES, width - MARGIN - WORDS

    def along(share: float) -> float:
        return left + (right - left) * min(share, MOST) / MOST

    for what, planned, used, said in rows:
        middle = y - ROW / 2
        draw_line(page, [MARGIN, width - MARGIN], [y - ROW, y - ROW], color=RULE, linewidth=0.4)
        sheet.write_lines(page, MARGIN, y - 0.4, wrap(what, NAMES - 2, SMALL), size=SMALL)
        draw_line(page, [along(1), along(used / planned)], [middle, middle], color=CABLE, linewidth=1.2)
        mark = "o" if used <= MOST * planned else ">"
        draw_line(page, [along(used / planned)], [middle], color=CABLE, marker=mark, markersize=3.5)
        words = f"{said}: {used / planned:.2f} ×"
        write(page, width - MARGIN, middle, words, size=SMALL, va="center", ha="right")
        y -= ROW
    if rows:
        draw_line(page, [along(1), along(1)], [y, y + ROW * len(rows)], color=INK, linewidth=0.7)
        for share in (0, 1, MOST):
            write(page, along(share), y - 0.5, f"{share} ×", size=SMALL, ha="center")
    return figure, page
