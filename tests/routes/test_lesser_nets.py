"""A net that has lost states is searched by the bounds of before: it has to give what a new net gives."""

import numpy as np
import pytest
from random_nets import all_paths, arbitrary_net, box_net, seeded

from drawcord.routes.different import different
from drawcord.routes.efficient import efficient
from drawcord.routes.least import FAR
from drawcord.routes.net import Net
from drawcord.routes.orders import lightest_orders
from drawcord.routes.reach import Reach
from drawcord.routes.twins import twins

PLENTY = 10**6


def made_anew(net, gone):
    """The slow obvious way: only the arcs that are left, nothing known of them."""
    kept = ~(gone[net.tail] | gone[net.head])
    return Net.of(net.space, net.tail[kept], net.head[kept], net.cost[kept], start=net.start, goal=net.goal)


def without(net, gone):
    return net.without(net.lost(np.flatnonzero(gone).tolist()))


def some_states(rng, net, share):
    """Any but the ends; sometimes all of the lightest way's, so that the answer has to change."""
    gone = np.array([rng.random() < share for _ in net.space])
    gone[[net.start, net.goal]] = False
    return gone


def searches(rng, net, criteria):
    """The same questions for whatever net: each as a function of it."""
    weights = [rng.randint(0, 3) for _ in range(criteria)]
    limits = [rng.choice((None, None, rng.randint(2, 14))) for _ in weights]
    marked = frozenset(space for space in range(net.spaces) if rng.random() < 0.6)
    arcs = zip(net.tail.tolist(), net.head.tolist(), strict=True)
    reach = Reach(rng.randint(3, 9), {arc: (rng.randint(0, 4), rng.randint(0, 4), rng.randint(0, 4)) for arc in arcs})
    tolerance = (1,) * criteria
    return [
        lambda net: efficient(net, weights, limits, PLENTY, tolerance).paths,
        lambda net: efficient(net, weights, [None] * criteria, PLENTY, tolerance, reach).paths,
        lambda net: different(net, weights, marked, 4, PLENTY, limits),
        lambda net: different(net, weights, frozenset(), 1, PLENTY),
        lambda net: lightest_orders(net, weights, 4, PLENTY),
        lambda net: [twins(net, weights, path, PLENTY, unbeaten=False) for path in all_paths(net)[:2]],
    ]


@pytest.mark.parametrize("block", range(4))
def test_finds_what_a_new_net_finds(block):
    # Small costs, so that ties abound; two losses one after the other, as facts become known.
    changed = 0
    for seed in range(60 * block, 60 * (block + 1)):
        rng = seeded(seed)
        criteria = rng.randint(1, 3)
        net = arbitrary_net(rng, rng.randint(3, 7), criteria, most_cost=rng.choice((1, 4)))
        questions = searches(rng, net, criteria)
        before = [ask(net) for ask in questions]
        for _ in range(2):
            gone = some_states(rng, net, rng.choice((0.1, 0.3)))
            net, new = without(net, gone), made_anew(net, gone)
            answers = [ask(net) for ask in questions]
            assert answers == [ask(new) for ask in questions], seed
            changed += answers != before
    assert changed > 30


@pytest.mark.parametrize("seed", range(8))
def test_finds_the_same_on_boxes(seed):
    # Real magnitudes, more states a space, far more paths than could be walked.
    rng = seeded(seed)
    net = box_net(rng, 4, 3, 2, criteria=4, hard=seed % 2 == 1, up=False)
    if net.bounds[net.start, 0] == FAR:
        pytest.skip("no way at all")
    weights, tolerance = (1, 1500, 2, 0), (500, 0, 600, 50_000)
    marked = frozenset(range(0, net.spaces, 2))
    questions = [
        lambda net: efficient(net, weights, [None] * 4, PLENTY, tolerance).paths,
        lambda net: different(net, weights, marked, 5, PLENTY),
        lambda net: lightest_orders(net, weights, 10, PLENTY),
    ]
    for ask in questions:
        ask(net)
    lightest = different(net, weights, frozenset(), 1, PLENTY).paths[0]
    gone = np.isin(np.arange(len(net.space)), lightest.states[2:3])
    lesser, new = without(net, gone), made_anew(net, gone)
    assert [ask(lesser) for ask in questions] == [ask(new) for ask in questions]


def test_bounds_stay_those_of_before_and_least_costs_do_not():
    # Over state 1 for 1, over state 2 for 5.
    net = Net.of([0, 1, 2, -1], [0, 0, 1, 2], [1, 2, 3, 3], [[1], [5], [0], [0]], start=0, goal=3)
    assert net.bounds[net.start].tolist() == [1]
    lesser = net.without(net.lost([1]))
    assert lesser.bounds[net.start].tolist() == [1]
    assert lesser.least(0)[net.start] == 5
