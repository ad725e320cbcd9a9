"""All cables of a job in one plan, as far as they go together and the owner agrees.

What the owner has not agreed to is seen only where no plan is open without. Where cables cannot all be planned, the
fewest are left out, of equals those that come last by id.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from drawcord.plan.lightest import Lightest, Refusing, Stations
from drawcord.plan.posing import Posing
from drawcord.routes.order import Order
from drawcord.routes.route import Answer, Route


@dataclass(frozen=True)
class Joint:
    """The plan: the stations of each cable's route, by its name; what it weighs, and what no plan weighs less than.

    `proved`: the two are one, and no plan holds more of the cables.
    """

    stations: dict[str, Stations]
    weight: int
    bound: int
    proved: bool
    left_out: tuple[str, ...] = ()


def jointly(
    routed: Sequence[tuple[Order, Answer]], taken: Mapping[str, Route], refused: Refusing
) -> Joint:
    """The lightest plan of cables that have a way each; `taken`: routes that a person has chosen, by cable."""
    pairs = sorted(routed, key=lambda pair: pair[0].name)
    able = [order for order, _ in pairs]
    # What the owner has not agreed to may not win while another way is open.
    quiet = [order.name for order, answer in pairs if answer.candidates[0].route.agreed and not _agreed(order)]
    proved = True
    for left in _subsets([order.name for order in reversed(able)]):
        if len(left) == len(able):
            break
        search = Lightest(Posing([order for order in able if order.name not in left]), taken, refused)
        best: Joint | None = None
        most = len(quiet)  # of cables in sight against the owner's wish
        for shown in _subsets([name for name in quiet if name not in left]):
            if len(shown) > most:
                break
            stations, found = search.plan(set(quiet) - set(shown))
            proved &= found.proved
            if stations and (best is None or found.weight < best.weight):
                best, most = Joint(stations, found.weight, found.bound, proved, left), len(shown)
        if best:
            return replace(best, proved=proved)
    return Joint({}, 0, 0, proved, tuple(order.name for order in able))


def _agreed(order: Order) -> bool:
    job = order.coach.job
    return job is not None and "raceway in sight" in job.owner.consents


def _subsets(names: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """All subsets, the smallest first."""
    for size in range(len(names) + 1):
        yield from combinations(names, size)
