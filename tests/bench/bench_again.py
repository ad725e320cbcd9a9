"""Planning again after one passage is found blocked, against planning from nothing, in one run.

    python tests/bench/bench_again.py [facts]

On the demo jobs and generated coaches (tests/random_coaches.py). Both begin with the coach as built and end with
the answers for every cable of the job; processor time, one run each, in turn. Passages are taken evenly out of all
that are open, in order of their ids, so that the median is that of a passage nobody chose; and as many out of those
that the winners go through. Where no answer leans on the passage no cable is searched again; the others are also
said apart. The goal: a ratio of at most 0.1.
"""



import sys
from pathlib import Path
from statistics import median
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

from standing import Line, standing

from drawcord.coach.build import build
from drawcord.coach.coach import Coach
from drawcord.coach.job import Found
from drawcord.files.home import layouts
from drawcord.files.load import load, load_shop
from drawcord.files.tables import conductors
from drawcord.routes.again import Planned, again, plan
from random_coaches import random_coach

GOAL = 0.1
LARGE = 2  # facts about a coach that takes so long that more would make nobody wiser


def blocking(coach: Coach, passage: str) -> Coach:
    """The coach with one more fact."""
    job = coach.job
    found = [*job.differences.found, Found(what=passage, standing="blocked", source="looked")]
    differences = job.differences.model_copy(update={"found": found})
    return build(coach.rig, job.model_copy(update={"differences": differences}), coach.shop)


def ratio(before: Planned, passage: str) -> tuple[float, bool]:
    """Again over from nothing, and whether any cable was searched again."""
    now, tables = blocking(before.ways.coach, passage), conductors()
    begin = process_time()
    after = again(before, now, tables)
    between = process_time()
    plan(now, tables)
    ended = process_time()
    leans = any(after.answers[cable] is not before.answers[cable] for cable in before.works)
    return (between - begin) / (ended - between), leans


def evenly(names: list[str], count: int) -> list[str]:
    return names[:: max(1, len(names) // count)][:count]


def line(name: str, coach: Coach, facts: int) -> list[Line]:
    """Ratios for passages of any kind, and for those that answers lean on."""
    before = plan(coach, conductors())
    used = {p for a in before.answers.values() for c in a.candidates[:1] for p in c.route.passages}
    known = {found.what for found in coach.job.differences.found}
    free = [name for name, passage in before.ways.passages.items() if not passage.barred and name not in known]
    of_any = [ratio(before, passage) for passage in evenly(free, facts)]
    of_winners = [ratio(before, passage) for passage in evenly([name for name in free if name in used], facts)]
    leaning = [took for took, leans in of_any + of_winners if leans]
    return [
        *said(f"{name}, any passage found blocked", [took for took, _ in of_any]),
        *said(f"{name}, a passage that an answer leans on", leaning),
    ]


def said(what: str, ratios: list[float]) -> list[Line]:
    if not ratios:
        return []
    held = f"{sum(one <= GOAL for one in ratios)} of {len(ratios)}"
    return [
        standing(f"{what} ({held} within): again / from nothing, {which}", by(ratios), GOAL)
        for which, by in (("median", median), ("worst", max))
    ]


def main(facts: int = 12) -> list[Line]:
    """All jobs."""
    lines = []
    for job in sorted(layouts().glob("*/job-*.yaml")):
        lines += line(f"{job.parent.name}/{job.stem}", load(job).coach, facts)
    shop, _ = load_shop()
    for spaces in (30, 120, 1000):
        rig, job = random_coach(spaces, 0)
        lines += line(f"generated, {spaces} spaces", build(rig, job, shop), facts if spaces < 1000 else LARGE)
    return lines


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:2]))
