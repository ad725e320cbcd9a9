"""The lightest path, different descents, different orders of spaces, and twins: each against all paths."""

from copy import copy
from functools import cache
from itertools import pairwise, permutations

import numpy as np
import pytest
from random_nets import all_paths, arbitrary_net, box_net, seeded

from drawcord.routes import guide
from drawcord.routes.different import different, lightest
from drawcord.routes.net import Net
from drawcord.routes.orders import lightest_orders
from drawcord.routes.reach import Reach
from drawcord.routes.twins import twins

PLENTY = 10**6
BLOCKS = [range(300 * block, 300 * (block + 1)) for block in range(5)]


def random_question(seed, most_cost=4):
    """Chance to go on with, a small net, weights for it, and all its paths in order of weight, vector, states."""
    rng, *question = drawn(seed, most_cost)
    return copy(rng), *question


@cache
def drawn(seed, most_cost):
    rng = seeded(seed)
    criteria = rng.randint(1, 3)
    net = arbitrary_net(rng, rng.randint(2, 7), criteria, most_cost)
    weights = [rng.randint(0, 3) for _ in range(criteria)]
    paths = all_paths(net)
    paths.sort(key=lambda path: sum(w * v for w, v in zip(weights, path.vector, strict=True)))
    return rng, net, weights, paths


def first_of_each_order(net, paths):
    firsts = {}
    for path in paths:
        firsts.setdefault(net.order(path.states), path)
    return firsts


def descents(net, marked, paths):
    """Filtered enumeration: keep what contains no set kept before."""
    kept = []
    for path in paths:
        uses = marked & set(net.order(path.states))
        if not any(other <= uses for other, _ in kept):
            kept.append((uses, path))
    return tuple(path for _, path in kept)


@pytest.mark.parametrize("seeds", BLOCKS)
def test_lightest_is_the_first_of_all_paths(seeds):
    for seed in seeds:
        _, net, weights, paths = random_question(seed)
        assert lightest(net, weights) == (paths[0] if paths else None), seed


def test_lightest_enters_no_space_twice_although_that_would_be_lighter():
    # Out of space 1 by 2 and back in to its other crossing would cost 3, staying in the order 1, 2 costs 9.
    net = Net.of([0, 1, 2, 1, -1], [0, 1, 2, 2, 3], [1, 2, 3, 4, 4], [[1], [1], [1], [7], [0]], start=0, goal=4)
    assert net.bounds[net.start].tolist() == [3]
    assert lightest(net, (1,)) == ((9,), (0, 1, 2, 4))


@pytest.mark.parametrize("seeds", BLOCKS)
def test_different_equals_filtered_enumeration(seeds):
    for seed in seeds:
        rng, net, weights, paths = random_question(seed)
        marked = {space for space in range(net.spaces) if rng.random() < 0.6}
        count = rng.randint(1, 8)
        found = different(net, weights, marked, count, PLENTY)
        assert found.complete
        assert found.paths == descents(net, marked, paths)[:count], seed


def test_further_off_a_space_that_is_a_set_by_itself_is_closed(monkeypatch):
    # The guide knows hardly more than the lightest paths, so that nearly every search has to look further; the lesser
    # net, too, is asked for what it lost of a closed one.
    asked = []
    closed = Net.closed
    monkeypatch.setattr(guide, "TIMES", (1.2, None))
    monkeypatch.setattr(Net, "closed", lambda net, spaces: asked.append(spaces) or closed(net, spaces))
    for seed in range(600):
        rng, net, weights, paths = random_question(seed)
        marked = {space for space in range(net.spaces) if rng.random() < 0.6}
        assert different(net, weights, marked, 5, PLENTY).paths == descents(net, marked, paths)[:5], seed
        gone = {rng.randrange(len(net.space))} - {net.start, net.goal}
        left = [path for path in paths if gone.isdisjoint(path.states)]
        lesser = net.without(net.lost(gone))
        assert different(lesser, weights, marked, 5, PLENTY).paths == descents(net, marked, left)[:5], seed
    assert len(asked) > 100


