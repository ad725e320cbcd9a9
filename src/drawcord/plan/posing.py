"""The joint problem of a job: what each cable pays by itself, and what cables pay for once between them.

By itself a cable pays for its length, the time to run it and to lead it through each passage, and its ends. Paid
for once are: a hole, with the time to make it beyond leading a cable through; opening a space; the doubt of a
space or passage; and each piece of raceway. So a cable alone weighs what the comparison says it does.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from drawcord.coach.coach import Coach
from drawcord.plan.meeting import Meeting, spot
from drawcord.plan.problem import Ban, Commodity, Problem
from drawcord.plan.raceways import Piece, length, pieces
from drawcord.routes.least import Array
from drawcord.routes.limits import limits_of
from drawcord.routes.net import States
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria, Route
from drawcord.routes.weighing import score, weights
from drawcord.ways.links import crossing_seconds, micronats
from drawcord.ways.passage import Passage

NONE = -1


class Posing:
    """The problem for some cables of a job, all of which have a way."""

    def __init__(self, orders: Sequence[Order]) -> None:
        self.orders = list(orders)
        self.netted = [Netted(order) for order in orders]
        self.ways, self.coach = orders[0].ways, orders[0].coach
        self.by = Criteria(*weights(self.coach))
        self.meeting = Meeting(self.coach, [order.cable for order in orders], [order.name for order in orders])
        self.mouths, self.twin = self.ways.links.mouths, self.ways.links.twin
        self._place = {(mouth.station, mouth.space): at for at, mouth in enumerate(self.mouths) if mouth.station}
        self._names: dict[tuple[object, ...], int] = {}
        self._cost: list[int] = []
        self._bans: list[Ban] = []
        self._used = np.array([self._things_at(at) for at in range(len(self.mouths))], np.int64).reshape(-1, 3)

    def states(self, number: int, route: Route) -> States:
        """The states of a measured route on the net of its cable."""
        net = self.netted[number].net
        entered = zip(route.stations, route.spaces[1:], strict=True)
        return (net.start, *(self._place[pair] for pair in entered), net.goal)

    def problem(self, hidden: Sequence[bool], taken: Mapping[int, States]) -> Problem:
        """The problem in which each cable pays for all raceway it lies in.

        `hidden`: for each cable whether it must stay out of sight. `taken`: routes that are settled, by cable.
        """
        things = np.array(self._cost, np.int64)
        found = []
        for number, netted in enumerate(self.netted):
            commodity = self._commodity(number, things)
            mask = np.ones(len(commodity.own), np.bool_)
            if number in taken:
                mask[:] = False
                mask[commodity.arcs(taken[number])] = True
            elif hidden[number]:
                mask = netted.net.cost[:, Criteria._fields.index("in_sight")] == 0
            found.append(commodity.kept(mask))
        return Problem(tuple(found), things, tuple(self._bans))

    def with_raceway(self, problem: Problem) -> Problem:
        """The same with raceway in pieces that cables share, where at least two could."""
        runs, owners = [], []
        for number, commodity in enumerate(problem.commodities):
            net = commodity.net
            for arc in np.flatnonzero(self._in_sight(commodity)).tolist():
                tail, head = (int(commodity.origin[end[arc]]) for end in (net.tail, net.head))
                leaves = self.mouths[head if head == net.goal else int(self.twin[head])].point
                space = self.mouths[tail].space
                runs.append((space, self.ways.path(space, self.mouths[tail].point, leaves)))
                owners.append((number, arc))
        if len({number for number, _ in owners}) < 2:
            return problem
        users: dict[Piece, list[int]] = {}
        for run, found in enumerate(pieces(runs)):
            for piece in found:
                users.setdefault(piece, []).append(run)
        alike: dict[tuple[int, ...], int] = {}  # pieces with the same users are one thing
        for piece, some in sorted(users.items()):
            alike[tuple(some)] = alike.get(tuple(some), 0) + length([piece])
        first = len(problem.cost)
        cost = np.append(problem.cost, np.array(list(alike.values()), np.int64) * self.by.in_sight)
        more: list[list[tuple[int, int]]] = [[] for _ in problem.commodities]
        for thing, using in enumerate(alike, start=first):
            for number, arc in (owners[run] for run in using):
                more[number].append((arc, thing))
        bans = [(thing, group) for thing in range(first, len(cost)) for group in self.meeting.bans_raceway()]
        commodities = tuple(_using(c, pairs) for c, pairs in zip(problem.commodities, more, strict=True))
        return replace(problem, commodities=commodities, cost=cost, bans=(*problem.bans, *bans))

    def stations(self, problem: Problem, routes: Sequence[States]) -> dict[str, tuple[str, ...]]:
        """The stations that the route of each cable crosses, in order."""
        found = {}
        for order, commodity, states in zip(self.orders, problem.commodities, routes, strict=True):
            crossed = (self.mouths[commodity.origin[state]].station for state in states)
            found[order.name] = tuple(station for station in crossed if station)
        return found

    def _in_sight(self, commodity: Commodity) -> Array:
        """The arcs that run in a room, whatever raceway weighs."""
        rooms = np.array([self.coach.spaces[mouth.space].kind == "room" for mouth in self.mouths])
        return rooms[commodity.origin[commodity.net.tail]]

    def _commodity(self, number: int, things: Array) -> Commodity:
        netted, net = self.netted[number], self.netted[number].net
        limits = limits_of(self.orders[number], netted, netted)
        held = [column for column, most in enumerate(limits) if most is not None]
        used = self._used[net.head]
        used[net.head == net.goal] = NONE
        arc, column = np.nonzero(used != NONE)
        thing = used[arc, column]
        shared = np.bincount(arc, things[thing], minlength=len(net.tail)).astype(np.int64)
        sight = net.cost[:, Criteria._fields.index("in_sight")] * self.by.in_sight
        passage = np.unique([mouth.passage for mouth in self.mouths], return_inverse=True)[1]
        start = self._names.get(("space", self.mouths[net.start].space), NONE)
        return Commodity(
            net=replace(net, cost=(net.weigh(self.by) - shared)[:, None]),
            arc=arc,
            thing=thing,
            step=passage[net.tail] * len(self.mouths) + passage[net.head],
            sight=sight,
            origin=np.arange(len(self.mouths)),
            always=() if start == NONE else (start,),
            base=score(netted.base, self.by) - (0 if start == NONE else int(things[start])),
            spent=net.cost[:, held],
            most=tuple(most for most in limits if most is not None),
        )

    def _things_at(self, at: int) -> tuple[int, int, int]:
        """What crossing into a mouth uses: the space entered, the passage's doubt, the place where it is crossed."""
        mouth, by = self.mouths[at], self.by
        entering = self.ways.links.entering[mouth.space]
        space = self._thing(
            ("space", mouth.space),
            by.seconds * entering.seconds + by.doubt * entering.doubt,
            self.meeting.bans_along(self.coach.spaces[mouth.space]),
        )
        if not mouth.station:
            return space, NONE, NONE
        passage, station = self.ways.passages[mouth.passage], self.ways.stations[mouth.station]
        doubt = self._thing(("doubt", passage.id), by.doubt * micronats(passage.chance), ())
        # All go through an opening of stated size side by side; a hole is bored at each station where one is wanted.
        sized = passage.opening == "exists" and passage.size
        place = ("opening", passage.id) if sized else spot(self.ways, station.id)
        bans = self.meeting.bans_crossing(passage, station.largest)
        return space, doubt, self._thing(place, making(passage, self.coach, by), bans)

    def _thing(self, name: tuple[object, ...], cost: int, bans: Sequence[tuple[int, ...]]) -> int:
        """The number of a thing, made when first met; none for what costs nothing and bars nobody."""
        if name in self._names:
            return self._names[name]
        if not cost and not bans:
            return NONE
        self._names[name] = number = len(self._cost)
        self._cost.append(cost)
        self._bans += [(number, group) for group in bans]
        return number


def making(passage: Passage, coach: Coach, by: Criteria) -> int:
    """What a hole weighs beyond leading a cable through; nothing for an opening."""
    hole = {"roof": by.roof_holes, "inner": by.inner_holes}.get(passage.hole, 0)
    return hole + by.seconds * making_seconds(passage, coach)


def making_seconds(passage: Passage, coach: Coach) -> int:
    """Time [s] to make a hole beyond leading a cable through one that is there; none for an opening."""
    return max(0, crossing_seconds(passage, coach) - coach.shop.labour.opening) if passage.hole else 0


def _using(commodity: Commodity, pairs: Sequence[tuple[int, int]]) -> Commodity:
    """A cable that uses more things, and pays for none of its raceway by itself."""
    more = np.array(pairs, np.int64).reshape(-1, 2)
    arc, thing = np.append(commodity.arc, more[:, 0]), np.append(commodity.thing, more[:, 1])
    order = np.lexsort((thing, arc))
    paid = commodity.with_own(commodity.own - commodity.sight)
    return replace(paid, arc=arc[order], thing=thing[order], sight=np.zeros_like(commodity.sight))
