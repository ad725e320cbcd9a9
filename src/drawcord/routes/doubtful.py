"""The lightest routes of a cable that differ in what nobody has looked at, and in where other cables may be.

Whatever turns out clear or blocked, and however much doubt weighs, the lightest route that is left is one of
these: of two routes, the one that needs no other places and weighs no more is never the worse one. Just so where
other cables may take some of the places, which it may not lie beside.
"""

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
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


def doubtful(
    order: Order, netted: Netted, contested: frozenset[str] = frozenset(), longest: int | None = None
) -> Found:
    """Those routes, in order of weight without doubt; their states are those of `netted`.

    Going through all paths within the limits in that order, one is kept if it meets all the unproven and `contested`
    places (ids of spaces and passages) of no path kept before. Without the owner's consent none shows anything of
    itself. Given a `longest` piece [mm], a hand reaches the joints of all of them, as far as the graph tells.
    """
    coach, passages = order.coach, order.ways.passages
    marks = contested | {name for name, space in coach.spaces.items() if space.standing == "unproven"}
    marks |= {name for name, passage in passages.items() if passage.standing == "unproven"}
    net, halfway = _split(netted, marks)
    job = coach.job
    if job is None or "raceway in sight" not in job.owner.consents:
        hidden = net.cost[:, Criteria._fields.index("in_sight")] == 0
        net = net.only(hidden)
    marked = {number for number, name in enumerate(netted.spaces) if name in marks}
    marked |= set(range(len(netted.spaces), net.spaces))
    by = (*weights(coach)[:-1], 0)
    most = coach.shop.preferences.most_labels
    reached = None if longest is None else replace(reach(order, netted, longest), halfway=halfway)
    found = different(net, by, marked, MOST, most, limits_of(order, netted, netted), reached)
    paths = tuple(
        path._replace(states=tuple(state for state in path.states if state not in halfway)) for path in found.paths
    )
    return Found(paths, found.complete and len(paths) < MOST)


def _split(netted: Netted, marks: AbstractSet[str]) -> tuple[Net, Mapping[int, int]]:
    """A net in which each passage of `marks` is a space of its own; its new states, each with the one behind it.

    A crossing through one becomes two arcs: to a state of that space, then on to the crossing.
    """
    net = netted.net
    through = sorted({mouth.passage for mouth in netted.mouths} & marks)
    number = {name: len(netted.spaces) + place for place, name in enumerate(through)}
    behind = [state for state, mouth in enumerate(netted.mouths) if mouth.passage in number]
    states = len(net.space)
    before = np.arange(states)
    before[behind] = states + np.arange(len(behind))
    split = Net.of(
        [*net.space, *(number[netted.mouths[state].passage] for state in behind)],
        np.concatenate((net.tail, before[behind])),
        np.concatenate((before[net.head], np.array(behind, np.int64))),
        np.concatenate((net.cost, np.zeros((len(behind), net.cost.shape[1]), np.int64))),
        start=net.start,
        goal=net.goal,
    )
    return split, dict(enumerate(behind, states))
