"""A load that is enough with a stated confidence, over all that may turn out on several jobs, each by itself.

The least that has to be bought for it (price, then length) is found by trying what could be bought in that order; of
what the van has already, nothing is carried that can be left without a covered case lacking cable or taking more
joints. What serves a case is tried on it, by the same pieces and cuts as for a plan.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import product
from math import prod

import numpy as np
import numpy.typing as npt

from drawcord.coach.van import Van
from drawcord.load.carried import Demand
from drawcord.load.cases import Case, JobCases
from drawcord.load.grid import Flags, Grid
from drawcord.load.runs import Run

MOST = 2000  # cells of a grid: a count, so that the same input gives the same bytes
ROUNDING = 1e-12  # what sums of chances may be off by


@dataclass(frozen=True)
class Short:
    """A case of a job that is not covered, or not with every case of the others: how much of its chance is missing.

    `buy`: reels that would cover it, beside those of the load; None where nothing does.
    """

    job: str
    case: Case
    chance: float
    buy: tuple[str, ...] | None


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


class _Jobs:
    """The cases of all jobs on the grids of all types: which go together, and how likely they are."""

    def __init__(self, jobs: Sequence[JobCases], van: Van, most: int) -> None:
        self.jobs = jobs
        able = [[case for case in job.cases if not case.lost] for job in jobs]
        self.types = sorted({run.type for job in jobs for case in job.cases for run in (*job.planned, *case.runs)})
        self.cases, self.untried = _tried(able, self.types, most)
        self.grids: list[Grid] = []
        self.at: list[list[list[int]]] = []  # by type, job and case: where on the job's axis
        for type_id in self.types:
            asked = [[_of(type_id, case.runs) for case in some] for some in self.cases]
            axes = [list(dict.fromkeys(some)) or [()] for some in asked]
            self.at.append([[axis.index(one) for one in some] for axis, some in zip(axes, asked, strict=True)])
            planned = _of(type_id, [run for job in jobs for run in job.planned])
            self.grids.append(Grid(type_id, planned, axes, van))
        self.classes = [[grid.classes(job) for job in range(len(jobs))] for grid in self.grids]
        self.kinds = [[self._kind(job, case) for case in range(len(some))] for job, some in enumerate(self.cases)]
        groups: list[dict[tuple[int, ...], float]] = [{} for _ in jobs]
        for group, kinds, some in zip(groups, self.kinds, self.cases, strict=True):
            for kind, case in zip(kinds, some, strict=True):
                group[kind] = group.get(kind, 0.0) + case.chance
        self.together = list(product(*groups))
        self.chances = np.array([prod(g[kind] for g, kind in zip(groups, each, strict=True)) for each in self.together])
        self.cell = [self._cells(number) for number in range(len(self.grids))]

    def covered(self, levels: Sequence[int]) -> Flags:
        """Which cases together are covered if so much of each type is bought."""
        return self._all(grid.served[level] for grid, level in zip(self.grids, levels, strict=True))

    def able(self) -> Flags:
        """Which cases together any purchase covers."""
        return self._all(grid.able for grid in self.grids)

    def demands(self, number: int, covered: Flags) -> list[Demand]:
        """What cases that are covered ask of a type."""
        wanted = {tuple(kind[number] for kind in self.together[at]) for at in np.flatnonzero(covered)}
        grid, classes = self.grids[number], self.classes[number]
        cells = product(*(range(size) for size in grid.shape))
        return [
            demand
            for at, demand in zip(cells, grid.demands, strict=True)
            if tuple(of[n] for of, n in zip(classes, at, strict=True)) in wanted
        ]

    def _all(self, flags: Iterable[Flags]) -> Flags:
        """Where the flags of every type hold, by choice of cases."""
        found = np.ones(len(self.together), bool)
        for each, cell in zip(flags, self.cell, strict=True):
            found &= each[cell]
        return found

    def _kind(self, job: int, case: int) -> tuple[int, ...]:
        return tuple(of[job][at[job][case]] for of, at in zip(self.classes, self.at, strict=True))

    def _cells(self, number: int) -> npt.NDArray[np.intp]:
        """The cell of a grid that stands for each choice of cases."""
        first = [{kind: at for at, kind in reversed(list(enumerate(of)))} for of in self.classes[number]]
        places = [[of[kind[number]] for of, kind in zip(first, each, strict=True)] for each in self.together]
        shape = self.grids[number].shape
        return np.array([np.ravel_multi_index(at, shape) for at in places], np.intp)


def sure(jobs: Sequence[JobCases], van: Van, wanted: float, most: int = MOST) -> Sure:
    """The load for the plans of all jobs that is enough with a confidence (above 0, up to 1), or as far as any is.

    The cheapest to buy, then the shortest, of all that could be bought; up to `most` cases of one type together.
    """
    all_ = _Jobs(jobs, van, most)
    possible = float(all_.chances[all_.able()].sum())
    levels = _cheapest(all_.grids, lambda at: float(all_.chances[all_.covered(at)].sum()), min(wanted, possible))
    covered = all_.covered(levels)
    bought = [grid.levels[level] for grid, level in zip(all_.grids, levels, strict=True)]
    held = [
        grid.least(all_.demands(number, covered), one)
        for number, (grid, one) in enumerate(zip(all_.grids, bought, strict=True))
    ]
    kinds = ("leads", "extensions", "reels", "off_cuts")
    carried = {kind: {name: one for part in held for name, one in getattr(part, kind).items()} for kind in kinds}
    return Sure(
        wanted,
        float(all_.chances[covered].sum()),
        possible,
        van.model_copy(update={**carried, "store": {}}),
        tuple(name for one in bought for name in one.reels),
        sum(one.price for one in bought),
        tuple(_short(all_, levels, covered)),
        all_.untried,
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


def _tried(
    able: Sequence[Sequence[Case]], types: Sequence[str], most: int
) -> tuple[list[list[Case]], float]:
    """The cases without the least likely ones, so that no grid has more than so many cells; the chance left out."""
    kept = [list(some) for some in able]

    def cells() -> int:
        return max((prod(len({_of(t, case.runs) for case in some}) or 1 for some in kept) for t in types), default=0)

    while cells() > most and (longer := [some for some in kept if len(some) > 1]):
        min(longer, key=lambda some: some[-1].chance).pop()
    before, after = (prod(sum(case.chance for case in some) for some in each) for each in (able, kept))
    return kept, before - after


def _of(type_id: str, runs: Sequence[Run]) -> Demand:
    return tuple(run for run in runs if run.type == type_id)


def _short(all_: _Jobs, levels: Sequence[int], covered: Flags) -> list[Short]:
    """Every case that is not covered, or not with all of those that are of the other jobs; the likeliest first."""
    found = []
    count = len(all_.jobs)
    ever = [{all_.together[at][number] for at in np.flatnonzero(covered)} for number in range(count)]
    for number, job in enumerate(all_.jobs):
        found += [Short(job.job, case, case.chance, None) for case in job.cases if case.lost]
        others = [n for n in range(count) if n != number]
        for at, case in enumerate(all_.cases[number]):
            kind = all_.kinds[number][at]
            beside = [each[number] == kind and all(each[n] in ever[n] for n in others) for each in all_.together]
            mine = np.array(beside, bool)
            whole = float(all_.chances[mine].sum())
            share = 1 - float(all_.chances[mine & covered].sum()) / whole if whole else 1.0
            if share > ROUNDING:
                found.append(Short(job.job, case, case.chance * share, _more(all_, levels, number, at)))
    return sorted(found, key=lambda one: (-one.chance, one.job))


def _more(all_: _Jobs, levels: Sequence[int], job: int, case: int) -> tuple[str, ...] | None:
    """The reels to buy besides, so that a case is covered as often as any purchase does it; None where none helps."""
    more = Counter[str]()
    for number, grid in enumerate(all_.grids):
        at = all_.at[number][job][case]
        able = grid.slice(grid.able, job, at)
        enough = [level for level, flags in enumerate(grid.served) if (grid.slice(flags, job, at) >= able).all()]
        if not able.any() or not enough:
            return None
        if levels[number] not in enough:
            more += Counter(grid.levels[enough[0]].reels) - Counter(grid.levels[levels[number]].reels)
    return tuple(sorted(more.elements())) or None
