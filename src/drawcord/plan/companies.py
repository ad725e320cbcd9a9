"""Companies: for each thing the largest sets of cables that may use it together, by the bans.

Whoever uses a thing in a legal plan lies within one of its companies. So what the cables pay for a thing in any
plan is no more than what its dearest company would.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from drawcord.plan.meeting import Group
from drawcord.plan.problem import Mask, Problem
from drawcord.routes.least import Array


@dataclass(frozen=True, eq=False)
class Companies:
    """The companies of things that have the same bans, shape (companies, cables)."""

    things: Array
    cables: Mask


def companies(problem: Problem) -> list[Companies]:
    """Those of all things: each thing is named once."""
    bans: dict[int, set[Group]] = {}
    for thing, group in problem.bans:
        bans.setdefault(thing, set()).add(group)
    alike: dict[tuple[Group, ...], list[int]] = {}
    for thing in range(len(problem.cost)):
        alike.setdefault(tuple(sorted(bans.get(thing, ()))), []).append(thing)
    count = len(problem.commodities)
    found = []
    for groups, things in sorted(alike.items()):
        some = [[cable in company for cable in range(count)] for company in largest(count, groups)]
        found.append(Companies(np.array(things), np.array(some)))
    return found


def largest(count: int, bans: Iterable[Group]) -> list[Group]:
    """The largest sets of so many cables that hold no ban whole: ban by ban, what breaks it does without one of it."""
    found = {frozenset(range(count))}
    for ban in bans:
        broken = {company for company in found if company.issuperset(ban)}
        found -= broken
        left = {company - {cable} for company in broken for cable in ban}
        found |= {company for company in left if not any(company < other for other in found | left)}
    return sorted(tuple(sorted(company)) for company in found)
