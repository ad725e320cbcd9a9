"""The efficient set against brute force, a published instance, its limits, its bound and its reach."""

import dataclasses
from itertools import pairwise

import numpy as np
import pytest
from random_nets import all_paths, arbitrary_net, box_net, seeded

from drawcord.routes.different import lightest
from drawcord.routes.efficient import EfficientSet, efficient
from drawcord.routes.net import Net
from drawcord.routes.reach import Reach

PLENTY = 10**6


def nowhere_above(one, other):
    return all(a <= b for a, b in zip(one, other, strict=True))


def within(limits, paths):
    return [
        path for path in paths if all(limit is None or v <= limit for v, limit in zip(path.vector, limits, strict=True))
    ]


def efficient_among(paths, weights):
    """The slow obvious answer; `paths` are in order of vector, then states."""
    best = [p for p in paths if not any(q < p and nowhere_above(q.vector, p.vector) for q in paths)]
    return tuple(sorted(best, key=lambda p: (sum(w * v for w, v in zip(weights, p.vector, strict=True)), p)))


def random_question(seed, fewest=2, most_cost=4):
    rng = seeded(seed)
    criteria = rng.randint(1, 4)
    net = arbitrary_net(rng, rng.randint(fewest, 6), criteria, most_cost)
    return rng, net, [rng.randint(0, 3) for _ in range(criteria)]


@pytest.mark.parametrize("block", range(10))
def test_equals_brute_force_path_for_path(block):
    # 3000 small nets full of ties, zero costs and paying detours, most with limits; states included.
    for seed in range(300 * block, 300 * (block + 1)):
        rng, net, weights = random_question(seed)
        limits = [rng.choice((None, rng.randint(2, 14))) for _ in weights]
        allowed = within(limits, all_paths(net))
        found = efficient(net, weights, limits, PLENTY, (1,) * len(weights))
        assert found.exact
        assert found.paths == efficient_among(allowed, weights), seed


@pytest.mark.parametrize("seed", range(12))
def test_equals_brute_force_on_boxes(seed):
    # Real magnitudes in six criteria, both ways through the coach.
    net = box_net(seeded(seed), 2, 1, 2, criteria=6, hard=seed % 3 > 0, up=seed % 2 == 1)
    paths = all_paths(net)
    weights = (1, 2000, 2, 1, 3000, 6)
    found = efficient(net, weights, [None] * 6, PLENTY, (1,) * 6)
    assert found.paths == efficient_among(paths, weights)


def test_published_instance_of_two_criteria():
    # Ehrgott, Multicriteria Optimization (2005), example 9.5: arcs (c1, c2), from node 1 to node 6.
    arcs = [
        (1, 2, 4, 3), (1, 3, 5, 1), (2, 3, 2, 1), (2, 4, 1, 4), (2, 5, 2, 2), (2, 6, 7, 2),
        (3, 4, 5, 1), (3, 5, 2, 7), (4, 3, 5, 1), (4, 6, 3, 2), (5, 6, 4, 2),
    ]  # fmt: skip
    table = np.array(arcs)
    net = Net.of([0, 1, 2, 3, 4, -1], table[:, 0] - 1, table[:, 1] - 1, table[:, 2:], start=0, goal=5)
    found = efficient(net, (1, 1), (None, None), PLENTY, (1, 1))
    assert sorted(path.vector for path in found.paths) == [(8, 9), (10, 7), (11, 5), (13, 4)]


def test_the_lightest_path_comes_first():
    for seed in range(300):
        _, net, weights = random_question(seed)
        first = efficient(net, weights, [None] * len(weights), PLENTY, (1,) * len(weights)).paths[:1]
        assert (first or (None,))[0] == lightest(net, weights)


def test_a_limit_includes_its_value_and_one_below_the_ideal_empties_the_box():
    net = Net.of([0, 1, -1], [0, 1], [1, 2], [[3, 0], [4, 1]], start=0, goal=2)
    assert efficient(net, (1, 1), (7, 1), PLENTY, (1, 1)).paths[0].vector == (7, 1)
    nothing = EfficientSet((), exact=True, tolerance=(0, 0), labels=0)
    assert efficient(net, (1, 1), (6, None), PLENTY, (1, 1)) == nothing


def test_no_way_to_the_goal_is_an_exact_empty_answer():
    no_arcs = Net.of([0, 1, -1], [], [], np.empty((0, 2)), start=0, goal=2)
    dead_end = Net.of([0, 1, -1], [0], [1], [[1, 1]], start=0, goal=2)
    for net in (no_arcs, dead_end):
        found = efficient(net, (1, 1), (None, None), PLENTY, (1, 1))
        assert (found.paths, found.exact) == ((), True)


