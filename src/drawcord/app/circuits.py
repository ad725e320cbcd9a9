"""The array of a job, as several commands need it."""

from pathlib import Path

from drawcord.files.load import Loaded, load, placing
from drawcord.files.rule_tables import rule_sets
from drawcord.plan.array import Array, array
from drawcord.plan.fitted import fitted
from drawcord.words.faults import BadInput, Problem


def array_of(job: Path, shop: Path | None) -> tuple[Loaded, Array]:
    """Read a job and compare the groupings of its modules. Raises BadInput."""
    loaded = load(job, shop)
    return loaded, arranged(loaded, job)


def arranged(loaded: Loaded, job: Path) -> Array:
    """The comparison for a job that was read. Raises BadInput."""
    if loaded.coach.job is None:
        raise BadInput([Problem((), "this is a rig file; circuits need a job file, with equipment", file=str(job))])
    return placing(loaded, lambda: array(fitted(loaded.coach, rule_sets())))
