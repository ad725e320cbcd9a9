"""The lightest routes of a cable that differ in how they come down, and the lightest that shows nothing of itself."""

from drawcord.routes.different import different
from drawcord.routes.net import Found, Path
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.purse import Limits
from drawcord.routes.reach import Reach
from drawcord.routes.route import Criteria

BELOW = ("roof", "bay", "underfloor")  # spaces that are no part of a descent indoors
IN_SIGHT = Criteria._fields.index("in_sight")


def descents(order: Order, netted: Netted, by: tuple[int, ...], limits: Limits, reach: Reach | None = None) -> Found:
    """The lightest routes that differ in the spaces above the floor that they descend through.

    The terminals' own spaces make no difference. Where the lightest route needs no descent at all, all
    spaces between its ends stand in for those above the floor.
    """
    spaces, terminals, preferences = order.coach.spaces, order.coach.terminals, order.coach.shop.preferences
    ends = {terminals[end].space for end in (order.cable.start, order.cable.end)}
    inner = {number for number, name in enumerate(netted.spaces) if name not in ends}
    above = {number for number in inner if spaces[netted.spaces[number]].kind not in BELOW}
    for marked in (above, inner):
        found = different(netted.net, by, marked, preferences.descents, preferences.most_labels, limits, reach)
        if not found.paths or above.intersection(netted.net.order(found.paths[0].states)):
            break
    return found


def out_of_sight(
    order: Order, netted: Netted, by: tuple[int, ...], limits: Limits, lightest: Path, reach: Reach | None = None
) -> Found:
    """The lightest route that shows nothing of itself, which may win whatever the owner agrees to."""
    if not lightest.vector[IN_SIGHT]:
        return Found((lightest,), complete=True)
    net = netted.net
    hidden = net.once("unseen", lambda: net.only(net.cost[:, IN_SIGHT] == 0))
    return different(hidden, by, frozenset(), 1, order.coach.shop.preferences.most_labels, limits, reach)
