"""The log beside a rig, and the form beside a job that becomes a record in it."""

import json
import os
from collections.abc import Iterator
from pathlib import Path

from drawcord.coach.log import Log, Record, Used
from drawcord.coach.rig import Rig
from drawcord.files.document import Document, placed, read_document, validate
from drawcord.files.writing import write_file
from drawcord.words.faults import BadInput, Problem

LOG_HEAD = "# What jobs on this rig model used and found. Written anew by each `drawcord record`."


def log_path(rig: Path) -> Path:
    """Where the log of a rig file lies: `rig.log.yaml` beside `rig.yaml`."""
    return rig.with_name(f"{rig.stem}.log.yaml")


def form_path(job: Path) -> Path:
    """Where the form of a job file lies: `job.used.yaml` beside `job.yaml`."""
    return job.with_name(f"{job.stem}.used.yaml")


def read_log(document: Document, rig: Rig) -> tuple[Log, Document] | None:
    """The log of a rig, none if there is none. Raises BadInput."""
    path = log_path(document.path)
    if not os.path.lexists(path):
        return None
    read = read_document(path)
    log = validate(read, Log)
    if log.rig != rig.rig:
        sentence = f"this is the log of {log.rig}, but lies beside {rig.rig}: move it to its rig"
        raise BadInput(placed([Problem(("rig",), sentence)], read))
    return log, read


def read_form(job: Path) -> tuple[Used, Document]:
    """The form of a job, filled in. Raises BadInput."""
    document = read_document(form_path(job))
    return validate(document, Used), document


def write_log(rig: Path, log: Log) -> None:
    """Put the log beside its rig: the old one or the new one, whatever happens. Raises Surroundings."""
    jobs = "\n".join(line for name in sorted(log.jobs) for line in _job(name, log.jobs[name]))
    text = f"{LOG_HEAD}\nformat: 1\nrig: {log.rig}\njobs:{'' if jobs else ' {}'}\n{jobs}\n"
    write_file(log_path(rig), text.encode())


def form_text(job: str, record: Record) -> str:
    """The form of a job as text, with an empty place for everything that somebody may know."""
    head = (
        f"# What was really used on {job}. Fill in what you know, with units (`5.6 m`), and leave the rest empty.\n"
        f"# Lengths are per core, from cut to cut. `found`: clear, blocked, or empty where nobody looked.\n"
    )
    return f"{head}format: 1\njob: {job}\n" + "\n".join(_record(record)) + "\n"


def _job(name: str, record: Record) -> Iterator[str]:
    yield f"  {name}:"
    yield from (f"    {line}" for line in _record(record))


def _record(record: Record) -> Iterator[str]:
    yield f"date: {record.date or ''}".rstrip()
    yield f"source: {json.dumps(record.source, ensure_ascii=False) if record.source else ''}".rstrip()
    if record.minutes:
        planned, used = (_minutes(value) for value in (record.minutes.planned, record.minutes.used))
        yield f"minutes: {{planned: {planned}, used: {used}}}"
    yield "cables:" if record.cables else "cables: {}"
    for name, cable in sorted(record.cables.items()):
        yield f"  {name}: {{planned: {cable.planned} mm, used: {f'{cable.used} mm' if cable.used else ''}}}"
    yield "found:" if record.found else "found: {}"
    yield from (f"  {what}: {word or ''}".rstrip() for what, word in sorted(record.found.items()))


def _minutes(seconds: int | None) -> str:
    """A time as the models read it back to the second."""
    return "" if seconds is None else f"{seconds / 60:.2f}".rstrip("0").rstrip(".") + " min"
