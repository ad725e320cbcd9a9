"""The comparison: winner, efficient set and different descents of one cable, from one exact search."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial

from drawcord.routes.beyond_reach import no_joint
from drawcord.routes.bounded import bounded
from drawcord.routes.closed import explain
from drawcord.routes.descents import descents, out_of_sight
from drawcord.routes.different import lightest
from drawcord.routes.efficient import EfficientSet, efficient
from drawcord.routes.leaning import ideal, ideal_walk, leaned_on
from drawcord.routes.limits import limits_of, shortest_of, stated, too_tight
from drawcord.routes.measure import measure
from drawcord.routes.memory import Memory
from drawcord.routes.net import Found, Path
from drawcord.routes.netting import Netted
from drawcord.routes.offer import offer
from drawcord.routes.order import Order
from drawcord.routes.purse import Limits
from drawcord.routes.reaching import reach
from drawcord.routes.route import Answer, Candidate, Criteria, NoRoute, Route
from drawcord.routes.twins import twins
from drawcord.routes.weighing import score, spoken, weights

TOLERANCE = (500, 500, 0, 0, 600, 0)  # what a search that meets its bound of labels may miss by, and multiples
LOOSE = 2  # where the lightest route weighs more times its bound of before, new bounds are worth their time
LIMITED = (0, 2, 3, 4)  # the criteria whose least is what limits are made from

Spaces = tuple[str, ...]
Stations = tuple[str, ...]


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
    by = weights(order.coach)
    if any(spaces[terminals[end].space].barred for end in (order.cable.start, order.cable.end)):
        return _closed(order, explain(order))
    lesser = memory.netted and memory.netted.without(memory.shut)
    anew = replace(memory, netted=None)
    netted = among or lesser or Netted(order)
    limits = limits_of(order, netted, Netted(order) if among else netted)
    apart = memory.search(("descents", limits), netted, lambda: descents(order, netted, by, limits))
    if not apart.paths:
        if lesser:
            return work(order, anew)
        return _closed(order, _none_within(order, netted, by, limits, complete=apart.complete))
    if lesser and score(Criteria(*apart.paths[0].vector), by) > LOOSE * bounded(netted.net, by).ideal[0]:
        return work(order, anew)
    book = memory.measured
    within = _within(order, netted, limits, [memory.ideal(place, netted, apart.paths) for place in LIMITED])
    found = _search(order, netted, by, within, memory)
    routes = _measured(order, netted, found.paths, book)
    beyond = [route for route in routes if not route.reachable]
    first = found
    if beyond:
        found = _search(order, netted, by, within, memory, order.cable.longest_piece)
        routes = _measured(order, netted, found.paths, book)
    hidden = memory.search(("hidden", limits), netted, lambda: out_of_sight(order, netted, by, limits, apart.paths[0]))
    others = _measured(order, netted, [*apart.paths, *hidden.paths], book)
    beyond += [route for route in (*routes, *others) if not route.reachable]
    good, good_others = ([route for route in some if route.reachable] for some in (routes, others))
    open_ways = {route.passages for route in (*good, *good_others)}
    left_out = list(dict.fromkeys(_no_candidate(route) for route in beyond if route.passages not in open_ways))
    if not good and not good_others:
        if lesser:
            return work(order, anew)

        def with_pieces(longest: int) -> list[Route]:
            reached = _search(order, netted, by, within, memory, longest).paths
            return [*_measured(order, netted, reached, book), *others]

        tight = too_tight(order, netted, limits, by, TOLERANCE, reach(order, netted, order.cable.longest_piece))
        return _closed(order, tight or no_joint(order, beyond, with_pieces), left_out)
    preferences = order.coach.shop.preferences
    offered = offer(order.name, good, good_others, by, preferences.shown, order.coach.units)
    same = _twins(order, netted, offered, found, first, memory)
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
        _guarantee(order, netted, limits, found, len(good)),
        tuple(left_out),
    )
    memory = replace(memory, netted=netted, shut=frozenset())
    searches: list[EfficientSet | Found] = [first, found, apart, hidden, *same]
    if not all(search.complete for search in searches):
        return work(order, anew) if lesser else Work(answer, None, memory)
    paths = [path for search in searches for path in search.paths] + shortest_of(order, netted)
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


def _within(order: Order, netted: Netted, limits: Limits, least: Sequence[int]) -> Limits:
    """What an efficient candidate may cost at most: the person's limits, else how far the shop looks.

    `least`: the least there is of what the shop's limits are made from.
    """
    length, roof_holes, inner_holes, seconds = least
    preferences = order.coach.shop.preferences
    looked_at = (
        round(preferences.length_times * length),
        None,
        roof_holes + preferences.holes_more,
        inner_holes + preferences.holes_more,
        round(preferences.minutes_times * (seconds + netted.base.seconds)) - netted.base.seconds,
        None,
    )
    return tuple(look if most is None else most for most, look in zip(limits, looked_at, strict=True))


def _search(
    order: Order, netted: Netted, by: tuple[int, ...], within: Limits, memory: Memory, longest: int | None = None
) -> EfficientSet:
    """The efficient set; of routes whose joints can all be reached with a `longest` piece [mm], where one is given."""
    most = order.coach.shop.preferences.most_labels
    reached = None if longest is None else reach(order, netted, longest)
    wanted = "efficient", within, longest
    return memory.search(wanted, netted, lambda: efficient(netted.net, by, within, most, TOLERANCE, reached))


def _measured(order: Order, netted: Netted, paths: Iterable[Path], book: dict[Stations, Route]) -> list[Route]:
    """The routes of these paths, each measured once and entered into the book."""
    routes = []
    for path in paths:
        stations = netted.stations(path.states)
        if stations not in book:
            book[stations] = measure(order, stations)
        routes.append(book[stations])
    return routes


def _twins(
    order: Order, netted: Netted, offered: Iterable[Candidate], found: EfficientSet, every: EfficientSet, memory: Memory
) -> list[Found]:
    """For each that is offered and efficient, the other orders of spaces that cost exactly the same on the graph.

    What was `found` may be efficient no more than among the routes whose joints can be reached.
    """
    by, most = weights(order.coach), order.coach.shop.preferences.most_labels
    by_stations = {netted.stations(path.states): path for path in found.paths}
    unbeaten = {path.vector for path in every.paths if every.exact}

    def same(path: Path | None) -> Found:
        if not path:
            return Found((), complete=True)
        run = partial(twins, netted.net, by, path, most, unbeaten=path.vector in unbeaten)
        return memory.search(("twins", netted.stations(path.states)), netted, run)

    return [same(by_stations.get(candidate.route.stations)) for candidate in offered]


def _spaces(netted: Netted, path: Path) -> Spaces:
    return tuple(netted.spaces[place] for place in netted.net.order(path.states))


def _no_candidate(route: Route) -> str:
    refused = (finding.sentence for finding in route.findings if finding.severity.name == "REFUSAL")
    return f"{' > '.join(route.spaces)} is no candidate: {'; '.join(refused)}"


def _guarantee(order: Order, netted: Netted, limits: Limits, found: EfficientSet, count: int) -> str:
    preferences = order.coach.shop.preferences
    within = _looked_at(order, netted, limits)
    if found.exact and not count:
        return f"Exact on the graph: there is no route {within}; those shown go beyond how far the shop looks."
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


def _looked_at(order: Order, netted: Netted, limits: Limits) -> str:
    """How far was looked: the person's limits, and for what they leave open the shop's."""
    preferences, most = order.coach.shop.preferences, Criteria(*limits)  # type: ignore[arg-type]
    holes = [word for word, held in (("roof", most.roof_holes), ("inner", most.inner_holes)) if held is None]
    each = "holes of each kind" if len(holes) > 1 else f"{''.join(holes)} holes"
    parts = [
        *([f"within the job's limits ({', '.join(said)})"] if (said := stated(order, netted, limits)) else []),
        *([f"no longer than {preferences.length_times:g} times the shortest"] if most.length is None else []),
        *([f"at most {preferences.holes_more} {each} more than the fewest"] if holes else []),
        *([f"no more than {preferences.minutes_times:g} times the least work"] if most.seconds is None else []),
    ]
    return ", and ".join([", ".join(parts[:-1]), parts[-1]]) if len(parts) > 1 else "".join(parts)