def in_reach(reach, states):
    """Whether pieces no longer than the longest can be joined where a hand reaches: millimetre by millimetre."""
    cable = [True]  # whether a hand reaches it after so many mm
    for arc in pairwise(states):
        for number, part in enumerate(reach.stretches[arc]):
            cable[-1] |= number > 0
            cable += [False] * part
    cable[-1] = True
    ends = [place for place, reached in enumerate(cable) if reached]
    return all(far - near <= reach.longest for near, far in pairwise(ends))


@pytest.mark.parametrize("seeds", BLOCKS)
def test_different_within_limits_and_reach_equals_filtered_enumeration(seeds):
    # What no path keeps to, a few do, or all: the lightest that do, none with all the spaces of another. Every other
    # time joints have to fall where a hand reaches: a way out of reach stands before no other.
    empty, pruned, out_of_reach = 0, 0, 0
    for seed in seeds:
        rng, net, weights, paths = random_question(seed)
        marked = {space for space in range(net.spaces) if rng.random() < 0.6}
        limits = [rng.choice((None, rng.randint(0, 12))) for _ in weights]
        kept = [p for p in paths if all(m is None or v <= m for v, m in zip(p.vector, limits, strict=True))]
        reach = None
        if seed % 2:
            arcs = zip(net.tail.tolist(), net.head.tolist(), strict=True)
            reach = Reach(rng.randint(1, 6), {a: tuple(rng.choices(range(4), k=rng.choice((1, 1, 3)))) for a in arcs})
            within = [path for path in kept if in_reach(reach, path.states)]
            out_of_reach += 0 < len(within) < len(kept)
            kept = within
        count = rng.randint(1, 8)
        found = different(net, weights, marked, count, PLENTY, limits, reach)
        assert found.complete
        assert found.paths == descents(net, marked, kept)[:count], seed
        empty += not kept
        pruned += 0 < len(kept) < len(paths)
    assert empty > 20
    assert pruned > 50
    assert out_of_reach > 20


def test_different_names_no_descent_that_contains_a_lighter_one():
    # By space 1 alone, by 1 and 2, and by 3: the second is the first with a detour.
    net = Net.of(
        [0, 1, 2, 3, -1], [0, 0, 1, 1, 2, 3], [1, 3, 2, 4, 4, 4], [[1], [5], [1], [1], [1], [5]], start=0, goal=4
    )
    marked = {1, 2, 3}
    found = different(net, (1,), marked, 9, PLENTY)
    assert [net.order(path.states) for path in found.paths] == [(0, 1), (0, 3)]
    assert [net.order(path.states) for path in different(net, (1,), {3}, 9, PLENTY).paths] == [(0, 1)]


@pytest.mark.parametrize("seeds", BLOCKS)
def test_lightest_orders_equals_filtered_enumeration(seeds):
    for seed in seeds:
        rng, net, weights, paths = random_question(seed)
        count = rng.randint(1, 20)
        found = lightest_orders(net, weights, count, PLENTY)
        assert found.complete
        assert found.paths == tuple(first_of_each_order(net, paths).values())[:count], seed


def test_published_instance_of_k_shortest_paths_by_cost():
    # Yen's k shortest paths, the usual example with nodes C to H. Three paths tie at 8: costs only.
    arcs = ["CD3", "CE2", "DF4", "ED1", "EF2", "EG3", "FG2", "FH1", "GH2"]
    table = np.array([["CDEFGH".index(arc[0]), "CDEFGH".index(arc[1]), int(arc[2])] for arc in arcs])
    net = Net.of([0, 1, 2, 3, 4, -1], table[:, 0], table[:, 1], table[:, 2:], start=0, goal=5)
    found = lightest_orders(net, (1,), 10, PLENTY)
    assert [path.vector[0] for path in found.paths] == [5, 7, 8, 8, 8, 11, 11]


