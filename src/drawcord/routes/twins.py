"""Routes through other spaces that cost exactly the same in every criterion."""

from collections.abc import Sequence

from drawcord.routes.bounded import bounded
from drawcord.routes.net import Found, Net, Path, States


def twins(net: Net, weights: Sequence[int], path: Path, most_labels: int, *, unbeaten: bool) -> Found:
    """All other orders of spaces that have a path of the same vector, in order of spaces.

    Each with its first path in order of states. Depth first over the orders of spaces; a partial path is
    given up when its bound is above the vector anywhere; and where the path is known to be `unbeaten`, when another
    in the same order of spaces, at the same state, is nowhere above it: on from there that one would beat the path.
    `most_labels` bounds the partial paths made. `weights` change nothing; other searches have them.
    """
    known = bounded(net, weights)
    out, guard = known.steps.out, known.fields.guard
    weight = sum(by * each for by, each in zip(weights, path.vector, strict=True))
    whole = known.fields.pack((weight, *path.vector))
    fence = whole | guard
    own, labels = net.order(path.states), 1
    found: list[Path] = []
    stack: list[tuple[int, list[tuple[int, States]]]] = [
        (1 << net.space[net.start], [(known.fields.pack(known.ideal), (net.start,))])
    ]
    while stack:
        if labels > most_labels:
            return Found(tuple(found), complete=False)
        seen, entries = stack.pop()
        nodes: dict[int, dict[int, dict[int, States]]] = {}  # by space, state and bound
        for bound, states in entries:
            if states[-1] == net.goal:
                if bound == whole and net.order(states) != own:
                    found.append(Path(path.vector, states))
                continue
            for head, bit, added in out(states[-1]):
                further = bound + added
                if seen & bit or fence - further & guard != guard:
                    continue
                here, onward = nodes.setdefault(bit, {}).setdefault(head, {}), (*states, head)
                if further in here:
                    here[further] = min(here[further], onward)
                elif not (unbeaten and any((further | guard) - other & guard == guard for other in here)):
                    here[further] = onward
        for bit, node in sorted(nodes.items(), reverse=True):
            ahead = sorted((bound, states) for here in node.values() for bound, states in here.items())
            labels += len(ahead)
            stack.append((seen | bit, ahead))
    return Found(tuple(found), complete=True)
