"""The cases of several jobs together: every choice of one a job, how likely it is, and whether stock serves it."""

from collections.abc import Iterable, Sequence
from itertools import product
from math import prod

import numpy as np
import numpy.typing as npt

from drawcord.coach.van import Van
from drawcord.load.carried import Demand
from drawcord.load.cases import Case, JobCases
from drawcord.load.grid import Flags, Grid
from drawcord.load.runs import Run

MOST_TOGETHER = 100_000  # choices of one kind of case a job: a count, so that the same input gives the same bytes
ROUNDING = 1e-12  # what sums of chances may be off by


class Combined:
    """The cases of all jobs on the grids of all types: which go together, and how likely they are.

    `types` and `grids` go side by side. `at` says, by type, job and case, where on the job's axis its demand lies.
    Cases that no grid tells apart are of one kind: `kinds` by job and case, `together` every choice of kinds, one a
    job, with its chance in `chances`. `untried`: the chance of cases too many for a grid.
    """

    def __init__(self, jobs: Sequence[JobCases], van: Van, most: int) -> None:
        self.jobs = jobs
        able = [[case for case in job.cases if not case.lost] for job in jobs]
        taken = [run for job in jobs for runs in (job.planned, *(case.runs for case in job.cases)) for run in runs]
        self.types = sorted({run.type for run in taken})
        numbered = [[_numbered(type_id, some) for some in able] for type_id in self.types]
        kept = _kept(able, [[at for _, at in each] for each in numbered], most)
        self.cases = [some[:count] for some, count in zip(able, kept, strict=True)]
        self.at = [[at[:count] for (_, at), count in zip(each, kept, strict=True)] for each in numbered]
        self.grids: list[Grid] = []
        for type_id, each, at in zip(self.types, numbered, self.at, strict=True):
            axes = [some[: max(of) + 1] if of else [()] for (some, _), of in zip(each, at, strict=True)]
            planned = _of(type_id, [run for job in jobs for run in job.planned])
            self.grids.append(Grid(type_id, planned, axes, van))
        self.classes = [[grid.classes(job) for job in range(len(jobs))] for grid in self.grids]
        self.kinds = [[self._kind(job, case) for case in range(len(some))] for job, some in enumerate(self.cases)]
        groups: list[dict[tuple[int, ...], float]] = [{} for _ in jobs]
        for group, kinds, some in zip(groups, self.kinds, self.cases, strict=True):
            for kind, case in zip(kinds, some, strict=True):
                group[kind] = group.get(kind, 0.0) + case.chance
        while prod(map(len, groups)) > MOST_TOGETHER:
            group, kind = min(
                ((group, kind) for group in groups if len(group) > 1 for kind in group), key=lambda one: one[0][one[1]]
            )
            del group[kind]
        self.together = list(product(*groups))
        self.chances = np.array([prod(g[kind] for g, kind in zip(groups, each, strict=True)) for each in self.together])
        untried = prod(sum(case.chance for case in some) for some in able) - float(self.chances.sum())
        self.untried = untried if untried > ROUNDING else 0.0
        self.cell = [self._cells(number) for number in range(len(self.grids))]

    def chance(self, flags: Flags) -> float:
        """How likely it is that one of these comes true, of cases together."""
        return float(self.chances[flags].sum())

    def covered(self, levels: Sequence[int]) -> Flags:
        """Which cases together are covered if so much of each type is bought."""
        return self._all(grid.served[level] for grid, level in zip(self.grids, levels, strict=True))

    def able(self) -> Flags:
        """Which cases together any purchase covers."""
        return self._all(grid.able for grid in self.grids)

    def demands(self, number: int, covered: Flags) -> list[Demand]:
        """What cases that are covered ask of a type."""
        grid = self.grids[number]
        places: list[dict[tuple[int, ...], set[int]]] = [{} for _ in self.jobs]
        for job, (kinds, places_of) in enumerate(zip(self.kinds, places, strict=True)):
            for kind, at in zip(kinds, self.at[number][job], strict=True):
                places_of.setdefault(kind, set()).add(at)
        cells = {
            cell
            for each in {self.together[at] for at in np.flatnonzero(covered)}
            for cell in product(*(of[kind] for of, kind in zip(places, each, strict=True)))
        }
        return [grid.demands[int(np.ravel_multi_index(cell, grid.shape))] for cell in sorted(cells)]

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


def _numbered(type_id: str, cases: Sequence[Case]) -> tuple[list[Demand], list[int]]:
    """The different demands of cases for one type, as they come, and the number of each case's."""
    found: dict[Demand, int] = {}
    at = [found.setdefault(_of(type_id, case.runs), len(found)) for case in cases]
    return list(found), at


def _kept(able: Sequence[Sequence[Case]], at: Sequence[Sequence[Sequence[int]]], most: int) -> list[int]:
    """How many cases of each job are kept, the likeliest first, so that no grid has more than so many cells.

    `at`: by type, job and case the number of its demand.
    """
    kept = [len(some) for some in able]

    def cells(each: Sequence[Sequence[int]]) -> int:
        return prod(max(of[:count], default=0) + 1 for of, count in zip(each, kept, strict=True))

    while any(cells(each) > most for each in at) and max(kept) > 1:
        longer = [job for job, count in enumerate(kept) if count > 1]
        kept[min(longer, key=lambda job: able[job][kept[job] - 1].chance)] -= 1
    return kept


def _of(type_id: str, runs: Sequence[Run]) -> Demand:
    return tuple(run for run in runs if run.type == type_id)
