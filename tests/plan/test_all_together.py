"""The joint plan as measured: on the demo jobs, around what a person takes, and where not all cables go together."""

import pytest

import answered
import sketch
from drawcord.files.tables import conductors
from drawcord.plan.abreast import Abreast
from drawcord.plan.all_together import all_together
from drawcord.plan.bundle import bore, filled, free
from drawcord.plan.joint import jointly
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.ways.ways import explore
from planned import planned


def around(job, **taken):
    """The joint plan of a demo job with its cables as they are written, around the candidates of these ranks."""
    found = answered.answers(job)
    offered = {answer.cable: answer.candidates for _, answer in found}
    return all_together(answered.coach_of(job), found, {name: offered[name][rank] for name, rank in taken.items()})


def faults(found, plan):
    orders = [order for order, _ in found if order.name in plan.chosen]
    return Abreast(orders, [plan.chosen[order.name].route for order in orders]).faults()


@pytest.mark.parametrize("job", answered.JOBS)
def test_demo_jobs_are_planned_and_proved(job):
    """Every cable has a way, no rule is broken, every joint is in reach, and nothing lighter is possible."""
    _, found, plan = planned(job)
    together = plan.together
    assert together.proved
    assert together.weight == together.least_possible
    assert together.gap_percent == 0
    assert plan.chosen.keys() == {order.name for order, _ in found}
    assert faults(found, plan) == []
    for answer in plan.answers:
        chosen = plan.chosen[answer.cable]
        assert chosen in answer.candidates
        assert chosen.route.reachable
        assert chosen.route.agreed or not answer.candidates[0].route.agreed
    # What was saved, counted from what is there.
    alone = [answer.candidates[0].route for answer in plan.answers]
    drilled = [hole for chosen in plan.chosen.values() for hole in chosen.route.holes if hole.kind == "roof"]
    bored = {frozenset(zip(hole.between, (hole.near, hole.far), strict=True)) for hole in drilled}
    assert together.saved.roof_holes == sum(route.criteria.roof_holes for route in alone) - len(bored)
    for hole in together.holes:
        cables = [plan.coach.job.cables[name] for name in hole.cables]
        assert hole.diameter == bore(cables) + plan.coach.shop.clearances.plug


def test_the_others_go_round_what_a_person_takes():
    """A route that is taken stays, through its own passages; the plan around it breaks no rule either."""
    job = "van/job-open-cabin"
    free_plan = around(job)
    plan = around(job, coax=1)
    wanted = next(answer for _, answer in answered.answers(job) if answer.cable == "coax").candidates[1]
    assert plan.chosen["coax"].route.passages == wanted.route.passages != free_plan.chosen["coax"].route.passages
    assert plan.together.weight >= free_plan.together.weight
    assert faults(answered.answers(job), plan) == []


def test_winners_that_may_not_meet_are_told():
    """Taken as they are, some demo jobs' winners break a rule, and the plan says which: not so the joint plan."""
    told = {job: planned(job)[2].together.alone_faults for job in answered.JOBS}
    assert any(told.values())
    assert all("may not" in sentence or "need" in sentence for some in told.values() for sentence in some)


def chase_job(classes):
    """Cables of these classes between a box and a bay below it, which one chase alone joins."""
    spaces = {
        "high": {"kind": "cabinet", "from front": [1000, 2000], "street": 400, "up": "1500..2000", "door": "curb"},
        "low": {"kind": "cabinet", "from front": [1000, 2000], "street": 400, "up": "0..500", "door": "curb"},
        "shaft": {"kind": "chase", "from front": [1400, 1500], "street": 60, "up": "500..1500", "standing": "proven"},
    }
    at = {"from front": 1700, "street": 100}
    names = [f"c{number}" for number in range(len(classes))]
    equipment = {
        "top": {"kind": "router", "in": "high", **at, "up": 1700, "terminals": dict.fromkeys(names)},
        "foot": {"kind": "screen", "in": "low", **at, "up": 200, "terminals": dict.fromkeys(names)},
    }
    power = {"amperes": "10 A", "volts": "40 V"}
    cables = {
        name: {"class": kind, "from": f"top.{name}", "to": f"foot.{name}", **(power if kind == "PV" else {})}
        for name, kind in zip(names, classes, strict=True)
    }
    ways = explore(sketch.coach_of(sketch.rig_data(spaces), sketch.job_data(equipment, cables)))
    orders = [Order(ways, name, conductors()) for name in names]
    return ways, [(order, compare(order)) for order in orders]


def test_cables_that_may_not_share_the_only_chase_are_left_out():
    """Two data cables go down together; a PV cable beside them does not, and of unlike ones the last by id is left."""
    ways, found = chase_job(["data", "data"])
    plan = all_together(ways.coach, found, {})
    assert plan.together.left_out == ()
    assert [bundle.where for bundle in plan.together.bundles] == ["shaft"]
    assert plan.together.bundles[0].free == free(ways.coach.spaces["shaft"]) == 100 * 60
    assert plan.together.bundles[0].filled == filled([order.cable for order, _ in found]) == 2 * 6 * 6
    ways, found = chase_job(["data", "data", "PV"])
    plan = all_together(ways.coach, found, {})
    assert plan.together.left_out == ("c2",)
    assert plan.chosen.keys() == {"c0", "c1"}
    assert plan.together.alone_faults


def test_what_will_not_do_is_refused_and_the_next_best_taken():
    """A leg that a measured route may not have is in no plan; without it the plan is no lighter."""
    found = [pair for pair in answered.answers("class-a-three-slides/job-mid-roof") if pair[0].name in ("pv", "uplink")]
    free_plan = jointly(found, {}, lambda _: {})
    first = free_plan.stations["pv"][0]
    asked = []

    def refuse(stations):
        asked.append(stations)
        return {"pv": (0, 0)} if stations["pv"][0].partition("#")[0] == first.partition("#")[0] else {}

    plan = jointly(found, {}, refuse)
    assert len(asked) > 1
    assert plan.proved
    assert plan.stations["pv"][0].partition("#")[0] != first.partition("#")[0]
    assert plan.weight >= free_plan.weight


@pytest.mark.parametrize(
    ("job", "one", "other"),
    [
        ("class-a-three-slides/job-mid-roof", "pv", "shore"),
        ("truck-camper/job-rear-junction", "uplink", "coax"),
        ("van/job-garage", "link", "mains"),
    ],
)
def test_a_plan_that_will_do_stands_where_a_stretch_of_it_is_refused_in_another(job, one, other):
    """A stretch may be too tight or out of reach but in the plan met first; what is lighter than this is refused."""
    found = [pair for pair in answered.answers(job) if pair[0].name in (one, other)]
    asked, refused = [], []

    def starts_alike(stations):
        return stations[one][:1] == asked[0][one][:1]

    def refuse(stations):
        asked.append(stations)
        if stations == asked[0] or not starts_alike(stations):
            return {}
        refused.append(stations)
        return {one: (0, 0)}

    plan = jointly(found, {}, refuse)
    assert refused
    without = jointly(found, {}, lambda stations: {one: (0, 0)} if starts_alike(stations) else {})
    assert plan.stations == asked[0]
    assert plan.left_out == ()
    assert plan.bound <= plan.weight < without.weight
