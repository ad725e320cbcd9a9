"""The efficient set: every route that no other equals or beats in all criteria."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from drawcord.routes.bounded import bounded
from drawcord.routes.net import Net, Path, States, Vector
from drawcord.routes.reach import Reach


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
    Of several paths with one vector the first in order of states is kept; `twins` finds the others.

    When `most_labels` labels have been made, a found path may from then on drop a label although it is above
    the label's bound by `tolerance`; after as many again by twice that, or at least a 256th of the limit or of
    what no path can cost more than; and so on, so that ten times as many are about the most.
    Raises ValueError on negative or absurd weights.
    """
    known = bounded(net, weights)
    fields, guard, out = known.fields, known.fields.guard, known.steps.out
    room = list(known.most)
    room[1:] = [most if limit is None else min(most, limit) for most, limit in zip(room[1:], limits, strict=True)]
    if any(least > most for least, most in zip(known.ideal, room, strict=True)):
        return EfficientSet((), exact=True, tolerance=(0,) * len(limits), labels=0)

    largest = fields.pack(room) | guard

    front: list[int] = []
    paths: list[Path] = []
    kept: defaultdict[int, list[tuple[int, int, int]]] = defaultdict(list)
    granted: Vector | None = None
    slack, budget = 0, most_labels

    def dropped(bound: int, state: int, seen: int, stretch: int) -> bool:
        fence = bound + slack | guard
        for place, vector in enumerate(front):
            if fence - vector & guard == guard:
                if place:  # what beats one label is likely to beat the next
                    front.insert(0, front.pop(place))
                return True
        fence = bound | guard
        for other, entered, before in kept[state]:
            if fence - other & guard == guard and not entered & ~seen and before <= stretch:
                return True
        return False

    labels = 1
    start = fields.pack(known.ideal), (net.start,), 1 << net.space[net.start], 0
    heap: list[tuple[int, States, int, int]] = [start]
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
        bound, states, seen, stretch = heappop(heap)
        state = states[-1]
        if dropped(bound, state, seen, stretch):
            continue
        if state == net.goal:
            paths.append(Path(fields.unpack(bound)[1:], states))
            front.append(bound)
            continue
        kept[state].append((bound, seen, stretch))
        for head, bit, added in out(state):
            further, rest = bound + added, 0
            if seen & bit or largest - further & guard != guard or dropped(further, head, seen | bit, 0):
                continue
            if reach:  # asked last, since a stretch takes long to work out and drops few
                onward = reach.after(state, head, stretch)
                if onward is None or dropped(further, head, seen | bit, onward):
                    continue
                rest = onward
            labels += 1
            heappush(heap, (further, (*states, head), seen | bit, rest))
    return EfficientSet(tuple(paths), granted is None, granted or (0,) * len(limits), labels)
