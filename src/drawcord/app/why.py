"""`drawcord why`: why a route that a person has in mind is not the one chosen."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drawcord.app.arguments import AsJson, JobFile, ShopFolder

if TYPE_CHECKING:
    from drawcord.files.load import Loaded

NAME = "why"
Cable = Annotated[str, typer.Argument(metavar="CABLE", help="The cable, by its id.", show_default=False)]
Spaces = Annotated[
    str | None,
    typer.Option("--spaces", metavar="A,B,C", help="Its spaces in order; those of its ends may be left out."),
]
Through = Annotated[
    str | None, typer.Option("--through", metavar="A,B", help="Any route that goes through these spaces.")
]
Avoid = Annotated[str | None, typer.Option("--avoid", metavar="A,B", help="Any route that does not enter these.")]


def command(
    job: JobFile,
    cable: Cable,
    *,
    spaces: Spaces = None,
    through: Through = None,
    avoid: Avoid = None,
    shop: ShopFolder = None,
    json: AsJson = False,
) -> None:
    """Say why a route was not chosen.

    Takes the best route of the form you name: what beats it, which rule it breaks, or what would make it win.

    Example: drawcord why layouts/van/job-garage.yaml pv --through wardrobe
    """
    from drawcord.app.answers import inputs  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.printing import say, say_json  # noqa: PLC0415
    from drawcord.files.load import load_ways  # noqa: PLC0415
    from drawcord.files.tables import conductors  # noqa: PLC0415
    from drawcord.routes.order import Order  # noqa: PLC0415
    from drawcord.routes.why import why  # noqa: PLC0415
    from drawcord.routes.wished import wish_of  # noqa: PLC0415
    from drawcord.sheets.why_report import why_document  # noqa: PLC0415
    from drawcord.sheets.why_spoken import why_text  # noqa: PLC0415

    loaded, ways = load_ways(job, shop)
    _known(loaded, job, cable)
    order = Order(ways, cable, conductors())
    answer = why(order, wish_of(order, _names(spaces), _names(through), _names(avoid)))
    where = {breach.place: at for breach in answer.breaches if (at := _where(loaded, breach.place))}
    if json:
        say_json(why_document(loaded.coach, order, answer, where, inputs(loaded)))
    else:
        say(why_text(loaded.coach, order, answer, where))


def _known(loaded: "Loaded", job: Path, cable: str) -> None:
    """Raises BadInput for a rig, or a cable that the job does not have."""
    from drawcord.words.faults import BadInput, Problem  # noqa: PLC0415
    from drawcord.words.nearest import nearest  # noqa: PLC0415

    if loaded.coach.job is None:
        sentence = "this is a rig file; a route is asked about in a job file, with cables"
        raise BadInput([Problem((), sentence, file=str(job))])
    if cable not in (cables := loaded.coach.job.cables):
        sentence = f"the job has no cable {cable}{nearest(cable, cables)}: its cables are {', '.join(sorted(cables))}"
        raise BadInput([Problem((), sentence, file=str(job))])


def _names(listed: str | None) -> list[str]:
    return [name.strip() for name in listed.split(",")] if listed is not None else []


def _where(loaded: "Loaded", place: str) -> str:
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
