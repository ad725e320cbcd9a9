"""What an answer leans on: the spaces and passages that have to stay as they are for it to stay as it is."""

from collections.abc import Collection, Iterable, Sequence

import numpy as np

from drawcord.routes.least import least
from drawcord.routes.net import Net, Path, States
from drawcord.routes.netting import Netted


def leaned_on(netted: Netted, walks: Iterable[States]) -> frozenset[str]:
    """The ids of all spaces and passages of these walks through the net."""
    mouths = [netted.mouths[state] for state in {state for walk in walks for state in walk}]
    return frozenset(name for mouth in mouths for name in (mouth.space, mouth.passage) if name)


def ideal_walks(net: Net, columns: Sequence[int], paths: Collection[Path]) -> list[States]:
    """For each of these criteria a walk that costs the least there is: while it stands, so does the least.

    None where one of the `paths` does, which have been leaned on already. Else one with fewest arcs.
    """
    walks = []
    for column in columns:
        ideal, cost = net.least[:, column], net.cost[:, column]
        if any(path.vector[column] == ideal[net.start] for path in paths):
            continue
        best = np.flatnonzero(cost + ideal[net.head] == ideal[net.tail])
        tail, head = net.tail[best], net.head[best]
        left = least(tail, head, np.ones_like(tail), len(net.space), net.goal)
        walk = [net.start]
        while walk[-1] != net.goal:
            onward = head[tail == walk[-1]]
            walk.append(int(onward[left[onward].argmin()]))
        walks.append(tuple(walk))
    return walks
