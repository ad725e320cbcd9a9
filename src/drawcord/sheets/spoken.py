"""The comparison of a cable's candidates as plain text for a terminal."""

from collections.abc import Iterable, Mapping, Sequence

from drawcord.coach.coach import Coach
from drawcord.coach.history import SOURCE as LOG
from drawcord.routes.route import Answer, Candidate, NoRoute
from drawcord.sheets.lines import lines
from drawcord.sheets.tables import LINE, candidates_table, columns, text_table
from drawcord.words.finding import Finding

SHOWN = (
    "candidate", "length", "in sight", "roof holes", "inner holes", "work [min]", "chance clear",
    "cut likely", "joints", "drop [%]", "offered as",
)  # fmt: skip


def compare_text(coach: Coach, answer: Answer, units: str = "mm") -> str:
    """Winner and why, every candidate's figures, what each is best at, findings, and what needs consent."""
    out = [f"{coach.rig.name}: cable {answer.cable} from {answer.start} to {answer.end}", ""]
    if answer.unroutable:
        out += _no_route(answer.unroutable)
    else:
        winner = answer.candidates[0]
        out += _paragraph(f"Winner {winner.id}: {' > '.join(winner.route.spaces)}. {winner.reason}")
        out += ["", text_table(columns(candidates_table(answer, units), *SHOWN))]
        for candidate in answer.candidates:  # the winner's reason stands above
            out += [*_candidate(candidate, reason=candidate is not winner), ""]
    out += _paragraph(answer.guarantee)
    for sentence in answer.left_out:
        out += _paragraph(f"Left out: {sentence}")
    return "\n".join(out).rstrip() + "\n"


def plan_text(
    coach: Coach, found: Sequence[Answer], chosen: Mapping[str, Candidate], drops: Mapping[str, float]
) -> str:
    """The figures of each cable's chosen way in one table; then what its rank, findings and consents are.

    `drops` [%]: those of circuits, which stand instead of what the amperes and volts of the job come to.
    """
    tables = [candidates_table(answer, coach.units) for answer in found]
    drop = tables[0][0].index("drop [%]") if tables else 0
    rows = []
    for answer, table in zip(found, tables, strict=True):
        for row in table:
            if answer.cable in chosen and row[0] == chosen[answer.cable].id:
                row[drop] = f"{drops[answer.cable]:.2f}" if answer.cable in drops else row[drop]
                rows.append(row)
    out = [f"{coach.rig.name}: the way that each cable takes; the folder holds the other candidates"]
    out += ["", text_table(columns([tables[0][0], *rows], *SHOWN)).rstrip()] if rows else []
    for answer in found:
        if answer.cable in chosen:
            out += ["", *_candidate(chosen[answer.cable])]
        elif answer.unroutable:
            out += ["", f"{answer.cable}:", *_no_route(answer.unroutable)]
        if not answer.exact:
            out += _paragraph(answer.guarantee, "  ")
    return "\n".join(out).strip() + "\n"


def cautions_text(cautions: Iterable[Finding]) -> str:
    """What has to be said once under all comparisons."""
    out = [line for caution in cautions for line in _paragraph(f"{caution.place}: {caution.sentence}", "  ")]
    return "\n".join(["CAUTION", *out]) + "\n"


def _no_route(why: NoRoute) -> list[str]:
    out = _paragraph(f"NO ROUTE. {why.sentence}")
    together = ", all of it together" if len(why.smallest_change) > 1 else ""
    lists = {"Closed by:": why.closed_by, f"The smallest change that opens a way{together}:": why.smallest_change}
    for heading, sentences in lists.items():
        if not all(sentence in why.sentence for sentence in sentences):
            out += ["", heading, *(line for sentence in sentences for line in _paragraph(sentence, "  - "))]
    return [*out, ""]


def _candidate(candidate: Candidate, *, reason: bool = True) -> list[str]:
    route = candidate.route
    out = _paragraph(f"{candidate.id}, {candidate.offered_as}: {' > '.join(route.spaces)}")
    notes = [candidate.reason] if reason else []
    if candidate.best_at:
        notes.append(f"Best at: {', '.join(candidate.best_at)}.")
    if route.unproven:
        notes.append(f"Nobody has looked into: {', '.join(route.unproven)}.")
    notes += [f"Ask the owner first: {consent}." for consent in route.consents]
    notes += [f"{f.severity.name.capitalize()}, {f.place}: {f.sentence} [{f.source}]" for f in route.findings]
    notes += [f"The same in every figure: {' > '.join(twin)}." for twin in candidate.twins]
    return out + [line for note in notes for line in _paragraph(note, "  ")]


def _paragraph(text: str, indent: str = "") -> list[str]:
    return lines(text, LINE, indent)


def log_text(coach: Coach) -> str:
    """What was taken from the log of the rig, a line each; empty if nothing was."""
    return "\n".join(f"From the {LOG}: {one.sentence}" for one in coach.findings if one.source == LOG)
