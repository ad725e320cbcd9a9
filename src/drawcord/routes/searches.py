"""The searches of one comparison, each done once in its memory, and the routes they find, each measured once.

With a `longest` piece [mm] a search is of routes whose joints a hand can all reach, as far as the graph tells.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from drawcord.routes.descents import descents, out_of_sight
from drawcord.routes.different import different
from drawcord.routes.efficient import EfficientSet, efficient
from drawcord.routes.measure import measure
from drawcord.routes.memory import Memory
from drawcord.routes.net import Found, Path
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.purse import Limits
from drawcord.routes.reach import Reach
from drawcord.routes.reaching import reach
from drawcord.routes.route import Route
from drawcord.routes.twins import twins
from drawcord.routes.weighing import weights

TOLERANCE = (500, 500, 0, 0, 600, 0)  # what a search that meets its bound of labels may miss by, and multiples


@dataclass(frozen=True)
class Searches:
    """Those for one cable in a net, within the person's `limits`; the memory grows."""

    order: Order
    netted: Netted
    limits: Limits
    memory: Memory

    def descents(self, longest: int | None = None) -> Found:
        """The lightest routes that differ in how they come down."""
        return self.memory.search(
            ("descents", self.limits, longest),
            self.netted,
            lambda: descents(self.order, self.netted, self._by, self.limits, self._reach(longest)),
        )

    def lightest(self, longest: int) -> Found:
        """The lightest route, whatever its descent."""
        net, most = self.netted.net, self._most_labels
        return self.memory.search(
            ("lightest", self.limits, longest),
            self.netted,
            lambda: different(net, self._by, frozenset(), 1, most, self.limits, self._reach(longest)),
        )

    def out_of_sight(self, lightest: Path, longest: int | None = None) -> Found:
        """The lightest route that shows nothing of itself, given the lightest of all."""
        return self.memory.search(
            ("hidden", self.limits, longest),
            self.netted,
            lambda: out_of_sight(self.order, self.netted, self._by, self.limits, lightest, self._reach(longest)),
        )

    def efficient(self, within: Limits, longest: int | None = None) -> EfficientSet:
        """The efficient set of what costs no more than `within`."""
        net, most = self.netted.net, self._most_labels
        return self.memory.search(
            ("efficient", within, longest),
            self.netted,
            lambda: efficient(net, self._by, within, most, TOLERANCE, self._reach(longest)),
        )

    def twins(self, path: Path, *, unbeaten: bool) -> Found:
        """The other orders of spaces that cost exactly the same on the graph; `unbeaten` if no path there beats it."""
        return self.memory.search(
            ("twins", self.netted.stations(path.states)),
            self.netted,
            lambda: twins(self.netted.net, self._by, path, self._most_labels, unbeaten=unbeaten),
        )

    def measured(self, paths: Iterable[Path]) -> list[Route]:
        """The routes of these paths."""
        book, routes = self.memory.measured, []
        for path in paths:
            stations = self.netted.stations(path.states)
            if stations not in book:
                book[stations] = measure(self.order, stations)
            routes.append(book[stations])
        return routes

    @property
    def _by(self) -> tuple[int, ...]:
        return weights(self.order.coach)

    @property
    def _most_labels(self) -> int:
        return self.order.coach.shop.preferences.most_labels

    def _reach(self, longest: int | None) -> Reach | None:
        return None if longest is None else reach(self.order, self.netted, longest)
