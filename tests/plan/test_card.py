"""The card on coaches: what each outcome ends in, against planning all cables together for every one of them."""

from functools import cache
from itertools import product

import pytest

import sketch
from drawcord.coach.build import build
from drawcord.coach.job import Found
from drawcord.files.tables import conductors
from drawcord.plan.abreast import Abreast
from drawcord.plan.all_together import all_together
from drawcord.plan.card import card
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.ways.ways import explore
from random_coaches import random_coach

# Two cables that may share no narrow space, opening or hole, and one more beside each.
CLASSES = {"pv": "PV", "link": "data or coax", "more": "mains"}
# Of 200 random ones those with up to five unproven places where cables contest a place, or have to be moved aside.
COACHES = [(6, seed) for seed in (4, 59, 76, 77, 79, 87)]
COACHES += [(9, seed) for seed in (4, 7, 11, 27, 28, 34, 46, 49, 57, 60, 61, 66, 76, 83, 86, 95)]


def coach_of(size, seed, **facts):
    """A random coach, with so much found out."""
    rig, job = random_coach(size, seed)
    cables = {**job.cables, "more": job.cables["link"]}
    power = {"amperes": 5, "volts": 12}
    cables = {name: one.model_copy(update={"carries": CLASSES[name], **power}) for name, one in cables.items()}
    owner = job.owner.model_copy(update={"consents": ["raceway in sight"]})
    found = [Found(what=name, standing=how) for name, how in sorted(facts.items())]
    differences = job.differences.model_copy(update={"found": found})
    changes = {"cables": cables, "owner": owner, "differences": differences}
    return build(rig, job.model_copy(update=changes), sketch.shop())


def planned(coach):
    """The orders, and the plan of all together."""
    ways = explore(coach)
    orders = [Order(ways, name, conductors()) for name in sorted(coach.job.cables)]
    return orders, all_together(coach, [(order, compare(order)) for order in orders], {})


@cache
def carded(size, seed):
    orders, plan = planned(coach_of(size, seed))
    return orders, plan, card(plan, orders)


@pytest.mark.parametrize(("size", "seed"), COACHES)
def test_no_cables_lie_where_they_may_not_and_the_card_begins_with_the_plan(size, seed):
    orders, plan, made = carded(size, seed)
    by_name = {order.name: order for order in orders}
    assert sum(chance for chance, _ in made.cases) == pytest.approx(1, abs=1e-9)
    for _, choice in made.cases:
        taken = [(by_name[name], one.route) for name, one in sorted(choice.items()) if one]
        assert not taken or not Abreast([order for order, _ in taken], [route for _, route in taken]).at_odds()
        assert all(route.reachable for _, route in taken)
    for looking in made.lookings:
        numbers = zip(looking.knowing.routes, looking.knowing.best(looking.start), strict=True)
        begun = {routes[one[0]].cable: routes[one[0]].route.stations for routes, one in numbers if one}
        chosen = {name: plan.chosen[name].route.stations for name in begun if name in plan.chosen}
        assert chosen == {name: stations for name, stations in begun.items() if name in chosen}


@pytest.mark.parametrize(("size", "seed"), [*COACHES[:5], *COACHES[6:10], (9, 34)])
def test_as_many_cables_have_a_way_as_planning_again_finds(size, seed):
    # For every outcome of all that the alternatives meet, if that is not too much: planned from nothing.
    _, _, made = carded(size, seed)
    places = sorted({place.id: place.chance for looking in made.lookings for place in looking.knowing.places}.items())
    lost = {}
    for outcome in product((True, False), repeat=len(places)):
        facts = {name: "proven" if clear else "blocked" for (name, _), clear in zip(places, outcome, strict=True)}
        chance = 1.0
        for (_, one), clear in zip(places, outcome, strict=True):
            chance *= one if clear else 1 - one
        count = len(CLASSES) - len(planned(coach_of(size, seed, **facts))[1].chosen)
        lost[count] = lost.get(count, 0.0) + chance
    mine = {}
    for chance, choice in made.cases:
        count = list(choice.values()).count(None)
        mine[count] = mine.get(count, 0.0) + chance
    assert mine == {count: pytest.approx(chance, abs=1e-9) for count, chance in lost.items()}


def test_the_coaches_try_what_they_should():
    # Cables that contest a place, holes that are moved aside, and cables that lose their way, or nothing is proved.
    contested = lost = moved = 0
    for size, seed in COACHES:
        _, _, made = carded(size, seed)
        contested += any(len(looking.knowing.cables) > 1 for looking in made.lookings)
        lost += any(None in choice.values() for _, choice in made.cases)
        offered = [one.route for cable in made.cables for one in cable.routes]
        moved += any(one and one.route not in offered for _, choice in made.cases for one in choice.values())
    assert contested > 5
    assert lost > 5
    assert moved > 5
