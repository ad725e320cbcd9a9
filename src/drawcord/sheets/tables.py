"""Tables of a route and of an answer, as rows of text with a header, and CSV from them.

With `units` (`mm`, `cm`, `m` or `in`) lengths read as people say them; without, they are bare whole millimetres
under a header with the unit, as a spreadsheet wants them.
"""

import csv
import math
from io import StringIO

from drawcord.routes.route import Answer, Candidate, Route
from drawcord.sheets.lengths import length
from drawcord.sheets.lines import lines, words
from drawcord.words.figure import Figure

Rows = list[list[str]]
DROP = ("voltage drop", "voltage drop of supply")  # the names of the two figures, in V and %
LINE = 100  # characters of a line on a terminal


def headed(name: str, units: str | None) -> str:
    """The header of a column of lengths."""
    return name if units else f"{name} [mm]"


def columns(rows: Rows, *names: str) -> Rows:
    """The named columns of a table, in that order."""
    places = [rows[0].index(name) for name in names]
    return [[row[place] for place in places] for row in rows]


def legs_table(route: Route, units: str | None = None) -> Rows:
    """One row a leg."""
    header = ["leg", "space", "kind", "how covered", headed("length", units), "in sight", "standing"]
    rows = [
        [
            str(number),
            leg.space,
            leg.kind,
            leg.cover,
            length(leg.length, units),
            "yes" if leg.in_sight else "no",
            leg.standing,
        ]
        for number, leg in enumerate(route.legs, start=1)
    ]
    return [header, *rows]


def short_legs(rows: Rows) -> Rows:
    """The table of legs as a sheet has room for: what is unproven says so beside the space."""
    return [
        [leg, f"{space} ({standing})" if standing == "unproven" else space, cover, run, seen]
        for leg, space, _, cover, run, seen, standing in rows
    ]


def figures_table(route: Route) -> Rows:
    """One row a derived figure, with its working."""
    header = ["figure", "value", "unit", "formula", "source"]
    return [header, *([f.name, f"{f.value:.6g}", f.unit, f.formula, f.source] for f in route.figures)]


def findings_table(route: Route) -> Rows:
    """One row a finding, the worst first."""
    header = ["severity", "place", "finding", "source"]
    return [header, *([f.severity.name.lower(), f.place, f.sentence, f.source] for f in route.findings)]


def look_out(route: Route) -> Rows:
    """The table of findings as a sheet has room for, each with its source in brackets."""
    header = ["severity", "place", "finding"]
    return [header, *([f.severity.name.lower(), f.place, f"{f.sentence} [{f.source}]"] for f in route.findings)]


def candidates_table(answer: Answer, units: str | None = None) -> Rows:
    """One row a candidate, with the figures that candidates are compared by."""
    rows = [_criteria(candidate, units) for candidate in answer.candidates]
    return [_criteria_header(units), *rows]


def _criteria_header(units: str | None) -> list[str]:
    return [
        "candidate",
        headed("length", units),
        headed("in sight", units),
        "roof holes",
        "inner holes",
        "work [min]",
        "unproven",
        "chance clear",
        headed("cut low", units),
        headed("cut likely", units),
        headed("cut high", units),
        "joints",
        "drop [V]",
        "drop [%]",
        "best at",
        "offered as",
        "spaces",
    ]


def _criteria(candidate: Candidate, units: str | None) -> list[str]:
    route = candidate.route
    criteria = route.criteria
    return [
        candidate.id,
        length(criteria.length, units),
        length(criteria.in_sight, units),
        str(criteria.roof_holes),
        str(criteria.inner_holes),
        f"{criteria.seconds / 60:.0f}",
        str(len(route.unproven)),
        f"{100 * math.exp(-criteria.doubt / 1e6):.0f} %",
        *(length(cut, units) for cut in route.cut_length),
        str(len(route.joints)),
        *(_two_places(figure_named(route, name)) for name in DROP),
        ", ".join(candidate.best_at),
        candidate.offered_as,
        " > ".join(route.spaces),
    ]


def _two_places(found: Figure | None) -> str:
    return f"{found.value:.2f}" if found else ""


def figure_named(route: Route, name: str) -> Figure | None:
    """The figure of that name, None if the route has none."""
    return next((found for found in route.figures if found.name == name), None)


def csv_bytes(rows: Rows) -> bytes:
    """The rows as CSV after RFC 4180, in UTF-8."""
    out = StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(rows)
    return out.getvalue().encode()


def text_table(rows: Rows) -> str:
    """Rows as aligned columns, at most 100 characters wide; numbers stand on the right.

    Long cells wrap; a column is narrowed where the most can go before anything breaks that may not.
    """
    by_column = list(zip(*rows, strict=True))
    widths = [max(len(cell) for cell in column) for column in by_column]
    longest = [max(len(word) for cell in column for word in words(cell)) for column in by_column]
    while sum(widths) > LINE - 2 * (len(widths) - 1) and max(widths) > 1:
        spare = [max(0, width - least) for width, least in zip(widths, longest, strict=True)]
        widths[max(range(len(widths)), key=lambda i: (spare[i], widths[i]))] -= 1
    right = [all(row[i][:1].isdigit() or not row[i] for row in rows[1:]) for i in range(len(widths))]
    out = [*_aligned(rows[0], widths, right), "  ".join("-" * width for width in widths)]
    for row in rows[1:]:
        out += _aligned(row, widths, right)
    return "\n".join(out) + "\n"


def _aligned(row: list[str], widths: list[int], right: list[bool]) -> list[str]:
    cells = [lines(cell, width) or [""] for cell, width in zip(row, widths, strict=True)]
    found = []
    for number in range(max(len(cell) for cell in cells)):
        parts = [cell[number] if number < len(cell) else "" for cell in cells]
        placed = zip(parts, widths, right, strict=True)
        found.append("  ".join(part.rjust(w) if r else part.ljust(w) for part, w, r in placed).rstrip())
    return found
