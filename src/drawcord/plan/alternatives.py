"""What a cable can do as places turn out clear or blocked: its alternatives, and the unproven places they meet."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from drawcord.coach.coach import Coach
from drawcord.routes.doubtful import doubtful
from drawcord.routes.measure import measure
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.route import Leg, Route
from drawcord.routes.weighing import score, weights
from drawcord.ways.links import crossing_seconds, micronats, opening_seconds, run_seconds

Measured = Callable[[Order, tuple[str, ...]], Route]  # by the stations that it crosses


@dataclass(frozen=True)
class Alternative:
    """One route of a cable, as what is unproven sees it.

    `weight`: by the shop's and the owner's weights, doubt left out [thousandths of a mm of cable].
    `seconds`: of work on all of it. `meets`: the unproven places it goes by in order, each with the work done
    before it is met [s]. `cut_length`: low, likely and high, per core [mm]. `route`: it as measured.
    `planned`: whether the plan has chosen it.
    """

    cable: str
    spaces: tuple[str, ...]
    weight: int
    seconds: int
    meets: tuple[tuple[str, int], ...]
    cut_length: tuple[int, int, int]
    route: Route | None = None
    planned: bool = False

    @property
    def through(self) -> frozenset[str]:
        """The ids of the spaces and passages that it goes through."""
        return frozenset((*self.spaces, *(self.route.passages if self.route else ())))

    @property
    def legs(self) -> tuple[Leg, ...]:
        """Those of the route as measured."""
        return self.route.legs if self.route else ()


Choice = dict[str, Alternative | None]  # by cable, None for no way


@dataclass(frozen=True)
class Alternatives:
    """The alternatives of one cable, lightest first. `exact`: whether the search proved that there are no others."""

    cable: str
    routes: tuple[Alternative, ...]
    exact: bool = True


@dataclass(frozen=True)
class Unproven:
    """A space or passage that nobody has looked at.

    How likely it is clear; what the doubt about it weighs [thousandths of a mm of cable]; the time to look
    [s]; and what it is in words.
    """

    id: str
    chance: float
    weight: int
    seconds: int
    called: str


def alternatives(order: Order, contested: frozenset[str] = frozenset(), measured: Measured = measure) -> Alternatives:
    """Every route of this cable that may turn out the best, whatever of it turns out clear or blocked.

    And whatever it has to keep out of, of the `contested` spaces and passages (ids), where another cable may be. Exact
    on the graph, within the person's limits and a hand's reach of every joint. No route meets all the unproven and
    contested places of another that weighs no more.
    """
    spaces, terminals = order.coach.spaces, order.coach.terminals
    if any(spaces[terminals[end].space].barred for end in (order.cable.start, order.cable.end)):
        return Alternatives(order.name, ())
    netted = Netted(order)
    found = doubtful(order, netted, contested)
    if not all(measured(order, netted.stations(path.states)).reachable for path in found.paths):
        # One out of reach stands before others over the same places.
        found = doubtful(order, netted, contested, order.cable.longest_piece)
    routes = [measured(order, netted.stations(path.states)) for path in found.paths]
    good = in_order([alternative(order, route) for route in routes if route.reachable])
    return Alternatives(order.name, tuple(_unbeaten(good, contested)), found.complete and len(good) == len(routes))


def in_order(some: Sequence[Alternative]) -> tuple[Alternative, ...]:
    """Alternatives of one cable, lightest first."""
    return tuple(sorted(some, key=lambda one: (one.weight, one.seconds, one.spaces)))


def _unbeaten(routes: Iterable[Alternative], contested: frozenset[str]) -> list[Alternative]:
    """Those that meet not all the places of a lighter one, of routes the lightest first."""
    kept: list[tuple[frozenset[str], Alternative]] = []
    for one in routes:
        places = one.through & contested | dict(one.meets).keys()
        if not any(others <= places for others, _ in kept):
            kept.append((places, one))
    return [one for _, one in kept]


def unproven(coach: Coach, orders: Iterable[Order]) -> dict[str, Unproven]:
    """Everything unproven about the spaces and passages of these cables' ways, by id."""
    doubt = weights(coach)[-1]
    labour = coach.shop.labour
    found = {}
    for space in coach.spaces.values():
        if space.standing == "unproven":
            seconds = opening_seconds(space, coach) + labour.looking[space.kind]
            weight = doubt * micronats(space.chance)
            found[space.id] = Unproven(space.id, space.chance, weight, seconds, f"the {space.kind} {space.id}")
    for order in orders:
        for passage in order.ways.passages.values():
            if passage.standing == "unproven" and passage.id not in found:
                sides = [coach.spaces[name] for name in (passage.a, passage.b)]
                seconds = min(opening_seconds(side, coach) for side in sides) + labour.probing
                called = f"from {passage.a} to {passage.b}"
                called = f"the passage {passage.id}, {called}" if passage.declared else f"the way {called}"
                weight = doubt * micronats(passage.chance)
                found[passage.id] = Unproven(passage.id, passage.chance, weight, seconds, called)
    return dict(sorted(found.items()))


def alternative(order: Order, route: Route) -> Alternative:
    """A measured route of a cable as what is unproven sees it."""
    by = (*weights(order.coach)[:-1], 0)
    return Alternative(
        route.cable,
        route.spaces,
        score(route.criteria, by),
        route.criteria.seconds,
        _meets(order, route),
        route.cut_length,
        route,
    )


def _meets(order: Order, route: Route) -> tuple[tuple[str, int], ...]:
    """The unproven places of a route in order, each with the work [s] from the start up to it.

    A passage is met when the cable gets there, a space once it is open.
    """
    coach, labour = order.coach, order.coach.shop.labour
    meets, done = [], labour.terminal
    for number, leg in enumerate(route.legs):
        if number:
            passage = order.ways.passages[route.passages[number - 1]]
            if passage.standing == "unproven":
                meets.append((passage.id, done))
            done += crossing_seconds(passage, coach)
        space = coach.spaces[leg.space]
        done += opening_seconds(space, coach)
        if space.standing == "unproven":
            meets.append((space.id, done))
        done += run_seconds(leg.length - leg.through_length, labour.metre[space.kind])
    return tuple(meets)
