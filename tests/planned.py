"""The plans of the demo jobs, each worked out once a run of the tests."""

from functools import cache

from answered import JOBS
from drawcord.app.circuits import plan_of
from drawcord.files.load import Loaded
from drawcord.plan.comparing import Compared
from drawcord.plan.plan import Plan


@cache
def planned(job: str) -> tuple[Loaded, Compared, Plan]:
    """What `drawcord plan` comes to for a demo job, and from what."""
    return plan_of(JOBS[job], None, [])


def plan(job: str) -> Plan:
    """What `drawcord plan` comes to for a demo job."""
    return planned(job)[2]
