"""How far a comparison looked for the efficient routes of a cable, and what it may claim of them."""

from collections.abc import Sequence

from drawcord.routes.efficient import EfficientSet
from drawcord.routes.limits import stated
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.purse import Limits
from drawcord.routes.route import Criteria
from drawcord.routes.weighing import spoken


def look_within(order: Order, netted: Netted, limits: Limits, least: Sequence[int]) -> Limits:
    """What an efficient candidate may cost at most: the person's limits, else how far the shop looks.

    `least`: the least there is of what the shop's limits are made from.
    """
    length, roof_holes, inner_holes, seconds = least
    preferences = order.coach.shop.preferences
    looked_at = (
        round(preferences.length_times * length),
        None,
        roof_holes + preferences.holes_more,
        inner_holes + preferences.holes_more,
        round(preferences.minutes_times * (seconds + netted.base.seconds)) - netted.base.seconds,
        None,
    )
    return tuple(look if most is None else most for most, look in zip(limits, looked_at, strict=True))


def guarantee(order: Order, netted: Netted, limits: Limits, found: EfficientSet, count: int) -> str:
    """What is certain of the efficient routes `found`, of which `count` are candidates, in a sentence."""
    preferences = order.coach.shop.preferences
    within = _looked_at(order, netted, limits)
    if found.exact and not count:
        return f"Exact on the graph: there is no route {within}; those shown go beyond how far the shop looks."
    if found.exact:
        sets = "one set of figures" if count == 1 else f"{count} sets of figures"
        return (
            f"Exact on the graph: the best give {sets}, and no route {within} equals or beats one of them in "
            "every criterion. Routes through the same passages are shown once."
        )
    if found.tolerance is None:
        return f"The bound of {preferences.most_labels} partial routes was met before any way was found."
    names = zip(Criteria._fields, found.tolerance, strict=True)
    misses = ", ".join(spoken(name, amount, order.coach.units) for name, amount in names if amount)
    return (
        f"The bound of {preferences.most_labels} partial routes was met. Every route {within} is matched by one found, "
        f"to within {misses} in each of these and exactly in the others."
    )


def _looked_at(order: Order, netted: Netted, limits: Limits) -> str:
    """How far was looked: the person's limits, and for what they leave open the shop's."""
    preferences, most = order.coach.shop.preferences, Criteria(*limits)  # type: ignore[arg-type]
    holes = [word for word, held in (("roof", most.roof_holes), ("inner", most.inner_holes)) if held is None]
    each = "holes of each kind" if len(holes) > 1 else f"{''.join(holes)} holes"
    parts = [
        *([f"within the job's limits ({', '.join(said)})"] if (said := stated(order, netted, limits)) else []),
        *([f"no longer than {preferences.length_times:g} times the shortest"] if most.length is None else []),
        *([f"at most {preferences.holes_more} {each} more than the fewest"] if holes else []),
        *([f"no more than {preferences.minutes_times:g} times the least work"] if most.seconds is None else []),
    ]
    return ", and ".join([", ".join(parts[:-1]), parts[-1]]) if len(parts) > 1 else "".join(parts)
