"""The lightest routes that differ in their order of spaces."""

from collections.abc import Sequence
from heapq import heappop, heappush

from drawcord.routes.ahead import leads_on
from drawcord.routes.guide import Guide, guides
from drawcord.routes.net import Found, Net, Path, States

Entries = list[tuple[int, States]]


def lightest_orders(net: Net, weights: Sequence[int], count: int, most_labels: int) -> Found:
    """The first `count` orders of spaces in order of weight, then vector, then states of their best path.

    Best first over the orders of spaces, each with the best way to every entry of its last space, so that
    no order is met twice. `most_labels` bounds the partial orders made.
    """
    for guide in guides(net, weights):
        found = _known_to(net, count, most_labels, guide)
        if len(found.paths) == count or not found.complete:
            break
    return found


def _known_to(net: Net, count: int, most_labels: int, guide: Guide) -> Found:
    paths: list[Path] = []
    heap: list[tuple[Entries, int, bool]] = []
    if guide.bound is not None:
        heap = [([(guide.bound, (net.start,))], 1 << net.space[net.start], False)]
    labels = len(heap)
    while heap and len(paths) < count:
        if labels > most_labels:
            return Found(tuple(paths), complete=False)
        entries, seen, astray = heappop(heap)
        least, first = entries[0]
        if least >= guide.beyond:
            break
        if first[-1] == net.goal:
            paths.append(Path(guide.vector(least), first))
            continue
        if astray and not leads_on(net.exits, net.space[first[-1]], seen, ()):
            continue
        further: dict[int, dict[int, tuple[int, States]]] = {}
        for bound, states in entries:
            for head, bit, added in guide.steps.out(states[-1]):
                if not seen & bit:
                    best = further.setdefault(bit, {})
                    entry = bound + added, (*states, head)
                    if head not in best or entry < best[head]:
                        best[head] = entry
        labels += len(further)
        for bit, best in further.items():
            entries = sorted(best.values())
            heappush(heap, (entries, seen | bit, entries[0][0] > least))
    return Found(tuple(paths), complete=True)
