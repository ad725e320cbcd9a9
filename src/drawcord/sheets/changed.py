"""What became of the plan after a fact, in sentences."""

from collections.abc import Sequence

from drawcord.routes.route import Answer, Route
from drawcord.sheets.lines import lines
from drawcord.sheets.tables import LINE
from drawcord.words.units import tape_length


def changed_text(note: str, answers: Sequence[tuple[Answer, Answer]], units: str) -> str:
    """The note, then each cable whose winner is another one or different now, and in one line those that stay."""
    out, same = lines(note, LINE), []
    for before, after in answers:
        was, now = (answer.candidates[0].route if answer.candidates else None for answer in (before, after))
        if was == now:
            same.append(after.cable)
        else:
            out += lines(f"{after.cable}: {_sentence(was, now, after, units)}", LINE, "  ")
    if same:
        out += lines(f"As before: {', '.join(same)}.", LINE, "  ")
    if len(answers) > 1:
        out += lines("Each cable is told by itself; `drawcord plan` plans them together again.", LINE, "  ")
    return "\n".join(out) + "\n"


def _sentence(was: Route | None, now: Route | None, after: Answer, units: str) -> str:
    if now is None:
        why = after.unroutable.sentence if after.unroutable else ""
        return f"NO ROUTE any more. {why}" if was else f"still NO ROUTE. {why}"
    to_cut = tape_length(now.cut_length[1], units)
    if was is None:
        return f"a way is open: {' > '.join(now.spaces)}; cut {to_cut}, {now.criteria.seconds / 60:.0f} min."
    cut = f"cut {to_cut} instead of {tape_length(was.cut_length[1], units)}"
    work = f"{now.criteria.seconds / 60:.0f} min instead of {was.criteria.seconds / 60:.0f}"
    if (was.spaces, was.passages) == (now.spaces, now.passages):
        left = f"unproven on it: {', '.join(now.unproven)}" if now.unproven else "nothing on it is unproven"
        return f"the same way, {cut}, {work}; {left}."
    return f"now {' > '.join(now.spaces)} instead of {' > '.join(was.spaces)}; {cut}, {work}."
