"""Ways that may go together, but for holes that their cables may not share: one is crossed beside the other instead.

Raceway that they may not share is taken to be put up twice, beside each other.
"""

from collections.abc import Sequence

import numpy as np

from drawcord.plan.abreast import Abreast
from drawcord.plan.alternatives import Choice, Measured, alternative
from drawcord.plan.contested import Ban
from drawcord.plan.meeting import spot
from drawcord.plan.spacing import gap, reach
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
        self.measured = measured
        self.tight: set[Ban] = set()
        self._netted: dict[str, Netted] = {}

    def shifted(self, choice: Choice) -> Choice:
        """The same ways through the same passages, so that no cables are where they may not be together."""
        before = {name: one.route for name, one in sorted(choice.items()) if one and one.route}
        after = self._shifted(before) if before else before
        moved = {name: alternative(self.orders[name], after[name]) for name in after if after[name] is not before[name]}
        return {**choice, **moved}

    def _shifted(self, routes: Routes) -> Routes:
        """Each time the last cable that can is moved, where some still meet."""
        for _ in range(MOST):
            abreast = Abreast([self.orders[name] for name in routes], list(routes.values()))
            at_odds = abreast.at_odds()
            if not at_odds:
                return routes
            place, names = at_odds[0]
            aside = ((name, self._aside(name, abreast)) for name in reversed(names))
            moved = next(((name, route) for name, route in aside if route), None)
            if not moved:
                break
            routes = {**routes, moved[0]: moved[1]}
        self.tight.add((place, names))
        return routes

    def _aside(self, name: str, abreast: Abreast) -> Route | None:
        """The lightest route of a cable through its passages that meets no other where it may not, if there is one."""
        number, order = abreast.names.index(name), self.orders[name]
        mine = abreast.routes[number]
        if name not in self._netted:
            self._netted[name] = Netted(order)
        netted = self._netted[name]
        good = np.array([
            not mouth.station or (mouth.passage in mine.passages and _free(abreast, number, mouth.station))
            for mouth in netted.mouths
        ])
        net, by = netted.net, weights(order.coach)
        kept = good[net.head] & good[net.tail]
        path = lightest(net.only(kept), by)
        route = self.measured(order, netted.stations(path.states)) if path else mine
        return route if route.reachable and route is not mine and route.passages == mine.passages else None


def _free(abreast: Abreast, number: int, station: str) -> bool:
    """Whether a cable may cross at a station while the others cross where they do."""
    here, found = spot(abreast.ways, station), abreast.ways.stations[station]
    passage = abreast.ways.passages[found.passage]
    others = {there: [n for n in group if n != number] for there, group in abreast.crossed.items()}
    group = sorted({number, *others.get(here, ())})
    if abreast.meeting.crossing(passage, found.largest, tuple(group)):
        return False

    def hole(group: Sequence[int]) -> float:
        return reach([abreast.orders[n].cable for n in group], abreast.coach)

    return not passage.hole or all(
        gap(here, there) >= hole(group) + hole(some)
        for there, some in others.items()
        if some and there[0] == here[0] and there != here
    )
