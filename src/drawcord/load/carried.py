"""Whether stock serves runs of one type, and what might be bought to have more of it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement

from drawcord.coach.van import Loose, Van
from drawcord.load.cuts import cuts_of
from drawcord.load.runs import Run

MARK = " #"  # no id has it: what comes before is a reel of the store, what comes after which of those bought
Demand = tuple[Run, ...]


@dataclass(frozen=True)
class Bought:
    """Reels of the store, by id, as often as they are bought; their price and length [mm] together."""

    reels: tuple[str, ...]
    price: float
    length: int


def to_buy(van: Van, type_id: str, most: int) -> Iterator[Bought]:
    """Whatever could be bought of a type, up to so many reels, the cheapest first, then the shortest."""
    sold = sorted(name for name, one in van.store.items() if one.type == type_id)
    each = (taken for count in range(most + 1) for taken in combinations_with_replacement(sold, count))
    found = [_bought(van, taken) for taken in each]
    yield from sorted(found, key=lambda one: (one.price, one.length, one.reels))


def only(van: Van, type_id: str) -> Van:
    """What the van carries of one type of cable, without any store."""
    held = {
        kind: {name: one for name, one in getattr(van, kind).items() if one.type == type_id}
        for kind in ("leads", "extensions", "reels", "off_cuts")
    }
    return van.model_copy(update={**held, "store": {}})


def with_bought(carried: Van, bought: Bought, van: Van) -> Van:
    """The same with these reels of the van's store beside it, the first of each called `store-reel #1`."""
    counts: dict[str, int] = {}
    reels = dict(carried.reels)
    for name in bought.reels:
        counts[name] = counts.get(name, 0) + 1
        one = van.store[name]
        reels[f"{name}{MARK}{counts[name]}"] = Loose.model_construct(type=one.type, length=one.length)
    return carried.model_copy(update={"reels": reels})


def joints(demands: Sequence[Demand], carried: Van) -> list[int | None]:
    """For each demand the joints in all cores as `bring` lays it from what is carried; None where that does not serve.

    Where every core of a demand is one cut, shorter ones are too; so the longest are tried first.
    """
    found: list[int | None] = [None] * len(demands)
    whole: list[dict[tuple[str, int, int], int]] = []
    for number in sorted(range(len(demands)), key=lambda n: (-sum(run.length for run in demands[n]), n)):
        demand = demands[number]
        lengths = {(run.name, run.begins, run.cores): run.length for run in demand}
        if any(all(longest.get(name, 0) >= mm for name, mm in lengths.items()) for longest in whole):
            found[number] = 0
            continue
        cuts = cuts_of(demand, carried) if demand else None
        if cuts is None:
            found[number] = 0
        elif not cuts.cutting.unserved and all(one.laid for one in cuts.pieces):
            found[number] = sum(one.run.cores * (len(one.laid) - 1) for one in cuts.pieces)
            if all(len(one.laid) == 1 and not one.laid[0].piece.fitted for one in cuts.pieces):
                whole.append(lengths)
    return found


def _bought(van: Van, taken: tuple[str, ...]) -> Bought:
    each = [van.store[name] for name in taken]
    return Bought(taken, sum(one.price for one in each), sum(one.length for one in each))
