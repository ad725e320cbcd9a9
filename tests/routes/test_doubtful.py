"""The routes that may turn out the best, against a search of every outcome on the coach that it makes."""

from dataclasses import replace
from itertools import product
from math import log

import pytest

import sketch
from drawcord.coach.build import build
from drawcord.coach.job import Found
from drawcord.routes.different import lightest
from drawcord.routes.doubtful import doubtful
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria
from drawcord.routes.weighing import weights
from drawcord.ways.ways import explore
from random_coaches import random_coach

SIGHT = Criteria._fields.index("in_sight")


def order_of(rig, job, found):
    differences = job.differences.model_copy(update={"found": found})
    return Order(explore(build(rig, job.model_copy(update={"differences": differences}), sketch.shop())), "pv", ())


def met(order, netted, path):
    """The unproven places of a path."""
    mouths = [netted.mouths[state] for state in path.states]
    places = {mouth.space for mouth in mouths} | {mouth.passage for mouth in mouths[1:] if mouth.passage}
    spaces, passages = order.coach.spaces, order.ways.passages
    return {name for name in places if (spaces.get(name) or passages[name]).standing == "unproven"}


def best(order, netted):
    """The weight of the lightest path that the owner agrees to, and None without one."""
    net, job = netted.net, order.coach.job
    if "raceway in sight" not in job.owner.consents:
        unseen = net.cost[:, SIGHT] == 0
        net = replace(net, tail=net.tail[unseen], head=net.head[unseen], cost=net.cost[unseen])
    path = lightest(net, weights(order.coach))
    if path is None:
        return None
    base = weights(order.coach)[-1] * netted.base.doubt
    return base + sum(a * b for a, b in zip(weights(order.coach), path.vector, strict=True))


@pytest.mark.parametrize("consents", [[], ["raceway in sight"]])
def test_whatever_turns_out_the_best_is_one_of_them(consents):
    # Three of the places on the routes in turn unknown, clear and blocked, searched anew in the coach so made.
    differed = compared = 0
    for seed in range(16):
        rig, job = random_coach(14, seed)
        job = job.model_copy(update={"owner": job.owner.model_copy(update={"consents": consents})})
        order = order_of(rig, job, [])
        netted = Netted(order)
        found = doubtful(order, netted)
        assert found.complete
        places = sorted(set().union(*(met(order, netted, path) for path in found.paths)))[:3]
        by = weights(order.coach)
        for standings in product(("unproven", "proven", "blocked"), repeat=len(places)) if len(places) > 2 else ():
            known = dict(zip(places, standings, strict=True))
            now = order_of(
                rig, job, [Found(what=name, standing=how) for name, how in known.items() if how != "unproven"]
            )
            ends = [now.coach.terminals[end].space for end in (now.cable.start, now.cable.end)]
            if any(now.coach.spaces[end].barred for end in ends):
                continue
            totals = []
            for path in found.paths:
                unknown = met(order, netted, path)
                if any(known.get(name) == "blocked" for name in unknown):
                    continue
                clear = {name for name in unknown if known.get(name) == "proven"}
                doubt = sum(doubt_about(order, name) for name in unknown - clear)
                totals.append(sum(a * b for a, b in zip(by[:-1], path.vector[:-1], strict=True)) + by[-1] * doubt)
            expected = best(now, Netted(now))
            assert min(totals, default=None) == expected, (seed, known)
            compared += 1
            differed += len(totals) > 1 and totals[0] != expected
    assert compared > 50, "hardly a coach has places to look at"
    assert differed > 2, "knowing hardly ever changed the best"


def doubt_about(order, name):
    """The doubt about a place [micro-nats], by its definition."""
    known = order.coach.spaces.get(name) or order.ways.passages[name]
    return round(-1e6 * log(known.chance))
