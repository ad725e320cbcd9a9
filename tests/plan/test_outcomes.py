"""What is needed over all outcomes, against plain enumeration of every one of them."""

import pytest

from drawcord.plan.alternatives import Alternative, Alternatives, Unproven
from drawcord.plan.contested import apart
from drawcord.plan.knowing import Knowing
from drawcord.plan.looking import Looking
from drawcord.plan.outcomes import by_card, choices, outcomes
from unproven_samples import followed, lightest, outcomes_of, some_cables, worked

TYPES = {"c0": ("thin", 2), "c1": ("thick", 1), "c2": ("thin", 1)}


def looked(cables, unproven, **how):
    return [Looking(Knowing(group, unproven, **how)) for group in apart(cables)]


def enumerated(lookings, cables, unproven):
    """The chance of each need, by playing every outcome through the cards; and the summed chance of no way."""
    found, no_way = {}, 0.0
    for outcome, chance in outcomes_of(unproven):
        chosen = {}
        for looking in lookings:
            group = [cable for cable in cables if cable.cable in looking.knowing.cables]
            _, known = followed(looking.card, outcome)
            routes = worked(group, unproven, known, outcome)[1]
            chosen |= dict(zip(looking.knowing.cables, routes, strict=True))
        sums = dict.fromkeys(sorted({TYPES[name][0] for name in chosen}), (0, 0, 0))
        for name, route in chosen.items():
            kind, times = TYPES[name]
            if route:
                sums[kind] = tuple(a + times * b for a, b in zip(sums[kind], route.cut_length, strict=True))
        without = tuple(sorted(name for name, route in chosen.items() if route is None))
        key = tuple(sums.items()), without
        found[key] = found.get(key, 0.0) + chance
        no_way += chance * bool(without)
    return found, no_way


@pytest.mark.parametrize("seed", range(60))
def test_the_cases_are_those_of_every_outcome_played_through(seed):
    # All 2^m outcomes of up to seven places, through the same cards; no way at all among them.
    cables, unproven = some_cables(seed, places=2 + seed % 6, cables=1 + seed % 3, routes=5)
    lookings = looked(cables, unproven)
    found = outcomes(choices(lookings), TYPES)
    expected, no_way = enumerated(lookings, cables, unproven)
    mine = {(tuple(case.lengths.items()), case.without): case.chance for case in found.cases}
    assert mine.keys() == {key for key, chance in expected.items() if chance}
    assert all(mine[key] == pytest.approx(expected[key], abs=1e-9) for key in mine)
    assert found.no_way == pytest.approx(no_way, abs=1e-9)
    assert sum(mine.values()) == pytest.approx(1, abs=1e-9)
    for kind in found.types:
        assert sum(chance for _, chance in found.of(kind)) == pytest.approx(1, abs=1e-9)


@pytest.mark.parametrize("seed", range(30))
def test_without_doubt_the_best_that_turns_out_clear_is_taken(seed):
    # Whatever is looked at first: the lightest that an outcome leaves clear, for every one of them.
    cables, unproven = some_cables(seed, places=2 + seed % 5, cables=1 + seed % 2, routes=6)
    for looking in looked(cables, unproven, sure=True):
        expected = {}
        for outcome, chance in outcomes_of(unproven):
            group = [cable for cable in cables if cable.cable in looking.knowing.cables]
            best = [lightest(cable, unproven, outcome, sure=True) for cable in group]
            key = tuple(
                -1 if route is None else next(n for n, one in enumerate(cable.routes) if one is route)
                for cable, route in zip(group, best, strict=True)
            )
            expected[key] = expected.get(key, 0.0) + chance
        mine = by_card(looking)
        assert {key for key, chance in mine.items() if chance} == {key for key, chance in expected.items() if chance}
        assert all(mine[key] == pytest.approx(expected[key], abs=1e-9) for key in mine)


def test_each_choice_of_routes_comes_once_and_the_likeliest_first():
    # Nine times in ten 4 m, else 7 m round the other side; two lengths of it a run.
    short = Alternative("c0", ("roof", "chase", "bay"), 1, 60, (("chase", 10),), (3800, 4000, 4300))
    long = Alternative("c0", ("roof", "linen", "bay"), 2, 60, (), (6800, 7000, 7400))
    other = Alternative("c1", ("roof", "bay"), 1, 60, (), (1800, 2000, 2300))
    unproven = {"chase": Unproven("chase", 0.9, 0, 10_000, "the chase")}
    lookings = looked([Alternatives("c0", (short, long)), Alternatives("c1", (other,))], unproven)
    assert choices(lookings) == [
        (pytest.approx(0.9), {"c0": short, "c1": other}),
        (pytest.approx(0.1), {"c0": long, "c1": other}),
    ]
    found = outcomes(choices(lookings), TYPES)
    assert found.of("thin") == (((7600, 8000, 8600), 0.9), ((13600, 14000, 14800), pytest.approx(0.1)))


def test_a_way_that_is_not_there_is_a_case_like_any_other():
    # The only way is clear three times in five.
    only = Alternative("c0", ("roof", "chase", "bay"), 1, 60, (("chase", 10),), (3800, 4000, 4300))
    unproven = {"chase": Unproven("chase", 0.6, 0, 10_000, "the chase")}
    lookings = looked([Alternatives("c0", (only,))], unproven)
    found = outcomes(choices(lookings), TYPES)
    assert found.no_way == found.no_way_for("c0") == pytest.approx(0.4)
    assert choices(lookings) == [(pytest.approx(0.6), {"c0": only}), (pytest.approx(0.4), {"c0": None})]
