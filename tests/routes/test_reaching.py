"""What the search is told of reach without looking at a path is what the path says."""

import math
from itertools import pairwise

import pytest
from wishes import order_of

import answered
from drawcord.pieces.reach import merged, within_reach
from drawcord.routes.doubtful import doubtful
from drawcord.routes.measure import measure
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.reaching import reach
from random_coaches import random_coach

HOLLOW = ("chase", "vent stack", "appliance vent", "panel wall", "void")
AMONG = 7  # every so many of the arcs, to be quick


@pytest.mark.parametrize("job", answered.JOBS)
def test_on_the_roof_and_in_what_hides_no_hand_reaches_and_in_a_room_every_hand(job):
    """Each stretch on roof and walls and through chases, against what its own path gives point by point."""
    ways = answered.ways_of(job)
    shop = ways.coach.shop.allowances
    name = min(ways.coach.job.cables)
    order = Order(ways, name, ())
    netted = Netted(order)
    stretches = reach(order, netted, order.cable.longest_piece).stretches
    seen = 0
    for tail, head in list(zip(netted.net.tail.tolist(), netted.net.head.tolist(), strict=True))[::AMONG]:
        mouth, entered = netted.mouths[tail], netted.mouths[head]
        space = ways.coach.spaces[mouth.space]
        if space.kind not in ("roof", "room", *HOLLOW) or netted.net.goal == head:
            continue
        station = ways.stations[entered.station]
        leaves, there = station.mouths[mouth.space], station.mouths[entered.space]
        points = ways.path(mouth.space, mouth.point, leaves)
        at, found = 0, []
        for p, q in pairwise(points if len(points) > 1 else points * 2):  # as joints are placed along a leg
            found += [(at + near, at + far) for _, near, far in within_reach(ways.coach, space.id, p, q)]
            at += round(math.dist(p, q))
        before = ways.coach.shop.clearances.measuring_error + (shop.make_up[2] if tail == netted.net.start else 0)
        behind = 1 + shop.unproven[2] * (ways.coach.spaces[entered.space].standing == "unproven")
        beyond = round(sum(abs(u - v) for u, v in zip(leaves, there, strict=True)) * behind)
        beyond += shop.drip_loop[2] if "roof" in (mouth.space, entered.space) else 0
        whole = merged(found) == [(0, at)]
        assert whole == (space.kind == "room")
        scale = 1 + shop.unproven[2] if space.standing == "unproven" else 1
        assert stretches[tail, head] == ((before, 0, beyond) if whole else (before + round(at * scale) + beyond,))
        seen += 1
    assert seen


def test_what_a_wall_takes_has_the_slack_of_the_leg_behind_it():
    """Through the roof into a chase nobody has looked into; pieces of 1200 mm end 2 mm before the room below it."""
    rig, job = random_coach(8, 56)
    owner = job.owner.model_copy(update={"consents": frozenset({"raceway in sight"})})
    cable = job.cables["pv"].model_copy(update={"longest_piece": 1200})
    order = order_of(rig, job.model_copy(update={"owner": owner, "cables": {"pv": cable}}), "pv")
    netted = Netted(order)
    paths = doubtful(order, netted, longest=1200).paths
    assert paths
    assert all(measure(order, netted.stations(path.states)).reachable for path in paths)
