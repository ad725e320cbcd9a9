"""The efficient set: every route that no other equals or beats in all criteria."""

from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

import numpy as np

from drawcord.routes.least import least
from drawcord.routes.net import Net, Path, Vector
from drawcord.routes.packing import Packing
from drawcord.routes.reach import Reach
from drawcord.routes.steps import Steps


@dataclass(frozen=True)
class EfficientSet:
    """One path for each efficient vector, in order of weight, then vector.

    If `exact`, every path within the limits costs at least as much as one of these in all criteria, and
    `tolerance` is zero. Otherwise it costs at least as much as one of these less `tolerance`; that is
    None where the bound on labels was met before any path, and nothing is known.
    `labels`: how many partial paths were kept for extension.
    """

    paths: tuple[Path, ...]
    exact: bool
    tolerance: Vector | None
    labels: int


def efficient(
    net: Net,
    weights: Sequence[int],
    limits: Sequence[int | None],
    most_labels: int,
    tolerance: Vector,
    reach: Reach | None = None,
) -> EfficientSet:
    """The efficient set among the paths within `limits` (at most, for each criterion) and `reach`.

    Multi-criteria label setting, in order of weight: the first path is the lightest one, and what a
    bound on labels leaves out is heavy. A label is a partial path; its bound is the least that any
    completion costs, criterion by criterion. It is dropped if its bound passes a limit, if a path already
    found is nowhere above its bound, or if another label at its state is nowhere above its bound, nor
    its stretch out of reach, and has entered none but the same spaces: whatever completes the one then
    completes the other. Of paths with one vector the first in order of states is kept (with `reach`,
    the first of those with the shortest stretches). `twins` finds the others.

    `most_labels`: with this many labels made, and at each multiple, paths already found may be
    above a label's bound by `tolerance`, then by twice that, and so on, and still drop it; with a weight
    or two at stake this ends soon, since at last any path drops every label.
    """
    weight = net.weigh(weights)
    cost = np.column_stack([weight, net.cost])
    bounds = np.column_stack([least(net.tail, net.head, weight, len(net.space), net.goal), net.least])
    ideal = bounds[net.start]
    # A path has at most as many arcs as there are spaces.
    longest = (cost.max(axis=0, initial=0) * (max(net.space) + 1)).tolist()
    room = [most if at_most is None else min(most, at_most) for most, at_most in zip(longest, (None, *limits))]
    if (ideal > room).any():
        return EfficientSet((), exact=True, tolerance=(0,) * len(limits), labels=0)
    fields = Packing([3 * most for most in room] + [reach.longest if reach else 0])
    steps = Steps(net, cost, bounds, fields, np.array(room) - ideal)
    guard = fields.guard
    full = fields.pack(room) + (reach.longest if reach else 0) | guard
    stretch_mask = (1 << fields.width[-1]) - 1
    slack, granted, budget = 0, None, most_labels
    front: list[int] = []
    kept: list[list[tuple[int, int]]] = [[] for _ in net.space]

    def beaten(bound: int, state: int, seen: int) -> bool:
        fence = bound + slack | guard
        for vector in front:
            if fence - vector & guard == guard:
                return True
        fence = bound | guard
        for other, entered in kept[state]:
            if fence - other & guard == guard and not entered & ~seen:
                return True
        return False

    paths: list[Path] = []
    labels = 1
    heap = [(fields.pack(ideal.tolist()), (net.start,), 1 << net.space[net.start])]
    while heap:
        if labels > budget:
            if not front:
                return EfficientSet((), exact=False, tolerance=None, labels=labels)
            granted = tolerance if granted is None else tuple(max(2 * most, 1) for most in granted)
            slack = fields.pack(
                [min(s, r) for s, r in zip((sum(w * g for w, g in zip(weights, granted)), *granted), room)]
            )
            budget += most_labels
        bound, states, seen = heappop(heap)
        state = states[-1]
        if beaten(bound, state, seen):
            continue
        if state == net.goal:
            front.append(bound - (bound & stretch_mask))
            paths.append(Path(fields.unpack(bound)[1:-1], states))
            continue
        kept[state].append((bound, seen))
        for head, bit, added in steps.out(state):
            if seen & bit:
                continue
            if reach:
                stretch = bound & stretch_mask
                after = reach.after(state, head, stretch)
                if after is None:
                    continue
                added += after - stretch
            further = bound + added
            if full - further & guard == guard and not beaten(further, head, seen | bit):
                labels += 1
                heappush(heap, (further, (*states, head), seen | bit))
    return EfficientSet(tuple(paths), granted is None, granted or (0,) * len(limits), labels)
