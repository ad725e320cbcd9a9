"""Types against what lies beside their cables: counted, grown and planned again until every cable stands."""

from itertools import product

import pytest
from small_jobs import BELOW, INDOORS, SUN, TABLES, array_of, cable_type, job, rig, sized_of, ways_of

from drawcord.plan import whole as module
from drawcord.plan.circuits import circuits
from drawcord.plan.grown import grown
from drawcord.plan.whole import whole

DC = [f"dc-{at}" for at in range(6)]


def jobbed(amperes, *more, **sections):
    """Cables from the battery to the inverter, the first of `amperes`; 9 % of drop leaves all to the ampacity."""
    data = job({"amperes": f"{amperes} A", "drop limit": "9 %"}, **sections)
    for number, other in enumerate(more):
        data["cables"][f"supply_{number}"] = {**data["cables"]["supply"], "amperes": f"{other} A"}
    return data


def planned(data, opening=60):
    ways = ways_of(rig(opening), data)
    return whole(ways, array_of(ways.coach), TABLES)


def circuit_of(plan, name="supply"):
    return next(one for one in plan.circuits.circuits if one.cable == name)


def figures_of(plan, beginning, name="supply"):
    return [figure for figure in circuit_of(plan, name).figures if figure.name.startswith(beginning)]


def test_a_cable_that_stands_alone_grows_beside_another():
    # IEC 60364-5-52, table B.52.17 (from memory): two circuits together carry 0.80 of what one does. 25 mm² stand for
    # 80 A alone, and allow no device of 100 A beside a second circuit; 35 mm² do.
    done, plan = planned(jobbed(80))
    assert done.settled.types["supply"] == "dc-2"
    assert [f.value for f in figures_of(plan, "adjustment")] == [1.0]
    done, plan = planned(jobbed(80, 80))
    assert done.settled.types["supply"] == done.settled.types["supply_0"] == "dc-3"
    assert [(f.value, f.formula) for f in figures_of(plan, "conductors together")] == [
        (4, "2 of its own + 2 of supply_0")
    ]
    (adjusted,) = figures_of(plan, "adjustment for 4 conductors together in bay_")
    assert adjusted.value == 0.8
    assert plan.circuits.whole
    (why,) = circuit_of(plan).planned.given_up["dc-2"]
    assert why.startswith("with 4 conductors together in bay_")
    assert "beside the other cables of a joint plan" in circuit_of(plan).planned.proof


def test_a_mains_cable_beside_battery_cables_is_kept_apart_and_heats_nothing():
    # The sharing table lets battery DC lie with battery DC only; the count is that of two pairs, whatever else runs.
    data = jobbed(50, 50)
    data["cables"]["cord"] = {
        **data["cables"]["supply"], "class": "mains", "cores": 3, "volts": "230 V", "amperes": "10 A",
    }  # fmt: skip
    _, plan = planned(data)
    assert "cord" in plan.chosen
    assert [f.value for f in figures_of(plan, "conductors together")] == [4]


def test_by_the_us_rules_both_bundle_rules_count_and_the_disputed_one_says_so():
    # Four conductors together: NEC 310.15(C)(1) 0.80 past 24 in, 33 CFR 183.425 0.60, which may not hold below 50 V.
    sizes = (("8 AWG", 8, 38), ("6 AWG", 9, 45), ("4 AWG", 11, 54), ("2 AWG", 13, 62))
    awg = {f"dc-{at}": cable_type("battery DC", *one, zones=(INDOORS, BELOW)) for at, one in enumerate(sizes)}
    pv = {"pv-0": cable_type("PV", "10 AWG", 6, 30, zones=(SUN, INDOORS, BELOW))}
    data = {**jobbed(40, 40, types={**awg, **pv}), "rules": "US"}
    _, plan = planned(data)
    carries = circuit_of(plan).chosen.carrying
    every = [one.adjusted for one in (carries.governing, *carries.others)]
    adjusted = {one.source.partition(" table")[0]: one for one in every}
    assert adjusted["33 CFR 183.425"].value == 0.6
    assert "disputed" in adjusted["33 CFR 183.425"].source
    assert adjusted["NEC 2023"].value == 0.8


@pytest.mark.parametrize(("first", "second"), list(product((60, 90), (30, 80, 110))))
def test_the_smallest_types_that_stand_beside_each_other_are_found(first, second):
    # The slow way: every choice of types for both cables on the routes of the plan, each held against its neighbour.
    data = jobbed(first, second)
    done, plan = planned(data)
    coach = done.coach
    array = array_of(coach)
    standing = []
    for types in product(DC, DC):
        chosen = {"pv": done.settled.types["pv"], **dict(zip(("supply", "supply_0"), types, strict=True))}
        found = circuits(grown(coach, chosen), array, plan.chosen, TABLES)
        if all(one.device and one.chosen and one.chosen.type_id == chosen[one.cable] for one in found.circuits):
            standing.append(types)
    least = tuple(min(column, key=DC.index) for column in zip(*standing, strict=True))
    assert least in standing
    assert (done.settled.types["supply"], done.settled.types["supply_0"]) == least


def test_where_the_thickest_does_not_stand_a_finding_says_why_and_the_others_do():
    # Six circuits together carry 0.57: 70 mm² do not bear 125 A in such company, and do alone.
    done, plan = planned(jobbed(125))
    assert done.settled.stuck == ()
    _, plan = planned(jobbed(125, *[20] * 6))
    one = circuit_of(plan)
    assert one.chosen is None
    (said,) = [f.sentence for f in one.findings if "no type of cable serves" in f.sentence]
    assert "with 12 conductors together in bay_" in said
    assert all(circuit_of(plan, f"supply_{n}").chosen for n in range(6))
    assert not plan.circuits.whole


def test_nothing_is_planned_twice_where_nothing_grew(monkeypatch):
    # The joint plan is dear: once where all stand beside each other, once more for each round of growth.
    calls = []

    def counted(*args):
        calls.append(args)
        return together(*args)

    together = module.all_together
    monkeypatch.setattr(module, "all_together", counted)
    planned(jobbed(40, 40))
    assert len(calls) == 1
    planned(jobbed(80, 80))
    assert len(calls) == 3


def test_circuits_by_themselves_count_what_lies_beside_the_winners():
    # `drawcord circuit` knows no joint plan: it counts on each cable's own best way, and says so.
    found = sized_of(rig(60), jobbed(80, 80))
    assert found.settled.types["supply"] == "dc-3"
    assert any("counted as lying together: on these routes" in f.sentence for f in found.circuits.findings)
