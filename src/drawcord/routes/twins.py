"""Routes through other spaces that cost exactly the same in every criterion."""

from collections.abc import Sequence

from drawcord.routes.bounded import bounded
from drawcord.routes.net import Found, Net, Path, States


def twins(net: Net, weights: Sequence[int], path: Path, most_labels: int) -> Found:
    """All other orders of spaces that have a path of the same vector, in order of spaces.

    Each with its first path in order of states. Depth first over the orders of spaces; a partial path is
    given up when its bound is above the vector anywhere. `most_labels` bounds the partial paths made. `weights`
    change nothing; other searches have them.
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
        nodes: dict[int, dict[tuple[int, int], States]] = {}
        for bound, states in entries:
            if states[-1] == net.goal:
                if bound == whole and net.order(states) != own:
                    found.append(Path(path.vector, states))
                continue
            for head, bit, added in out(states[-1]):
                further = bound + added
                if seen & bit or fence - further & guard != guard:
                    continue
                node, entry, onward = nodes.setdefault(bit, {}), (further, head), (*states, head)
                if entry not in node or onward < node[entry]:
                    node[entry] = onward
        labels += sum(map(len, nodes.values()))
        stack.extend(
            (seen | bit, [(bound, states) for (bound, _), states in sorted(node.items())])
            for bit, node in sorted(nodes.items(), reverse=True)
        )
    return Found(tuple(found), complete=True)
