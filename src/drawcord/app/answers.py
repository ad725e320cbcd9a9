"""The comparison for every cable of a job, as several commands need it."""

from pathlib import Path

from drawcord.app.printing import progress
from drawcord.files.load import Loaded, load_ways
from drawcord.files.tables import conductors
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.routes.route import Answer
from drawcord.words.faults import BadInput, Problem


def answers(job: Path, shop: Path | None) -> tuple[Loaded, list[tuple[Order, Answer]]]:
    """Read a job and compare the routes of each of its cables, in order of their ids. Raises BadInput."""
    loaded, ways = load_ways(job, shop)
    if loaded.coach.job is None:
        raise BadInput(
            [Problem((), "this is a rig file; a comparison needs a job file, with cables", file=str(job))]
        )
    tables = conductors()
    found = []
    for name in sorted(loaded.coach.job.cables):
        progress(f"comparing the routes of {name}")
        order = Order(ways, name, tables)
        found.append((order, compare(order)))
    return loaded, found


def inputs(loaded: Loaded) -> list[tuple[str, str]]:
    """The name and hash of every file that was read; names alone, so that the same input gives the same bytes."""
    return [(document.path.name, document.sha256) for document in loaded.documents]
