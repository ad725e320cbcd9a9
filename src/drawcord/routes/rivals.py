"""The routes that a given route has to hold its own against: those that beat it, or win until limits keep them out."""

from collections.abc import Sequence
from itertools import combinations

from drawcord.routes.efficient import efficient
from drawcord.routes.measure import measure
from drawcord.routes.netting import Netted
from drawcord.routes.offer import rank
from drawcord.routes.order import Order
from drawcord.routes.reaching import reach
from drawcord.routes.route import Criteria, Route
from drawcord.routes.searches import TOLERANCE
from drawcord.routes.weighing import weights
from drawcord.routes.wished import Wish


def beats(one: Criteria, other: Criteria) -> bool:
    """Whether the one is nowhere above the other, and somewhere below it."""
    return one != other and all(a <= b for a, b in zip(one, other, strict=True))


def within(order: Order, netted: Netted, route: Route, kept: Sequence[int]) -> tuple[list[Route], bool]:
    """Efficient routes that cost no more than this one in the `kept` criteria, the best first; whether exact.

    The net's lengths are those before routes are pulled tight, so that the limit is the route's own there.
    """
    state = {(mouth.station, mouth.space): at for at, mouth in enumerate(netted.mouths) if mouth.station}
    between = [state[entered] for entered in zip(route.stations, route.spaces[1:], strict=True)]
    vector = netted.net.vector((netted.net.start, *between, netted.net.goal))
    limits = [cost if place in kept else None for place, cost in enumerate(vector)]
    preferences = order.coach.shop.preferences
    by = weights(order.coach)
    for reached in (None, reach(order, netted, order.cable.longest_piece)):
        found = efficient(netted.net, by, limits, preferences.most_labels, TOLERANCE, reached)
        routes = [measure(order, netted.stations(path.states)) for path in found.paths]
        if all(other.reachable for other in routes):
            break
    near = [
        other
        for other in routes
        if other.reachable and all(other.criteria[place] <= route.criteria[place] for place in kept)
    ]
    return sorted(near, key=lambda other: rank(other, by)), found.exact


def limits(order: Order, netted: Netted, wish: Wish, best: Route, rivals: Sequence[Route]) -> tuple[str, ...]:
    """The fewest criteria with which a route of the form is first among those that cost no more than `best` in each.

    `rivals` are some routes known to come before it. Of as many criteria the first by their order.
    """
    by = weights(order.coach)
    ahead = [rival for rival in rivals if not wish.holds(rival.spaces) and rank(rival, by) < rank(best, by)]
    for count in range(len(Criteria._fields) + 1):
        for kept in combinations(range(len(Criteria._fields)), count):
            if any(all(rival.criteria[place] <= best.criteria[place] for place in kept) for rival in ahead):
                continue
            first = within(order, netted, best, kept)[0][:1]
            if not first or wish.holds(first[0].spaces) or rank(best, by) <= rank(first[0], by):
                return tuple(Criteria._fields[place] for place in kept)
            ahead += first
    return ()
