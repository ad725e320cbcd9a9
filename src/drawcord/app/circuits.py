"""The array and the circuits of a job, as several commands need them."""

from pathlib import Path

from drawcord.app.answers import answers
from drawcord.files.load import Loaded, load, placing
from drawcord.files.rule_tables import rule_sets
from drawcord.files.tables import conductors
from drawcord.plan.array import Array, array
from drawcord.plan.choose import choose
from drawcord.plan.circuits import Circuits, circuits
from drawcord.plan.fitted import fitted
from drawcord.plan.plan import Plan
from drawcord.words.faults import BadInput, Problem


def array_of(job: Path, shop: Path | None) -> tuple[Loaded, Array]:
    """Read a job and compare the groupings of its modules. Raises BadInput."""
    loaded = load(job, shop)
    if loaded.coach.job is None:
        raise BadInput([Problem((), "this is a rig file; circuits need a job file, with equipment", file=str(job))])
    return loaded, placing(loaded, lambda: array(fitted(loaded.coach, rule_sets())))


def circuits_of(job: Path, shop: Path | None) -> tuple[Loaded, Circuits]:
    """Read a job, choose the winner of each cable's routes and work out its circuits. Raises BadInput."""
    array_of(job, shop)  # what is wrong with it is told before the long search
    loaded, found = answers(job, shop)
    return loaded, circuits_along(loaded, choose(loaded.coach, [answer for _, answer in found], []))


def circuits_along(loaded: Loaded, plan: Plan) -> Circuits:
    """The circuits of a job on the routes that a plan chose. Raises BadInput."""
    strings = placing(loaded, lambda: array(fitted(loaded.coach, rule_sets())))
    return circuits(loaded.coach, strings, plan.chosen, conductors())
