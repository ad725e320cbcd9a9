"""The search's own picture of the graph, and the bounds that all searches stand on."""

import networkx as nx
import numpy as np
import pytest
from random_nets import arbitrary_net, box_net, seeded

from drawcord.routes.ahead import leads_on
from drawcord.routes.least import FAR, Grouped, least, least_in_order, least_near
from drawcord.routes.net import Net
from drawcord.routes.packing import Packing


def small(arcs, space=(0, 1, 2, -1)):
    table = np.array(arcs)
    return Net.of(space, table[:, 0], table[:, 1], table[:, 2:], start=0, goal=len(space) - 1)


def test_arcs_are_sorted_and_those_by_the_start_s_space_dropped():
    # State 1 lies in the start's space too: no path may enter it, so none leaves it.
    net = small([(2, 3, 5), (0, 3, 9), (2, 1, 7), (0, 2, 1), (1, 3, 0)], space=(0, 0, 1, -1))
    assert net.tail.tolist() == [0, 0, 2]
    assert net.head.tolist() == [2, 3, 3]
    assert net.cost.tolist() == [[1], [9], [5]]


@pytest.mark.parametrize(
    ("arcs", "space", "says"),
    [
        ([(0, 1, 1)], (0, 1, 2, 3), "the goal, and it alone"),
        ([(0, 1, 1)], (0, -1, 2, -1), "the goal, and it alone"),
        ([(3, 1, 1)], (0, 1, 2, -1), "none out of the goal"),
        ([(1, 2, 1)], (0, 1, 1, -1), "into another space"),
        ([(0, 1, -1)], (0, 1, 2, -1), "negative"),
        ([(0, 1, FAR)], (0, 1, 2, -1), "too large"),
        ([(0, 1, 1), (0, 1, 2)], (0, 1, 2, -1), "at most one arc"),
    ],
)
def test_arcs_that_no_graph_of_crossings_has_are_refused(arcs, space, says):
    with pytest.raises(ValueError, match=says):
        small(arcs, space)


@pytest.mark.parametrize("weights", [(-1,), (FAR,)])
def test_unusable_weights_are_refused(weights):
    with pytest.raises(ValueError, match="weights are negative, or too large"):
        small([(0, 1, 1)]).weigh(weights)


def test_a_walk_drawn_by_hand_is_priced_or_refused_where_it_breaks():
    net = small([(0, 1, 1, 10), (1, 2, 2, 20), (2, 3, 3, 30)])
    assert net.vector((0, 1, 2, 3)) == (6, 60)
    assert net.order((0, 1, 2, 3)) == (0, 1, 2)
    with pytest.raises(KeyError, match=r"\(1, 3\)"):
        net.vector((0, 1, 3))


@pytest.mark.parametrize("seed", range(20))
def test_least_costs_are_those_of_an_independent_dijkstra(seed):
    # networkx as the reference, from the goal over reversed arcs.
    net = box_net(seeded(seed), 3, 2, 2, criteria=4, hard=True, up=seed % 2 == 1)
    for column in range(4):
        graph = nx.DiGraph()
        graph.add_nodes_from(range(len(net.space)))
        arcs = zip(net.head.tolist(), net.tail.tolist(), net.cost[:, column].tolist(), strict=True)
        graph.add_weighted_edges_from(arcs)
        reference = nx.single_source_dijkstra_path_length(graph, net.goal)
        assert net.least(column).tolist() == [reference.get(state, FAR) for state in range(len(net.space))]


