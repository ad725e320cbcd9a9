"""The array and the circuits of a job, as several commands need them."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from drawcord.app.answers import answers
from drawcord.app.printing import progress
from drawcord.coach.lacking import lacking
from drawcord.files.load import Loaded, load, load_ways, placing
from drawcord.files.rule_tables import rule_sets
from drawcord.files.tables import conductors
from drawcord.plan.all_together import all_together
from drawcord.plan.array import Array, array
from drawcord.plan.choose import choose
from drawcord.plan.comparing import Compared, Comparing
from drawcord.plan.fitted import fitted
from drawcord.plan.plan import Plan
from drawcord.plan.sized import Sized, sized
from drawcord.plan.whole import whole
from drawcord.ways.ways import Ways
from drawcord.words.faults import BadInput, Problem


def array_of(job: Path, shop: Path | None) -> tuple[Loaded, Array]:
    """Read a job and compare the groupings of its modules. Raises BadInput."""
    loaded = load(job, shop)
    if loaded.coach.job is None:
        raise BadInput([Problem((), "this is a rig file; circuits need a job file, with equipment", file=str(job))])
    return loaded, placing(loaded, lambda: array(fitted(loaded.coach, rule_sets())))


def plan_of(job: Path, shop: Path | None, take: Sequence[str]) -> tuple[Loaded, Compared, Plan]:
    """Read a job and choose a route for each cable; with circuits if it tells enough for any. Raises BadInput."""
    coach = load(job, shop).coach
    if coach.job is None or lacking(coach.job):
        loaded, found = answers(job, shop)
        chosen = choose(loaded.coach, [answer for _, answer in found], take).chosen
        progress("planning all cables together")
        plan = all_together(loaded.coach, found, {name: one for name, one in chosen.items() if one.id in take})
        orders = [order for order, _ in found]
    else:
        loaded, ways, strings = _ready(job, shop)
        progress("planning and sizing all cables together")
        done, plan = whole(ways, strings, conductors(), take)
        loaded = replace(loaded, coach=done.coach)
        orders = [order for order, _ in done.compared]
    return loaded, tuple(zip(orders, plan.answers, strict=True)), plan


def sized_of(job: Path, shop: Path | None, take: Sequence[str] = ()) -> tuple[Loaded, Sized]:
    """Read a job, plan and size its cables until all of them stand, and work out its circuits. Raises BadInput."""
    loaded, ways, strings = _ready(job, shop)
    progress("planning and sizing the cables")
    found = sized(Comparing(ways, conductors()), strings, take)
    return replace(loaded, coach=found.coach), found


def _ready(job: Path, shop: Path | None) -> tuple[Loaded, Ways, Array]:
    _, strings = array_of(job, shop)  # what is wrong with it is told before the long search
    loaded, ways = load_ways(job, shop)
    return loaded, ways, strings
