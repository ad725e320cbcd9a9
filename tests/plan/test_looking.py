"""The order of looking, against an exhaustive search of all orders and against playing every outcome through."""

import pytest

from drawcord.plan.contested import apart
from drawcord.plan.knowing import Knowing
from drawcord.plan.looking import Looking
from unproven_samples import followed, outcomes_of, some_cables, worked


def expected_work(cables, unproven, known, bans=()):
    """The expected time of going to work, by playing all that may still turn out through."""
    total = weight = 0.0
    for outcome, chance in outcomes_of(unproven):
        if all(outcome[name] == clear for name, clear in known.items()):
            total += chance * worked(cables, unproven, known, outcome, bans)[0]
            weight += chance
    return total / weight


def exhaustive(cables, unproven, known, bans=()):
    """The least expected time of all ways to look and stop: each is tried."""
    best = expected_work(cables, unproven, known, bans)
    for name, place in unproven.items():
        if name not in known:
            clear, blocked = (exhaustive(cables, unproven, {**known, name: what}, bans) for what in (True, False))
            best = min(best, place.seconds + place.chance * clear + (1 - place.chance) * blocked)
    return best


def played(looking, cables, unproven):
    """The expected time by the card, every outcome played through."""
    total = 0.0
    for outcome, chance in outcomes_of(unproven):
        seconds, known = followed(looking.card, outcome)
        total += chance * (seconds + worked(cables, unproven, known, outcome)[0])
    return total


@pytest.mark.parametrize("seed", range(60))
def test_no_order_of_looking_takes_less_time(seed):
    # Exhaustive over every order and every way to stop; what `seconds` promises is what the card takes.
    cables, unproven = some_cables(seed, places=1 + seed % 4, cables=1 + seed % 2, routes=5)
    looking = Looking(Knowing(cables, unproven))
    assert looking.exact
    assert looking.seconds == pytest.approx(exhaustive(cables, unproven, {}), abs=1e-9)
    assert looking.seconds == pytest.approx(played(looking, cables, unproven), abs=1e-9)
    assert looking.without == pytest.approx(expected_work(cables, unproven, {}), abs=1e-9)
    assert looking.going.least(looking.start) <= looking.seconds + 1e-9


def test_the_samples_ask_for_looking_and_for_stopping():
    # A test over cards that all stop at once would prove nothing.
    at_once = twice = left_unknown = 0
    for seed in range(60):
        cables, unproven = some_cables(seed, places=1 + seed % 4, cables=1 + seed % 2, routes=5)
        card = Looking(Knowing(cables, unproven)).card
        known = [followed(card, outcome)[1] for outcome, _ in outcomes_of(unproven)]
        at_once += card.look is None
        twice += any(len(some) > 1 for some in known)
        left_unknown += any(0 < len(some) < len(unproven) for some in known)
    assert at_once > 5, "hardly any card stops at once"
    assert twice > 10, "hardly any card looks twice"
    assert left_unknown > 10, "hardly any card leaves something unlooked at"


@pytest.mark.parametrize("seed", range(40))
def test_past_the_bound_the_stated_gap_holds(seed):
    # The rule of thumb with a rollout: played through it takes what it says, and it is within its own bound.
    cables, unproven = some_cables(seed, places=5, cables=2, routes=6)
    rough, exact = Looking(Knowing(cables, unproven), most=0), Looking(Knowing(cables, unproven))
    assert rough.seconds == pytest.approx(played(rough, cables, unproven), abs=1e-9)
    assert exact.seconds - 1e-9 <= rough.seconds <= rough.without + 1e-9
    assert rough.seconds - rough.above_least <= exact.seconds + 1e-9


def test_what_costs_more_than_it_can_save_is_not_looked_at():
    # An hour's look at what costs ten minutes at most.
    cables, unproven = some_cables(3, places=3, cables=1, routes=5)
    dear = {name: place.__class__(name, place.chance, place.weight, 10_000, name) for name, place in unproven.items()}
    looking = Looking(Knowing(cables, dear))
    assert looking.card.look is None
    assert looking.seconds == looking.without


def test_cables_that_share_no_place_are_looked_at_apart():
    # The groups are those that a plain search of shared places finds, and each cable is in one.
    for seed in range(30):
        cables, _ = some_cables(seed, places=8, cables=6, routes=2)
        groups = apart(cables)
        assert sorted(one.cable for group in groups for one in group) == [one.cable for one in cables]
        met = [{name for one in group for route in one.routes for name, _ in route.meets} for group in groups]
        assert sum(map(len, met)) == len(set().union(*met))
        for group in groups:
            names = [{name for route in one.routes for name, _ in route.meets} for one in group]
            reached = names[0]
            for _ in names:
                reached = reached.union(*(some for some in names if some & reached))
            assert len(group) == 1 or all(some & reached for some in names)
            assert [one.cable for one in group] == sorted(one.cable for one in group)
