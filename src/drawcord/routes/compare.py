"""The comparison: winner, efficient set and different descents of one cable, from one exact search."""

from collections.abc import Iterable
from dataclasses import replace

from drawcord.routes.beyond_reach import no_joint
from drawcord.routes.closed import explain
from drawcord.routes.different import different, lightest
from drawcord.routes.efficient import EfficientSet, efficient
from drawcord.routes.measure import measure
from drawcord.routes.net import Path
from drawcord.routes.netting import Netted
from drawcord.routes.offer import offer
from drawcord.routes.order import Order
from drawcord.routes.orders import lightest_orders
from drawcord.routes.reaching import reach
from drawcord.routes.route import Answer, Candidate, Criteria, NoRoute, Route
from drawcord.routes.twins import twins
from drawcord.routes.weighing import spoken, weights

TOLERANCE = (
    500,
    500,
    0,
    0,
    600,
    0,
)  # what a search that meets its bound of labels may miss by, and multiples
MORE_ORDERS = 4  # orders of spaces looked at for each one shown
BELOW = ("roof", "bay", "underfloor")  # spaces that are no part of a descent indoors

Spaces = tuple[str, ...]
Stations = tuple[str, ...]


def compare(order: Order, among: Netted | None = None) -> Answer:
    """Everything the comparison says of one cable; `among` are the ways to choose from, all where left out."""
    spaces, terminals = order.coach.spaces, order.coach.terminals
    by = weights(order.coach)
    if any(spaces[terminals[end].space].barred for end in (order.cable.start, order.cable.end)):
        return _closed(order, explain(order))
    netted = among or Netted(order)
    descents = _descents(order, netted, by)
    if not descents:
        return _closed(order, explain(order))
    found = _search(order, netted, by)
    routes = _measured(order, netted, found.paths)
    left_out = _out_of_reach(routes)
    if left_out:
        found = _search(order, netted, by, within_reach=True)
        routes = _measured(order, netted, found.paths)
    others = _measured(order, netted, [*descents, *_out_of_sight(netted, by)])
    left_out = list(dict.fromkeys([*left_out, *_out_of_reach([*routes, *others])]))
    good, good_others = ([route for route in some if route.reachable] for some in (routes, others))
    if not good and not good_others:
        return _closed(order, no_joint(order, [*routes, *others]), left_out)
    preferences = order.coach.shop.preferences
    offered = offer(order.name, good, good_others, by, preferences.shown, order.coach.units)
    candidates = _with_twins(offered, netted, found.paths, preferences.most_labels)
    cable = order.cable
    return Answer(
        order.name,
        cable.start,
        cable.end,
        candidates,
        None,
        found.exact,
        _guarantee(order, found, len(good)),
        tuple(left_out),
    )


def _closed(order: Order, why: NoRoute, left_out: Iterable[str] = ()) -> Answer:
    return Answer(order.name, order.cable.start, order.cable.end, (), why, True, "", tuple(left_out))


def _limits(order: Order, netted: Netted) -> tuple[int | None, ...]:
    """What a candidate may cost at most, from the least there is in each criterion."""
    least = Criteria(*netted.net.least[netted.net.start].tolist())
    preferences = order.coach.shop.preferences
    return (
        round(preferences.length_times * least.length),
        None,
        least.roof_holes + preferences.holes_more,
        least.inner_holes + preferences.holes_more,
        round(preferences.minutes_times * (least.seconds + netted.base.seconds)) - netted.base.seconds,
        None,
    )


def _search(order: Order, netted: Netted, by: tuple[int, ...], *, within_reach: bool = False) -> EfficientSet:
    return efficient(
        netted.net,
        by,
        _limits(order, netted),
        order.coach.shop.preferences.most_labels,
        TOLERANCE,
        reach(order, netted) if within_reach else None,
    )


def _descents(order: Order, netted: Netted, by: tuple[int, ...]) -> tuple[Path, ...]:
    """The lightest routes that differ in the spaces above the floor that they descend through.

    The terminals' own spaces make no difference. Where the lightest route needs no descent at all, the
    lightest orders of spaces stand in, those that go through all the spaces of a lighter one left out.
    """
    spaces, terminals = order.coach.spaces, order.coach.terminals
    ends = {terminals[end].space for end in (order.cable.start, order.cable.end)}
    inner = {number for number, name in enumerate(netted.spaces) if name not in ends}
    above = {number for number in inner if spaces[netted.spaces[number]].kind not in BELOW}
    preferences = order.coach.shop.preferences
    found = different(netted.net, by, above, preferences.descents, preferences.most_labels)
    if found.paths and not above.intersection(netted.net.order(found.paths[0].states)):
        orders = lightest_orders(netted.net, by, MORE_ORDERS * preferences.descents, preferences.most_labels)
        kept: dict[frozenset[int], Path] = {}
        for path in orders.paths:
            through = inner.intersection(netted.net.order(path.states))
            if not any(other <= through for other in kept):
                kept[frozenset(through)] = path
        return tuple(kept.values())[: preferences.descents]
    return found.paths


def _out_of_sight(netted: Netted, by: tuple[int, ...]) -> tuple[Path, ...]:
    """The lightest route that shows nothing of itself, which may win whatever the owner agrees to."""
    net = netted.net
    unseen = net.cost[:, Criteria._fields.index("in_sight")] == 0
    path = lightest(replace(net, tail=net.tail[unseen], head=net.head[unseen], cost=net.cost[unseen]), by)
    return (path,) if path else ()


def _measured(order: Order, netted: Netted, paths: Iterable[Path]) -> list[Route]:
    return [measure(order, netted.stations(path.states)) for path in paths]


def _with_twins(
    candidates: Iterable[Candidate], netted: Netted, paths: Iterable[Path], most_labels: int
) -> tuple[Candidate, ...]:
    """The candidates, the efficient ones with the other orders of spaces that cost exactly the same on the graph."""
    by_stations = {netted.stations(path.states): path for path in paths}
    found = []
    for candidate in candidates:
        path = by_stations.get(candidate.route.stations)
        same = twins(netted.net, path, most_labels).paths if path else ()
        orders = tuple(tuple(netted.spaces[place] for place in netted.net.order(twin.states)) for twin in same)
        found.append(replace(candidate, twins=orders))
    return tuple(found)


def _out_of_reach(routes: Iterable[Route]) -> list[str]:
    return [
        f"{' > '.join(route.spaces)} is no candidate: "
        + "; ".join(finding.sentence for finding in route.findings if finding.severity.name == "REFUSAL")
        for route in routes
        if not route.reachable
    ]


def _guarantee(order: Order, found: EfficientSet, count: int) -> str:
    preferences = order.coach.shop.preferences
    within = (
        f"no longer than {preferences.length_times:g} times the shortest, "
        f"at most {preferences.holes_more} holes of each kind more than the fewest, "
        f"and no more than {preferences.minutes_times:g} times the least work"
    )
    if found.exact:
        sets = "one set of figures" if count == 1 else f"{count} sets of figures"
        return (
            f"Exact on the graph: the best give {sets}, and no route {within} equals or beats one of them in "
            "every criterion. Routes through the same passages are shown once."
        )
    if found.tolerance is None:
        return f"The bound of {preferences.most_labels} partial routes was met before any way was found."
    names = zip(Criteria._fields, found.tolerance, strict=True)
    misses = ", ".join(spoken(name, amount, order.coach.units) for name, amount in names if amount)
    return (
        f"The bound of {preferences.most_labels} partial routes was met. Every route {within} is matched by one found, "
        f"to within {misses} in each of these and exactly in the others."
    )
