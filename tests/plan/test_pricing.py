"""Prices for things that cables share: whatever is asked, what is given back keeps the bound below every plan."""

from itertools import combinations

import numpy as np
import pytest
from joint_samples import bound_of, by_hand, commodity, even, graph_net, random_problem
from random_nets import all_paths, seeded

from drawcord.plan.bound import Prices
from drawcord.plan.companies import companies, largest
from drawcord.plan.pricing import Things, fine, users
from drawcord.plan.problem import Problem


@pytest.mark.parametrize("seed", range(100))
def test_companies_against_looking_at_every_set(seed):
    """Exactly the sets without a whole ban to which no cable can be added."""
    rng = seeded(seed)
    count = rng.randint(1, 7)
    sets = [frozenset(some) for size in range(count + 1) for some in combinations(range(count), size)]
    bans = rng.sample(sets[1:], min(rng.randint(0, 8), len(sets) - 1))
    legal = {some for some in sets if not any(ban <= some for ban in bans)}
    expected = [some for some in legal if not any(some < other for other in legal)]
    assert largest(count, [tuple(sorted(ban)) for ban in bans]) == sorted(tuple(sorted(some)) for some in expected)


def test_each_thing_has_the_companies_of_its_own_bans():
    """All three together; no two together; and a ban said twice or on another thing changes nothing."""
    net, owners = graph_net([(0, 1, 0)], 0, 1)
    cables = (commodity(net, [[] for _ in owners]),) * 3
    pairs = ((0, 1), (0, 2), (1, 2))
    bans = (*((1, pair) for pair in pairs), (1, (0, 1)), (3, (0, 1, 2)))
    found = companies(Problem(cables, np.array([5, 5, 5, 5]), bans))
    told = {(int(thing), tuple(np.flatnonzero(one))) for some in found for thing in some.things for one in some.cables}
    assert told == {(0, (0, 1, 2)), (2, (0, 1, 2)), *((1, (cable,)) for cable in range(3)), *((3, p) for p in pairs)}


def open_problem(seed):
    """A random problem in which each cable has a way, with its least weight; nothing where no plan is legal."""
    problem = random_problem(seeded(seed))
    least = by_hand(problem)
    return (problem, least) if least is not None and all(all_paths(one.net) for one in problem.commodities) else None


@pytest.mark.parametrize("seed", range(200))
def test_no_prices_whatever_give_a_bound_above_the_lightest_plan(seed):
    """Prices at random, far too high ones among them."""
    if not (drawn := open_problem(seed)):
        return
    problem, least = drawn
    things, rng = Things(problem), np.random.default_rng(seed)
    for most in (1, 5, 50):
        prices, _ = things.asked(rng.integers(0, most + 1, users(problem).shape))
        assert bound_of(problem, prices) <= least


def test_prices_at_random_are_often_given_back():
    """The check above sees prices that would claim too much if nothing were given back."""
    beyond = 0
    for problem, least in filter(None, map(open_problem, range(200))):
        prices, _ = Things(problem).asked(np.full((len(problem.commodities), len(problem.cost)), 50))
        beyond += bound_of(problem, prices) + prices.back > least
    assert beyond > 20


def test_each_of_those_that_may_not_meet_pays_all():
    """Two cables, one way each through the same hole of 8, or past it for 9.

    Where they may share it, half from each is all it costs; where not, one has to go past: 9 from each, 1 given back.
    """
    net, owners = graph_net([(0, 1, 0), (0, 2, 0), (2, 1, 0)], 0, 1)
    cable = commodity(net, [[0] if edge == 0 else [] for edge in owners])
    cable = cable.with_own(np.array([{0: 0, 1: 5, 2: 4}[edge] for edge in owners]))
    shared = Problem((cable, cable), np.array([8]), ())
    apart = Problem((cable, cable), np.array([8]), ((0, (0, 1)),))
    assert bound_of(shared, even(shared)) == by_hand(shared) == 8
    assert bound_of(apart, even(apart)) == 16
    assert by_hand(apart) == 17
    prices, left = fine(apart, 17)
    assert bound_of(apart, prices) == bound_of(left, prices) == 17


@pytest.mark.parametrize("seed", range(200))
def test_moved_prices_are_no_worse_than_even_ones(seed):
    """Nor than those they begin with; and the lightest plan is left, whatever prices they begin with."""
    if not (drawn := open_problem(seed)):
        return
    problem, least = drawn
    first = bound_of(problem, even(problem))
    moved, left = fine(problem, least)
    again, still = fine(left, least, moved)
    assert first <= bound_of(left, moved) <= bound_of(still, again) <= least
    wild = np.random.default_rng(seed).integers(0, 50, moved.each.shape)
    _, after_wild = fine(problem, least + 2, Prices(wild[:, :1], 0))
    assert {by_hand(smaller) for smaller in (left, still, after_wild)} == {least}
