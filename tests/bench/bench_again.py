"""Planning again after one passage is found blocked, against planning from nothing, in one run.

    python tests/bench/bench_again.py [facts]

On the demo jobs and generated coaches (tests/random_coaches.py). Both begin with the coach as built and end with
the answers for every cable of the job; processor time, the best of three. Passages are taken evenly out of all
that are open, in order of their ids, and evenly out of those the winners go through. Said apart: of those no answer
leans on, so that no cable is searched again, and of the others. Ratios below 0.1 reach the goal.
"""

# ruff: noqa: T201 - a benchmark prints

import sys
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench_search import best_time

from drawcord.coach.build import build
from drawcord.coach.coach import Coach
from drawcord.coach.job import Found
from drawcord.files.home import layouts
from drawcord.files.load import load, load_shop
from drawcord.files.tables import conductors
from drawcord.routes.again import Planned, again, plan
from random_coaches import random_coach

GOAL = 0.1


def blocking(coach: Coach, passage: str) -> Coach:
    """The coach with one more fact."""
    job = coach.job
    found = [*job.differences.found, Found(what=passage, standing="blocked", source="looked")]
    differences = job.differences.model_copy(update={"found": found})
    return build(coach.rig, job.model_copy(update={"differences": differences}), coach.shop)


def line(name: str, coach: Coach, facts: int) -> None:
    """Ratios for passages of any kind, and for those of the winners."""
    tables = conductors()
    before = plan(coach, tables)
    used = {p for a in before.answers.values() for c in a.candidates[:1] for p in c.route.passages}
    known = {found.what for found in coach.job.differences.found}
    free = [name for name, passage in before.ways.passages.items() if not passage.barred and name not in known]
    for kind, names in (("any passage", free), ("one of a winner's", [name for name in free if name in used])):
        ratios: dict[bool, list[float]] = {False: [], True: []}
        searched = 0
        for passage in names[:: max(1, len(names) // facts)][:facts]:
            coach_now = blocking(coach, passage)
            after: list[Planned] = []
            ours = best_time(lambda now=coach_now, after=after: after.append(again(before, now, tables)))
            again_ = sum(after[0].works[cable] is not before.works[cable] for cable in before.works)
            ratios[again_ > 0].append(ours / best_time(lambda now=coach_now: plan(now, tables)))
            searched += again_
        for leans, some in ratios.items():
            if some:
                cables = f"{searched} of {len(some) * len(before.works)} cables" if leans else "no cable"
                print(
                    f"{name}, {kind} found blocked, {cables} searched again: again / from nothing: median "
                    f"{median(some):.3f}, worst {max(some):.3f}, {sum(r <= GOAL for r in some)} of {len(some)} "
                    f"at most {GOAL}",
                    flush=True,
                )


def main() -> None:
    """All jobs."""
    facts = int(sys.argv[1]) if len(sys.argv) > 1 else 10
    for job in sorted(layouts().glob("*/job-*.yaml")):
        line(f"{job.parent.name}/{job.stem}", load(job).coach, facts)
    shop, _ = load_shop()
    for spaces in (30, 120, 1000):
        rig, job = random_coach(spaces, 0)
        line(f"generated, {spaces} spaces", build(rig, job, shop), facts if spaces < 1000 else 2)


if __name__ == "__main__":
    main()
