"""The comparison of a job again and again, as its cables take other types, without doing anything twice."""

from collections.abc import Sequence

from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.routes.route import Answer
from drawcord.ways.through_roof import bore
from drawcord.ways.ways import Ways, explore
from drawcord.wire.conductor import Conductor

Compared = tuple[tuple[Order, Answer], ...]


class Comparing:
    """Compares the routes of a job's cables, once for all types that need the same holes.

    Which routes there are and in which order depends on those alone; the figures of a route on the type, too.
    """

    def __init__(self, ways: Ways, conductors: Sequence[Conductor]) -> None:
        self.coach = ways.coach  # as the job writes it
        self.conductors = tuple(conductors)
        self._ways = {bore(ways.coach): ways}
        self._known: dict[tuple[int, str, int], tuple[Cable, Answer]] = {}

    def compared(self, coach: Coach, *, exactly: bool = False) -> Compared:
        """The answer for every cable of a coach, in order of their ids; with the figures of its types if `exactly`."""
        if coach.job is None:
            raise LookupError("a coach without a job has no cables")
        hole = bore(coach)
        if hole not in self._ways:
            self._ways[hole] = explore(coach)
        self._ways[hole] = ways = self._ways[hole].beside(coach)
        found = []
        for name, cable in sorted(coach.job.cables.items()):
            order, key = Order(ways, name, self.conductors), (hole, name, cable.largest_plug)
            if key not in self._known or (exactly and self._known[key][0] != cable):
                self._known[key] = cable, compare(order)
            found.append((order, self._known[key][1]))
        return tuple(found)