@pytest.mark.parametrize("search", [different, lightest_orders])
@pytest.mark.parametrize("up", [False, True])
def test_a_bound_on_labels_leaves_the_first_paths_and_says_so(search, up):
    net = box_net(seeded(4), 5, 3, 2, criteria=4, hard=False, up=up)
    marked = [set(range(1, net.spaces - 1, 2))] if search is different else []
    answers = [search(net, (1, 1500, 2, 0), *marked, 8, most) for most in (1, 100, 400, PLENTY)]
    whole = answers[-1].paths
    assert len(whole) > 3
    assert [answer.complete for answer in answers] == [False, False, False, True] or answers[2].complete
    for answer in answers:
        assert answer.paths == whole[: len(answer.paths)]
    assert len(answers[0].paths) == 0 < len(answers[2].paths)


def test_no_search_is_lost_in_a_corner_when_there_is_no_other_descent():
    # Everything leads through one space above the bay: with that found, nothing is left to look for.
    net = box_net(seeded(0), 5, 3, 2, criteria=4, hard=True, up=False)
    found = different(net, (1, 1500, 2, 0), set(range(1, net.spaces - 1, 2)), 5, 300)
    assert (len(found.paths), found.complete) == (1, True)


def test_no_search_is_lost_where_descents_close_every_way_only_together():
    # Two pairs of spaces lead into the bay and a third set into one of them. Without either pair there is no
    # way, though there is one without any single space: found out within a few hundred labels.
    net = box_net(seeded(7), 10, 4, 3, criteria=4, hard=True, up=False)
    found = different(net, (1, 1500, 2, 0), {box for box in range(net.spaces - 1) if box % 3}, 5, 1000)
    assert (len(found.paths), found.complete) == (3, True)


@pytest.mark.parametrize("search", [different, lightest_orders])
def test_no_search_goes_through_a_pocket_in_every_order(search):
    # Eight spaces that all touch one another hang on space 1, which is the only way in and on.
    pocket = range(2, 10)
    arcs = [(0, 1), (1, 10), *permutations([1, *pocket], 2)]
    tails, heads = zip(*arcs, strict=True)
    net = Net.of([*range(10), -1], tails, heads, [[1]] * len(arcs), start=0, goal=10)
    marked = [set(pocket)] if search is different else []
    found = search(net, (1,), *marked, 5, 50)
    assert (len(found.paths), found.complete) == (1, True)


@pytest.mark.parametrize("search", [different, lightest_orders])
def test_no_way_is_an_empty_answer(search):
    dead_end = Net.of([0, 1, -1], [0], [1], [[1, 1]], start=0, goal=2)
    marked = [{1}] if search is different else []
    assert search(dead_end, (1, 1), *marked, 5, PLENTY).paths == ()
    assert lightest(dead_end, (1, 1)) is None


def beats(one, other):
    return one.vector != other.vector and all(a <= b for a, b in zip(one.vector, other.vector, strict=True))


def test_twins_are_all_other_orders_with_the_same_vector():
    many = 0
    for seed in range(600):
        rng, net, _, paths = random_question(seed, most_cost=2)
        if not paths:
            continue
        unbeaten = seed % 2 == 0
        best = [one for one in paths if not any(beats(other, one) for other in paths)]
        path = rng.choice(best if unbeaten else paths)
        same = sorted(other for other in paths if other.vector == path.vector)
        firsts = first_of_each_order(net, same)
        del firsts[net.order(path.states)]
        found = twins(net, (1,) * len(path.vector), path, PLENTY, unbeaten=unbeaten)
        assert found.complete
        assert found.paths == tuple(firsts[order] for order in sorted(firsts)), seed
        many += len(firsts) > 1
    assert many > 50


def test_twins_bounded_says_so():
    net = box_net(seeded(1), 5, 3, 2, criteria=1, hard=True, up=False)
    path = lightest_orders(net, (1,), 10, PLENTY).paths[-1]
    assert not twins(net, (1,) * len(path.vector), path, 10, unbeaten=False).complete
