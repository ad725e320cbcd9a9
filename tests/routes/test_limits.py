"""The person's limits on random coaches, against every route of the graph that is published."""

from dataclasses import replace
from functools import cache
from itertools import combinations
from math import exp, floor

import pytest
from enumerated import few, whole
from random_nets import seeded

import sketch
from drawcord.coach.limits import Limits
from drawcord.routes.compare import compare
from drawcord.routes.limits import ROUNDING, least_chance
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria
from drawcord.routes.weighing import weights
from drawcord.ways.links import micronats
from drawcord.ways.ways import explore

FIELDS = ("length", "in_sight", "roof_holes", "inner_holes", "minutes", "chance_clear")


def limited(order: Order, limits: Limits) -> Order:
    """The same cable in a job with these limits, in a shop that looks as far as there is to look."""
    coach = order.coach
    preferences = coach.shop.preferences.model_copy(
        update={"length_times": 1000.0, "holes_more": 20, "minutes_times": 1000.0}
    )
    job = coach.job.model_copy(update={"limits": limits})
    changed = replace(coach, job=job, shop=replace(coach.shop, preferences=preferences))
    return Order(replace(order.ways, coach=changed), order.name, order.conductors)


def some_limits(rng, every):
    """Limits at what some route costs, or just below; a chance rounded down to a hundredth of a percent."""
    said = {}
    tight = rng.random() < 0.4  # then all near the least there is
    for name, column in zip(FIELDS, zip(*every, strict=True), strict=True):
        most = rng.choice(sorted(set(column))[: 1 if tight else 4])
        if rng.random() < (0.9 if tight else 0.55):
            most = max(0, most - rng.choice((0, 1) if tight else (0, 0, 1)))
            said[name] = max(floor(1e4 * exp(-most / 1e6)) / 1e4, 1e-4) if name == "chance_clear" else most
    return Limits.model_construct(**said)


def keeps_to(limits, vector, but=()):
    """Whether a route keeps to all limits but some; the chance to within what rounding can do."""
    for name, value in zip(FIELDS, vector, strict=True):
        most = getattr(limits, name)
        if most is None or name in but:
            continue
        if exp(-value / 1e6) < most - 1e-5 if name == "chance_clear" else value > most:
            return False
    return True


@cache
def asked(spaces):
    """Cables of the random coaches: what each of their routes costs, some limits, and the answer within these."""
    cases = []
    for number, (order, routes) in enumerate(few(str(spaces))):
        if len(routes) > 1:
            netted = Netted(order)
            every = sorted(whole(netted, vector) for vector in routes)
            limits = some_limits(seeded(number), every)
            cases.append((order, every, limits, compare(limited(order, limits))))
    return cases


@pytest.mark.parametrize("spaces", [5, 6, 7, 8])
def test_limits_prune_exactly_and_what_must_give_way_is_least(spaces):
    # Whether any way is left; that all that is offered keeps to them; each single limit that opens a way with its
    # least value; else the smallest set, of several the one whose best way is lightest.
    open_, single, several = 0, 0, 0
    for order, every, limits, answer in asked(spaces):
        if any(keeps_to(limits, vector) for vector in every):
            open_ += 1
            assert answer.candidates
            for candidate in answer.candidates:
                rounding = Criteria(0, 0, 0, 0, len(candidate.route.legs), 0)  # a second a leg
                assert keeps_to(limits, map(int.__sub__, candidate.route.criteria, rounding))
            continue
        assert not answer.candidates
        tight = answer.unroutable.too_tight
        said = [name for name in FIELDS if getattr(limits, name) is not None]
        ways = {name: [v for v in every if keeps_to(limits, v, but=(name,))] for name in said}
        if any(ways.values()):
            single += 1
            assert all(limit.alone for limit in tight)
            assert {limit.name: limit.opens_at for limit in tight} == {
                name: min(vector[place] for vector in ways[field])
                for place, (name, field) in enumerate(zip(Criteria._fields, FIELDS, strict=True))
                if ways.get(field)
            }
            continue
        several += 1
        assert not any(limit.alone for limit in tight)
        for count in range(2, len(said) + 1):
            sets = {some: [v for v in every if keeps_to(limits, v, but=some)] for some in combinations(said, count)}
            if any(sets.values()):
                break
        by = weights(order.coach)
        best = min(
            (sum(w * v for w, v in zip(by, vector, strict=True)), [FIELDS.index(f) for f in some], vector)
            for some, vectors in sets.items()
            for vector in vectors
        )
        assert [FIELDS[Criteria._fields.index(limit.name)] for limit in tight] == [FIELDS[place] for place in best[1]]
        assert [limit.opens_at for limit in tight] == [best[2][place] for place in best[1]]
    assert open_ > 10, "too few coaches with a way within the limits"
    assert single > 5, "too few where one limit must give way"
    assert several > 3, "too few where several must"


