"""Which cut comes from which reel or off-cut: exact, by one of two models that know the same aims.

The aims, an earlier one before all later: nothing left unserved; the least bought [mm]; the least scrap [mm], that
is left-overs too short to keep; the fewest pieces of stock opened; the shortest of these [mm].
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from drawcord.load.by_assignment import assign
from drawcord.load.by_flow import flow
from drawcord.load.stock import Demand, Stock

AIMS = ("not served [mm]", "bought [mm]", "scrap [mm]", "pieces of stock opened", "length of these [mm]")
ARCS = 2000  # of a flow; past that its program is the slower one


@dataclass(frozen=True)
class Opened:
    """One reel or off-cut: its cuts [mm] in the order to make them, and what remains of it [mm]."""

    stock: str
    length: int
    cuts: tuple[int, ...]

    @property
    def left(self) -> int:
        """What remains [mm]."""
        return self.length - sum(self.cuts)


@dataclass(frozen=True)
class Cutting:
    """Everything opened; the lengths that nothing is left for; each aim as reached, and the least possible."""

    opened: tuple[Opened, ...]
    unserved: tuple[int, ...]
    aims: tuple[tuple[int, int], ...] = ()

    @property
    def proved(self) -> bool:
        """Whether nothing better is possible."""
        return all(reached == least for reached, least in self.aims)

    @property
    def gaps(self) -> tuple[tuple[str, int, int], ...]:
        """The aims that are not proved: what it is, what was reached, and the least possible."""
        named = zip(AIMS, self.aims, strict=False)
        return tuple((name, reached, least) for name, (reached, least) in named if reached != least)


def cutting(wanted: Sequence[int], stock: Sequence[Stock], keep: int) -> Cutting:
    """Cut the lengths `wanted` [mm] from stock of one type; left-overs from `keep` [mm] up are no scrap.

    From each reel the longest cut comes first, so that a slip can still be turned into a shorter one.
    Raises ValueError for a length that is not above zero.
    """
    if any(length <= 0 for length in (*wanted, *(one.length for one in stock))):
        raise ValueError("a length of no millimetres can neither be cut nor be cut from")
    if not wanted or not stock:
        return Cutting((), tuple(sorted(wanted, reverse=True)))
    demand = tuple(sorted(Counter(wanted).items(), reverse=True))
    shelf = tuple(sorted(stock, key=lambda one: (one.bought, one.length, one.id)))
    found = flow(demand, shelf, keep, ARCS) or assign(demand, shelf, keep)
    opened = sorted(found.opened, key=lambda one: (shelf.index(one[0]), [-cut for cut in one[1]]))
    return Cutting(
        tuple(Opened(of.id, of.length, cuts) for of, cuts in opened),
        _unserved(demand, [cuts for _, cuts in opened]),
        found.aims,
    )


def _unserved(demand: Demand, served: Sequence[tuple[int, ...]]) -> tuple[int, ...]:
    done = Counter(cut for cuts in served for cut in cuts)
    return tuple(length for length, count in demand for _ in range(count - done[length]))
