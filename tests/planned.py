"""The plans of the demo jobs, each worked out once a run of the tests."""

from functools import cache

from answered import JOBS
from drawcord.app.circuits import plan_of
from drawcord.plan.plan import Plan


@cache
def plan(job: str) -> Plan:
    """What `drawcord plan` comes to for a demo job."""
    return plan_of(JOBS[job], None, [])[2]
