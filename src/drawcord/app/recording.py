"""From a plan to the form of its job, and from the filled form to the log of its rig."""

import os
from collections.abc import Collection
from datetime import date
from pathlib import Path
from typing import Literal

from drawcord.app.circuits import plan_of
from drawcord.app.printing import say
from drawcord.coach.log import Log, Record, UsedLength, UsedTime
from drawcord.files.document import Document, placed
from drawcord.files.load import Loaded, load_ways
from drawcord.files.log import form_path, form_text, log_path, read_form, read_log, write_log
from drawcord.files.writing import expect_folder, write_file, write_folder
from drawcord.load.against_van import work as work_of
from drawcord.plan.plan import Plan
from drawcord.words.faults import BadInput, Problem
from drawcord.words.nearest import nearest

WORD: dict[str, Literal["clear", "blocked"]] = {"proven": "clear", "blocked": "blocked"}


def write_form(job: Path, shop: Path | None, take: list[str]) -> None:
    """Write the form of a job, over none that is there. Raises Fault."""
    path = form_path(job)
    if os.path.lexists(path):
        raise BadInput([Problem((), "the form is there already: fill it in, or remove it first", str(path))])
    loaded, _, plan = plan_of(job, shop, take)
    if loaded.coach.job is None:
        raise BadInput([Problem((), "this is a rig file; what was used is recorded for a job", str(job))])
    write_file(path, form_text(loaded.coach.job.job, planned(plan)).encode())
    say(f"Fill in {path}, then: drawcord record {job}")


def planned(plan: Plan) -> Record:
    """The record of a plan before anything is known of what was used, but for what the job says was found."""
    routes = {name: candidate.route for name, candidate in plan.chosen.items()}
    found: dict[str, Literal["clear", "blocked"] | None] = {}
    found |= {what: None for route in routes.values() for what in route.unproven}
    facts = plan.coach.job.differences.found if plan.coach.job else ()
    found |= {fact.what: WORD.get(fact.standing or "") for fact in facts}
    past = plan.coach.shop.history
    cables = {}
    for name, route in routes.items():
        corrections = [f for f in route.figures if f.name == f"correction from {past.jobs} jobs, likely"]
        length = route.cut_length[1] - round(sum(figure.value for figure in corrections))
        cables[name] = UsedLength.model_construct(planned=length)
    work = UsedTime.model_construct(planned=work_of(plan))
    return Record(minutes=work, cables=cables, found=found)


def record(job: Path, shop: Path | None, out: Path | None) -> None:
    """Put the filled form of a job into the log of its rig. Raises Fault."""
    if out:
        expect_folder(out)
    loaded, ways = load_ways(job, shop)
    if loaded.coach.job is None:
        raise BadInput([Problem((), "this is a rig file; what was used is recorded for a job", str(job))])
    used, document = read_form(job)
    name = loaded.coach.job.job
    known = {*loaded.coach.spaces, *ways.passages, *(fact.what for fact in loaded.coach.job.differences.found)}
    _refuse(used.job, used, document, loaded, known)
    fields = {key: getattr(used, key) for key in Record.model_fields}
    dated = Record.model_construct(**{**fields, "date": used.date or date.today().isoformat()})  # noqa: DTZ011 - the person's day
    read = read_log(loaded.rig, loaded.coach.rig)
    jobs = dict(read[0].jobs) if read else {}
    again = name in jobs
    log = Log.model_construct(format=1, rig=loaded.coach.rig.rig, jobs={**jobs, name: dated})
    write_log(loaded.rig.path, log)
    say(f"{name} is {'recorded anew' if again else 'recorded'} in {log_path(loaded.rig.path)}, {len(log.jobs)} in all.")
    if out:
        from drawcord.sheets.render import pictures  # noqa: PLC0415 - only for a picture
        from drawcord.sheets.used_sheet import used_sheets  # noqa: PLC0415

        files = pictures("used", used_sheets(loaded.coach.rig.name, log, loaded.coach.units))
        write_folder(out, files, mark=f"use of {log.rig}")
        say(f"Planned against used: {', '.join(str(out / file) for file in files)}.")


def _refuse(job: str, used: Record, document: Document, loaded: Loaded, known: Collection[str]) -> None:
    """Raises BadInput for a form of another job, of what the job does not have, or with nothing filled in."""
    assert loaded.coach.job  # noqa: S101 - its caller made sure
    cables = loaded.coach.job.cables
    problems = []
    if job != loaded.coach.job.job:
        problems.append(Problem(("job",), f"this form is of {job}, not of {loaded.coach.job.job}"))
    for name in used.cables:
        if name not in cables:
            sentence = f"the job has no cable {name}{nearest(name, cables)}"
            problems.append(Problem(("cables", name), sentence, on_key=True))
    for what in used.found:
        if what not in known:
            sentence = f"{what} is neither a space nor a passage here{nearest(what, known)}"
            problems.append(Problem(("found", what), sentence, on_key=True))
    work = used.minutes and used.minutes.used
    if not (work or any(cable.used for cable in used.cables.values()) or any(used.found.values())):
        problems.append(Problem((), "nothing is filled in: give a length, the minutes, or what was found"))
    if problems:
        raise BadInput(placed(problems, document))
