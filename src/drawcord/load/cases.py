"""The ways that a job may turn out, each as runs to load for: one policy, the card of `look`, decides which route."""

from dataclasses import dataclass

from drawcord.load.runs import Run, elsewhere, runs
from drawcord.plan.alternatives import Choice
from drawcord.plan.card import Card
from drawcord.plan.outcomes import Cut, Outcomes, outcomes, summed
from drawcord.plan.plan import Plan

HIGH = 2


@dataclass(frozen=True)
class Case:
    """How likely it is, the runs it takes, and the likeliest route of each cable in it.

    `without`: cables that no way is left for. `unsized`: cables joined of several types, on another way than planned:
    nobody has worked out where their types would meet there.
    """

    chance: float
    runs: tuple[Run, ...]
    routes: Choice
    without: tuple[str, ...] = ()
    unsized: tuple[str, ...] = ()

    @property
    def lost(self) -> bool:
        """Whether no load serves it."""
        return bool(self.without or self.unsized)


@dataclass(frozen=True)
class JobCases:
    """All cases of a job, the likeliest first, and the runs of its plan, which are loaded for in any case.

    `needed`: the cable of the plan by type, low, likely and high [mm]; `outcomes`: the same over all cases. `ways`: the
    spaces of each cable as planned. `places`: what is unproven on the ways of its cables; `logged`: those of them whose
    chance counts what other jobs on the rig found. `cut_short`: cables of which not all ways may have been found.
    """

    job: str
    planned: tuple[Run, ...]
    cases: tuple[Case, ...]
    needed: dict[str, Cut]
    outcomes: Outcomes
    ways: dict[str, tuple[str, ...]]
    places: tuple[str, ...]
    logged: tuple[str, ...]
    cut_short: tuple[str, ...]


def job_cases(plan: Plan, card: Card) -> JobCases:
    """The cases of a plan's cables by its card; those that take the same runs are one."""
    planned = tuple(runs(plan)[0])
    by_cable: dict[str, list[Run]] = {}
    for run in planned:
        by_cable.setdefault(run.cable, []).append(run)
    found: dict[tuple[tuple[Run, ...], tuple[str, ...], tuple[str, ...]], tuple[float, Choice]] = {}
    for chance, routes in card.cases:
        taken, without, unsized = list[Run](), list[str](), list[str]()
        for cable, route in sorted(routes.items()):
            mine = by_cable.get(cable, [])
            if route is None:
                without.append(cable)
            elif len(mine) > 1 and route.legs != plan.chosen[cable].route.legs:
                unsized.append(cable)
            elif len(mine) > 1:
                taken += mine
            elif mine:
                taken.append(elsewhere(plan, mine[0], route.legs, route.cut_length[HIGH]))
        key = tuple(taken), tuple(without), tuple(unsized)
        known, likeliest = found.get(key, (0.0, routes))
        found[key] = known + chance, likeliest
    cases = [Case(chance, key[0], routes, *key[1:]) for key, (chance, routes) in found.items()]
    needed: dict[str, Cut] = {}
    for cable, mine in by_cable.items():
        for run in mine:
            lengths = plan.chosen[cable].route.cut_length if len(mine) == 1 else (run.length,) * 3
            needed[run.type] = summed(needed.get(run.type, (0, 0, 0)), lengths, run.cores)
    types = {cable: (mine[0].type, mine[0].cores) for cable, mine in by_cable.items() if len(mine) == 1}
    types |= {cable.cable: (cable.cable, 1) for cable in card.cables if cable.cable not in types}
    places = sorted({place.id for looking in card.lookings for place in looking.knowing.places})
    return JobCases(
        plan.coach.job.job if plan.coach.job else "",
        planned,
        tuple(sorted(cases, key=lambda case: -case.chance)),
        needed,
        outcomes(card.cases, types),
        {name: taken.route.spaces for name, taken in plan.chosen.items()},
        tuple(places),
        tuple(place for place in places if place in plan.coach.shop.history.found),
        tuple(cable.cable for cable in card.cables if not cable.exact),
    )
