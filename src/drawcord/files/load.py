"""Rig, job and shop files into a coach, with every problem of a stage at once and placed in its file."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel

from drawcord.coach.build import build
from drawcord.coach.catalogue import Types
from drawcord.coach.coach import Coach
from drawcord.coach.history import History, history
from drawcord.coach.job import Job
from drawcord.coach.notices import from_log, slivers
from drawcord.coach.parts import Parts
from drawcord.coach.rig import Rig
from drawcord.coach.sharing import Sharing
from drawcord.coach.shop import Allowances, Clearances, Labour, Preferences, Shop
from drawcord.coach.stocked import STOCKED
from drawcord.files.document import Document, placed, read_document, resolve_inside, validate
from drawcord.files.home import shared
from drawcord.files.log import read_log
from drawcord.files.sizes import unpublished
from drawcord.ways.ways import Ways, explore
from drawcord.words.faults import BadInput, Problem
from drawcord.words.units import UNITS

Model = TypeVar("Model", bound=BaseModel)
Result = TypeVar("Result")


@dataclass(frozen=True)
class Loaded:
    """A coach and the files it was made from: rig, then job and the rig's log if there are any, then the shop's."""

    coach: Coach
    rig: Document
    job: Document | None
    shop: tuple[Document, ...]
    log: Document | None = None

    @property
    def documents(self) -> tuple[Document, ...]:
        """Every file that was read."""
        return (self.rig, *(one for one in (self.job, self.log) if one), *self.shop)

    def at(self, place: str) -> tuple[str, int, int]:
        """File, line and column of what a finding is about: an entry, a terminal, or the first space of a passage."""
        if self.log and place == self.log.path.name:
            return (str(self.log.path), *self.log.position(("jobs",), on_key=True))
        name = place.partition("~")[0].partition(".")[0]
        role, path = self.coach.written.get(name, ("job", ("equipment", name)))
        document = self.job if role == "job" and self.job else self.rig
        return (str(document.path), *document.position(path, on_key=True))


class _Problems:
    """Collects the problems of steps that do not need each other."""

    def __init__(self) -> None:
        self.found: list[Problem] = []

    def attempt(self, step: Callable[[], Result]) -> Result | None:
        try:
            return step()
        except BadInput as error:
            self.found.extend(error.problems)
            return None


def model_of(document: Document, model: type[Model]) -> Model:
    """A model of a document, bare lengths in the unit that it states. Raises BadInput."""
    stated = document.data.get("units")
    return validate(document, model, context={"unit": stated if stated in UNITS else None})


def load_shop(folder: Path | None = None) -> tuple[Shop, tuple[Document, ...]]:
    """The shop's files from a folder, or from the shared folder that comes with drawcord. Raises BadInput."""
    problems = _Problems()
    base = folder or shared()
    documents: list[Document] = []

    def part(name: str, model: type[Model], folder: Path = base) -> Model | None:
        document = problems.attempt(lambda: read_document(folder / f"{name}.yaml"))
        if document is None:
            return None
        documents.append(document)
        return problems.attempt(lambda: model_of(document, model))

    clearances, labour = part("clearances", Clearances), part("labour", Labour)
    allowances, preferences = part("allowances", Allowances), part("preferences", Preferences)
    # A shop without a table of its own keeps to the one that comes with drawcord.
    sharing = part("sharing", Sharing, base if (base / "sharing.yaml").is_file() else shared())
    types = {}
    for name, model in STOCKED.items():
        if (base / f"{name}.yaml").is_file() and (stocked := part(name, model)):
            types[name] = getattr(stocked, name)
    parts = part("parts", Parts) if (base / "parts.yaml").is_file() else None
    if problems.found or not (clearances and labour and allowances and preferences and sharing):
        raise BadInput(problems.found)
    shop = Shop(clearances, labour, allowances, preferences, sharing, Types.model_construct(**types), parts)
    return shop, tuple(documents)


def load(path: Path, shop_folder: Path | None = None) -> Loaded:
    """A coach from a job file, or from a rig file alone. Raises BadInput."""
    problems = _Problems()
    shop = problems.attempt(lambda: load_shop(shop_folder))
    first = problems.attempt(lambda: _sketch(path))
    if first is None:
        raise BadInput(problems.found)
    job_document = first if "job" in first.data else None
    job = None
    rig_document: Document | None = first
    if job_document:
        job = problems.attempt(lambda: model_of(job_document, Job))
        rig_document = problems.attempt(lambda: _rig_of(job_document))
    rig = problems.attempt(lambda: model_of(rig_document, Rig)) if rig_document else None
    read = problems.attempt(lambda: read_log(rig_document, rig)) if rig and rig_document else None
    log, log_document = read or (None, None)
    if problems.found or rig is None or rig_document is None or shop is None:
        raise BadInput(problems.found)
    past = history(log, job.job if job else None) if log else History()
    coach = problems.attempt(lambda: build(rig, job, replace(shop[0], history=past)))
    if job:
        problems.found.extend(unpublished(job))
    if problems.found or coach is None:
        raise BadInput(_placed(tuple(problems.found), rig_document, job_document))
    return Loaded(coach, rig_document, job_document, shop[1], log_document)


def _placed(problems: tuple[Problem, ...], rig: Document, job: Document | None) -> list[Problem]:
    """Problems of the coach, whose file is "rig" or "job", with their file, line and column."""
    found = placed([replace(p, file="") for p in problems if p.file == "rig"], rig)
    if job:
        found += placed([replace(p, file="") for p in problems if p.file == "job"], job)
    return found


def placing(loaded: Loaded, step: Callable[[], Result]) -> Result:
    """What a step makes of a coach; its problems are placed in the files. Raises BadInput."""
    try:
        return step()
    except BadInput as error:
        raise BadInput(_placed(error.problems, loaded.rig, loaded.job)) from None


def _rig_of(job: Document) -> Document:
    named = job.data.get("rig")
    if not isinstance(named, str):
        raise BadInput([])  # the model of the job says what is wrong with it
    return _sketch(resolve_inside(job, named, "rig"))


def _sketch(path: Path) -> Document:
    """A file that a person wrote: what drawcord wrote is no sketch, though it reads as one."""
    document = read_document(path)
    if "inputs" in document.data and "cables" in document.data:
        what = "plan" if "chosen" in document.data else "comparison"
        sentence = f"this is a {what} that drawcord wrote, not a rig or a job"
        raise BadInput([Problem((), sentence, file=str(path))])
    return document


def load_ways(path: Path, shop_folder: Path | None = None) -> tuple[Loaded, Ways]:
    """A coach with its ways. Raises BadInput."""
    loaded = load(path, shop_folder)
    ways = placing(loaded, lambda: explore(loaded.coach))
    sources = {name: passage.source for name, passage in ways.passages.items()}
    said = from_log(loaded.coach, sources, loaded.log.path.name if loaded.log else "")
    findings = sorted((*loaded.coach.findings, *slivers(loaded.coach, ways.passages), *said))
    coach = replace(loaded.coach, findings=tuple(findings))
    return replace(loaded, coach=coach), replace(ways, coach=coach)
