"""What an answer leans on: the spaces and passages that have to stay as they are for it to stay as it is."""

from collections.abc import Iterable

import numpy as np

from drawcord.routes.least import FAR
from drawcord.routes.net import Net, States
from drawcord.routes.netting import Netted


def leaned_on(netted: Netted, paths: Iterable[States]) -> frozenset[str]:
    """The ids of all spaces and passages of these walks through the net."""
    states = {state for walk in paths for state in walk}
    mouths = [netted.mouths[state] for state in states]
    return frozenset(name for mouth in mouths for name in (mouth.space, mouth.passage) if name)


def ideal_walks(net: Net) -> list[States]:
    """For each criterion a walk that costs the least there is from the start: while it stands, so does the least.

    Arcs that follow a best way, depth first, since they may well go round in circles at no cost.
    """
    walks = []
    for column in range(net.cost.shape[1]):
        least, cost = net.least[:, column], net.cost[:, column]
        came: dict[int, int] = {net.start: -1}
        stack = [net.start] if least[net.start] < FAR else []
        while stack and net.goal not in came:
            state = stack.pop()
            arcs = net.out_of.at(np.array([state]))
            for head in net.head[arcs[cost[arcs] + least[net.head[arcs]] == least[state]]].tolist():
                if head not in came:
                    came[head] = state
                    stack.append(head)
        walk = [net.goal] if net.goal in came else []
        while walk and walk[-1] != net.start:
            walk.append(came[walk[-1]])
        walks.append(tuple(walk[::-1]))
    return walks
