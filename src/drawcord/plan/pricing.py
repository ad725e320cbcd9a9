"""Prices under which the least ways of the cables weigh as much as can be, or nearly.

Where a cable's least way uses a thing, paying more for it would raise the bound by as much; where a whole company
asks more than the thing costs, paying less would, as much for each of them. So all prices move that way by turns
(a subgradient method: B. T. Polyak, 1969; from memory), a step as long as if the bound could rise to what the best
plan known weighs, and shorter where that does not pay. Each move keeps half of the one before, or prices would swing
to and fro.
"""

import numpy as np

from drawcord.plan.bound import Prices, bound, reduced, ways
from drawcord.plan.companies import companies
from drawcord.plan.problem import Floats, Mask, Problem
from drawcord.routes.least import Array

STEPS, PRUNED = 120, 10  # steps, and after how many the arcs that cannot pay are left out
FIRST, SHORTER = 2.0, 0.95  # of steps: the length of the first, and what is left of it after each in vain


class Things:
    """The things of a problem, and what prices for them come to."""

    def __init__(self, problem: Problem) -> None:
        self.cost = problem.cost
        self.companies = companies(problem)

    def even(self, users: Mask) -> Array:
        """Each cable's share of what each thing costs if all use it that may in the cable's largest company."""
        most = np.ones(users.shape, np.int64)
        for some in self.companies:
            count = some.cables.astype(np.int64) @ users[:, some.things]
            for company, size in zip(some.cables, count, strict=True):
                most[np.ix_(company, some.things)] = np.maximum(most[np.ix_(company, some.things)], size)
        return np.where(users, self.cost // most, 0)

    def asked(self, each: Array) -> tuple[Prices, Mask]:
        """These prices with what has to be given back, and who would get it: one company of each thing that asks."""
        back, whose = 0, np.zeros(each.shape, np.bool_)
        for some in self.companies:
            paid = some.cables.astype(np.int64) @ each[:, some.things]
            beyond = paid.max(axis=0) - self.cost[some.things]
            dear = beyond > 0
            back += int(beyond[dear].sum())
            whose[:, some.things[dear]] = some.cables[paid.argmax(axis=0)[dear]].T
        return Prices(each, back), whose


def users(problem: Problem) -> Mask:
    """Who may use each thing, shape (cables, things)."""
    found = np.zeros((len(problem.commodities), len(problem.cost)), np.bool_)
    for row, commodity in zip(found, problem.commodities, strict=True):
        row[commodity.used] = True
    return found


def fine(problem: Problem, most: int, before: Prices | None = None) -> tuple[Prices, Problem]:
    """The best prices met on the way from even ones, and the problem without arcs that no plan of weight `most` uses.

    `most`: what a legal plan weighs. `before`: prices to begin with instead, of this problem's first things.
    """
    things, able = Things(problem), users(problem)
    # What costs little moves little, or its price would leap; what is only barred costs nothing and has to move.
    scale = np.maximum(problem.cost, problem.cost[problem.cost > 0].min(initial=most)).astype(np.float64)
    each: Floats = things.even(able).astype(np.float64)
    if before:
        each[:, : before.each.shape[1]] = before.each
    best, reached = Prices(np.zeros(each.shape, np.int64), 0), -1
    move, length = np.zeros(each.shape), FIRST
    for step in range(1, STEPS + 1):
        prices, whose = things.asked(np.floor(each).astype(np.int64))
        found = ways(problem, prices)
        total = bound(found, prices)
        if total > reached:
            best, reached = prices, total
        else:
            length *= SHORTER
        used = np.stack([way.used(len(problem.cost)) for way in found])
        move = move / 2 + used - whose
        power = float((scale * move * move).sum())
        if total >= most or not power:
            break
        if step % PRUNED == 0:
            problem = reduced(problem, best, most)
            able = users(problem)
        each = np.clip(each + length * (most - total) / power * scale * move, 0, most) * able
    return best, reduced(problem, best, most)
