"""Devices on a cable: what the checker adds for them, and where it lets joints lie beyond them, is the planner's."""

from copy import deepcopy
from random import Random

from random_plans import drawn, planned, vehicle, ways_of

from drawcord.verify.verify import faults


def with_devices(job, rng):
    """The job with a few devices on its cables, from either end, some past the other."""
    devices = {}
    for name, cable in job["cables"].items():
        cable["longest piece"] = 4500
        for number in range(rng.randint(0, 2)):
            end = cable[rng.choice(("from", "to"))]
            devices[f"{name}-{number}"] = {"on": name, "from": end, "along": rng.randint(20, 6000)}
    return {**job, "devices": devices}


def test_a_plan_with_devices_passes_and_with_others_it_does_not():
    """On random coaches each cable by itself; a device more, or one that sits elsewhere along it, is told."""
    counted = joints = 0
    for seed in range(14):
        rng = Random(seed)  # noqa: S311 - any devices will do
        rig, job = drawn(14, seed)
        job = with_devices(job, rng)
        plan = planned(ways_of(rig, job))
        assert faults(plan, vehicle(rig, job)) == [], seed
        offered = [one for cable in plan["cables"] for one in cable["candidates"]]
        joints += sum(len(one["joints"]) for one in offered)
        for one in offered:
            value = {figure["name"]: figure["value"] for figure in one["figures"]}
            counted += value["make-up at devices, high"] // 800
        for cable in plan["cables"]:
            if cable["candidates"]:
                more = deepcopy(job)
                more["devices"]["more"] = {"on": cable["cable"], "from": cable["from"], "along": 5}
                assert any("cut_length_mm" in fault for fault in faults(plan, vehicle(rig, more)))
    assert counted > 20
    assert joints > 10


def test_a_joint_past_a_device_is_told_where_the_device_is_left_out():
    """The planner's joints stand on the make-up at devices before them; without it they are not where they say."""
    told = 0
    for seed in range(14):
        rng = Random(seed)  # noqa: S311 - any devices will do
        rig, job = drawn(14, seed)
        job = with_devices(job, rng)
        plan = planned(ways_of(rig, job))
        told += any("is not where it says" in fault for fault in faults(plan, vehicle(rig, {**job, "devices": {}})))
    assert told > 2
