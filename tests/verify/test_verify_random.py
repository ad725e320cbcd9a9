"""Whatever coach drawcord plans, its plan passes: the two were written apart, and have to agree."""

import pytest
from random_plans import drawn, planned, vehicle, ways_of

from drawcord.verify.verify import faults


@pytest.mark.parametrize(("spaces", "coaches"), [(6, 35), (12, 30), (25, 25), (50, 10)])
def test_every_plan_of_a_random_coach_passes(spaces, coaches):
    """100 coaches in all."""
    routes = 0
    for seed in range(coaches):
        rig, job = drawn(spaces, seed)
        plan = planned(ways_of(rig, job))
        assert faults(plan, vehicle(rig, job)) == [], f"{spaces} spaces, seed {seed}"
        routes += sum(len(cable["candidates"]) for cable in plan["cables"])
    assert routes > coaches
