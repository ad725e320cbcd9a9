"""Routes that a person might have in mind, and every path there is, as a slow obvious oracle."""

from collections.abc import Iterator
from random import Random

import sketch
from drawcord.coach.build import build
from drawcord.coach.job import Job
from drawcord.coach.rig import Rig
from drawcord.files.tables import conductors
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.wished import Wish, wish_of
from drawcord.ways.ways import explore
from drawcord.words.faults import BadInput
from random_coaches import random_coach

MOST_PATHS = 2000
MOST_STEPS = 100_000  # on the way there: where few paths arrive, looking for them all takes as long as for many


def order_of(rig: Rig, job: Job, name: str) -> Order:
    """A cable of a job, everything made anew."""
    return Order(explore(build(rig, job, sketch.shop())), name, conductors())


def all_paths(netted: Netted) -> list[tuple[int, ...]]:
    """Every path of a net, going on from state to state, none into a space twice; MOST_PATHS of nothing if too many."""
    net = netted.net
    onward: dict[int, list[int]] = {}
    for tail, head in zip(net.tail.tolist(), net.head.tolist(), strict=True):
        onward.setdefault(tail, []).append(head)
    of = [1 << 1 + int(space) for space in net.space]  # a bit for each space: the goal is in none of them
    found: list[tuple[int, ...]] = []
    stack = [((net.start,), of[net.start])]
    steps = 0
    while stack:
        steps += 1
        if len(found) >= MOST_PATHS or steps > MOST_STEPS:
            return [()] * MOST_PATHS
        states, entered = stack.pop()
        if states[-1] == net.goal:
            found.append(states)
            continue
        stack += [
            ((*states, head), entered | of[head]) for head in onward.get(states[-1], ()) if not of[head] & entered
        ]
    return found


def wishes(rng: Random, order: Order) -> Iterator[Wish]:
    """An order of spaces at random, one through some spaces, one around some, and one of both."""
    spaces = sorted(order.coach.spaces)
    some = [rng.sample(spaces, rng.randint(1, 2)) for _ in range(4)]
    asked = [(some[0], [], []), ([], some[1], []), ([], [], some[2]), ([], some[3][:1], some[0][:1])]
    for form in asked:
        try:
            yield wish_of(order, *form)
        except BadInput:
            continue


def asked(spaces: int, seed: int) -> Iterator[tuple[Rig, Job, Order, list[Wish]]]:
    """Both cables of a random coach, and forms of route to ask about."""
    rig, job = random_coach(spaces, seed)
    rng = Random(f"{spaces} {seed}")  # noqa: S311 - any will do
    for name in sorted(job.cables):
        order = order_of(rig, job, name)
        if not any(order.coach.spaces[order.coach.terminals[end].space].barred for end in ends(order)):
            yield rig, job, order, list(wishes(rng, order))


def ends(order: Order) -> tuple[str, str]:
    """The terminals of an order."""
    return order.cable.start, order.cable.end
