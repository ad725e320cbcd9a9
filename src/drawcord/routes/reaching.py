"""How much of each arc of a net lies out of a hand's reach, worked out when a search first asks."""

import math
from collections.abc import Iterator, Mapping
from itertools import pairwise

from drawcord.pieces.reach import merged, within_reach
from drawcord.routes.net import Lost
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.reach import Reach
from drawcord.routes.route import Criteria

LENGTH = Criteria._fields.index("length")
Stretch = tuple[int] | tuple[int, int, int]


class _Stretches(Mapping[tuple[int, int], Stretch]):
    """By arc (tail, head), in lengths of cable with every allowance at its high end, as joints are placed.

    Without the make-up at devices: one in reach parts what is in reach, and how far along one sits an arc cannot say.
    """

    def __init__(self, order: Order, netted: Netted) -> None:
        self.order, self.netted = order, netted
        self.known: dict[tuple[int, int], Stretch] = {}

    def __getitem__(self, arc: tuple[int, int]) -> Stretch:
        if arc not in self.known:
            self.known[arc] = self._stretch(*arc)
        return self.known[arc]

    def __iter__(self) -> Iterator[tuple[int, int]]:
        return iter(self.known)

    def __len__(self) -> int:
        return len(self.known)

    def without(self, lost: Lost) -> "_Stretches":  # noqa: ARG002 - the others are what they were
        """The same for a net without the states that are lost."""
        return self

    def _stretch(self, tail: int, head: int) -> Stretch:
        ways, shop = self.order.ways, self.order.coach.shop.allowances
        space, start = self.netted.mouths[tail].space, self.netted.mouths[tail].point
        leaves = self.netted.mouths[head].point
        if head != self.netted.net.goal:
            station = ways.stations[self.netted.mouths[head].station]
            passage = ways.passages[station.passage]
            leaves = station.mouths[space]
            behind = passage.other(space)
            thick = sum(abs(u - v) for u, v in zip(leaves, station.mouths[behind], strict=True))
            # What is crossed is part of the leg behind it.
            beyond = round(thick * self._slack(behind)) + (shop.drip_loop[2] if "roof" in (space, behind) else 0)
        else:
            thick, beyond = 0, shop.make_up[2] + shop.service_loop[2]
        before = ways.coach.shop.clearances.measuring_error
        before += shop.make_up[2] if tail == self.netted.net.start else 0
        scale = self._slack(space)
        kind = ways.coach.spaces[space].kind
        if kind == "room":  # in reach everywhere
            return before, 0, beyond
        if kind == "roof" and ways.roof.plan.square:  # nowhere, and the length is known
            length = self.netted.net.vector((tail, head))[LENGTH] - thick
            return (before + round(length * scale) + beyond,)
        points = ways.path(space, start, leaves)
        at = 0
        found = []
        for p, q in pairwise(points):
            found += [(at + near, at + far) for _, near, far in within_reach(ways.coach, space, p, q)]
            at += round(math.dist(p, q))  # a roof may be crossed straight
        reached = merged(found)
        if not reached:
            return (before + round(at * scale) + beyond,)
        gaps = [later[0] - earlier[1] for earlier, later in pairwise(reached)]
        lead, rest = reached[0][0], at - reached[-1][1]
        return before + round(lead * scale), round(max(gaps, default=0) * scale), round(rest * scale) + beyond

    def _slack(self, space: str) -> float:
        """How many times as long as measured a leg in a space may turn out."""
        coach = self.order.coach
        return 1 + coach.shop.allowances.unproven[2] * (coach.spaces[space].standing == "unproven")


def reach(order: Order, netted: Netted, longest: int) -> Reach:
    """What a search must keep so that every joint of a route can be reached by hand, with a longest piece [mm]."""
    stretches = netted.net.once("stretches", lambda: _Stretches(order, netted))
    return Reach(int(longest / order.coach.shop.history.grown), stretches)
