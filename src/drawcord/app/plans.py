"""The plans of several jobs, as commands that load for a whole week need them."""

from collections.abc import Sequence
from pathlib import Path

from drawcord.app.circuits import plan_of
from drawcord.files.load import Loaded
from drawcord.plan.plan import Plan
from drawcord.words.faults import BadInput, Problem


def plans_of(jobs: Sequence[Path], shop: Path | None) -> list[tuple[Loaded, Plan]]:
    """Read each job and choose its routes. Raises BadInput, with the problems of all jobs, or for one named twice."""
    found: list[tuple[Loaded, Plan]] = []
    problems: list[Problem] = []
    named: dict[str, Path] = {}
    for job in jobs:
        try:
            loaded, _, plan = plan_of(job, shop, [])
        except BadInput as error:
            problems += [one for one in error.problems if one not in problems]
            continue
        found.append((loaded, plan))
        name = plan.coach.job.job if plan.coach.job else ""
        if name in named:
            sentence = f"the job {name} is loaded for twice, here and in {named[name]}: name it once"
            problems.append(Problem((), sentence, file=str(job)))
        named.setdefault(name, job)
    if problems:
        raise BadInput(problems)
    return found
