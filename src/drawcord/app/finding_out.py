"""A fact noted in the job file, and the job planned again with it."""

from datetime import date
from pathlib import Path

from drawcord.app.printing import progress
from drawcord.coach.build import build
from drawcord.coach.job import Found, Job, either_way_round
from drawcord.coach.rig import Rig
from drawcord.coach.shop import Shop
from drawcord.files.load import Loaded, load_ways, placing
from drawcord.files.noting import noted
from drawcord.files.tables import conductors
from drawcord.files.writing import write_file
from drawcord.routes.again import again, plan
from drawcord.sheets.changed import changed_text
from drawcord.words.faults import BadInput, Problem
from drawcord.words.nearest import nearest

STANDING = {"clear": "proven", "blocked": "blocked"}


def find_out(job: Path, shop: Path | None, what: str, how: str, said: tuple[str, str | None]) -> tuple[str, bool]:
    """Note it, by whom and when `said` tells, and say what changed; whether every cable has a route.

    The file is written only once the new plan is made. Raises BadInput for places and dates that are none.
    """
    loaded, ways = load_ways(job, shop)
    if loaded.coach.job is None or loaded.job is None:
        raise BadInput([Problem((), "this is a rig file; what was found is noted in a job file", file=str(job))])
    place = _place(what, {*loaded.coach.spaces, *loaded.coach.declared, *ways.passages}, job)
    entry = {"what": place, "standing": STANDING[how], "source": said[0], "date": _day(said[1], job)}
    with job.open(encoding="utf-8", newline="") as file:
        text = noted(loaded.job, file.read(), entry)
    progress("planning again")
    before = plan(loaded.coach, conductors())
    after = placing(loaded, lambda: again(before, build(*_knowing(loaded, entry)), conductors()))
    write_file(job, text.encode())
    answers = [(before.answers[name], after.answers[name]) for name in sorted(after.answers)]
    note = f"{place} is noted as {entry['standing']} in {job}."
    return changed_text(note, answers, loaded.coach.units), all(now.candidates for _, now in answers)


def _knowing(loaded: Loaded, entry: dict[str, str]) -> tuple[Rig, Job, Shop]:
    """Rig, job and shop with one more fact."""
    coach = loaded.coach
    assert coach.job is not None  # noqa: S101 - checked by the caller; this tells the type checker
    differences = coach.job.differences
    others = [fact for fact in differences.found if fact.what != entry["what"]]
    found = [*others, Found.model_validate(entry)]
    job = coach.job.model_copy(update={"differences": differences.model_copy(update={"found": found})})
    return coach.rig, job, coach.shop


def _place(what: str, known: set[str], job: Path) -> str:
    """The id that a person means: blanks stand for underscores, and a passage may be called either way round."""
    written = "~".join("_".join(part.split()) for part in what.split("~"))
    for name in (either_way_round(written), either_way_round(written.lower()), either_way_round(what)):
        if name in known:
            return name
    sentence = f"there is no space or passage {what} here{nearest(either_way_round(written), known)}"
    raise BadInput([Problem((), f"{sentence}: passages are called as in `bay~linen`", file=str(job))])


def _day(on: str | None, job: Path) -> str:
    if on is None:
        return date.today().isoformat()  # noqa: DTZ011 - the day it is where the person is
    try:
        return date.fromisoformat(on).isoformat()
    except ValueError:
        raise BadInput([Problem((), f"`--on`: {on} is no date; write it as 2026-05-04", file=str(job))]) from None
