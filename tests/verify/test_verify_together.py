"""The joint part of a plan: what it says otherwise than the chosen routes is noticed, and so is what may not meet."""

from collections import Counter
from itertools import combinations_with_replacement

import pytest
from mutations import changes, form, places, put

from drawcord.verify.circuits import ordered
from drawcord.verify.figures import figures
from drawcord.verify.route import Route
from drawcord.verify.together import bore, broken, check, free
from drawcord.verify.vehicle import Vehicle
from drawcord.verify.verify import NOT_A_PLAN, faults

CLASSES = ("PV", "battery DC", "mains", "data or coax")
HARMLESS = {
    "together without left_out": "the same as none",
    "together.left_out one more": "a name that is no cable leaves out nothing",
    "together.proved turned round": "to claim less than was proved is no fault",
    "together.alone.faults": "sentences",
    "together.apart.#.rule": "words behind the name of the row, which is checked",
}


def sharing(*apart):
    """A sharing table that grants everything, but to these pairs of classes only that they may cross."""
    rows = [" with ".join(pair) for pair in combinations_with_replacement(CLASSES, 2)]
    may = {row: "false" if row in apart else "true" for row in rows}
    return {"pairs": {row: {"together": yes, "box": yes, "raceway": yes, "cross": "true"} for row, yes in may.items()}}


def joint(case, *apart):
    """The plan of a job with a joint part written for its winners, and its vehicle."""
    vehicle = Vehicle(case.rig, case.job, {**case.shop, "sharing": sharing(*apart)})
    cables = ordered(vehicle, case.plan)
    said = {one["cable"]: one["candidates"] for one in case.plan["cables"] if one["candidates"]}
    taken = {route["id"]: route for routes in said.values() for route in routes}
    routes = {name: Route(vehicle, name, cables[name], taken[case.plan["chosen"][name]]) for name in said}
    winners = {name: Route(vehicle, name, cables[name], some[0]) for name, some in said.items()}
    for route in (*routes.values(), *winners.values()):
        figures(route)
    empty = {"apart": [], "alone": {"faults": []}, "proved": True, "weight_m": 9.5, "least_possible_m": 9.5}
    empty["alone"]["legal"] = not broken(vehicle, winners)
    empty["alone"]["faults"] = [] if empty["alone"]["legal"] else ["they meet"]
    right, _ = check(empty, vehicle, routes, winners)
    rules = [{**row, "rule": next(iter(rows_of(vehicle, cables, row)))} for row in right["apart"]]
    together = {**empty, **right, "apart": rules, "left_out": []}
    together["alone"] = empty["alone"]
    return {**case.few(1), "together": together}, vehicle


def rows_of(vehicle, cables, row):
    """What the row of the sharing table for two cables is called."""
    kinds = ["data or coax" if cables[n]["class"] in ("data", "coax") else cables[n]["class"] for n in row["cables"]]
    either = " with ".join(kinds), " with ".join(kinds[::-1])
    return [name for name in vehicle.shop["sharing"]["pairs"] if name in either]


def noticed(plan, vehicle, before):
    """Whether a plan has another fault than before."""
    try:
        return faults(plan, vehicle) != before
    except NOT_A_PLAN:
        return True


@pytest.mark.usefixtures("quick")
def test_every_change_of_the_joint_part_is_noticed(cases):
    """Each kind of change at each kind of place of it, on two jobs of two cables."""
    missed, made = [], Counter()
    for case, each in ((cases[0], 2), (cases[-1], 4)):
        here = Counter()
        plan, vehicle = joint(case, "PV with data or coax", "battery DC with mains")
        before = faults(plan, vehicle)
        for path, value in places(plan["together"], ("together",)):
            for change, new in changes(value):
                place = form(path)
                listed = any(f"{place} {change}".startswith(one) for one in HARMLESS)
                if listed or here[place, change] == each:
                    continue
                here[place, change] += 1
                if not noticed(put(plan, path, new), vehicle, before):
                    missed.append((case.path.stem, place, change))
        made += here
    assert made.total() > 200
    assert not missed, sorted(set(missed))


def test_what_may_not_lie_together_is_told(cases):
    """Over all demo jobs some winners meet where a table that grants nothing keeps them apart."""
    rows = [" with ".join(pair) for pair in combinations_with_replacement(CLASSES, 2)]
    told = [fault for case in cases for fault in faults(*joint(case, *rows)) if "in the sharing table" in fault]
    assert told


@pytest.mark.parametrize(("plugs", "wide"), [([20], 20), ([20, 6], 26), ([12, 6, 6, 6, 6], 24)])
def test_a_bore_passes_all_side_by_side_or_half_filled(plugs, wide):
    """By hand: 20; 20 + 6; four of 6 beside a plug of 12 need sqrt(2 (144 + 4 · 36)) = 24 at most."""
    job = {"from": "", "to": "", "class": "data", "cores": "1"}
    routes = []
    for plug in plugs:
        route = object.__new__(Route)
        route.cable, route.unit, route.plug = {**job, "outside diameter": f"{plug} mm"}, "", plug
        routes.append(route)
    assert bore(routes) == wide


def test_a_chase_leaves_what_nothing_fills(cases):
    """The chases of the demo rigs: something, and no more than their section."""
    seen = 0
    for case in cases:
        for space in case.vehicle().spaces.values():
            if space.kind == "chase":
                sides = sorted(float(high - low) for low, high in space.box)
                assert 0 < free(space) <= sides[0] * sides[1]
                seen += 1
    assert seen > 5
