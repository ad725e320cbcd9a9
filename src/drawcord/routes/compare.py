"""The comparison: winner, efficient set and different descents of one cable, from one exact search."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from drawcord.routes.beyond_reach import no_joint
from drawcord.routes.bounded import bounded
from drawcord.routes.closed import explain
from drawcord.routes.different import lightest
from drawcord.routes.efficient import EfficientSet
from drawcord.routes.guarantee import guarantee, look_within
from drawcord.routes.leaning import ideal, ideal_walk, leaned_on
from drawcord.routes.limits import limits_of, shortest_of, too_tight
from drawcord.routes.memory import Memory
from drawcord.routes.net import Found, Path
from drawcord.routes.netting import Netted
from drawcord.routes.offer import offer
from drawcord.routes.order import Order
from drawcord.routes.purse import Limits
from drawcord.routes.reaching import reach
from drawcord.routes.route import Answer, Candidate, Criteria, NoRoute, Route
from drawcord.routes.searches import TOLERANCE, Searches
from drawcord.routes.weighing import score, weights

LOOSE = 2  # where the lightest route weighs more times its bound of before, new bounds are worth their time
LIMITED = (0, 2, 3, 4)  # the criteria whose least is what limits are made from

Spaces = tuple[str, ...]


@dataclass(frozen=True)
class Work:
    """An answer, and what planning again may go by.

    `leans_on`: ids of the spaces and passages that have to stay as they are for the answer to stay as it is,
    whatever gets worse elsewhere; None where nobody can say.
    """

    answer: Answer
    leans_on: frozenset[str] | None
    memory: Memory


def compare(order: Order, among: Netted | None = None) -> Answer:
    """Everything the comparison says of one cable; `among` are the ways to choose from, all where left out."""
    return work(order, Memory(), among).answer


def work(order: Order, memory: Memory, among: Netted | None = None) -> Work:
    """The comparison, with what it leans on; the memory of this cable's routes grows.

    Where the memory has a net it is searched by the bounds of before: if that is cut short or finds nothing, or these
    have become loose, all is searched again on a net of its own.
    """
    spaces, terminals = order.coach.spaces, order.coach.terminals
    by, piece = weights(order.coach), order.cable.longest_piece
    if any(spaces[terminals[end].space].barred for end in (order.cable.start, order.cable.end)):
        return _closed(order, explain(order))
    lesser = memory.netted and memory.netted.without(memory.shut)
    anew = replace(memory, netted=None)
    netted = among or lesser or Netted(order)
    limits = limits_of(order, netted, Netted(order) if among else netted)
    searches = Searches(order, netted, limits, memory)
    down = searches.descents()
    if not down.paths:
        if lesser:
            return work(order, anew)
        return _closed(order, _none_within(order, netted, by, limits, complete=down.complete))
    if lesser and score(Criteria(*down.paths[0].vector), by) > LOOSE * bounded(netted.net, by).ideal[0]:
        return work(order, anew)
    within = look_within(order, netted, limits, [memory.ideal(place, netted, down.paths) for place in LIMITED])
    found = searches.efficient(within)
    routes = searches.measured(found.paths)
    beyond = [route for route in routes if not route.reachable]
    first = found
    if beyond:
        found = searches.efficient(within, piece)
        routes = searches.measured(found.paths)
    apart = _apart(searches, down, piece, alone=not routes)
    others = searches.measured(path for search in apart for path in search.paths)
    beyond += [route for route in (*routes, *others) if not route.reachable]
    good, good_others = ([route for route in some if route.reachable] for some in (routes, others))
    open_ways = {route.passages for route in (*good, *good_others)}
    left_out = list(dict.fromkeys(_no_candidate(route) for route in beyond if route.passages not in open_ways))
    if not good and not good_others:
        if lesser:
            return work(order, anew)

        def with_pieces(longest: int) -> list[Route]:
            paths = *searches.efficient(within, longest).paths, *searches.descents(longest).paths
            return [*searches.measured(paths), *others]

        tight = too_tight(order, netted, limits, by, TOLERANCE, reach(order, netted, piece))
        return _closed(order, tight or no_joint(order, beyond, with_pieces), left_out)
    preferences = order.coach.shop.preferences
    offered = offer(order.name, good, good_others, by, preferences.shown, order.coach.units)
    same = _twins(searches, offered, found, first)
    candidates = tuple(
        replace(candidate, twins=tuple(_spaces(netted, twin) for twin in each.paths))
        for candidate, each in zip(offered, same, strict=True)
    )
    cable = order.cable
    answer = Answer(
        order.name,
        cable.start,
        cable.end,
        candidates,
        None,
        found.exact,
        guarantee(order, netted, limits, found, len(good)),
        tuple(left_out),
    )
    memory = replace(memory, netted=netted, shut=frozenset())
    every: list[EfficientSet | Found] = [first, found, *apart, *same]
    if not all(search.complete for search in every):
        return work(order, anew) if lesser else Work(answer, None, memory)
    paths = [path for search in every for path in search.paths] + shortest_of(order, netted)
    for criterion in LIMITED:
        if criterion not in memory.ideals:
            walk = ideal_walk(netted.net, criterion, paths)
            memory.ideals[criterion] = ideal(netted.net, criterion, paths), leaned_on(netted, [walk])
    through = (through for _, through in memory.ideals.values())
    return Work(answer, leaned_on(netted, (path.states for path in paths)).union(*through), memory)


def _closed(order: Order, why: NoRoute, left_out: Iterable[str] = ()) -> Work:
    answer = Answer(order.name, order.cable.start, order.cable.end, (), why, True, "", tuple(left_out))
    return Work(answer, None, Memory())


def _none_within(order: Order, netted: Netted, by: tuple[int, ...], limits: Limits, *, complete: bool) -> NoRoute:
    """Why no way was found: none is open, none keeps to the person's limits, or the search was cut short."""
    if lightest(netted.net, by) is None:
        return explain(order)
    sentence = (
        f"the bound of {order.coach.shop.preferences.most_labels} partial routes was met before a way that keeps "
        "to every limit was found"
    )
    cut_short = NoRoute((), ("raise `most labels` in the shop's preferences.yaml, or loosen a limit",), sentence)
    return (complete and too_tight(order, netted, limits, by, TOLERANCE, None)) or cut_short


