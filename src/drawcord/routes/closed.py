"""Why no way is open: the bars that together close every way, and the fewest that would have to go."""

from heapq import heappop, heappush
from itertools import pairwise

from drawcord.routes.bars import Bar, Chart, Part, chart
from drawcord.routes.order import Order
from drawcord.routes.route import NoRoute


def explain(order: Order) -> NoRoute:
    """What closes every way for this cable, and the smallest change that opens one."""
    start, goal = order.cable.start, order.cable.end
    every = chart(order)
    change = fewest(every, frozenset())
    if change is None:
        sentence = f"nothing that the sketch shows leads from {start} to {goal}: no chain of touching spaces joins them"
        return NoRoute((), ("sketch or declare a passage between them",), sentence)
    closing = tuple(bar.sentence for bar in closed_by(every))
    sentence = f"every way from {start} to {goal} is closed by: {'; '.join(closing)}"
    return NoRoute(closing, tuple(f"no longer so: {bar.sentence}" for bar in change), sentence)


def closed_by(every: Chart) -> tuple[Bar, ...]:
    """Bars that together close every way, none of which could go without opening one, sorted."""
    shut: list[Bar] = []
    while way := fewest(every, frozenset(shut)):
        shut += way
    for bar in shut[::-1]:
        others = frozenset(shut) - {bar}
        if fewest(every, others) is None:
            shut.remove(bar)
    return tuple(sorted(shut))


def fewest(
    every: Chart, shut: frozenset[Bar], avoided: frozenset[tuple[Part, Part]] = frozenset()
) -> tuple[Bar, ...] | None:
    """The bars of a way with the fewest of them, none of those in `shut`.

    Ties go to the way with fewest steps, then to the first by the bars' sentences. A way enters no space twice:
    where the best chain of steps does, one of the two entries is avoided, and the better of both attempts taken.
    """
    if not shut.isdisjoint(every.before):
        return None
    heap: list[tuple[int, int, tuple[Bar, ...], tuple[Part, ...]]] = []
    heappush(heap, (len(every.before), 0, every.before, (every.start,)))
    done: set[Part] = set()
    while heap:
        count, steps, bars, path = heappop(heap)
        here = path[-1]
        if here == every.goal:
            attempts = [fewest(every, shut, avoided | {entry}) for entry in _twice(path)]
            found = [way for way in attempts if way is not None]
            if attempts:
                return min(found, key=lambda way: (len(way), way), default=None)
            return tuple(sorted(bars))
        if here in done:
            continue
        done.add(here)
        for there, more in every.steps[here]:
            if shut.isdisjoint(more) and (here, there) not in avoided:
                heappush(heap, (count + len(more), steps + 1, (*bars, *more), (*path, there)))
    return None


def _twice(path: tuple[Part, ...]) -> tuple[tuple[Part, Part], ...]:
    """The first two steps of a chain into one and the same space, if there are."""
    entries: dict[str, tuple[Part, Part]] = {}
    for here, there in pairwise(path):
        if here[0] != there[0]:
            if there[0] in entries:
                return entries[there[0]], (here, there)
            entries[there[0]] = here, there
    return ()
