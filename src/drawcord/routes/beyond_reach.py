"""What to bring where every way needs a joint that no hand reaches."""

from collections.abc import Sequence

from drawcord.routes.allowance import place_joints
from drawcord.routes.order import Order
from drawcord.routes.route import NoRoute, Route
from drawcord.words.units import tape_length


def no_joint(order: Order, routes: Sequence[Route]) -> NoRoute:
    """Every way needs a joint where no hand reaches; the shortest piece with which one of these would do."""
    legs = [route.legs for route in routes]
    low, high = order.cable.longest_piece, max(route.cut_length[2] for route in routes)
    while high - low > 1:
        middle = (low + high) // 2
        if any(all(joint.reachable for joint in place_joints(order.coach, way, middle)) for way in legs):
            high = middle
        else:
            low = middle
    units = order.coach.units
    sentence = (
        f"every way from {order.cable.start} to {order.cable.end} that was found needs a joint where no hand reaches, "
        f"with pieces of {tape_length(low, units)}"
    )
    return NoRoute((sentence,), (f"bring a piece of {tape_length(high, units)}, or add a way to reach in",), sentence)
