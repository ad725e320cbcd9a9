"""The confidence that a person asks for, and the load that has it."""

import re
from collections.abc import Sequence

from drawcord.app.plans import Planned
from drawcord.app.printing import progress
from drawcord.coach.van import Van
from drawcord.load.cases import JobCases, job_cases
from drawcord.load.sure import Sure, sure
from drawcord.plan.card import card
from drawcord.words.faults import BadInput, Problem


def confidence(asked: str | None) -> float | None:
    """The share that `95%` says; None if none is asked for. Raises BadInput."""
    if asked is None:
        return None
    found = re.fullmatch(r"(\d{1,3}(?:\.\d+)?) ?%", asked, re.ASCII)
    if not found or not 0 < float(found[1]) <= 100:
        sentence = f"--sure takes a percentage above 0% and up to 100%, such as 95%, not {asked!r}"
        raise BadInput([Problem((), sentence)])
    return float(found[1]) / 100


def prospects(planned: Sequence[Planned], van: Van, wanted: float) -> tuple[Sure, list[JobCases]]:
    """The load that is enough with a confidence for all jobs, and what each of them may turn out to be."""
    cases = []
    for _, orders, plan in planned:
        name = plan.coach.job.job if plan.coach.job else ""
        progress(f"working out what may turn out on {name}")
        cases.append(job_cases(plan, card(plan, orders)))
    progress("loading for it")
    return sure(cases, van, wanted), cases
