"""Small joint problems for the tests, and the slow obvious answer to them."""

from itertools import product
from random import Random

import numpy as np
from random_nets import all_paths, arbitrary_net

from drawcord.plan.bound import Prices, bound, ways
from drawcord.plan.greedy import greedy
from drawcord.plan.pricing import Things, fine, users
from drawcord.plan.problem import Commodity, Problem
from drawcord.plan.solver import Solved, solve
from drawcord.routes.net import Net


def commodity(net, uses, *, base=0, always=(), limited=None):
    """A cable on a net of one criterion; `uses`: the things of each arc; `limited`: arcs, and how many of them."""
    arc = np.array([number for number, things in enumerate(uses) for _ in things], np.int64)
    thing = np.array([one for things in uses for one in sorted(things)], np.int64)
    arcs = len(net.tail)
    states = np.arange(len(net.space))
    spent = np.array([limited[0]] if limited else np.zeros((0, arcs)), np.int64).T
    none = np.zeros(arcs, np.int64)
    most = (limited[1],) if limited else ()
    return Commodity(net, arc, thing, np.arange(arcs), none, states, tuple(always), base, spent, most)


def bound_of(problem: Problem, prices: Prices) -> int:
    """What no plan weighs less than, whatever the prices."""
    return bound(ways(problem, prices), prices)


def even(problem: Problem) -> Prices:
    """Prices to begin with: each thing's cost in equal shares among those who may use it together."""
    things = Things(problem)
    return things.asked(things.even(users(problem)))[0]


def random_problem(rng: Random) -> Problem:
    """Two or three cables on nets of their own; an arc uses the things of the state it enters, as in a coach."""
    things = rng.randint(1, 6)
    made = []
    for _ in range(rng.randint(2, 3)):
        net = arbitrary_net(rng, rng.randint(3, 5), 1)
        at = [[thing] if rng.random() < 0.8 else [] for thing in rng.choices(range(things), k=len(net.space))]
        seen: dict[int, int] = {}  # a thing belongs to one space, so that no route uses it twice
        for state, some in enumerate(at):
            at[state] = [thing for thing in some if seen.setdefault(thing, net.space[state]) == net.space[state]]
        always = [thing for thing in at[net.start] if rng.random() < 0.5]
        uses = [at[head] if not set(at[head]) & set(always) else [] for head in net.head.tolist()]
        limited = ([rng.randint(0, 2) for _ in uses], rng.randint(0, 4)) if rng.random() < 0.3 else None
        made.append(commodity(net, uses, base=rng.randint(0, 3), always=always, limited=limited))
    bans = []
    for thing in range(things):
        if rng.random() < 0.8:
            bans.append((thing, (0, 1)))
        elif len(made) == 3 and rng.random() < 0.3:
            bans.append((thing, (0, 1, 2)))
        if len(made) == 3 and rng.random() < 0.2:
            bans.append((thing, (1, 2)))
    return Problem(tuple(made), np.array([rng.randint(0, 9) for _ in range(things)], np.int64), tuple(bans))


def by_hand(problem: Problem) -> int | None:
    """The weight of the lightest legal plan by looking at every one; None if there is none."""
    every = []  # of each cable what each of its ways costs by itself, and the things that it uses
    for one in problem.commodities:
        ways = [(path.vector[0], one.arcs(path.states)) for path in all_paths(one.net)]
        kept = [(own, arcs) for own, arcs in ways if (one.spent[arcs].sum(axis=0) <= one.most).all()]
        every.append({(one.base + own, frozenset(one.uses(arcs))) for own, arcs in kept})
    price = problem.cost.tolist()

    def weight(plan: tuple[tuple[int, frozenset[int]], ...]) -> int | None:
        used = [things for _, things in plan]
        if any(all(thing in used[cable] for cable in group) for thing, group in problem.bans):
            return None
        return sum(own for own, _ in plan) + sum(price[thing] for thing in frozenset().union(*used))

    return min((found for plan in product(*every) if (found := weight(plan)) is not None), default=None)


def planned(problem: Problem) -> Solved:
    """The answer of all steps one after the other."""
    start = greedy(problem, pairs=True)
    if start:
        _, problem = fine(problem, problem.weight(start))
    return solve(problem, start)


def graph_net(edges, start: int, goal: int) -> tuple[Net, list[int]]:
    """A graph as a net from one vertex to another, each vertex a space; with the edge of each arc."""
    nodes = max(max(edge[:2]) for edge in edges) + 1
    arcs = [
        (tail, head, number)
        for number, (one, two, _) in enumerate(edges)
        for tail, head in ((one, two), (two, one))
        if tail != goal and head != start
    ]
    arcs.sort()
    table = np.array(arcs)
    space = [-1 if node == goal else node for node in range(nodes)]
    net = Net.of(space, table[:, 0], table[:, 1], np.zeros((len(arcs), 1), np.int64), start=start, goal=goal)
    return net, table[:, 2].tolist()
