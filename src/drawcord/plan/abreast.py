"""Measured routes side by side: where cables meet, what they share there, and which rules that breaks."""

import math
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from itertools import combinations
from typing import TypeVar

from drawcord.coach.job import Cable
from drawcord.plan.bundle import NARROW, bore, filled, free
from drawcord.plan.meeting import Group, Meeting, Spot, spot
from drawcord.plan.posing import making_seconds
from drawcord.plan.raceways import lain, length
from drawcord.plan.together import Apart, Bundle, Names, Saved, SharedHole, SharedRaceway
from drawcord.routes.order import Order
from drawcord.routes.route import Hole, Route
from drawcord.ways.links import opening_seconds

Where = TypeVar("Where", bound=Hashable)
Who = TypeVar("Who", int, str)


def held(orders: Mapping[str, Order], stations: Mapping[str, Names]) -> dict[str, dict[str, int]]:
    """For each cable the stations where it stays: those of passages that another crosses as well.

    With the hole that all cables of the station need together [mm].
    """
    spots = {name: {s: spot(orders[name].ways, s) for s in crossed} for name, crossed in sorted(stations.items())}
    at = _users((name, list(some.values())) for name, some in spots.items())
    through = _users((name, [passage for passage, _ in some.values()]) for name, some in spots.items())
    return {
        name: {
            station: bore([orders[other].cable for other in at[here]]) + orders[name].coach.shop.clearances.plug
            for station, here in some.items()
            if len(through[here[0]]) > 1
        }
        for name, some in spots.items()
    }


class Abreast:
    """The routes of some cables of a job, at least one, in order of their names."""

    def __init__(self, orders: Sequence[Order], routes: Sequence[Route]) -> None:
        self.orders, self.routes = list(orders), list(routes)
        self.names = [order.name for order in orders]
        self.ways, self.coach = orders[0].ways, orders[0].coach
        self.meeting = Meeting(self.coach, [order.cable for order in orders], self.names)
        crossed = [[spot(self.ways, station) for station in route.stations] for route in routes]
        self.crossed = _users(enumerate(crossed))
        self.largest = {spot(self.ways, s): self.ways.stations[s].largest for route in routes for s in route.stations}
        self.passed = _users((n, route.passages) for n, route in enumerate(routes))
        self.entered = _users((n, route.spaces) for n, route in enumerate(routes))
        self.lain = lain(routes)

    def faults(self) -> list[str]:
        """The rules of the sharing table and of room that the routes break, in sentences."""
        found = [sentence for _, _, sentence in self._met()]
        found += [self.meeting.raceway(group) for group in sorted(set(self.lain.values()))]
        return list(dict.fromkeys(sentence for sentence in found if sentence))

    def at_odds(self) -> list[tuple[str, Names]]:
        """The passages and spaces in which the routes break them, raceway apart, with the cables that come there."""
        return sorted({(place, self._named(group)) for place, group, sentence in self._met() if sentence})

    def _met(self) -> Iterator[tuple[str, Group, str]]:
        """Every place where cables may meet, and why these may not."""
        passages = self.ways.passages
        for here, group in self.crossed.items():
            yield here[0], group, self.meeting.crossing(passages[here[0]], self.largest[here], group)
        for name, group in self.passed.items():
            if passages[name].opening == "exists" and passages[name].size:
                yield name, group, self.meeting.crossing(passages[name], passages[name].size, group)
        for name, group in self.entered.items():
            yield name, group, self.meeting.along(self.coach.spaces[name], group)

    def holes(self) -> tuple[SharedHole, ...]:
        """Every bore once, in the order in which the cables come to them."""
        bored: dict[Spot, Hole] = {}
        for route in self.routes:
            spots = (spot(self.ways, station) for station in route.stations)
            drilled = [here for here in spots if self.ways.passages[here[0]].hole]
            for here, hole in zip(drilled, route.holes, strict=True):
                bored.setdefault(here, hole)
        found = []
        for number, (at, hole) in enumerate(bored.items(), start=1):
            place = hole.kind, hole.between, hole.near, hole.far, hole.diameter
            found.append(SharedHole(f"T{number}", *place, self._named(self.crossed[at])))
        return tuple(found)

    def raceway(self) -> tuple[SharedRaceway, ...]:
        """Raceway by room and by the cables that lie in it."""
        amounts: dict[tuple[str, Group], int] = {}
        for piece, group in self.lain.items():
            key = piece[0][0], group
            amounts[key] = amounts.get(key, 0) + length([piece])
        return tuple(SharedRaceway(room, n, self._named(group)) for (room, group), n in sorted(amounts.items()))

    def bundles(self) -> tuple[Bundle, ...]:
        """Where several cables share a space or opening of stated section."""
        found = []
        for name, group in self.entered.items():
            space = self.coach.spaces[name]
            if len(group) > 1 and space.kind in NARROW:
                found.append(Bundle(name, self._named(group), filled(self._cables(group)), free(space)))
        for name, group in self.passed.items():
            passage = self.ways.passages[name]
            if len(group) > 1 and passage.opening == "exists" and passage.size:
                section = math.floor(math.pi * passage.size**2 / 4)
                found.append(Bundle(name, self._named(group), filled(self._cables(group)), section))
        return tuple(found)

    def apart(self) -> tuple[Apart, ...]:
        """Where two cables come that may not share everything, with what the sharing table grants them."""
        found = []
        for name, group in [*self.entered.items(), *self.passed.items()]:
            for one, other in combinations(group, 2):
                pair, terms = self.meeting.terms(one, other)
                words = {"lie together": terms.together, "share a box": terms.box, "share a raceway": terms.raceway}
                barred = [word for word, may in {**words, "cross": terms.cross}.items() if not may]
                if barred:
                    cross = "; may cross" if terms.cross else ""
                    rule = f"{pair}: may not {', '.join(barred)}{cross} [{terms.source}]"
                    found.append(Apart(name, (self.names[one], self.names[other]), rule))
        return tuple(found)

    def saved(self, alone: Sequence[Route]) -> Saved:
        """Against these routes, each with holes, raceway and opened spaces of its own."""
        holes = [hole.kind for hole in self.holes()]
        return Saved(
            roof_holes=sum(route.criteria.roof_holes for route in alone) - holes.count("roof"),
            inner_holes=sum(route.criteria.inner_holes for route in alone) - holes.count("inner"),
            seconds=sum(route.criteria.seconds for route in alone) - self.seconds(),
            raceway=sum(route.criteria.in_sight for route in alone) - length(self.lain),
        )

    def seconds(self) -> int:
        """The time of work [s], each hole made once and each space opened once."""
        twice = 0
        for (name, _), group in self.crossed.items():
            passage = self.ways.passages[name]
            twice += (len(group) - 1) * making_seconds(passage, self.coach)
        for name, group in self.entered.items():
            twice += (len(group) - 1) * opening_seconds(self.coach.spaces[name], self.coach)
        return sum(route.criteria.seconds for route in self.routes) - twice

    def _named(self, group: Group) -> Names:
        return tuple(self.names[number] for number in group)

    def _cables(self, group: Group) -> list[Cable]:
        return [self.orders[number].cable for number in group]


def _users(places: Iterable[tuple[Who, Sequence[Where]]]) -> dict[Where, tuple[Who, ...]]:
    """By place, in order, the routes that come to it."""
    found: dict[Where, set[Who]] = {}
    for who, some in places:
        for place in some:
            found.setdefault(place, set()).add(who)
    return {place: tuple(sorted(those)) for place, those in sorted(found.items())}
