"""All routes that no other equals or beats in every criterion."""

from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

import numpy as np

from drawcord.routes.least import FAR
from drawcord.routes.net import Net, Path, Vector
from drawcord.routes.packing import Packing


@dataclass(frozen=True)
class EfficientSet:
    paths: tuple[Path, ...]
    exact: bool
    tolerance: Vector | None
    labels: int


def efficient(net, weights, limits, most_labels, tolerance, reach=None):
    criteria = net.cost.shape[1]
    cost = np.column_stack([net.cost @ np.asarray(weights, np.int64), net.cost])
    least = np.column_stack([net.least_of(cost[:, 0]), net.least])
    ideal = least[net.start]
    caps = (cost.max(axis=0, initial=0) * net.spaces).tolist()
    room = [c if limit is None else min(c, limit) for c, limit in zip(caps, [None, *limits], strict=True)]
    if (ideal > room).any():
        return EfficientSet((), True, (0,) * criteria, 0)
    # What an arc adds to the bound of a path: never negative.
    step = cost + least[net.head] - least[net.tail]
    kept = (step <= np.array(room) - ideal).all(axis=1)
    first = np.searchsorted(net.tail[kept], np.arange(len(net.space) + 1)).tolist()
    heads, step = net.head[kept].tolist(), step[kept]

    revisit = net.revisit if reach is None else (1 << net.spaces) - 1
    mark = {}
    for s in range(net.spaces):
        if revisit >> s & 1:
            mark[s] = len(mark)
    fields = Packing([2 * most for most in room] + [reach.most if reach else 0] + [1] * len(mark))
    guard = fields.guard
    nocrit = fields.shift[criteria]  # lowest criterion field shift
    full = fields.pack([*room, reach.most if reach else 0] + [1] * len(mark)) | guard
    pad = [0] * (1 + len(mark))
    shifts = fields.shift[: criteria + 1]
    bit_of = {s: 1 << fields.shift[criteria + 2 + i] for s, i in mark.items()}
    slack = 0
    space = net.space
    goal = net.goal
    arcs: list = [None] * len(space)
    settled = [[] for _ in space]
    settled[goal] = front = []
    paths = []
    start = fields.pack([*ideal.tolist(), *pad]) + bit_of.get(space[net.start], 0)
    heap = [(start, (net.start,), 1 << space[net.start])]
    labels = 1
    stats = [0, 0, 0]
    while heap:
        bound, path, seen = heappop(heap)
        stats[0] += 1
        state = path[-1]
        fence = bound + slack | guard
        if any_below(front, fence, guard): continue
        if state == goal:
            front.insert(0, bound >> nocrit << nocrit)
            paths.append(path)
            continue
        fence = bound | guard
        here = settled[state]
        for v in here:
            if fence - v & guard == guard:
                break
        else:
            here.append(bound)
            out = arcs[state]
            if out is None:
                a, b = first[state], first[state + 1]
                out = arcs[state] = [
                    (h, 1 << space[h] if h != goal else 0, sum(map(lshift, row, shifts)) + bit_of.get(space[h], 0))
                    for h, row in zip(heads[a:b], step[a:b].tolist())
                ]
            for head, bit, add in out:
                if seen & bit:
                    continue
                f = bound + add
                if full - f & guard != guard:
                    continue
                F = f + slack | guard
                for v in front:
                    if F - v & guard == guard:
                        break
                else:
                    F = f | guard
                    for v in settled[head]:
                        if F - v & guard == guard:
                            break
                    else:
                        labels += 1
                        heappush(heap, (f, (*path, head), seen | bit))
    return EfficientSet(tuple(paths), True, (0,) * criteria, (labels, stats))

from operator import lshift
def any_below(front, F, guard):
    for v in front:
        if F - v & guard == guard:
            return True
    return False
