"""The person's limits: plans that keep to them pass, and those that do not, or quote others, are told."""

from copy import copy, deepcopy

import pytest
from mutations import noticed, put
from random_plans import as_text, drawn, planned, vehicle, ways_of

from drawcord.verify.limits import stated
from drawcord.verify.verify import faults

# A limit, how a plan's value of it is read, and how the value is written as a limit that is just kept, and just not.
MEASURED = {
    "length": ("length_mm", "{} mm", -1),
    "in sight": ("in_sight_mm", "{} mm", -1),
    "roof holes": ("roof_holes", "{}", -1),
    "inner holes": ("inner_holes", "{}", -1),
    "minutes": ("minutes", "{} min", -0.2),
    "chance clear": ("chance_clear", "{}", 0.001),
}


@pytest.fixture(scope="module")
def coaches():
    """Five random coaches of several routes and their plans without limits."""
    found = []
    for seed in (7, 1, 4, 8, 11):
        rig, job = drawn(14, seed)
        found.append((rig, job, planned(ways_of(rig, job)), vehicle(rig, job)))
    return found


def limited(job, limits, *cables):
    """The job with limits on all its cables, or on some."""
    changed = deepcopy(job)
    for one in [changed["cables"][name] for name in cables] or [changed]:
        one["limits"] = limits
    return changed


def after(built, job):
    """A vehicle with another job, of which only the limits have changed."""
    other = copy(built)
    other.job = as_text(job)
    return other


def test_each_limit_is_held_against_what_the_routes_measure(coaches):
    """A limit at the largest value of any route is kept; one a little stricter is exceeded by that route."""
    told = set()
    for _, job, plan, built in coaches:
        for cable in plan["cables"]:
            for limit, (key, text, stricter) in MEASURED.items():
                values = [one[key] for one in cable["candidates"]]
                if not values:
                    continue
                most = min(values) if limit == "chance clear" else max(values)
                loose = most + (0.1 if limit == "minutes" else -0.0001 if limit == "chance clear" else 0)
                kept = limited(job, {limit: text.format(loose)}, cable["cable"])
                assert faults(plan, after(built, kept)) == [], (limit, cable["cable"])
                if 0 <= most + stricter <= 1 or (limit != "chance clear" and most + stricter >= 0):
                    broken = limited(job, {limit: text.format(most + stricter)}, cable["cable"])
                    found = faults(plan, after(built, broken))
                    assert found
                    assert all(f"exceeds the limit on {limit}" in fault for fault in found)
                    told.add(limit)
    assert told == {*MEASURED}


def test_a_route_far_longer_than_the_shortest_that_is_offered_exceeds_limits_by_it(coaches):
    """Both ways to say it, on the job and on the cable; what the cable says stands instead of what the job says."""
    told = 0
    for _, job, plan, built in coaches:
        for cable in plan["cables"]:
            lengths = [one["length_mm"] for one in cable["candidates"]]
            if not lengths or min(lengths) == max(lengths):
                continue
            more, times = max(lengths) - min(lengths), max(lengths) / min(lengths)
            for limit, kept, broken, loose in (
                ("longer than shortest", f"{more} mm", f"{more - 1} mm", "99 m"),
                ("times shortest", f"{times + 0.001}", f"{times - 0.001}", "99"),
            ):
                assert not faults(plan, after(built, limited(job, {limit: kept}, cable["cable"])))
                assert faults(plan, after(built, limited(job, {limit: broken}, cable["cable"])))
                strict = limited(job, {limit: broken})
                assert faults(plan, after(built, strict))
                assert not faults(plan, after(built, limited(strict, {limit: loose}, *job["cables"])))
                told += 1
    assert told > 5


def test_plans_made_within_limits_pass_and_quote_them(coaches):
    """Among these limits some leave no way: the plan then says which has to give way, as the job has it."""
    quoted = set()
    strict = [{"length": "900 mm"}, {"in sight": "0 mm", "inner holes": 0}, {"minutes": "40 min"}, {"roof holes": 0}]
    strict += [{"chance clear": "100 %"}, {"longer than shortest": "200 mm", "minutes": "1 min"}]
    strict += [{"times shortest": 1.0, "inner holes": 1}]
    for rig, job, _, built in coaches[:3]:
        for limits in strict:
            changed = limited(job, limits)
            plan, of = planned(ways_of(rig, changed)), after(built, changed)
            assert faults(plan, of) == [], limits
            for n, cable in enumerate(plan["cables"]):
                for m, one in enumerate((cable["unroutable"] or {"too_tight": []})["too_tight"]):
                    quoted.add(one["limit"])
                    for key, value in (
                        ("stated", one["stated"] * 1.5 + 1),
                        ("limit", "in sight" if one["limit"] == "length" else "length"),
                        ("unit", "m"),
                        ("alone", "yes"),
                        ("opens_at", 2 * one["stated"] - one["opens_at"]),
                    ):
                        if key == "stated" and one["limit"] == "length" and "length" not in limits:
                            continue  # by the shortest way there is, which only a search knows
                        wrong = put(plan, ("cables", n, "unroutable", "too_tight", m, key), value)
                        assert noticed(wrong, of), (limits, one, key)
    assert quoted >= {"length", "minutes", "inner holes", "roof holes", "chance clear"}


def test_limits_are_read_as_people_write_them():
    """Units of their own, those of the file, and nothing written."""
    rig, job = drawn(6, 0)
    wishes = {"length": "10 ft", "minutes": "1.5 h", "chance clear": "90 %", "in sight": 40, "roof holes": None}
    job = limited(job, wishes)
    of = stated(vehicle(rig, job), {"limits": {"in sight": "1 m"}})
    assert of == {"length": 3048, "minutes": 5400, "chance clear": 0.9, "in sight": 1000}
