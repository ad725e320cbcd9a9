"""From the links of a coach to the searches' own net, for one cable."""

from collections.abc import Set as AbstractSet
from copy import copy

import numpy as np

from drawcord.routes.net import Net
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria


class Netted:
    """A net, and the way back from its states to mouths and spaces.

    A state is a mouth just entered, or a terminal; its number is the mouth's own.
    """

    def __init__(self, order: Order) -> None:
        links = order.ways.links
        self.mouths = links.mouths
        self.spaces = list(links.entering)
        number = {name: place for place, name in enumerate(self.spaces)}
        place = {mouth.name: at for at, mouth in enumerate(self.mouths) if not mouth.passage}
        start, goal = place[order.cable.start], place[order.cable.end]
        space = np.array([number[mouth.space] for mouth in self.mouths])
        entering = np.array([(cost.seconds, cost.doubt) for cost in links.entering.values()])
        # What it costs to cross from each mouth, criterion by criterion, and to enter the space beyond.
        beyond = np.insert(links.over, Criteria._fields.index("in_sight"), 0, axis=1)
        beyond[:, -2:] += entering.take(space[links.twin], axis=0)
        beyond[goal] = 0
        hole, own = order.hole, {order.cable.start, order.cable.end}
        passages = {passage.id: passage for passage in order.ways.passages.values() if not order.refused(passage)}
        open_to_it = {
            station.id
            for station in order.ways.stations.values()
            if station.passage in passages
            and not (station.level_with and station.level_with.isdisjoint(own))
            and (station.largest >= hole or not passages[station.passage].hole)
        }
        usable = np.array([mouth.station in open_to_it for mouth in self.mouths])
        usable[[start, goal]] = True
        here, there = np.concatenate((links.one, links.two)), np.concatenate((links.two, links.one))
        kept = np.flatnonzero(usable[here] & usable[there] & (here != goal) & (there != start))
        run = kept % max(1, len(links.one))
        cost = beyond.take(there[kept], axis=0)
        for name in ("length", "in_sight", "seconds"):
            cost[:, Criteria._fields.index(name)] += getattr(links, name)[run]
        self.net = Net.of(
            [-1 if at == goal else name for at, name in enumerate(space.tolist())],
            here[kept],
            links.twin[there[kept]],
            cost,
            start=start,
            goal=goal,
        )
        first = links.entering[self.mouths[start].space]
        ends = 2 * order.coach.shop.labour.terminal
        self.base = Criteria(0, 0, 0, 0, first.seconds + ends, first.doubt)

    def without(self, passages: AbstractSet[str]) -> "Netted":
        """The same where nothing goes through these passages any more; states keep their numbers."""
        netted = copy(self)
        gone = (number for number, mouth in enumerate(self.mouths) if mouth.passage in passages)
        netted.net = self.net.without(self.net.lost(gone))
        return netted

    def stations(self, states: tuple[int, ...]) -> tuple[str, ...]:
        """The stations that a path of states crosses, in order."""
        return tuple(self.mouths[state].station for state in states if self.mouths[state].station)