@pytest.mark.parametrize("spaces", [6, 8])
def test_what_is_said_to_open_a_way_does(spaces):
    # Each value put into the job, and one less: the first is open, the other is not.
    tried = 0
    for order, _, limits, answer in asked(spaces):
        why = answer.unroutable
        if why is None:
            continue
        for limit in why.too_tight if why.too_tight[0].alone else ():
            field = FIELDS[Criteria._fields.index(limit.name)]
            if field == "chance_clear":
                chances = [floor(1e4 * exp(-limit.opens_at / 1e6)) / 1e4, exp(-limit.opens_at / 1e6) + 1e-4]
            else:
                chances = [limit.opens_at, limit.opens_at - 1]
            opened = [
                compare(limited(order, limits.model_copy(update={field: value}))).candidates != () for value in chances
            ]
            assert opened == [True, False]
            tried += 1
    assert tried > 5


@pytest.mark.parametrize("stated", [0.0001, 0.07, 0.33333, 0.57, 0.9, 0.9999, 1.0])
def test_a_chance_is_quoted_as_it_was_stated_and_what_opens_a_way_is_no_stricter(stated):
    # 90 % used to come back as 89.99 %. A share of more digits than are quoted is rounded to what lets no less through.
    assert least_chance(micronats(stated) + ROUNDING) == pytest.approx(floor(round(stated * 1e4, 6)) / 1e4, abs=1e-12)
    for doubt in range(0, 3_000_000, 12_345):
        assert micronats(least_chance(doubt)) + ROUNDING >= doubt


def test_lengths_may_be_limited_by_the_shortest_way_and_the_strictest_counts():
    order, every = next((order, every) for order, every, *_ in asked(7) if len({one.length for one in every}) > 5)
    lengths = sorted({one.length for one in every})
    shortest = lengths[0]
    for limits, most in (
        ({"longer_than_shortest": 700}, shortest + 700),
        ({"times_shortest": 1.25}, shortest * 5 // 4),
        ({"times_shortest": 1.0, "length": lengths[3]}, shortest),
        ({"longer_than_shortest": 5000, "length": lengths[1]}, lengths[1]),
    ):
        offered = compare(limited(order, Limits.model_construct(**limits))).candidates
        assert offered
        assert all(candidate.route.criteria.length <= most for candidate in offered)


def test_a_cable_s_own_limits_stand_instead_of_the_job_s():
    # Criterion by criterion: what the cable leaves out the job still limits.
    rig = sketch.rig_data({"bay": {"kind": "bay", "from front": [1000, 3000], "street": 700}})
    place = {"kind": "router", "in": "bay", "street": 300, "up": "bay+200", "terminals": {"t": None}}
    equipment = {name: {**place, "from front": at} for name, at in (("one", 1500), ("two", 2500))}
    cables = {
        "plain": {"from": "one.t", "to": "two.t"},
        "own": {"from": "one.t", "to": "two.t", "limits": {"roof holes": 3, "length": "9 m"}},
    }
    job = sketch.job_data(equipment, cables, limits={"roof holes": 1, "minutes": "2 h"})
    ways = explore(sketch.coach_of(rig, job))
    plain, own = (Order(ways, name, ()).limits for name in ("plain", "own"))
    assert (plain.roof_holes, plain.minutes, plain.length) == (1, 7200, None)
    assert (own.roof_holes, own.minutes, own.length) == (3, 7200, 9000)
