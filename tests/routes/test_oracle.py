"""The efficient set on random coaches against every simple path of the graph that is published."""

from dataclasses import replace

import pytest
from enumerated import few, orders, unbeaten, whole

from drawcord.coach.shop import Labour
from drawcord.routes.compare import compare
from drawcord.routes.efficient import efficient
from drawcord.routes.measure import measure
from drawcord.routes.netting import Netted
from drawcord.routes.route import Criteria
from drawcord.routes.weighing import score, weights
from sketch import LABOUR, model, shop

SPACES = (4, 5, 6, 7, 8)


@pytest.mark.parametrize("spaces", SPACES)
def test_efficient_set(spaces):
    """Nothing is missing from the efficient set, nothing in it is beaten, and the winner is the lightest of all."""
    fronts = 0
    for order, every in few(str(spaces)):
        netted = Netted(order)
        best = unbeaten(every)
        found = efficient(netted.net, weights(order.coach), (None,) * 6, 10**9, (0,) * 6)
        assert found.exact
        assert [path.vector for path in found.paths] == sorted(
            best, key=lambda v: (score(Criteria(*v), weights(order.coach)), v)
        )
        fronts += len(best) > 1
        answer = compare(order)
        assert bool(answer.candidates) == bool(best)
        assert (answer.unroutable is None) == bool(best)
        if best:
            winner, by = answer.candidates[0], weights(order.coach)
            # What is in sight may win only where the owner has agreed to it, or nothing else is open.
            hidden = [vector for vector in every if not Criteria(*vector).in_sight]
            agreed = "raceway in sight" in order.coach.job.owner.consents
            lightest = min(score(whole(netted, vector), by) for vector in (best if agreed or not hidden else hidden))
            rounding = by[Criteria._fields.index("seconds")] * len(winner.route.legs)  # a second a leg
            assert winner.score <= lightest + rounding
    assert fronts > 10, "too few coaches leave a choice"


@pytest.mark.parametrize("spaces", [5, 7])
def test_measured_as_graphed(spaces):
    """Pulled tight, a route is no longer than on the graph, nor more work if as long; what is counted stays."""
    seen = 0
    paces = {kind: f"{1 + 5 * number % 11} min" for number, kind in enumerate(sorted(LABOUR["metre"]))}
    slow_and_quick = replace(shop(), labour=model(Labour, {**LABOUR, "metre": paces}))
    for order in orders(spaces, slow_and_quick):
        netted = Netted(order)
        for path in efficient(netted.net, weights(order.coach), (None,) * 6, 10**9, (0,) * 6).paths:
            graphed, measured = whole(netted, path.vector), measure(order, netted.stations(path.states)).criteria
            assert measured.length <= graphed.length
            assert measured.in_sight <= graphed.in_sight
            least = graphed.seconds + len(path.states)  # each leg is rounded
            assert measured.seconds <= least or measured.length < graphed.length
            assert measured[2:4] == graphed[2:4]
            assert measured.doubt == graphed.doubt
            seen += 1
    assert seen > 20
