"""The person's limits on a cable: what they come to on the graph, and which must give way where none keeps to all."""

import math
from collections.abc import Sequence
from itertools import combinations

from drawcord.routes.different import different, lightest
from drawcord.routes.efficient import efficient
from drawcord.routes.net import Path
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.purse import Limits
from drawcord.routes.reach import Reach
from drawcord.routes.route import Criteria, NoRoute, TooTight
from drawcord.routes.weighing import WORDS
from drawcord.ways.links import micronats
from drawcord.words.units import format_length

SIXTEENTH = 25.4 / 16  # [mm]
ROUNDING = 100  # micro-nats: doubts are rounded by half of one before they are added up, and no way meets more of them


def limits_of(order: Order, netted: Netted, every: Netted) -> Limits:
    """The most that each criterion of a path may come to, None where the person states no limit.

    Of several limits on the length the strictest counts; the shortest way is that of `every` net, whatever form
    `netted` is narrowed to. What all paths cost is taken off.
    """
    said, base = order.limits, netted.base
    lengths = [] if said.length is None else [said.length]
    for path in shortest_of(order, every):
        if said.longer_than_shortest is not None:
            lengths.append(path.vector[0] + said.longer_than_shortest)
        if said.times_shortest is not None:
            lengths.append(math.floor(path.vector[0] * said.times_shortest))
    return (
        min(lengths, default=None),
        said.in_sight,
        said.roof_holes,
        said.inner_holes,
        None if said.minutes is None else said.minutes - base.seconds,
        None if said.chance_clear is None else _most_doubt(said.chance_clear) - base.doubt,
    )


def _most_doubt(chance: float) -> int:
    """The doubt of all that is as likely clear as a limit asks for."""
    return micronats(chance) + ROUNDING


def least_chance(most: int) -> float:
    """The limit that lets through all of so much doubt, as a share to the hundredth of a percent."""
    steps = min(10_000, math.ceil(10_000 * math.exp((ROUNDING - most) / 1e6)))
    return (steps if _most_doubt(steps / 10_000) >= most else steps - 1) / 10_000


def shortest_of(order: Order, netted: Netted) -> list[Path]:
    """The shortest path, if there is one and a limit is measured by it."""
    if order.limits.longer_than_shortest is None and order.limits.times_shortest is None:
        return []
    path = lightest(netted.net, Criteria(1, 0, 0, 0, 0, 0))
    return [path] if path else []


def too_tight(
    order: Order, netted: Netted, limits: Limits, by: Sequence[int], tolerance: Sequence[int], reach: Reach | None
) -> NoRoute | None:
    """Which limits must give way where no way keeps to all of them; None if giving up all of them opens none.

    For each limit that can open a way alone, the least value that does, all else kept. Where none can, the
    fewest that can together; of several such sets the one whose best way is lightest by the weighting, then the
    first in order of the criteria, and the values are that way's.
    """
    held = [place for place, most in enumerate(limits) if most is not None]
    for count in range(1, len(held) + 1):
        opened: list[tuple[int, tuple[int, ...], tuple[int, ...]]] = []
        for given_up in combinations(held, count):
            weights = [int(place == given_up[0]) for place in range(len(limits))] if count == 1 else by
            kept = [None if place in given_up else most for place, most in enumerate(limits)]
            vector = _first(order, netted, weights, kept, tolerance, reach)
            if vector:
                weight = sum(w * v for w, v in zip(by, vector, strict=True))
                opened.append((weight, given_up, vector))
        if opened:
            alone = count == 1
            chosen = sorted(opened, key=lambda way: way[1]) if alone else [min(opened)]
            tight = [
                TooTight(name, most + base, vector[place] + base, alone)
                for _, given_up, vector in chosen
                for place, (name, most, base) in enumerate(zip(Criteria._fields, limits, netted.base, strict=True))
                if place in given_up and most is not None
            ]
            return _said(order, netted, limits, tight)
    return None


def _first(
    order: Order,
    netted: Netted,
    weights: Sequence[int],
    limits: Limits,
    tolerance: Sequence[int],
    reach: Reach | None,
) -> tuple[int, ...] | None:
    """The criteria of the first path, in order of weight and then of criteria, that keeps to the limits."""
    most = order.coach.shop.preferences.most_labels
    if reach:
        found = efficient(netted.net, weights, limits, most, tuple(tolerance), reach).paths
    else:
        found = different(netted.net, weights, frozenset(), 1, most, limits).paths
    return found[0].vector if found else None


def _said(order: Order, netted: Netted, limits: Limits, tight: Sequence[TooTight]) -> NoRoute:
    units, ends = order.coach.units, f"from {order.cable.start} to {order.cable.end}"
    changes = [f"{allowed(t.name, t.opens_at, units)} instead of {allowed(t.name, t.stated, units)}" for t in tight]
    if tight[0].alone:
        how = "it would be enough to allow " + ", or ".join(changes)
        smallest: tuple[str, ...] = ("allow " + ", or ".join(changes),)
    else:
        how = "giving up a single limit opens none; the fewest that do together allow " + " and ".join(changes)
        smallest = tuple(f"allow {change}" for change in changes)
    return NoRoute(stated(order, netted, limits), smallest, f"no way {ends} keeps to every limit: {how}", tuple(tight))


def stated(order: Order, netted: Netted, limits: Limits) -> tuple[str, ...]:
    """The limits in words, in order of the criteria."""
    return tuple(
        allowed(name, most + base, order.coach.units)
        for name, most, base in zip(Criteria._fields, limits, netted.base, strict=True)
        if most is not None
    )


def allowed(name: str, most: int, units: str) -> str:
    """A limit in words, never less than `most`, so that writing it into the job lets through what it is to."""
    if name in ("length", "in_sight"):
        if units == "in":
            most = round(math.ceil(most / SIXTEENTH) * SIXTEENTH)
        return f"{WORDS[name]} up to {format_length(most, units)}"
    if name == "seconds":
        return f"minutes up to {math.ceil(most / 60)} min"
    if name == "doubt":
        return f"chance clear down to {100 * least_chance(most):g} %"
    return f"{WORDS[name]} up to {most}"
