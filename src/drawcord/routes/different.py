"""The lightest routes under a weighting, each different from the others."""

from collections.abc import Sequence, Set
from heapq import heappop, heappush

import numpy as np

from drawcord.routes.least import FAR, least_in_order
from drawcord.routes.net import Found, Net, Path
from drawcord.routes.packing import Packing
from drawcord.routes.steps import Steps


class Guide:
    """Steps under a weighting; equal weights go by the smaller vector."""

    def __init__(self, net: Net, weights: Sequence[int]) -> None:
        cost = np.column_stack([net.weigh(weights), net.cost])
        bounds = least_in_order(net.tail, net.head, cost, len(net.space), net.goal)
        # The ways behind the bounds may enter a space twice, but no state.
        most = (cost.max(axis=0, initial=0) * len(net.space)).tolist()
        fields = Packing([4 * m for m in most])
        self.out = Steps(net, cost, bounds, fields).out
        self.bound = fields.pack(bounds[net.start].tolist())
        self.open = bounds[net.start, 0] < FAR
        self.vector = lambda bound: fields.unpack(bound)[1:]
        self._exits = [0] * (max(net.space) + 1)
        space = np.array(net.space)
        n = max(net.space) + 1
        self._goal = 1 << n
        pairs = np.unique(space[net.tail] * (n + 2) + space[net.head] + 1)
        for p in pairs.tolist():
            a, b = divmod(p, n + 2)
            self._exits[a] |= 1 << b - 1 if b else self._goal

    def leads_on(self, space: int, closed: int) -> bool:
        """Whether the goal can be reached from `space` without entering any `closed` one."""
        exits, goal = self._exits, self._goal
        free = ~closed
        front = found = exits[space] & free
        while front and not found & goal:
            lowest = front & -front
            new = exits[lowest.bit_length() - 1] & free & ~found
            found |= new
            front = front ^ lowest | new
        return bool(found & goal)


def lightest(net, weights):
    found = orders(net, weights, 1, 1 << 60)
    return found.paths[0] if found.paths else None


def different(net: Net, weights: Sequence[int], marked: Set[int], count: int, most_labels: int) -> Found:
    guide = Guide(net, weights)
    marks = sum(1 << space for space in marked)
    heap = [(guide.bound, (net.start,), 1 << net.space[net.start], False)] if guide.open else []
    kept: list[list[int]] = [[] for _ in net.space]
    descents: list[int] = []
    paths: list[Path] = []
    labels = 1
    while heap and len(paths) < count:
        if labels > most_labels: return Found(tuple(paths), False)
        bound, states, seen, aside = heappop(heap)
        state = states[-1]
        if any(descent & ~seen == 0 for descent in descents):
            continue
        if state == net.goal:
            descents.append(seen & marks)
            paths.append(Path(guide.vector(bound), states))
            continue
        if any(entered & ~seen == 0 for entered in kept[state]):
            continue
        kept[state].append(seen)
        if aside:
            closed = seen
            for descent in descents:
                rest = descent & ~seen
                if rest & rest - 1 == 0:
                    closed |= rest
            if not guide.leads_on(net.space[state], closed):
                continue
        for head, bit, added in guide.out(state):
            if not seen & bit:
                labels += 1
                heappush(heap, (bound + added, (*states, head), seen | bit, added > 0))
    return Found(tuple(paths), True)


def orders(net: Net, weights: Sequence[int], count: int, most_labels: int) -> Found:
    guide = Guide(net, weights)
    heap = []
    if guide.open:
        heap = [(guide.bound, (net.space[net.start],), 1 << net.space[net.start], [(guide.bound, (net.start,))], False)]
    paths: list[Path] = []
    labels = 1
    while heap and len(paths) < count:
        if labels > most_labels: return Found(tuple(paths), False)
        least, order, seen, front, aside = heappop(heap)
        if order[-1] < 0:
            bound, states = front[0]
            paths.append(Path(guide.vector(bound), states))
            continue
        if aside and not guide.leads_on(order[-1], seen):
            continue
        entries: dict[int, dict[int, tuple[int, tuple[int, ...]]]] = {}
        for bound, states in front:
            for head, bit, added in guide.out(states[-1]):
                if seen & bit:
                    continue
                known = entries.setdefault(bit, {})
                further = bound + added
                if head not in known or (further, (*states, head)) < known[head]:
                    known[head] = (further, (*states, head))
        for bit, known in entries.items():
            labels += 1
            fr = sorted(known.values())
            heappush(heap, (fr[0][0], (*order, net.space[fr[0][1][-1]]), seen | bit, fr, fr[0][0] > least))
    return Found(tuple(paths), True)
