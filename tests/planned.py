"""The plans of the demo jobs, and their circuits, each worked out once a run of the tests."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from unittest.mock import patch

from answered import JOBS, read
from drawcord.app import asked, circuits, plans
from drawcord.app.circuits import plan_of, sized_of
from drawcord.files.load import Loaded
from drawcord.plan.comparing import Compared
from drawcord.plan.plan import Plan
from drawcord.plan.sized import Sized
from drawcord.ways.ways import Ways
from kept import kept


@kept
def planned(job: str) -> tuple[Loaded, Compared, Plan]:
    """What `drawcord plan` comes to for a demo job, and from what."""
    return plan_of(JOBS[job], None, [])


@kept
def sized(job: str) -> tuple[Loaded, Sized]:
    """What `drawcord circuit` comes to for a demo job, and from what."""
    return sized_of(JOBS[job], None)


def plan(job: str) -> Plan:
    """What `drawcord plan` comes to for a demo job."""
    return planned(job)[2]


@contextmanager
def known() -> Iterator[None]:
    """Commands within this process say of the demo jobs what is known of them, instead of working it out again."""
    names = {path: name for name, path in JOBS.items()}

    def planned_again(job: Path, shop: Path | None, take: Sequence[str]) -> tuple[Loaded, Compared, Plan]:
        assert (shop, list(take)) == (None, [])
        return planned(names[job])

    def sized_again(job: Path, shop: Path | None, take: Sequence[str] = ()) -> tuple[Loaded, Sized]:
        assert (shop, list(take)) == (None, [])
        return sized(names[job])

    def read_again(job: Path, shop: Path | None) -> tuple[Loaded, Ways]:
        assert shop is None
        return read(names[job])

    with (
        patch.object(asked, "load_ways", read_again),
        patch.object(circuits, "plan_of", planned_again),
        patch.object(plans, "plan_of", planned_again),
        patch.object(circuits, "sized_of", sized_again),
    ):
        yield
