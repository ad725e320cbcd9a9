"""A whole job in types that stand, against the slow way: every choice of types, each planned from scratch."""

from dataclasses import replace
from itertools import product

import pytest
from small_jobs import TABLES, TYPES, array_of, job, rig, sized_of, ways_of

from drawcord.plan.circuits import circuits
from drawcord.plan.grown import of_type
from drawcord.plan.room import cramped
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.ways.ways import explore
from drawcord.words.faults import BadInput

LADDERS = {"pv": ["pv-0", "pv-1"], "supply": [f"dc-{at}" for at in range(6)]}


def stands(coach, array, types):
    """Whether each type serves and a device protects it on the best route with room; nothing is kept for the next."""
    known, jobbed = coach.types.cables, coach.job
    cables = {name: of_type(cable, types[name], known[types[name]]) for name, cable in coach.job.cables.items()}
    coach = replace(coach, job=coach.job.model_copy(update={"cables": cables}))
    ways, chosen = explore(coach), {}
    for name, cable in cables.items():
        plug = jobbed.cables[name].largest_plug
        roomy = [c for c in compare(Order(ways, name, TABLES)).candidates if not cramped(coach, cable, plug, c.route)]
        if not roomy:
            return False
        chosen[name] = roomy[0]
    found = circuits(coach, array, chosen, TABLES)
    return all(one.device and one.chosen.type_id == types[one.cable] for one in found.circuits)


@pytest.mark.parametrize(("opening", "amperes", "limit"), list(product((24, 20, 15), (40, 90), ("3 %", "1.2 %"))))
def test_the_smallest_types_that_stand_are_found(opening, amperes, limit):
    # Thick cables do not pass the opening and go the long way, which may need a thicker one still.
    jobbed = job({"amperes": f"{amperes} A", "drop limit": limit})
    found = sized_of(rig(opening), jobbed)
    coach = ways_of(rig(opening), jobbed).coach
    array = array_of(coach)
    choices = [dict(zip(LADDERS, types, strict=True)) for types in product(*LADDERS.values())]
    standing = [types for types in choices if stands(coach, array, types)]
    if not standing:
        assert found.settled.stuck == ("supply",)
        return
    lowest = {name: min((types[name] for types in standing), key=LADDERS[name].index) for name in LADDERS}
    assert lowest in standing
    assert found.settled.types == lowest
    assert found.settled.stuck == ()
    assert found.circuits.whole


def test_a_longer_way_round_wants_a_thicker_cable_still():
    # By the short way, of 2 m, 16 mm² keep 2 % at 40 A; two cores of 9 mm do not pass an opening of 17 mm, and by the
    # long way they lose more than that: only planning again finds 25 mm².
    short = sized_of(rig(60), job({"amperes": "40 A", "drop limit": "2 %"}))
    long = sized_of(rig(17), job({"amperes": "40 A", "drop limit": "2 %"}))
    assert short.settled.types["supply"] == "dc-1"
    assert short.chosen["supply"].route.spaces == ("bay_a", "bay_b")
    assert long.settled.types["supply"] == "dc-2"
    assert long.chosen["supply"].route.spaces == ("bay_a", "tunnel", "bay_b")
    (why,) = long.settled.against["supply"]["dc-1"]
    assert "over the limit of 2 %" in why


def circuit_of(found, name="supply"):
    return next(one for one in found.circuits.circuits if one.cable == name)


def test_a_type_that_the_job_names_is_a_start_that_nothing_thinner_replaces():
    # 10 mm² would do; the job names 35 mm², which stays, and the circuit says that thinner would serve.
    found = sized_of(rig(60), job({"amperes": "30 A", "type": "dc-3"}))
    one = circuit_of(found)
    assert found.settled.types["supply"] == one.chosen.type_id == "dc-3"
    assert "dc-0 would serve as well, and is thinner" in [f.sentence for f in one.findings]


def test_a_conductor_without_a_type_is_a_start_as_well():
    # 10 mm² would do; who writes 25 mm² does not get less, nor a finding about a type that nobody named.
    found = sized_of(rig(60), job({"amperes": "30 A", "conductor": "25 mm2"}))
    assert found.settled.types["supply"] == "dc-2"
    assert [f.sentence for f in circuit_of(found).findings if "which the job names" in f.sentence] == []


def test_a_type_that_grew_says_from_which_and_why():
    # The finding names what the job ordered, what speaks against it, and what came in its stead.
    one = circuit_of(sized_of(rig(60), job({"amperes": "90 A", "type": "dc-1"})))
    (said,) = [f.sentence for f in one.findings if "which the job names" in f.sentence]
    assert said.startswith("dc-1, which the job names, does not serve: 76 A at its terminals are less than")
    assert said.endswith("dc-3 does, and the route is planned for it")
    assert list(one.planned.given_up) == ["dc-1", "dc-2"]
    assert one.planned.proof.startswith("Proven:")


def test_holes_are_as_wide_as_the_cores_together():
    # Two cores of 13 mm are 26 mm wide, more than a plug of 14 mm: the holes and a finding say so.
    found = sized_of(rig(15), job({"amperes": "90 A"}))
    one = circuit_of(found)
    assert one.chosen.type_id == "dc-3"
    assert {hole.diameter for hole in one.candidate.route.holes} == {26 + 2}
    assert any("26 mm wide together, more than the plug of 14 mm" in f.sentence for f in one.findings)


def test_a_cable_that_no_type_serves_is_told_with_every_reason_and_the_others_stand():
    # 200 A are beyond every type; the array is sized all the same, and the routes are those of the job as written.
    found = sized_of(rig(60), job({"amperes": "200 A"}))
    assert found.settled.stuck == ("supply",)
    assert found.coach.job.cables["supply"].type is None
    assert circuit_of(found).chosen is None
    assert all(one.against for one in circuit_of(found).tried)
    assert circuit_of(found, "pv").chosen.type_id == found.settled.types["pv"]
    assert not found.circuits.whole


def test_a_thicker_cable_that_nothing_lets_through_is_told_so():
    # The only way is an opening of 20 mm: 90 A want 35 mm², 26 mm wide.
    rigged = rig(20)
    del rigged["spaces"]["tunnel"]
    found = sized_of(rigged, job({"amperes": "90 A"}))
    (why,) = found.settled.against["supply"]["dc-3"]
    assert why == "no way is open to it, with 26 mm to pass each hole"
    assert found.chosen["supply"].route.spaces == ("bay_a", "bay_b")


def test_a_route_taken_stays_and_nothing_is_proven_of_it():
    # Nobody has looked through the opening, so that the long way is worth a thought; who takes it gets a cable for it.
    rigged, jobbed = rig(60, chance="30 %"), job({"amperes": "90 A"})
    answer = next(answer for order, answer in sized_of(rigged, jobbed).compared if order.name == "supply")
    first, other = answer.candidates[:2]
    found = sized_of(rigged, jobbed, [other.id])
    assert found.chosen["supply"].route.spaces == other.route.spaces != first.route.spaces
    assert "was taken" in circuit_of(found).planned.proof
    with pytest.raises(BadInput, match="supply-9"):
        sized_of(rigged, jobbed, ["supply-9"])


def test_the_order_of_the_types_in_the_file_makes_no_difference():
    # Ties break by section, then by id.
    types = dict(reversed(TYPES["cables"].items()))
    one, other = sized_of(rig(20), job({})), sized_of(rig(20), job({}, types=types))
    assert one.settled == other.settled
    assert one.chosen == other.chosen
