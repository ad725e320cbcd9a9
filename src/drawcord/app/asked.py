"""The answer about a route that a person has in mind, and where in the files its breaches stand."""

from collections.abc import Sequence
from pathlib import Path

from drawcord.files.load import Loaded, load_ways
from drawcord.files.tables import conductors
from drawcord.routes.order import Order
from drawcord.routes.why import Why, why
from drawcord.routes.wished import wish_of
from drawcord.words.faults import BadInput, Problem
from drawcord.words.nearest import nearest


def asked(
    job: Path, shop: Path | None, cable: str, form: Sequence[Sequence[str]]
) -> tuple[Loaded, Order, Why, dict[str, str]]:
    """Why a route of this form (its spaces, those to go through, those to avoid) is not chosen. Raises BadInput."""
    loaded, ways = load_ways(job, shop)
    _known(loaded, job, cable)
    order = Order(ways, cable, conductors())
    answer = why(order, wish_of(order, *form))
    places = dict.fromkeys(breach.place for breach in answer.breaches)
    return loaded, order, answer, {place: at for place in places if (at := _where(loaded, place))}


def _known(loaded: Loaded, job: Path, cable: str) -> None:
    """Raises BadInput for a rig, or a cable that the job does not have."""
    if loaded.coach.job is None:
        sentence = "this is a rig file; a route is asked about in a job file, with cables"
        raise BadInput([Problem((), sentence, file=str(job))])
    if cable not in (cables := loaded.coach.job.cables):
        sentence = f"the job has no cable {cable}{nearest(cable, cables)}: its cables are {', '.join(sorted(cables))}"
        raise BadInput([Problem((), sentence, file=str(job))])


def _where(loaded: Loaded, place: str) -> str:
    """Where in the files a space or passage is said to be what it is: `rig.yaml:24`; empty if in none."""
    job, document = loaded.coach.job, loaded.job
    if job and document:
        found = [number for number, fact in enumerate(job.differences.found) if fact.what == place]
        if found:
            return f"{document.path.name}:{document.position(('differences', 'found', found[-1]))[0]}"
        if place in job.owner.excludes:
            return f"{document.path.name}:{document.position(('owner', 'excludes'), on_key=True)[0]}"
    if place not in loaded.coach.written:
        return ""
    file, line, _ = loaded.at(place)
    return f"{Path(file).name}:{line}"
