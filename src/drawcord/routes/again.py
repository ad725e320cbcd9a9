"""Planning again after a fact has become known: only what depends on it is searched again.

A fact makes a space or passage better or worse. Where some only get worse, a route that does not go by them
costs what it cost, and every other no less. So an answer that leans on none of them stays, to the byte: what
was efficient or came first still is and does, and what was beaten still is. It has to have been exact, and so do
the least costs that limits are made from, which is why an answer leans on these too (leaning.py).
"""

from dataclasses import dataclass, replace

from drawcord.coach.coach import Coach, Space
from drawcord.coach.job import Job
from drawcord.routes.compare import Work, work
from drawcord.routes.memory import Memory
from drawcord.routes.order import Order
from drawcord.routes.route import Answer
from drawcord.ways.passage import Passage
from drawcord.ways.renew import renew
from drawcord.ways.ways import Ways, explore
from drawcord.wire.conductor import Conductor

Conductors = tuple[Conductor, ...]


@dataclass(frozen=True)
class Planned:
    """The ways of a job and the work on each of its cables, by id."""

    ways: Ways
    works: dict[str, Work]

    @property
    def answers(self) -> dict[str, Answer]:
        """What the comparison says of each cable."""
        return {name: work.answer for name, work in self.works.items()}


def plan(coach: Coach, conductors: Conductors) -> Planned:
    """The comparison of every cable of a job, from nothing."""
    ways = explore(coach)
    return Planned(ways, {name: work(Order(ways, name, conductors), Memory()) for name in _cables(coach)})


def again(before: Planned, coach: Coach, conductors: Conductors) -> Planned:
    """The same as `plan(coach)`, out of a plan for a coach that differs in what was found out.

    Where a search from nothing would be cut short, what is known from before may be exact instead.
    Whatever else differs, all is planned from nothing. Raises BadInput for findings about passages that do
    not exist.
    """
    old = before.ways.coach
    if not _same_but_for_facts(old, coach):
        return plan(coach, conductors)
    ways = renew(before.ways, coach)
    spaces = {name for name, space in coach.spaces.items() if space != old.spaces[name]}
    known, now = before.ways.passages, ways.passages
    passages = {name for name in known.keys() | now.keys() if known.get(name) != now.get(name)}
    worse = all(_no_better(old.spaces[name], coach.spaces[name]) for name in spaces)
    worse = worse and all(name in known and _no_better(known[name], now.get(name)) for name in passages)
    shut = not spaces and all(name in now and now[name].barred for name in passages)
    changed = spaces | passages
    works = {}
    for name, done in before.works.items():
        memory = done.memory.still(changed, worse=worse, shut=shut)
        stays = worse and done.leans_on is not None and done.leans_on.isdisjoint(changed)
        works[name] = replace(done, memory=memory) if stays else work(Order(ways, name, conductors), memory)
    return Planned(ways, works)


def _cables(coach: Coach) -> list[str]:
    return sorted(coach.job.cables) if coach.job else []


def _no_better(before: Space | Passage, now: Space | Passage | None) -> bool:
    """Whether nothing has become cheaper or possible that was not."""
    return now is None or bool(now.barred) or (not before.barred and now.chance <= before.chance)


def _same_but_for_facts(one: Coach, other: Coach) -> bool:
    """Whether both are the same as if nothing had been found out about either."""
    if one.spaces.keys() != other.spaces.keys() or _without_facts(one) != _without_facts(other):
        return False
    pairs = ((space, other.spaces[name]) for name, space in one.spaces.items())
    return all(here == there or _unknown(here) == _unknown(there) for here, there in pairs)


def _without_facts(coach: Coach) -> Coach:
    """All but its spaces of the coach, as if nothing had been found out about it."""
    return replace(coach, job=coach.job and _job_without_facts(coach.job), spaces={}, found={}, findings=())


def _unknown(space: Space) -> Space:
    lasting = "" if space.barred == "it is blocked" else space.barred
    return replace(space, standing="proven", chance=1.0, source="", barred=lasting)


def _job_without_facts(job: Job) -> Job:
    return job.model_copy(update={"differences": job.differences.model_copy(update={"found": []})})
