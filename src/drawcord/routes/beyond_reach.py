"""What to bring where every way needs a joint that no hand reaches again."""

from collections.abc import Callable, Sequence

from drawcord.routes.allowance import place_joints
from drawcord.routes.devices import cut_places
from drawcord.routes.order import Order
from drawcord.routes.route import NoRoute, Route
from drawcord.words.units import tape_length


def no_joint(order: Order, beyond: Sequence[Route], with_pieces: Callable[[int], Sequence[Route]]) -> NoRoute:
    """Every way needs a joint where no hand reaches; the shortest longest piece with which a way would do.

    `beyond` are such ways, `with_pieces` what a comparison would choose from if the longest piece were so long [mm].
    """

    def serves(longest: int) -> bool:
        routes = [(route.legs, cut_places(order.coach, order.name, route.legs)) for route in with_pieces(longest)]
        return any(all(joint.reachable for joint in place_joints(order.coach, *one, longest)) for one in routes)

    short = order.cable.longest_piece
    least = _least(short, max(route.cut_length[2] for route in beyond), serves)
    units, spaces = order.coach.units, order.coach.spaces
    where = {joint.space for route in beyond for joint in route.joints if not joint.reachable}
    hidden = sorted(name for name in where if spaces[name].hidden)
    places = ["where no hand reaches"] if where - {*hidden} else []
    places += [f"hidden in {' or '.join(hidden)}"] if hidden else []
    sentence = (
        f"every way from {order.cable.start} to {order.cable.end} that was found needs a joint {' or '.join(places)}, "
        f"with pieces of {tape_length(short, units)}"
    )
    # Where all that lies out of reach is hidden, or on the roof, another way in would be no help.
    ends = [(route, *route.out_of_reach) for route in beyond]
    without = {name for route, first, last in ends for name in route.spaces[first : last + 1]}
    helps = any(not spaces[name].hidden and spaces[name].kind != "roof" for name in without)
    more = ", or add a way to reach in" * helps
    return NoRoute((sentence,), (f"bring a piece of {tape_length(least, units)}{more}",), sentence)


def _least(low: int, high: int, serves: Callable[[int], bool]) -> int:
    """The least length [mm] that serves, where `low` does not and `high` does, as does all that is longer."""
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if serves(middle) else (middle, high)
    return high
