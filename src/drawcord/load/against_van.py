"""Needs held against what the van carries: what to carry, what to buy, what it costs, and what a second trip would."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drawcord.coach.parts import Parts
from drawcord.load.needs import PartNeed
from drawcord.plan.plan import Plan
from drawcord.words.figure import Figure

SHOP = "the shop's parts.yaml"


@dataclass(frozen=True)
class Line:
    """A need: `carry` of it is in the van, `buy` is not; price and seconds of all of it."""

    need: PartNeed
    carry: int
    buy: int
    price: float
    seconds: int

    @property
    def price_to_buy(self) -> float:
        """The price of what is not in the van."""
        return self.price * self.buy / self.need.count


def against(needs: Sequence[PartNeed], carried: Mapping[str, int], rules: Parts) -> tuple[Line, ...]:
    """Each need, in order, with how much the van carries, by part id."""
    lines = []
    for need in needs:
        have = min(need.count, carried.get(need.id, 0))
        one = rules.parts[need.kind]
        lines.append(Line(need, have, need.count - have, one.price * need.count, one.minutes * need.count))
    return tuple(lines)


def work(plan: Plan) -> int:
    """The time along the routes [s]: what the cables share is done once, as the joint plan counts it."""
    if plan.together is None:
        return sum(taken.route.criteria.seconds for taken in plan.chosen.values())
    alone = sum(one.candidates[0].route.criteria.seconds for one in plan.answers if one.cable in plan.chosen)
    return alone - plan.together.saved.seconds


def correction(plan: Plan) -> tuple[int, str]:
    """What the shop's own jobs on this rig add to that time [s], and how many they are; nothing while they are few."""
    past = plan.coach.shop.history
    if not past.corrects_work:
        return 0, ""
    more = round(work(plan) * (past.work_ratio - 1))
    return more, f"{past.work_jobs} jobs on this rig took {past.work_ratio:.3f} × of what was planned"


def costs(
    lines: Sequence[Line], route_seconds: int, rules: Parts, corrections: Sequence[tuple[int, str]] = ()
) -> tuple[Figure, ...]:
    """What the job costs in parts and work, and what a second trip would add."""
    price = sum(line.price for line in lines)
    extra = sum(line.seconds for line in lines)
    by_log = [(seconds, said) for seconds, said in corrections if said]
    minutes = (route_seconds + extra + sum(seconds for seconds, _ in by_log)) / 60
    added = "".join(f" {seconds / 60:+.1f} as {said}" for seconds, said in by_log)
    work = minutes / 60 * rules.hour
    trip = rules.trip / 3600 * rules.hour + rules.trip_price
    return (
        Figure("parts", round(price, 2), "price", "sum of count · price", SHOP),
        Figure(
            "work",
            round(minutes, 1),
            "min",
            f"{route_seconds / 60:.1f} along the routes + {extra / 60:.1f} for parts{added}",
            f"the shop's labour.yaml and parts.yaml{', and the log' * bool(by_log)}",
        ),
        Figure("cost of work", round(work, 2), "price", f"{minutes:.1f} min / 60 · {rules.hour:g} an hour", SHOP),
        Figure(
            "cost of a second trip",
            round(trip, 2),
            "price",
            f"{rules.trip / 60:g} min / 60 · {rules.hour:g} an hour + {rules.trip_price:g}",
            SHOP,
        ),
    )
