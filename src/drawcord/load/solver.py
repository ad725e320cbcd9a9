"""A mixed-integer program built row by row and solved by HiGHS, one aim after another."""

from collections.abc import Mapping
from dataclasses import dataclass

import highspy

from drawcord.plan.quiet import Quiet
from drawcord.words.faults import Fault

NODES = 20_000  # of the search tree, for one aim: a count, so that the same input gives the same bytes


@dataclass(frozen=True)
class Solved:
    """The whole numbers found, and for each aim its value and the least it could be."""

    values: tuple[int, ...]
    aims: tuple[tuple[int, int], ...]

    @property
    def proved(self) -> bool:
        """Whether nothing better is possible."""
        return all(value == least for value, least in self.aims)


class Program:
    """Whole variables from 0 up, linear rows, and aims of which an earlier one counts more than all later."""

    def __init__(self) -> None:
        """Nothing in it yet."""
        self._highs = Quiet()
        self._highs.setOptionValue("mip_max_nodes", NODES)
        self._highs.setOptionValue("mip_abs_gap", 0.0)
        self._size = 0

    def variable(self, most: float) -> int:
        """A new variable from 0 to `most`."""
        self._highs.addVar(0, most)
        self._highs.changeColIntegrality(self._size, highspy.HighsVarType.kInteger)
        self._size += 1
        return self._size - 1

    def row(self, least: float, terms: Mapping[int, int], most: float) -> None:
        """Keep the sum of `terms` (factor by variable) from `least` to `most`."""
        self._highs.addRow(least, most, len(terms), list(terms), [float(factor) for factor in terms.values()])

    def least(self, *aims: Mapping[int, int]) -> Solved:
        """Whole values that make the first aim least, among these the second, and so on. There have to be some."""
        found: list[tuple[int, int]] = []
        values: list[float] = []
        for aim in aims:
            columns = range(self._size)
            self._highs.changeColsCost(self._size, list(columns), [float(aim.get(column, 0)) for column in columns])
            self._highs.run()
            info = self._highs.getInfo()
            if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
                status = self._highs.modelStatusToString(self._highs.getModelStatus())
                raise Fault(f"the solver stopped without an answer: {status}")
            values = self._highs.getSolution().col_value
            reached = sum(factor * round(values[column]) for column, factor in aim.items())
            found.append((reached, min(reached, _whole_above(info.mip_dual_bound))))
            self.row(-highspy.kHighsInf, aim, reached)
        return Solved(tuple(round(value) for value in values), tuple(found))


def _whole_above(bound: float) -> int:
    """The least whole number that a bound leaves open, with room for rounding in the solver."""
    return -int(-(bound - 1e-6) // 1)
