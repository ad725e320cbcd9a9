"""A net without the routes that run through a stretch: states remember how much of the stretch lies behind them.

So a refused stretch is gone for every search, bound and program alike; nothing has to be checked afterwards.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from drawcord.plan.problem import Commodity


def without(commodity: Commodity, stretch: Sequence[int]) -> Commodity:
    """The same cable without routes that take these steps one after the other. No step may occur in it twice.

    A state behind the first q steps of the stretch is one of its own, layer q; from there the next step leads on to
    layer q + 1, the last one nowhere, the first one to layer 1, and any other back to where nothing is remembered.
    """
    net, step = commodity.net, commodity.step
    number: dict[tuple[int, int], int] = {(state, 0): state for state in range(len(net.space))}
    origin = commodity.origin.tolist()
    for layer, one in enumerate(stretch[:-1], start=1):
        for state in np.unique(net.head[step == one]).tolist():
            number[state, layer] = len(origin)
            origin.append(origin[state])
    arcs, tails, heads = [], [], []
    first = np.searchsorted(net.tail, np.arange(len(net.space) + 1)).tolist()
    for (state, layer), tail in number.items():
        for arc in range(first[state], first[state + 1]):
            done = int(step[arc])
            onward = layer + 1 if done == stretch[layer] else int(done == stretch[0])
            if onward < len(stretch):
                arcs.append(arc)
                tails.append(tail)
                heads.append(number[int(net.head[arc]), onward])
    order = np.lexsort((heads, tails))
    again = np.array(arcs)[order]
    uses = [np.arange(commodity.first[arc], commodity.first[arc + 1]) for arc in again.tolist()]
    counts = np.array([len(some) for some in uses], np.int64)
    pairs = np.concatenate(uses) if uses else np.zeros(0, np.int64)
    return replace(
        commodity,
        net=replace(
            net,
            space=tuple(net.space[state] for state, _ in number),
            tail=np.array(tails)[order],
            head=np.array(heads)[order],
            cost=net.cost[again],
        ),
        arc=np.repeat(np.arange(len(again)), counts),
        thing=commodity.thing[pairs],
        step=step[again],
        sight=commodity.sight[again],
        spent=commodity.spent[again],
        origin=np.array(origin),
    )

