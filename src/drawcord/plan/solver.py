"""HiGHS, for programs of the joint problem: one thread, a fixed seed, bounded by a count and never by the clock.

So the same problem gives the same plan: of several best ones the one it starts from if that is among them, else
the first that HiGHS meets.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from drawcord.plan.problem import Problem
from drawcord.plan.program import UNIT, Program
from drawcord.routes.net import States

NODES = 20_000  # of the search tree


@dataclass(frozen=True)
class Solved:
    """Routes, what they weigh, and what no plan weighs less than; None for routes where there are none.

    `proved`: there is no lighter plan, or none at all.
    """

    routes: tuple[States, ...] | None
    weight: int
    bound: int
    proved: bool


def solve(problem: Problem, start: Sequence[States] | None, nodes: int = NODES) -> Solved:
    """The lightest legal plan. `start` is a legal plan to improve on, if there is one."""
    import highspy  # noqa: PLC0415 - heavy, and needed for two cables and more

    program = Program(problem)
    highs = _highs(highspy, program)
    highs.setOptionValue("mip_max_nodes", nodes)
    highs.setOptionValue("mip_abs_gap", 0.4 / UNIT)  # weights are whole thousandths
    if start:
        solution = highspy.HighsSolution()
        solution.col_value = program.values(start).tolist()
        highs.setSolution(solution)
    highs.run()
    status, info = highs.getModelStatus(), highs.getInfo()
    if status == highspy.HighsModelStatus.kInfeasible:
        return Solved(None, 0, 0, proved=True)
    proved = status == highspy.HighsModelStatus.kOptimal
    bound = int(np.floor(info.mip_dual_bound * UNIT)) if np.isfinite(info.mip_dual_bound) else 0
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return Solved(None, 0, bound, proved=False)
    routes = program.routes(np.array(highs.getSolution().col_value))
    if start and problem.weight(start) <= problem.weight(routes):
        routes = tuple(start)
    weight = problem.weight(routes)
    return Solved(routes, weight, weight if proved else min(bound, weight), proved)


def _highs(highspy: Any, program: Program) -> Any:  # noqa: ANN401 - no types without importing it
    """A solver that holds the program and keeps quiet."""
    from drawcord.plan.quiet import Quiet  # noqa: PLC0415 - as heavy

    rows, columns = program.rows, len(program.cost)
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = columns, len(rows)
    lp.col_cost_, lp.offset_ = program.cost / UNIT, program.offset / UNIT
    lp.col_lower_, lp.col_upper_ = np.zeros(columns), np.ones(columns)
    lp.row_lower_, lp.row_upper_ = np.array([row.low for row in rows]), np.array([row.high for row in rows])
    lp.integrality_ = [highspy.HighsVarType.kInteger] * columns
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.cumsum([0, *(len(row.columns) for row in rows)])
    lp.a_matrix_.index_ = np.concatenate([row.columns for row in rows])
    lp.a_matrix_.value_ = np.concatenate([row.values for row in rows])
    highs = Quiet()
    # What presolving could leave out has been left out; here it takes many times as long as the rest.
    highs.setOptionValue("presolve", "off")
    highs.passModel(lp)
    return highs
