"""The plans of several jobs, as commands that load for a whole week need them."""

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from drawcord.app.circuits import plan_of
from drawcord.files.load import Loaded
from drawcord.plan.plan import Plan
from drawcord.routes.order import Order
from drawcord.words.faults import BadInput, Problem


class Planned(NamedTuple):
    """A job as read, the orders of its cables, and its plan."""

    loaded: Loaded
    orders: list[Order]
    plan: Plan


def plans_of(jobs: Sequence[Path], shop: Path | None) -> list[Planned]:
    """Read each job and choose its routes. Raises BadInput, with the problems of all jobs, or for one named twice."""
    found: list[Planned] = []
    problems: list[Problem] = []
    named: dict[str, Path] = {}
    for job in jobs:
        try:
            loaded, compared, plan = plan_of(job, shop, [])
        except BadInput as error:
            problems += [one for one in error.problems if one not in problems]
            continue
        found.append(Planned(loaded, [order for order, _ in compared], plan))
        name = plan.coach.job.job if plan.coach.job else ""
        if name in named:
            sentence = f"the job {name} is loaded for twice, here and in {named[name]}: name it once"
            problems.append(Problem((), sentence, file=str(job)))
        named.setdefault(name, job)
    if problems:
        raise BadInput(problems)
    return found
