"""The comparison: winner, efficient set and different descents of one cable, from one exact search."""

from collections.abc import Iterable, Sequence

from drawcord.routes.closed import explain, no_joint
from drawcord.routes.cover import cover
from drawcord.routes.different import different
from drawcord.routes.efficient import EfficientSet, efficient
from drawcord.routes.lightest import lightest
from drawcord.routes.measure import measure
from drawcord.routes.net import Path
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.reaching import reach
from drawcord.routes.route import Answer, Candidate, Criteria, Route
from drawcord.routes.weighing import WORDS, compared, score, weights

TOLERANCE = (500, 500, 0, 0, 600, 0)  # what a search that hits its bound of labels may miss by, and its multiples


def compare(order: Order) -> Answer:
    """Everything the comparison says of one cable."""
    start, goal = order.cable.start, order.cable.end
    by = weights(order.coach)
    spaces = order.coach.spaces
    shut = [spaces[order.coach.terminals[end].space].barred for end in (start, goal)]
    netted = None if any(shut) else Netted(order)
    if netted is None or lightest(netted.net, by) is None:
        return Answer(order.name, start, goal, (), explain(order), exact=True, guarantee="", left_out=())
    found = _search(order, netted, by)
    left_out: list[str] = []
    routes, twins = _measured(order, netted, found.paths)
    if any(not route.reachable for route in routes):
        left_out += _unreachable(order, routes)
        found = _search(order, netted, by, within_reach=True)
        routes, twins = _measured(order, netted, found.paths)
        routes = [route for route in routes if route.reachable]
    marked = frozenset(
        number for number, name in enumerate(netted.spaces) if spaces[name].kind not in ("roof", "bay", "underfloor")
    )
    preferences = order.coach.shop.preferences
    others, _ = _measured(order, netted, different(netted.net, by, marked, preferences.descents))
    descents = [route for route in others if route.reachable]
    left_out += _unreachable(order, others)
    every = _distinct([*routes, *descents])
    if not every:
        reason = no_joint(order, [*routes, *others])
        return Answer(order.name, start, goal, (), reason, exact=found.exact, guarantee="", left_out=tuple(left_out))
    efficient_routes = _unbeaten(every)
    ranked = sorted(every, key=lambda route: (score(route.criteria, by), route.criteria, route.spaces))
    winner = ranked[0]
    chosen = cover([route.criteria for route in efficient_routes], preferences.shown)
    offered = {id(efficient_routes[index]): "efficient" for index in chosen}
    for route in descents:
        offered.setdefault(id(route), "another descent")
    offered[id(winner)] = "winner"
    shown = [route for route in ranked if id(route) in offered]
    candidates = tuple(
        Candidate(
            id=f"{order.name}-{rank}",
            rank=rank,
            route=route,
            score=score(route.criteria, by),
            best_at=_best_at(route, shown),
            offered_as=offered[id(route)],
            reason=_reason(route, winner, by),
            twins=twins.get(route.criteria, ()),
        )
        for rank, route in enumerate(shown, start=1)
    )
    return Answer(order.name, start, goal, candidates, None, found.exact, _guarantee(order, found), tuple(dict.fromkeys(left_out)))
