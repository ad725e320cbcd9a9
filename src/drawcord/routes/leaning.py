"""What an answer leans on: the spaces and passages that have to stay as they are for it to stay as it is."""

from collections.abc import Iterable, Sequence

import numpy as np

from drawcord.routes.least import least
from drawcord.routes.net import Net, Path, States
from drawcord.routes.netting import Netted


def leaned_on(netted: Netted, walks: Iterable[States]) -> frozenset[str]:
    """The ids of all spaces and passages of these walks through the net."""
    mouths = [netted.mouths[state] for state in {state for walk in walks for state in walk}]
    return frozenset(name for mouth in mouths for name in (mouth.space, mouth.passage) if name)


def ideal(net: Net, criterion: int, paths: Sequence[Path]) -> int:
    """The least that a way costs in a criterion. Nothing has to be worked out where one of the `paths` shows it."""
    bound = int(net.bounds[net.start, criterion])
    return bound if _showing(criterion, bound, paths) else int(net.least(criterion)[net.start])


def ideal_walk(net: Net, criterion: int, paths: Sequence[Path]) -> States:
    """A way that costs the least there is in a criterion: while it stands, so does the least.

    The first of the `paths` that does, else a walk with fewest arcs.
    """
    if shown := _showing(criterion, ideal(net, criterion, paths), paths):
        return shown.states
    onward, cost = net.least(criterion), net.cost[:, criterion]
    best = np.flatnonzero(cost + onward[net.head] == onward[net.tail])
    tail, head = net.tail[best], net.head[best]
    left = least(tail, head, np.ones_like(tail), len(net.space), net.goal)
    walk = [net.start]
    while walk[-1] != net.goal:
        following = head[tail == walk[-1]]
        walk.append(int(following[left[following].argmin()]))
    return tuple(walk)


def _showing(criterion: int, cost: int, paths: Sequence[Path]) -> Path | None:
    return next((path for path in paths if path.vector[criterion] == cost), None)
