"""The demo jobs and the comparison of each of their cables, worked out once a run of the tests."""

from drawcord.coach.coach import Coach
from drawcord.files.home import layouts
from drawcord.files.load import Loaded, load_ways
from drawcord.files.tables import conductors
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.routes.route import Answer, Candidate
from drawcord.ways.ways import Ways
from kept import kept

JOBS = {f"{path.parent.name}/{path.stem}": path for path in sorted(layouts().glob("*/job-*.yaml"))}


@kept
def _worked_out(job: str) -> tuple[tuple[Loaded, Ways], tuple[tuple[Order, Answer], ...]]:
    """A demo job as read, its ways, and what the comparison says of each of its cables on them."""
    read = load_ways(JOBS[job])
    return read, compared(read[1])


def read(job: str) -> tuple[Loaded, Ways]:
    """A demo job as `load_ways` reads it."""
    return _worked_out(job)[0]


def ways_of(job: str) -> Ways:
    """The ways of a demo job."""
    return read(job)[1]


def coach_of(job: str) -> Coach:
    """The coach of a demo job."""
    return ways_of(job).coach


def answers(job: str) -> tuple[tuple[Order, Answer], ...]:
    """What the comparison says of each cable of a demo job, in order of their ids."""
    return _worked_out(job)[1]


def compared(ways: Ways) -> tuple[tuple[Order, Answer], ...]:
    """The same for the ways of any job."""
    orders = [Order(ways, name, conductors()) for name in sorted(ways.coach.job.cables)]
    return tuple((order, compare(order)) for order in orders)


def candidates(job: str) -> list[tuple[Order, Candidate]]:
    """Every candidate of every cable of a demo job."""
    return [(order, candidate) for order, answer in answers(job) for candidate in answer.candidates]
