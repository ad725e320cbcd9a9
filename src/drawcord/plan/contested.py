"""Spaces and openings that not all cables of a job may use, and the alternatives of each with ways around them.

Cables that may not share a hole get holes beside each other: of such passages only those count that are crossed at one
place alone. So a choice of alternatives that keeps to these bans can be made a plan by shifting holes.
"""

from collections import Counter
from collections.abc import Callable, Sequence

from drawcord.plan.alternatives import Alternatives
from drawcord.plan.meeting import Meeting
from drawcord.routes.order import Order

Ban = tuple[str, tuple[str, ...]]  # the id of a space or passage, and cables that may not all use it
Ways = Callable[[Order, frozenset[str]], Alternatives]


def bans_of(orders: Sequence[Order]) -> list[Ban]:
    """The smallest sets of these cables that may not all use a space or opening."""
    coach, ways, names = orders[0].coach, orders[0].ways, [order.name for order in orders]
    meeting = Meeting(coach, [order.cable for order in orders], names)
    found = {space.id: meeting.bans_along(space) for space in coach.spaces.values()}
    places = Counter(station.passage for station in ways.stations.values())
    for station in ways.stations.values():
        passage = ways.passages[station.passage]
        sized = passage.opening == "exists" and passage.size
        if sized or places[passage.id] == 1:
            found[passage.id] = meeting.bans_crossing(passage, passage.size if sized else station.largest)
    return [(thing, tuple(names[n] for n in group)) for thing, groups in sorted(found.items()) for group in groups]


def around(orders: Sequence[Order], bans: Sequence[Ban], ways: Ways) -> tuple[list[Alternatives], list[Ban]]:
    """The alternatives of each cable, with ways around what it may not use beside others; and the bans that matter.

    A ban matters once all its cables have an alternative through that space or passage. They are looked for again, by
    `ways`, with these marked as contested, until no other ban matters: then, whatever turns out clear, the lightest
    choice that keeps to all bans is one of these alternatives for each cable.
    """
    contested: dict[str, frozenset[str]] = {order.name: frozenset() for order in orders}
    found = {order.name: ways(order, contested[order.name]) for order in orders}
    while True:
        through = {name: frozenset().union(*(one.through for one in some.routes)) for name, some in found.items()}
        matter = [(thing, names) for thing, names in bans if all(thing in through[name] for name in names)]
        wider = {
            name: some | {thing for thing, names in matter if name in names} for name, some in contested.items()
        }
        changed = [order for order in orders if wider[order.name] != contested[order.name]]
        if not changed:
            return list(found.values()), matter
        contested = wider
        found |= {order.name: ways(order, contested[order.name]) for order in changed}


def apart(cables: Sequence[Alternatives], bans: Sequence[Ban] = ()) -> list[list[Alternatives]]:
    """The cables in groups that share no unproven place and no ban, each in order; the groups by their first cable."""
    groups: list[tuple[set[tuple[int, str]], list[Alternatives]]] = []
    for cable in cables:
        met = {(-1, name) for route in cable.routes for name, _ in route.meets}
        met |= {(number, thing) for number, (thing, names) in enumerate(bans) if cable.cable in names}
        touching = [group for group in groups if group[0] & met]
        groups = [group for group in groups if not group[0] & met]
        members = [one for _, each in touching for one in each]
        groups.append((met.union(*(group[0] for group in touching)), [*members, cable]))
    ordered = [sorted(members, key=lambda one: one.cable) for _, members in groups]
    return sorted(ordered, key=lambda members: members[0].cable)


def within(bans: Sequence[Ban], group: Sequence[Alternatives]) -> list[Ban]:
    """The bans among the cables of one group."""
    names = {one.cable for one in group}
    return [(thing, some) for thing, some in bans if names.issuperset(some)]
