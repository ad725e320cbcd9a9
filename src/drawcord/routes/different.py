"""The lightest routes that differ in a set of marked spaces, such as those of their descent indoors."""

import sys
from collections import defaultdict
from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from heapq import heappop, heappush

from drawcord.routes.ahead import leads_on
from drawcord.routes.guide import Guide, guides
from drawcord.routes.net import Found, Net, Path, States
from drawcord.routes.purse import Limits, Purse
from drawcord.routes.reach import Reach

Labels = Iterator[tuple[int, States, int, int, bool]]  # bound, states, spaces entered, spent, whether off the best way


def lightest(net: Net, weights: Sequence[int]) -> Path | None:
    """The path first in order of weight, then vector, then states; None if there is none."""
    found = different(net, weights, frozenset(), 1, sys.maxsize).paths
    return found[0] if found else None


def different(
    net: Net,
    weights: Sequence[int],
    marked: AbstractSet[int],
    count: int,
    most_labels: int,
    limits: Limits = (),
    reach: Reach | None = None,
) -> Found:
    """Up to `count` paths in order of weight, vector, states: none uses all the marked spaces of another.

    More exactly, going through all paths within the limits and `reach` in that order, one is kept if its set of
    `marked` spaces contains the set of no path kept before. Best first over partial paths. One is dropped if its
    set contains the set of a kept path, or if another at its state comes before it, has entered none but the same
    spaces, spent no more of what has a limit and runs no further out of reach: whatever completes the one then
    completes the other, with no space more. `most_labels` bounds the partial paths made.
    """
    marks = sum(1 << space for space in marked)

    def beside(kept: list[int], net: Net, count: int) -> Found:
        """The same, after paths with these sets."""
        purse = Purse(net, limits, reach)
        if purse.first is None:
            return Found((), complete=True)
        for guide in guides(net, weights):
            found = _known_to(net, marks, kept, purse, purse.first, count, most_labels, guide)
            if guide.whole or len(found.paths) == count or not found.complete:
                break
            sets = [sum(net.bits[state] for state in path.states) & marks for path in found.paths]
            if 0 in sets:
                break
            # What is further off keeps out of a space that is a set by itself: without it the bounds are close.
            if alone := sum(one for one in sets if not one & one - 1):
                others = beside(kept + sets, net.closed(alone), count - len(sets))
                return Found(found.paths + others.paths, others.complete)
        return found

    return beside([], net, count)


def _known_to(
    net: Net, marks: int, kept: list[int], purse: Purse, spent: int, count: int, most_labels: int, guide: Guide
) -> Found:
    entered: defaultdict[int, list[tuple[int, int]]] = defaultdict(list)
    descents = list(kept)
    paths: list[Path] = []
    leads: dict[tuple[int, int], bool] = {}
    heap: list[tuple[int, States, int, int, bool, Labels]] = []
    labels = 0

    def refused(state: int, seen: int, spent: int) -> bool:
        for descent in descents:
            if not descent & ~seen:
                return True
        for other, less in entered[state]:  # noqa: SIM110 - a generator takes three times as long
            if not other & ~seen and purse.nowhere_above(less, spent):
                return True
        return False

    def onward(bound: int, states: States, seen: int, spent: int) -> Labels:
        state = states[-1]
        for head, bit, added in guide.steps.out(state):
            if seen & bit:
                continue
            further = purse.after(state, head, spent)
            if further is not None and not refused(head, seen | bit, further):
                yield bound + added, (*states, head), seen | bit, further, added > 0

    def push(siblings: Labels) -> None:
        # One at a time, since most of those behind never get their turn.
        nonlocal labels
        for label in siblings:
            labels += 1
            heappush(heap, (*label, siblings))
            return

    if guide.bound is not None:
        push(iter([(guide.bound, (net.start,), 1 << net.space[net.start], spent, False)]))
    while heap and len(paths) < count:
        if labels > most_labels:
            return Found(tuple(paths), complete=False)
        bound, states, seen, spent, astray, siblings = heappop(heap)
        if bound >= guide.beyond:
            break
        push(siblings)
        state = states[-1]
        if refused(state, seen, spent):
            continue
        if state == net.goal:
            paths.append(Path(guide.vector(bound), states))
            descents.append(seen & marks)
            leads.clear()
            continue
        entered[state].append((seen, spent))
        if astray:  # off the best way it may have run into a corner
            here = net.space[state], seen
            if here not in leads:
                leads[here] = leads_on(net.exits, *here, descents)
            if not leads[here]:
                continue
        push(onward(bound, states, seen, spent))
    return Found(tuple(paths), complete=True)