def test_with_labels_bounded_every_path_is_met_within_the_stated_tolerance():
    inexact = dropped = 0
    for seed in range(1000):
        rng, net, weights = random_question(seed, fewest=6, most_cost=9)
        tolerance = tuple(rng.randint(0, 2) for _ in weights)
        limits = [rng.choice((None, None, rng.randint(5, 30))) for _ in weights]
        found = efficient(net, weights, limits, rng.randint(3, 30), tolerance)
        paths = within(limits, all_paths(net))
        assert set(found.paths) <= set(paths)
        if found.tolerance is None:
            assert found.paths == ()
            continue
        best = efficient_among(paths, weights)
        for path in best:
            reduced = [[v - t for v, t in zip(p.vector, found.tolerance, strict=True)] for p in found.paths]
            assert any(nowhere_above(vector, path.vector) for vector in reduced), seed
        if found.exact:
            assert found.paths == best
        else:
            inexact += 1
            dropped += found.paths != best
    # The bound must have been met, and must have cost something, for this to test anything.
    assert inexact > 50
    assert dropped > 10


def test_a_bound_met_before_the_first_path_promises_nothing():
    net = box_net(seeded(0), 5, 3, 2, criteria=4, hard=False, up=False)
    found = efficient(net, (1, 1500, 2, 0), [None] * 4, 2, (500, 1, 600, 1))
    assert (found.paths, found.exact, found.tolerance) == ((), False, None)


@pytest.mark.parametrize("tolerance", [(500, 0, 600, 50_000, 0, 200), (0,) * 6])
def test_the_bound_on_labels_ends_a_hard_search(tolerance):
    net = box_net(seeded(1), 10, 4, 3, criteria=6, hard=True, up=False)
    assert efficient(net, (1, 1500, 2, 0, 0, 6), [None] * 6, PLENTY, tolerance).labels > 15_000
    found = efficient(net, (1, 1500, 2, 0, 0, 6), [None] * 6, 500, tolerance)
    assert not found.exact
    assert found.paths
    assert found.labels < 5_500
    assert all(given <= stated for given, stated in zip(tolerance, found.tolerance, strict=True))


def test_order_of_the_arcs_does_not_matter():
    rng = seeded(5)
    net = box_net(seeded(3), 5, 3, 2, criteria=6, hard=True, up=False)
    mixed = list(range(len(net.tail)))
    rng.shuffle(mixed)
    again = Net.of(net.space, net.tail[mixed], net.head[mixed], net.cost[mixed], start=net.start, goal=net.goal)
    questions = [(n, (1, 1500, 2, 0, 0, 6), [None] * 6, 100, (500, 0, 600, 0, 0, 200)) for n in (net, again)]
    one, other = (efficient(*question) for question in questions)
    assert one == other
    assert not one.exact


def longest_stretch(states, stretches):
    """The slow obvious answer: the whole cable as a row of lengths between points in reach."""
    gaps = [0]
    for arc in pairwise(states):
        before, *others = stretches[arc]
        gaps[-1] += before
        gaps += others
    return max(gaps)


def test_reach_equals_brute_force():
    failed = 0
    for seed in range(800):
        rng, net, weights = random_question(seed)
        stretches = {
            arc: tuple(rng.randint(0, 4) for _ in range(rng.choice((1, 1, 3))))
            for arc in zip(net.tail.tolist(), net.head.tolist(), strict=True)
        }
        reach = Reach(rng.randint(2, 8), stretches)
        paths = all_paths(net)
        allowed = [path for path in paths if longest_stretch(path.states, stretches) <= reach.longest]
        failed += len(allowed) < len(paths)
        found = efficient(net, weights, [None] * len(weights), PLENTY, (1,) * len(weights), reach)
        assert found.exact
        assert found.paths == efficient_among(allowed, weights), seed
    assert failed > 100


def test_a_heavier_way_past_a_hatch_wins_where_the_piece_is_short():
    # Straight on nobody reaches the cable for 5 m; round by space 2 a hatch parts 6 m into 2 + 1 + 3.
    net = Net.of([0, 1, 2, -1], [0, 0, 1, 2], [1, 2, 3, 3], [[3000], [3000], [2000], [3000]], start=0, goal=3)
    stretches = {(0, 1): (3000,), (0, 2): (2000, 1000, 0), (1, 3): (2000,), (2, 3): (3000,)}
    answers = {
        longest: [path.states for path in efficient(net, (1,), (None,), PLENTY, (1,), reach).paths]
        for longest in (5000, 4999, 3000, 2999)
        for reach in [Reach(longest, stretches)]
    }
    assert answers == {5000: [(0, 1, 3)], 4999: [(0, 2, 3)], 3000: [(0, 2, 3)], 2999: []}


def test_the_answer_cannot_be_changed():
    found = efficient(Net.of([0, -1], [0], [1], [[1]], start=0, goal=1), (1,), (None,), PLENTY, (1,))
    with pytest.raises(dataclasses.FrozenInstanceError):
        found.exact = False
