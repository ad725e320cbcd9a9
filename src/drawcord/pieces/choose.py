"""Which pieces make up a run: the fewest joints, then the least left over, then the least cost; exact.

Given which piece follows which, where the joints lie is a linear program in which each row holds one joint, or the
distance of two that follow each other. So some best answer has every joint at the end of a reachable stretch, or at
a piece's full length from another joint or an end of the run; these places are finitely many, and all are tried.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Piece:
    """A kind of piece at hand, `count` of them.

    `length` [mm]: of a fitted one all of it is used or left over, of a reel or off-cut it is the longest cut, one
    to a run. `leads`: it has to be the first piece. `cost`: of one, `cost_per_m` besides what is cut.
    """

    id: str
    length: int
    count: int = 1
    fitted: bool = True
    leads: bool = False
    cost: float = 0.0
    cost_per_m: float = 0.0


@dataclass(frozen=True)
class Laid:
    """A piece in its place along the run, from `start` to `end` [mm]."""

    piece: Piece
    start: int
    end: int

    @property
    def left_over(self) -> int:
        """What of a fitted piece is too much [mm]."""
        return self.piece.length - (self.end - self.start) if self.piece.fitted else 0

    @property
    def cost(self) -> float:
        """What it costs."""
        return self.piece.cost + self.piece.cost_per_m * (self.end - self.start) / 1000


Laying = tuple[Laid, ...]
Worth = tuple[int, float, tuple[tuple[str, int], ...]]


def choose(run: int, reachable: Sequence[tuple[int, int]], pieces: Sequence[Piece]) -> Laying | None:
    """The best pieces for a run of `run` [mm], every joint within the `reachable` stretches; None if none do.

    The stretches [mm from the start] include their ends. Ties go to the ids and places that come first.
    """
    joints = fewest(run, reachable, pieces)
    return None if joints is None else min(layings(joints, run, reachable, pieces), key=worth)


def fewest(run: int, reachable: Sequence[tuple[int, int]], pieces: Sequence[Piece]) -> int | None:
    """The fewest joints with which the pieces reach the end; None if they never do.

    Whatever can be done from one place can be done from a further one, so of each set of pieces used only the
    furthest place is carried on.
    """
    kinds = sorted(pieces, key=lambda piece: piece.id)
    layer = {(0,) * len(kinds): 0}
    for joints in range(sum(piece.count for piece in kinds)):
        onward: dict[tuple[int, ...], int] = {}
        for used, at in layer.items():
            for after, piece in _onward(kinds, used, joints):
                if at + piece.length >= run:
                    return joints
                furthest = _furthest(at + piece.length, reachable)
                if furthest > onward.get(after, at):
                    onward[after] = furthest
        layer = onward
    return None


def _onward(kinds: Sequence[Piece], used: tuple[int, ...], laid: int) -> Iterator[tuple[tuple[int, ...], Piece]]:
    """Each piece that may be the next, and what is used with it."""
    for number, piece in enumerate(kinds):
        if used[number] < piece.count and not (piece.leads and laid):
            yield (*used[:number], used[number] + 1, *used[number + 1 :]), piece


def _furthest(limit: int, reachable: Sequence[tuple[int, int]]) -> int:
    """The furthest place up to the limit where a joint can be reached, 0 if there is none."""
    return max((min(far, limit) for near, far in reachable if near <= limit), default=0)


def layings(joints: int, run: int, reachable: Sequence[tuple[int, int]], pieces: Sequence[Piece]) -> list[Laying]:
    """With so many joints, for each set of pieces that reaches the end the best way to lay them."""
    kinds = sorted(pieces, key=lambda piece: piece.id)
    places = _places(run, reachable, {piece.length for piece in kinds}, joints)
    layer: dict[tuple[int, tuple[int, ...]], tuple[Worth, Laying]] = {(0, (0,) * len(kinds)): ((0, 0.0, ()), ())}
    for left in range(joints, -1, -1):
        onward: dict[tuple[int, tuple[int, ...]], tuple[Worth, Laying]] = {}
        for (at, used), (_, laid) in layer.items():
            for after, piece in _onward(kinds, used, at):
                for place in places if left else [run]:
                    if at < place <= at + piece.length:
                        further = (*laid, Laid(piece, at, place))
                        found = (worth(further), further)
                        state = (place, after)
                        if state not in onward or found[0] < onward[state][0]:
                            onward[state] = found
        layer = onward
    return [laid for _, laid in layer.values()]


def shortest_to_buy(run: int, reachable: Sequence[tuple[int, int]], pieces: Sequence[Piece]) -> int:
    """The shortest cut [mm] with which, beside the pieces at hand, every joint can be reached."""
    # A longer one serves wherever a shorter one does, so halving finds the least.
    low, high = 0, run
    while high - low > 1:
        middle = (low + high) // 2
        if fewest(run, reachable, [*pieces, Piece("", middle, fitted=False)]) is not None:
            high = middle
        else:
            low = middle
    return high


def worth(laid: Laying) -> Worth:
    """Among layings with the same joints, the less the better: what is left over [mm], cost, then ids and places."""
    return (
        sum(one.left_over for one in laid),
        sum(one.cost for one in laid),
        tuple((one.piece.id, one.end) for one in laid),
    )


def _places(run: int, reachable: Sequence[tuple[int, int]], lengths: set[int], most: int) -> list[int]:
    """Every place [mm] where some best answer with at most `most` joints may have one."""
    known = {0, run} | {end for stretch in reachable for end in stretch if 0 < end < run}
    edge = known
    for _ in range(most):
        edge = {place for place in _shifted(edge, lengths) if _within(place, run, reachable)} - known
        if not edge:
            break
        known = known | edge
    return sorted(place for place in known if _within(place, run, reachable))


def _shifted(places: set[int], lengths: set[int]) -> Iterator[int]:
    for place in places:
        for length in lengths:
            yield place - length
            yield place + length


def _within(place: int, run: int, reachable: Sequence[tuple[int, int]]) -> bool:
    return 0 < place < run and any(near <= place <= far for near, far in reachable)
