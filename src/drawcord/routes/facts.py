"""The facts about one vehicle and order that could be otherwise, each as the job that would say so."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from drawcord.coach.coach import Thing
from drawcord.coach.job import Found, Job
from drawcord.coach.kinds import Standing
from drawcord.coach.rig import Hazard, Passage, RoofObstacle, Space
from drawcord.routes.order import Order
from drawcord.routes.said import said
from drawcord.ways.passage import Passage as Way

# What a change asks of people, the least first.
EFFORTS = (
    "looking",
    "the owner's word",
    "bringing something else",
    "opening what is shut",
    "finding an opening",
    "clearing out",
    "less clearance",
)
Effort = Literal[0, 1, 2, 3, 4, 5, 6]


@dataclass(frozen=True)
class Fact:
    """One fact that could be otherwise, by `least` to `most` [mm]; both alike where there is nothing to measure.

    `effort` is a place in `EFFORTS`; `job` is the job that says so, and `sentence` says it, by this much [mm].
    """

    effort: Effort
    place: str
    least: int
    most: int
    job: Callable[[int], Job]
    sentence: Callable[[int], str]


def facts(order: Order, places: Iterable[str]) -> list[Fact]:
    """Every fact of these spaces and passages, and of what lies near, that could be better for the cable."""
    coach, ways = order.coach, order.ways
    named = sorted(set(places))
    spaces = [name for name in named if name in coach.spaces]
    passages = [ways.passages[name] for name in named if name in ways.passages]
    shut = [name for name in named if name in coach.declared and name not in ways.passages]
    return [
        *_looking(order, spaces, passages),
        *_owner(order, spaces),
        *_bringing(order),
        *_opening(order, spaces, [*(passage.id for passage in passages if passage.declared), *shut]),
        *_found_open(order, passages),
        *_clearing(order, spaces),
        *_clearances(order, spaces),
    ]


def _one(effort: Effort, place: str, job: Job, sentence: str, amount: int = 0) -> Fact:
    """A fact that is one way or the other."""
    return Fact(effort, place, amount, amount, lambda _: job, lambda _: sentence)


def _job(order: Order) -> Job:
    job = order.coach.job
    assert job is not None  # noqa: S101 - an order's coach has one; this tells the type checker
    return job


def _differing(job: Job, section: str, name: str, entry: object) -> Job:
    """A job in which one entry of the rig, or one more, is this one."""
    entries = {**getattr(job.differences, section), name: entry}
    return job.model_copy(update={"differences": job.differences.model_copy(update={section: entries})})


def _found(job: Job, what: str, standing: Standing) -> Job:
    found = [*job.differences.found, Found(what=what, standing=standing)]
    return job.model_copy(update={"differences": job.differences.model_copy(update={"found": found})})


def _unfound(job: Job, what: str) -> Job:
    """Without what was found out about one thing, since a declared passage takes its place."""
    found = [fact for fact in job.differences.found if fact.what != what]
    return job.model_copy(update={"differences": job.differences.model_copy(update={"found": found})})


def _looking(order: Order, spaces: list[str], passages: list[Way]) -> Iterator[Fact]:
    standing = {name: order.coach.spaces[name].standing for name in spaces}
    for name, known in {**standing, **{passage.id: passage.standing for passage in passages}}.items():
        if known == "unproven":
            yield _one(0, name, _found(_job(order), name, "proven"), f"{name} looked into and proven clear")


def _owner(order: Order, spaces: list[str]) -> Iterator[Fact]:
    job = _job(order)
    owner = job.owner

    def agreed(**update: object) -> Job:
        return job.model_copy(update={"owner": owner.model_copy(update=update)})

    for name in spaces:
        if name in owner.excludes:
            excludes = [other for other in owner.excludes if other != name]
            yield _one(1, name, agreed(excludes=excludes), f"the owner no longer excludes {name}")
    rooms = [name for name in spaces if order.coach.spaces[name].kind == "room"]
    if rooms and "raceway in sight" not in owner.consents:
        job_ = agreed(consents=[*owner.consents, "raceway in sight"])
        yield _one(1, rooms[0], job_, f"the owner agrees to raceway in sight in {' and '.join(rooms)}")
    if rooms and "roof" in spaces and "roof into room" not in owner.consents:
        job_ = agreed(consents=[*owner.consents, "roof into room"])
        yield _one(1, rooms[0], job_, f"the owner agrees to an entry from the roof straight into {rooms[0]}")


def _bringing(order: Order) -> Iterator[Fact]:
    job, cable = _job(order), order.cable

    def changed(**update: int) -> Job:
        return job.model_copy(update={"cables": {**job.cables, order.name: cable.model_copy(update=update)}})

    def longer(by: int) -> str:
        pieces = said(order.coach, cable.longest_piece + by), said(order.coach, cable.longest_piece)
        return "a piece of {} instead of {}".format(*pieces)

    yield Fact(2, order.name, 1, 30_000, lambda by: changed(longest_piece=cable.longest_piece + by), longer)
    if (most := cable.largest_plug - cable.outside_diameter) > 0:

        def smaller(by: int) -> str:
            plugs = said(order.coach, cable.largest_plug - by), said(order.coach, cable.largest_plug)
            return "a plug of {} instead of {}, or one fitted once the cable is through".format(*plugs)

        yield Fact(2, order.name, 1, most, lambda by: changed(largest_plug=cable.largest_plug - by), smaller)


def _opening(order: Order, spaces: list[str], declared: list[str]) -> Iterator[Fact]:
    job, coach = _job(order), order.coach
    for name in spaces:
        if coach.spaces[name].standing == "blocked":
            yield _one(3, name, _found(job, name, "proven"), f"{name} not blocked after all")
    for name in declared:
        passage: Passage = coach.declared[name].passage
        blocked = passage.standing == "blocked" or coach.found.get(name, ("",))[0] == "blocked"
        if passage.opening == "closed" or blocked:
            opened = passage.model_copy(update={"opening": "exists", "standing": "proven", "chance": None})
            changed = _differing(_unfound(job, name), "passages", name, opened)
            yield _one(3, name, changed, f"{name} open")
        elif passage.size and passage.opening == "exists" and passage.size < order.cable.largest_plug:
            plug = order.cable.largest_plug
            wide = _differing(job, "passages", name, passage.model_copy(update={"size": plug}))
            sentence = f"the opening {name} widened from {said(order.coach, passage.size)} to {said(order.coach, plug)}"
            yield _one(3, name, wide, sentence, plug - passage.size)


def _found_open(order: Order, passages: list[Way]) -> Iterator[Fact]:
    for way in passages:
        written = order.coach.declared[way.id].passage if way.declared else None
        if way.standing == "blocked" and not way.declared:
            yield _one(3, way.id, _found(_job(order), way.id, "proven"), f"{way.id} not blocked after all")
        elif way.hole and not way.barred:
            update = {"opening": "exists", "standing": "proven", "chance": None}
            entry = written or Passage(between=(way.a, way.b), opening="exists")
            name = way.id if written else way.id.replace("~", "-")
            changed = _differing(_unfound(_job(order), way.id), "passages", name, entry.model_copy(update=update))
            yield _one(4, way.id, changed, f"an opening from {way.a} to {way.b} found to be there already")


def _clearing(order: Order, spaces: list[str]) -> Iterator[Fact]:
    for name in spaces:
        written = _written(order, "spaces", name)
        if isinstance(written, Space) and written.filled:
            job = _differing(_job(order), "spaces", name, written.model_copy(update={"filled": []}))
            yield _one(5, name, job, f"what fills {name} taken out")


def _clearances(order: Order, spaces: list[str]) -> Iterator[Fact]:
    boxes = [order.coach.spaces[name].box.grow(1) for name in spaces if name != "roof"]
    on_roof = "roof" in spaces
    for section, things in (("hazards", order.coach.hazards), ("roof_obstacles", order.coach.obstacles)):
        for name, thing in things.items():
            if (on_roof and section == "roof_obstacles") or any(thing.keep.overlap(box) for box in boxes):
                written, most = _written(order, section, name), thing.box.x0 - thing.keep.x0
                if isinstance(written, Hazard | RoofObstacle) and most:
                    yield _clearance(order, section, thing, written, most)


def _clearance(order: Order, section: str, thing: Thing, written: Hazard | RoofObstacle, most: int) -> Fact:
    def job(by: int) -> Job:
        return _differing(_job(order), section, thing.id, written.model_copy(update={"clearance": most - by}))

    def sentence(by: int) -> str:
        kept = f"{said(order.coach, most - by)} instead of {said(order.coach, most)}"
        return f"the clearance of {thing.id} ({thing.kind}) at {kept}, if its maker and the codes allow that"

    return Fact(6, thing.id, 1, most, job, sentence)


def _written(order: Order, section: str, name: str) -> object:
    """An entry as the job or the rig writes it; None if neither does."""
    job = _job(order)
    return getattr(job.differences, section).get(name) or getattr(order.coach.rig, section).get(name)
