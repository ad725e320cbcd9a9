"""A load that is enough with a stated confidence, over all that may turn out on several jobs, each by itself.

The least that has to be bought for it (price, then length) is found by trying what could be bought in that order; of
what the van has already, nothing is carried that can be left without a covered case lacking cable or taking more
joints. What serves a case is tried on it, by the same pieces and cuts as for a plan.
"""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

import numpy as np

from drawcord.coach.van import Van
from drawcord.load.cases import Case, JobCases
from drawcord.load.combined import ROUNDING, Combined
from drawcord.load.grid import Flags, Grid

MOST = 2000  # cells of a grid: a count, so that the same input gives the same bytes


@dataclass(frozen=True)
class Short:
    """A case of a job that is not covered, or not with every case of the others: how much of its chance is missing.

    `buy`: reels that would cover it, beside those of the load; none where no purchase does, as no reel of these types
    is long enough for it (`lacking`), or all jobs at once want more than there is (neither).
    """

    job: str
    case: Case
    chance: float
    buy: tuple[str, ...] = ()
    lacking: tuple[str, ...] = ()


@dataclass(frozen=True)
class Sure:
    """How likely the load is enough for all jobs, and what it is.

    `possible`: how likely any load could be. `carried`: the stock to take along; what is bought is among its reels, as
    `store-reel #1`. `untried`: the chance of cases too many to be tried, counted as not covered.
    """

    wanted: float
    chance: float
    possible: float
    carried: Van
    bought: tuple[str, ...]
    price: float
    short: tuple[Short, ...]
    untried: float

    @property
    def enough(self) -> bool:
        """Whether it is as sure as asked for."""
        return self.chance >= self.wanted - ROUNDING


def sure(jobs: Sequence[JobCases], van: Van, wanted: float, most: int = MOST) -> Sure:
    """The load for the plans of all jobs that is enough with a confidence (above 0, up to 1), or as far as any is.

    The cheapest to buy, then the shortest, of all that could be bought; up to `most` cases of one type together.
    """
    combined = Combined(jobs, van, most)
    possible = combined.chance(combined.able())
    levels = _cheapest(combined.grids, lambda at: combined.chance(combined.covered(at)), min(wanted, possible))
    covered = combined.covered(levels)
    bought = [grid.levels[level] for grid, level in zip(combined.grids, levels, strict=True)]
    held = [
        grid.least(combined.demands(number, covered), one)
        for number, (grid, one) in enumerate(zip(combined.grids, bought, strict=True))
    ]
    kinds = ("leads", "extensions", "reels", "off_cuts")
    carried = {kind: {name: one for part in held for name, one in getattr(part, kind).items()} for kind in kinds}
    return Sure(
        wanted,
        combined.chance(covered),
        possible,
        van.model_copy(update={**carried, "store": {}}),
        tuple(name for one in bought for name in one.reels),
        sum(one.price for one in bought),
        tuple(_short(combined, levels, covered)),
        combined.untried,
    )


def _cheapest(grids: Sequence[Grid], chance: Callable[[Sequence[int]], float], wanted: float) -> tuple[int, ...]:
    """How much of each type to buy: best first by price, then length, one step of one type at a time."""

    def cost(at: tuple[int, ...]) -> tuple[float, int]:
        each = [grid.levels[level] for grid, level in zip(grids, at, strict=True)]
        return round(sum(one.price for one in each), 6), sum(one.length for one in each)

    start = (0,) * len(grids)
    heap, seen, best = [(cost(start), start)], {start}, (-1.0, start)
    while heap:
        _, at = heappop(heap)
        reached = chance(at)
        if reached >= wanted - ROUNDING:
            return at
        if reached > best[0] + ROUNDING:
            best = reached, at
        for number, grid in enumerate(grids):
            further = (*at[:number], at[number] + 1, *at[number + 1 :])
            if further[number] < len(grid.levels) and further not in seen:
                seen.add(further)
                heappush(heap, (cost(further), further))
    return best[1]


def _short(combined: Combined, levels: Sequence[int], covered: Flags) -> list[Short]:
    """Every case that is not covered, or not with all of those that are of the other jobs; the likeliest first."""
    found = []
    count = len(combined.jobs)
    ever = [{combined.together[at][number] for at in np.flatnonzero(covered)} for number in range(count)]
    for number, job in enumerate(combined.jobs):
        found += [Short(job.job, case, case.chance) for case in job.cases if case.lost]
        others = [n for n in range(count) if n != number]
        for at, case in enumerate(combined.cases[number]):
            kind = combined.kinds[number][at]
            beside = [each[number] == kind and all(each[n] in ever[n] for n in others) for each in combined.together]
            mine = np.array(beside, bool)
            whole = combined.chance(mine)
            share = 1 - combined.chance(mine & covered) / whole if whole else 1.0
            if share > ROUNDING:
                found.append(Short(job.job, case, case.chance * share, *_more(combined, levels, number, at)))
    return sorted(found, key=lambda one: (-one.chance, one.job))


def _more(
    combined: Combined, levels: Sequence[int], job: int, case: int
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Reels to buy besides, so that a case is covered as often as any purchase does it; types of which none helps."""
    more, lacking = Counter[str](), list[str]()
    for number, grid in enumerate(combined.grids):
        at = combined.at[number][job][case]
        able = grid.slice(grid.able, job, at)
        enough = [level for level, flags in enumerate(grid.served) if (grid.slice(flags, job, at) >= able).all()]
        if not able.any() or not enough:
            lacking.append(combined.types[number])
        elif levels[number] not in enough:
            more += Counter(grid.levels[enough[0]].reels) - Counter(grid.levels[levels[number]].reels)
    return () if lacking else tuple(sorted(more.elements())), tuple(lacking)
