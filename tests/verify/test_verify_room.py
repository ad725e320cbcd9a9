"""Room to turn and to draw a cable, and between holes: as the planner sees it, which measures it another way."""

from itertools import product

import pytest
from random_plans import as_text, drawn, planned, vehicle, ways_of

from drawcord.files.tables import conductors
from drawcord.plan.room import cramped as planners
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.verify.room import cramped, overlapping
from drawcord.verify.route import Route
from drawcord.verify.verify import faults

SIZES = list(product((20, 120, 260, 700), (6, 25, 45), (1, 2, 8), (20, 48, 90)))  # bend, outside, cores, plug [mm]


def test_what_has_no_room_is_what_the_planner_finds_too_tight():
    """Every candidate of random coaches, with cables from thin to thicker than any: the two have to agree."""
    told = {True: 0, False: 0}
    for seed in range(6):
        rig, job = drawn(18, seed)
        ways, built = ways_of(rig, job), vehicle(rig, job)
        answer, order = compare(Order(ways, "pv", conductors())), ways.coach.job.cables["pv"]
        said = next(one["candidates"] for one in planned(ways)["cables"] if one["cable"] == "pv")
        for candidate, one in zip(answer.candidates, said, strict=True):
            route = Route(built, "pv", built.job["cables"]["pv"], one)
            for bend, wide, cores, plug in SIZES:
                cable = {"outside diameter": wide, "smallest bend": bend, "largest plug": plug, "cores": cores}
                fit = order.model_copy(update={key.replace(" ", "_"): value for key, value in cable.items()})
                tight = planners(ways.coach, fit, plug, candidate.route)
                built.job["cables"]["pv"] = as_text({**job["cables"]["pv"], **cable})
                kind = {"outside diameter": "1", "smallest bend": "1", "units": "mm"}
                assert bool(cramped(route, kind, apart=cores > 1)) == bool(tight), (seed, one["id"], cable, tight)
                told[bool(tight)] += 1
    assert min(told.values()) > 300


def drilled(*bores):
    """A route of which only the bores are known."""
    route = object.__new__(Route)
    route.bores = [(f"H{n}", *bore) for n, bore in enumerate(bores, start=1)]
    return route


@pytest.mark.parametrize(
    ("two", "meets"),
    [
        (((100, 0, 0), (130, 0, 0), 0, 20), False),  # the same hole
        (((100, 19, 0), (130, 19, 0), 0, 20), True),
        (((100, 20, 0), (130, 20, 0), 0, 20), False),  # they only touch
        (((130, 14, 14), (100, 14, 14), 0, 20), True),  # 19.8 mm, bored from the other side
        (((150, 0, 0), (160, 0, 0), 0, 20), False),  # the next wall
        (((100, 19, 0), (100, 19, 30), 2, 20), False),  # another face of a space
    ],
)
def test_holes_run_into_each_other_where_their_edges_do(two, meets):
    """By hand: diameters of 20 mm, from 100 to 130 along."""
    one = ((100, 0, 0), (130, 0, 0), 0, 20)
    assert bool(overlapping({"a": drilled(one), "b": drilled(two)})) == meets
    assert bool(overlapping({"a": drilled(one, two)})) == meets


def test_a_stiffer_cable_makes_the_plan_of_its_circuit_wrong(cases):
    """A bend that no space has room for is told of the circuits that turn in one, and of no other."""
    told = []
    for case in cases[:3]:
        for name in case.job["cables"]:
            built, its = case.vehicle(), {**case.job["cables"][name], "smallest bend": "990 mm"}
            built.job = {**case.job, "cables": {**case.job["cables"], name: its}}
            found = faults(case.few(1), built)
            assert all(f"{name}: " in fault and "no room for a bend of 990 mm" in fault for fault in found)
            told += [name] * bool(found)
    assert len(told) > 2
