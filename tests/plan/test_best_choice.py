"""Cables that keep out of each other's way: the best choice of routes, and all that follows of it, the slow way."""

import pytest
from test_looking import exhaustive

from drawcord.plan.contested import apart, within
from drawcord.plan.knowing import Knowing
from drawcord.plan.looking import Looking
from drawcord.plan.outcomes import by_card
from unproven_samples import best, followed, outcomes_of, some_bans, some_cables, with_plan, worked

AGAIN = (96, 111, 132, 154, 159, 169, 171, 190, 293)  # of 300 those in which a cable that is done is done again
SEEDS = (*range(30), *AGAIN)


def sample(seed, places):
    """Cables, places and bans; every other one with a plan, if any is legal."""
    made, unproven = some_cables(seed, places=places, cables=3, routes=4)
    made, bans = some_bans(seed, made, things=3)
    planned = with_plan(seed, made, bans) if seed % 2 else None
    return planned or made, unproven, bans


@pytest.mark.parametrize("seed", range(80))
def test_the_best_choice_is_that_of_every_choice_tried(seed):
    # Fewest without a way, then the lightest with each doubt once, ties to the first; for all that may be known.
    cables, unproven, bans = sample(seed, places=3)
    knowing = Knowing(cables, unproven, bans)
    for known in ({}, *(outcome for outcome, _ in outcomes_of(unproven))):
        left = knowing.first()
        for number, place in enumerate(knowing.places):
            if place.id in known:
                left = knowing.learn_all(left, 1 << number, clear=known[place.id])
        pairs = zip(knowing.routes, knowing.best(left), strict=True)
        chosen = [None if one is None else routes[one[0]] for routes, one in pairs]
        assert chosen == list(best(cables, unproven, known, bans).values())


@pytest.mark.parametrize("seed", SEEDS)
def test_no_order_of_looking_takes_less_time_where_cables_keep_apart(seed):
    cables, unproven, bans = sample(seed, places=2 + seed % 2)
    looking = Looking(Knowing(cables, unproven, bans))
    assert looking.seconds == pytest.approx(exhaustive(cables, unproven, {}, bans), abs=1e-9)
    assert looking.going.least(looking.start) <= looking.seconds + 1e-9


@pytest.mark.parametrize("seed", SEEDS)
def test_the_cases_are_those_of_every_outcome_and_keep_to_the_bans(seed):
    # Played through by the cards of each group; none lies where it may not, and no more lose their way than have to.
    cables, unproven, bans = sample(seed, places=2 + seed % 4)
    groups = [Looking(Knowing(group, unproven, within(bans, group))) for group in apart(cables, bans)]
    for looking in groups:
        group = [cable for cable in cables if cable.cable in looking.knowing.cables]
        mine = within(bans, group)
        expected = {}
        for outcome, chance in outcomes_of(unproven):
            _, known = followed(looking.card, outcome)
            routes = worked(group, unproven, known, outcome, mine)[1]
            fewest = best(group, unproven, outcome, mine)
            assert routes.count(None) == list(fewest.values()).count(None)
            taken = dict(zip(looking.knowing.cables, routes, strict=True))
            assert not any(all(taken[n] and thing in taken[n].spaces for n in names) for thing, names in mine)
            key = tuple(
                -1 if route is None else next(n for n, one in enumerate(cable.routes) if one is route)
                for cable, route in zip(group, routes, strict=True)
            )
            expected[key] = expected.get(key, 0.0) + chance
        found = by_card(looking)
        assert found.keys() == expected.keys()
        assert all(found[key] == pytest.approx(chance, abs=1e-9) for key, chance in expected.items())


def test_a_card_begins_with_the_plan_and_leaves_it_for_what_turns_out_better():
    # Whatever the plan is; else the sheet and its card would send the same cable two ways.
    left = 0
    for seed in range(1, 240, 2):
        cables, unproven, bans = sample(seed, places=3)
        knowing = Knowing(cables, unproven, bans)
        plan = [[n for n, route in enumerate(cable.routes) if route.planned] for cable in cables]
        if all(plan):
            assert [one[0] for one in knowing.best(knowing.first())] == [number for number, in plan]
            for outcome, _ in outcomes_of(unproven):
                chosen = best(cables, unproven, outcome, bans)
                clear = all(outcome[name] for cable in cables for r in cable.routes if r.planned for name, _ in r.meets)
                left += clear and not all(route.planned for route in chosen.values())
    assert left > 3, "no plan is ever left for a better way"


def test_the_samples_have_cables_that_lose_their_way_and_some_that_are_done_again():
    # Else the tests above would prove nothing about either.
    lost = again = 0
    for seed in SEEDS:
        cables, unproven, bans = sample(seed, places=2 + seed % 4)
        for outcome, _ in outcomes_of(unproven):
            free = worked(cables, unproven, {}, outcome)[1]
            _, routes, twice = worked(cables, unproven, {}, outcome, bans)
            lost += routes.count(None) > free.count(None)
            again += twice
    assert lost > 20
    assert again > 20
