"""The joint model on problems without any coach, against looking at every plan, and on a published Steiner tree."""

from dataclasses import replace
from functools import cache
from itertools import islice, pairwise

import networkx as nx
import numpy as np
import pytest
from joint_samples import bound_of, by_hand, commodity, even, graph_net, planned, random_problem
from random_nets import all_paths, seeded

from drawcord.plan.bound import reduced
from drawcord.plan.greedy import greedy
from drawcord.plan.pricing import fine
from drawcord.plan.problem import Problem
from drawcord.plan.refusal import without

# B01 of SteinLib (T. Koch, A. Martin and S. Voss, SteinLib: An Updated Library on Steiner Tree Problems in Graphs,
# 2001; made by J. E. Beasley for the OR-Library): 50 vertices, 63 edges, 9 terminals; the published optimum is 82.
B01 = """
2 8 8, 2 21 7, 2 32 2, 4 5 8, 7 29 7, 11 3 7, 14 31 9, 17 6 7, 17 42 6, 18 19 2, 18 28 1, 18 43 1, 19 2 5, 20 7 3,
20 14 7, 20 16 8, 20 27 2, 20 38 8, 20 40 10, 20 48 2, 21 12 7, 21 17 5, 21 18 10, 22 10 6, 22 20 2, 22 21 2,
22 40 8, 22 43 7, 25 34 4, 27 34 4, 28 5 8, 28 24 5, 29 9 5, 29 33 7, 30 5 4, 30 15 1, 30 16 2, 33 35 3, 34 20 10,
34 30 2, 36 2 8, 36 4 6, 36 11 9, 36 39 7, 36 49 9, 36 50 10, 40 15 10, 40 23 3, 41 1 5, 41 22 8, 41 25 5, 41 36 2,
41 44 7, 41 47 7, 42 6 9, 42 46 10, 44 24 8, 44 39 3, 45 26 6, 45 28 1, 47 37 3, 47 45 10, 50 13 1
"""
TERMINALS = (48, 49, 22, 35, 27, 12, 37, 34, 24)
OPTIMUM = 82


def test_a_published_steiner_tree():
    """One cable from the first terminal to each other, every edge paid for once: a tree that spans the terminals."""
    edges = [tuple(map(int, edge.split())) for edge in B01.replace("\n", " ").split(",")]
    assert len(edges) == 63
    cables = []
    for terminal in TERMINALS[1:]:
        net, owners = graph_net(edges, TERMINALS[0], terminal)
        cables.append(commodity(net, [[edge] for edge in owners]))
    problem = Problem(tuple(cables), 1000 * np.array([weight for _, _, weight in edges]), ())
    found = planned(problem)
    assert found.proved
    assert found.weight == 1000 * OPTIMUM
    # What it found is a tree that holds every terminal.
    used = nx.Graph(pair for states in found.routes for pair in pairwise(states))
    assert nx.is_tree(used)
    assert set(TERMINALS) <= set(used)


@cache
def drawn(seed):
    """A random problem, and the least weight of all its plans."""
    problem = random_problem(seeded(seed))
    return problem, by_hand(problem)


@pytest.mark.parametrize("seed", range(400))
def test_the_model_finds_what_looking_at_every_plan_finds(seed):
    """Same least weight, and none where no plan is legal; no bound above it; the greedy plan is legal."""
    problem, least = drawn(seed)
    found = planned(problem)
    assert found.proved
    if least is None:
        assert found.routes is None
        assert greedy(problem, pairs=True) is None
        return
    assert found.routes is not None
    assert problem.legal(found.routes)
    assert found.weight == problem.weight(found.routes) == found.bound == least
    if all(len(all_paths(one.net)) for one in problem.commodities):
        assert bound_of(problem, even(problem)) <= least
        prices, smaller = fine(problem, least)
        assert bound_of(problem, prices) <= bound_of(smaller, prices) <= least
    start = greedy(problem)
    assert start is None or (problem.legal(start) and problem.weight(start) >= least)


def test_the_random_problems_cover_the_ugly_cases():
    """Some have no legal plan, and some have bans that cost."""
    problems = [drawn(seed) for seed in range(400)]
    assert sum(least is None for _, least in problems) > 20
    banned = ((problem, least) for problem, least in problems if problem.bans and least is not None)
    free = (by_hand(replace(problem, bans=())) != least for problem, least in banned)
    assert sum(islice(filter(None, free), 11)) > 10


def test_a_dear_way_that_pays_for_two_is_found():
    """Each cable alone takes its own way of 6; the thing they can share costs 10, and 1 each to get to it."""
    net, owners = graph_net([(0, 1, 0), (0, 2, 0), (2, 1, 0)], 0, 1)
    cable = commodity(net, [[2] if edge == 1 else [] for edge in owners])
    own = [np.array([{0: 6, 1: 1, 2: 0}[edge] for edge in owners])] * 2
    problem = Problem(tuple(cable.with_own(costs) for costs in own), np.array([0, 0, 9]), ())
    alone, paired, best = greedy(problem), greedy(problem, pairs=True), planned(problem)
    assert problem.weight(alone) == 12
    assert problem.weight(paired) == best.weight == by_hand(problem) == 11


@pytest.mark.parametrize("seed", range(120))
def test_arcs_left_out_are_in_no_plan_within_the_limit(seed):
    """Every plan up to the weight asked for is still there."""
    problem, least = drawn(seed)
    if least is None:
        return
    for more in (0, 3):
        prices, finer = fine(problem, least + more)
        for smaller in (finer, *(reduced(problem, some, least + more) for some in (prices, even(problem)))):
            assert by_hand(smaller) == least
            assert sum(len(one.own) for one in smaller.commodities) <= sum(len(one.own) for one in problem.commodities)


@pytest.mark.parametrize("seed", range(120))
def test_a_refused_stretch_is_gone_and_nothing_else(seed):
    """The ways that are left are those that do not take these arcs one after the other, at the same costs."""
    rng = seeded(seed)
    problem = random_problem(rng)
    cable = problem.commodities[0]
    paths = [path.states for path in all_paths(cable.net)]
    if not paths:
        return
    arcs = cable.arcs(rng.choice(paths))
    first = rng.randrange(len(arcs))
    stretch = cable.step[arcs[first : rng.randint(first + 1, len(arcs))]].tolist()
    left = without(cable, stretch)

    def runs_through(states):
        steps = cable.step[cable.arcs(states)].tolist()
        return any(steps[at : at + len(stretch)] == stretch for at in range(len(steps)))

    def told(one, ways):
        pairs = ((tuple(one.origin[list(states)].tolist()), one.arcs(states)) for states in ways)
        return sorted((mouths, int(one.own[some].sum()), sorted(one.uses(some))) for mouths, some in pairs)

    expected = [states for states in paths if not runs_through(states)]
    assert told(left, [path.states for path in all_paths(left.net)]) == told(cable, expected)
    for states in expected:
        assert left.origin[list(left.walk(cable.origin[list(states)].tolist()))].tolist() == list(states)