@pytest.mark.parametrize("seed", range(20))
def test_least_rows_are_those_of_one_number_that_packs_the_columns(seed):
    # Costs are small, so that a weighting can stand for the lexicographic order.
    net = arbitrary_net(seeded(seed), 6, criteria=3)
    tail, head, states, goal = net.tail, net.head, len(net.space), net.goal
    rows = least_in_order(tail, head, net.cost, states, goal)
    one = least(tail, head, net.cost @ np.array([10**8, 10**4, 1]), states, goal)
    for row, number in zip(rows.tolist(), one.tolist(), strict=True):
        assert row == ([FAR] * 3 if number >= FAR else [number // 10**8, number // 10**4 % 10**4, number % 10**4])


@pytest.mark.parametrize("times", [1, 1.5, 3, None])
def test_what_is_near_is_exact_and_holds_every_path_that_is_cheap_enough(times):
    # Against the bounds of all states, and all paths: none within the limit comes by a state left out.
    cut = whole = 0
    for seed in range(300):
        net = arbitrary_net(seeded(seed), 6, criteria=1, most_cost=9)
        cost, every = net.cost[:, 0], net.least(0)
        near, most = least_near(net.tail, net.head, cost, net.into, (net.start, net.goal), times)
        assert near.tolist() == [least if least <= most else FAR for least in every.tolist()]
        ideal = int(every[net.start])
        assert most == FAR - 1 or most == int(times * ideal)
        cut += most < FAR - 1
        whole += most == FAR - 1
    assert whole > 20
    assert (cut > 100) == (times is not None)


def test_arcs_are_grouped_by_the_state_they_lead_into_or_out_of():
    net = small([(0, 1, 1), (0, 2, 1), (1, 2, 1), (1, 3, 1), (2, 3, 1)])
    assert net.into.at(np.array([3, 0, 2])).tolist() == [3, 4, 1, 2]
    assert net.out_of.at(np.array([1, 3])).tolist() == [2, 3]
    assert Grouped.by(net.head, 4).at(np.array([], np.int64)).tolist() == []


def test_exits_lists_the_spaces_that_arcs_lead_to_and_the_goal():
    net = small([(0, 1, 1), (1, 2, 1), (2, 1, 1), (2, 3, 1)])
    assert net.exits == [0b0010, 0b0100, 0b1010]


def test_a_corner_is_told_from_a_way_on():
    # Out of space 2 it goes on through 1 only, and from there to the goal.
    exits = [0b0010, 0b1100, 0b0010]
    assert leads_on(exits, 2, 0b101, ())
    assert not leads_on(exits, 2, 0b111, ())
    assert not leads_on(exits, 2, 0b101, [0b110])


@pytest.mark.parametrize("seed", range(300))
def test_leads_on_equals_trying_all_ways(seed):
    # Any ways between spaces, some entered, up to four sets refused.
    rng = seeded(seed)
    spaces = rng.randint(2, 7)
    exits = [rng.getrandbits(spaces + 1) & rng.getrandbits(spaces + 1) for _ in range(spaces)]
    here = rng.randrange(spaces)
    entered = rng.getrandbits(spaces) & rng.getrandbits(spaces) | 1 << here
    refused = [rng.getrandbits(spaces) for _ in range(rng.randint(0, 4))]
    refused = [spaces for spaces in refused if spaces & ~entered]

    def walk(space, seen):
        if any(not some & ~seen for some in refused):
            return False
        onward = (s for s in range(spaces) if exits[space] & ~seen & 1 << s)
        return bool(exits[space] >> spaces & 1) or any(walk(s, seen | 1 << s) for s in onward)

    assert leads_on(exits, here, entered, refused) == walk(here, entered)


def test_packed_vectors_compare_add_and_unpack_like_vectors():
    rng = seeded(1)
    packing = Packing([20, 0, 5, 2**40])
    for _ in range(2000):
        one, other = ([rng.randint(0, 9), 0, rng.randint(0, 2), rng.choice((0, 1, 2**38))] for _ in range(2))
        fence = packing.pack(other) | packing.guard
        below = all(a <= b for a, b in zip(one, other, strict=True))
        assert (fence - packing.pack(one) & packing.guard == packing.guard) == below
        assert (packing.pack(one) < packing.pack(other)) == (one < other)
        total = packing.pack(one) + packing.pack(other)
        assert packing.unpack(total) == tuple(a + b for a, b in zip(one, other, strict=True))


def test_words_add_up_to_the_packed_vector():
    # Wide fields, so that several words are needed; additions to bounds may be negative further down.
    packing = Packing([2**30, 2**50, 2**10, 2**40, 7])
    rows = [[2**30, 2**50, 2**10, 2**40, 7], [5, -(2**49), -3, -(2**39), -7], [0, 0, 0, 0, 0]]
    words, shifts = packing.words(np.array(rows))
    assert len(shifts) < len(rows[0])
    for row, parts in zip(rows, words.tolist(), strict=True):
        assert sum(part << shift for part, shift in zip(parts, shifts, strict=True)) == packing.pack(row)
