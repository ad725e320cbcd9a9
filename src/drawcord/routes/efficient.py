"""The efficient set: every route that no other equals or beats in all criteria."""

from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

import numpy as np

from drawcord.routes.least import least
from drawcord.routes.net import Net, Path, States, Vector
from drawcord.routes.packing import Packing
from drawcord.routes.reach import Reach
from drawcord.routes.steps import Steps


@dataclass(frozen=True)
class EfficientSet:
    """One path for each efficient vector, in order of weight, then vector.

    `exact`: each path within the limits costs in no criterion less than some path of the set.
    `tolerance`: otherwise it does so by no more than this; None if the bound on labels was met before the
    first path, so that nothing is known. All zero where exact.
    `labels`: how many partial paths were made.
    """

    paths: tuple[Path, ...]
    exact: bool
    tolerance: Vector | None
    labels: int

    @property
    def complete(self) -> bool:
        """As of other searches: whether nothing cut it short."""
        return self.exact


def efficient(
    net: Net,
    weights: Sequence[int],
    limits: Sequence[int | None],
    most_labels: int,
    tolerance: Vector,
    reach: Reach | None = None,
) -> EfficientSet:
    """The efficient set among the paths within `limits` (at most this, in each criterion) and `reach`.

    Multi-criteria label setting in order of weight, so that the lightest path comes first and a bound on
    labels costs heavy ones. A label is a partial path; its bound is the least that its completions cost in
    each criterion. A label is dropped if its bound passes a limit; if a path already found is nowhere above
    its bound; or if another label at its state is nowhere above its bound, nor its stretch out of reach,
    and has entered none but the same spaces, since whatever completes the one then completes the other.
    Of several paths with one vector the first in order of states is kept (with `reach` just one of them);
    `twins` finds the others.

    When `most_labels` labels have been made, a found path may from then on drop a label although it is above
    the label's bound by `tolerance`; after as many again by twice that, or at least a 256th of the limit or of
    what no path can cost more than; and so on, so that ten times as many are about the most.
    Raises ValueError on negative or absurd weights.
    """
    weight = net.weigh(weights)
    cost = np.column_stack([weight, net.cost])
    bounds = np.column_stack([least(net.tail, net.head, weight, len(net.space), net.goal), net.least])
    ideal = bounds[net.start]
    room = (cost.max(axis=0, initial=0) * net.spaces).tolist()  # what no path is above
    room[1:] = [most if limit is None else min(most, limit) for most, limit in zip(room[1:], limits, strict=True)]
    if (ideal > room).any():
        return EfficientSet((), exact=True, tolerance=(0,) * len(limits), labels=0)

    # The fields: weight, criteria, with room for the tolerance on top; stretch out of reach.
    longest = reach.longest if reach else 0
    fields = Packing([*(2 * most for most in room), longest])
    guard, stretches = fields.guard, (1 << fields.width[-1]) - 1
    largest = fields.pack([*room, longest]) | guard
    out = Steps.within(net, cost, bounds, fields, np.array(room) - ideal).out

    front: list[int] = []
    paths: list[Path] = []
    kept: list[list[tuple[int, int]]] = [[] for _ in net.space]
    granted: Vector | None = None
    slack, budget = 0, most_labels

    def dropped(bound: int, state: int, seen: int) -> bool:
        if largest - bound & guard != guard:
            return True
        fence = bound + slack | guard
        for place, vector in enumerate(front):
            if fence - vector & guard == guard:
                if place:  # what beats one label is likely to beat the next
                    front.insert(0, front.pop(place))
                return True
        fence = bound | guard
        for other, entered in kept[state]:  # noqa: SIM110 - a generator makes it all a tenth slower
            if fence - other & guard == guard and not entered & ~seen:
                return True
        return False

    labels = 1
    heap: list[tuple[int, States, int]] = [(fields.pack(ideal.tolist()), (net.start,), 1 << net.space[net.start])]
    while heap:
        if labels > budget:
            if not front:
                return EfficientSet((), exact=False, tolerance=None, labels=labels)
            budget += most_labels
            if granted is not None:
                tolerance = tuple(max(2 * t, -(-most // 256)) for t, most in zip(tolerance, room[1:], strict=True))
            granted = tolerance
            # None in weight: what is found is lighter than what is left.
            slack = fields.pack([0, *(min(t, most) for t, most in zip(tolerance, room[1:], strict=True))])
        bound, states, seen = heappop(heap)
        state = states[-1]
        if dropped(bound, state, seen):
            continue
        if state == net.goal:
            paths.append(Path(fields.unpack(bound)[1:-1], states))
            front.append(bound & ~stretches)
            continue
        kept[state].append((bound, seen))
        for head, bit, added in out(state):
            if seen & bit:
                continue
            further = bound + added & ~stretches
            if dropped(further, head, seen | bit):
                continue
            if reach:  # asked last, since a stretch takes long to work out and drops few
                stretch = reach.after(state, head, bound & stretches)
                if stretch is None or dropped(further | stretch, head, seen | bit):
                    continue
                further |= stretch
            labels += 1
            heappush(heap, (further, (*states, head), seen | bit))
    return EfficientSet(tuple(paths), granted is None, granted or (0,) * len(limits), labels)
