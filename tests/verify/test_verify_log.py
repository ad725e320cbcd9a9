"""Plans made with a log beside the rig: what other jobs found and used counts, and is counted again."""

from copy import deepcopy
from random import Random

import pytest
from random_plans import drawn, planned, vehicle, ways_of

from drawcord.verify.log import Log
from drawcord.verify.verify import faults


def used(planned_, *lengths):
    """A record of a job that used these lengths [mm] of cables that were all planned as long."""
    return {"cables": {f"c{n}": {"planned": f"{planned_} mm", "used": f"{one} mm"} for n, one in enumerate(lengths)}}


def log_of(rng, names, ratio):
    """What four jobs found at some of these places, and used: about so many times what was planned."""
    jobs = {}
    for number in range(4):
        found = {name: rng.choice(("clear", "blocked", None)) for name in names if rng.random() < 0.6}
        around = [round(ratio * 5000) + rng.randint(-90, 90) for _ in range(rng.randint(1, 3))]
        jobs[f"job-{number}"] = {**used(5000, *around), "found": found}
    jobs["order"] = {**used(5000, 50_000), "found": dict.fromkeys(names, "blocked")}  # its own: counts for nothing
    return {"format": 1, "rig": "sketch", "jobs": jobs}


@pytest.mark.parametrize("ratio", [0.93, 1.11])
def test_a_plan_with_a_log_passes_and_without_it_does_not(ratio):
    """Doubts, the correction of the cut lengths and joints where the longer cable has them, on 12 random coaches."""
    joints = 0
    for seed in range(12):
        rig, job = drawn(14, seed)
        for cable in job["cables"].values():
            cable["longest piece"] = 4500
        names = sorted({*ways_of(rig, job).passages, *rig["spaces"]})
        log = log_of(Random(seed), names, ratio)  # noqa: S311 - any log will do
        plan = planned(ways_of(rig, job, log))
        assert faults(plan, vehicle(rig, job, log)) == [], seed
        offered = [one for cable in plan["cables"] for one in cable["candidates"]]
        joints += sum(len(one["joints"]) for one in offered)
        assert bool(faults(plan, vehicle(rig, job))) == bool(offered), seed
        for other in ("found", "cables"):
            changed = deepcopy(log)
            for record in changed["jobs"].values():
                record[other] = {}
            assert bool(faults(plan, vehicle(rig, job, changed))) == bool(offered), (seed, other)
        strange = {**log, "rig": "another"}
        assert faults(plan, vehicle(rig, job, strange)) == ["the log beside the rig is that of another"]
    assert joints > 10


def test_the_log_counts_as_its_words_say():
    """By hand: (clear + 2 p) / (n + 2); the median over jobs of their medians; nothing by fewer than three jobs."""
    found = [{"found": {"a": "clear", "b": "clear"}}, {"found": {"a": "blocked", "b": "clear"}}, {"found": {"a": ""}}]
    of = Log({"jobs": {str(n): one for n, one in enumerate(found)}}, "mine")
    assert of.chance("a", 0.5) == (1 + 2 * 0.5) / (2 + 2)
    assert of.chance("b", 1.0) is None  # all agree
    assert of.chance("b", 0.0) == 2 / 4
    assert of.chance("c", 0.5) is None
    jobs = {"one": used(1000, 1100, 5000, 1200), "two": used(1000, 1000), "three": used(1000, 1300), "mine": used(1, 9)}
    assert (Log({"jobs": jobs}, "mine").ratio, Log({"jobs": jobs}, "mine").jobs) == (1.2, 3)
    assert Log({"jobs": jobs}, "two").ratio == 1.3
    del jobs["mine"], jobs["two"]
    assert Log({"jobs": jobs}, "other").ratio == 1.0