def _apart(searches: Searches, down: Found, piece: int, *, alone: bool) -> list[Found]:
    """What is found apart from the efficient set: the different descents, and the lightest route out of sight.

    Where a joint of the lightest is out of reach, the lightest that will do may lie further round than all these;
    `alone`: with no efficient one beside it, so that its other descents are wanted as well.
    """
    hidden = searches.out_of_sight(down.paths[0])
    apart = [down, hidden]
    if not _lightest_in_reach(searches, down):
        down = searches.descents(piece) if alone else searches.lightest(piece)
        apart.append(down)
    if down.paths and not _lightest_in_reach(searches, hidden):
        apart.append(searches.out_of_sight(down.paths[0], piece))
    return apart


def _lightest_in_reach(searches: Searches, found: Found) -> bool:
    return all(route.reachable for route in searches.measured(found.paths[:1]))


def _twins(searches: Searches, offered: Iterable[Candidate], found: EfficientSet, every: EfficientSet) -> list[Found]:
    """For each that is offered and efficient, the other orders of spaces that cost exactly the same on the graph.

    What was `found` may be efficient no more than among the routes whose joints can be reached.
    """
    by_stations = {searches.netted.stations(path.states): path for path in found.paths}
    efficient_ones = (by_stations.get(candidate.route.stations) for candidate in offered)
    unbeaten = {path.vector for path in every.paths if every.exact}
    return [
        searches.twins(path, unbeaten=path.vector in unbeaten) if path else Found((), complete=True)
        for path in efficient_ones
    ]


def _spaces(netted: Netted, path: Path) -> Spaces:
    return tuple(netted.spaces[place] for place in netted.net.order(path.states))


def _no_candidate(route: Route) -> str:
    refused = (finding.sentence for finding in route.findings if finding.severity.name == "REFUSAL")
    return f"{' > '.join(route.spaces)} is no candidate: {'; '.join(refused)}"
