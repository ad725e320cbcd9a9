"""Ways that may go together, but for holes that their cables may not share: one is crossed beside the other instead.

Raceway that they may not share is taken to be put up twice, beside each other.
"""

import math
from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace

import numpy as np

from drawcord.plan.abreast import Abreast
from drawcord.plan.alternatives import Alternative, Measured, alternative
from drawcord.plan.contested import Ban
from drawcord.plan.meeting import Meeting, Spot, spot
from drawcord.routes.different import lightest
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.route import Route
from drawcord.routes.weighing import weights

MOST = 60  # cables moved for one choice before it is given up

Routes = dict[str, Route]


class Shifting:
    """Moves holes in choices of routes; `tight` are places where that did not help, with the cables that met there."""

    def __init__(self, orders: Sequence[Order], measured: Measured) -> None:
        self.orders = {order.name: order for order in orders}
        self._netted: dict[str, Netted] = {}
        self.measured = measured
        self.names = sorted(self.orders)
        cables = [self.orders[name].cable for name in self.names]
        self.meeting = Meeting(orders[0].coach, cables, self.names)
        self.tight: set[Ban] = set()

    def shifted(self, choice: Mapping[str, Alternative | None]) -> dict[str, Alternative | None]:
        """The same ways through the same passages, so that no cables are where they may not be together."""
        before = {name: one.route for name, one in sorted(choice.items()) if one and one.route}
        after = self._apart(before)
        moved = {name: alternative(self.orders[name], after[name]) for name in after if after[name] is not before[name]}
        return {**choice, **moved}

    def _apart(self, routes: Routes) -> Routes:
        """Each time the last cable that can is moved, where some still meet."""
        for _ in range(MOST):
            at_odds = Abreast([self.orders[name] for name in routes], list(routes.values())).at_odds() if routes else []
            if not at_odds:
                return routes
            place, names = at_odds[0]
            aside = ((name, self._aside(name, routes)) for name in reversed(names))
            moved = next(((name, route) for name, route in aside if route), None)
            if not moved:
                break
            routes = {**routes, moved[0]: moved[1]}
        self.tight.add((place, names))
        return routes

    def _aside(self, name: str, routes: Routes) -> Route | None:
        """The lightest route of a cable through its passages that meets no other where it may not, if there is one."""
        order, mine = self.orders[name], routes[name]
        if name not in self._netted:
            self._netted[name] = Netted(order)
        netted = self._netted[name]
        spots = {other: self._spots(route) for other, route in routes.items() if other != name}
        good = np.array([
            not mouth.station or (mouth.passage in mine.passages and self._free(order, mouth.station, spots))
            for mouth in netted.mouths
        ])
        net, by = netted.net, weights(order.coach)
        kept = good[net.head] & good[net.tail]
        path = lightest(replace(net, tail=net.tail[kept], head=net.head[kept], cost=net.cost[kept]), by)
        route = self.measured(order, netted.stations(path.states)) if path else mine
        return route if route.reachable and route is not mine and route.passages == mine.passages else None

    def _free(self, order: Order, station: str, spots: Mapping[str, AbstractSet[Spot]]) -> bool:
        """Whether a cable may cross here while others cross there."""
        here, passage = spot(order.ways, station), order.ways.passages[order.ways.stations[station].passage]
        there = [order.name, *(name for name, some in spots.items() if here in some)]
        group = tuple(sorted(map(self.names.index, there)))
        if self.meeting.crossing(passage, order.ways.stations[station].largest, group):
            return False
        return not passage.hole or all(
            math.dist(p, q) >= (order.hole + self.orders[name].hole) / 2
            for name, some in spots.items()
            for other in some
            if other[0] == here[0] and other != here
            for p, q in zip(here[1], other[1], strict=True)
        )

    def _spots(self, route: Route) -> set[Spot]:
        return {spot(self.orders[route.cable].ways, station) for station in route.stations}
