"""The lightest routes of a cable that differ in what nobody has looked at.

Whatever turns out clear or blocked, and however much doubt weighs, the lightest route that is left is one of
these: of two routes, the one that needs no other places and weighs no more is never the worse one.
"""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from drawcord.routes.different import different
from drawcord.routes.limits import limits_of
from drawcord.routes.net import Found, Net
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.reaching import reach
from drawcord.routes.route import Criteria
from drawcord.routes.weighing import weights

MOST = 500  # routes of one cable; past it the answer says that there may be more


def doubtful(order: Order, netted: Netted, longest: int | None = None) -> Found:
    """Those routes, in order of weight without doubt; their states are those of `netted`.

    Going through all paths within the limits in that order, one is kept if it meets all the unproven places of
    no path kept before. Without the owner's consent none shows anything of itself. Given a `longest` piece [mm], all
    are paths whose joints a hand can reach with it, as far as the graph tells.
    """
    net, halfway = _split(order, netted)
    job = order.coach.job
    if job is None or "raceway in sight" not in job.owner.consents:
        hidden = net.cost[:, Criteria._fields.index("in_sight")] == 0
        net = replace(net, tail=net.tail[hidden], head=net.head[hidden], cost=net.cost[hidden])
    spaces = {number for number, name in enumerate(netted.spaces) if order.coach.spaces[name].standing == "unproven"}
    marked = spaces | set(range(len(netted.spaces), net.spaces))
    by = (*weights(order.coach)[:-1], 0)
    most = order.coach.shop.preferences.most_labels
    reached = None if longest is None else replace(reach(order, netted, longest), halfway=halfway)
    found = different(net, by, marked, MOST, most, limits_of(order, netted, netted), reached)
    paths = tuple(
        path._replace(states=tuple(state for state in path.states if state not in halfway)) for path in found.paths
    )
    return Found(paths, found.complete and len(paths) < MOST)


def _split(order: Order, netted: Netted) -> tuple[Net, Mapping[int, int]]:
    """A net in which each unproven passage is a space of its own; its new states, each with the one behind it.

    A crossing through one becomes two arcs: to a state of that space, then on to the crossing.
    """
    net, passages = netted.net, order.ways.passages
    unproven = sorted({mouth.passage for mouth in netted.mouths if mouth.passage} & {
        name for name, passage in passages.items() if passage.standing == "unproven"
    })
    number = {name: len(netted.spaces) + place for place, name in enumerate(unproven)}
    doubted = [state for state, mouth in enumerate(netted.mouths) if mouth.passage in number]
    states = len(net.space)
    before = np.arange(states)
    before[doubted] = states + np.arange(len(doubted))
    split = Net.of(
        [*net.space, *(number[netted.mouths[state].passage] for state in doubted)],
        np.concatenate((net.tail, before[doubted])),
        np.concatenate((before[net.head], np.array(doubted, np.int64))),
        np.concatenate((net.cost, np.zeros((len(doubted), net.cost.shape[1]), np.int64))),
        start=net.start,
        goal=net.goal,
    )
    return split, dict(enumerate(doubted, states))
