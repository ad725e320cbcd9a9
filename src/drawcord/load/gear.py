"""Small parts, tools and cost of all jobs together, held against what the van carries."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drawcord.coach.van import Van
from drawcord.load.against_van import SHOP, Line, against, correction, costs, work
from drawcord.load.bits import Found, found
from drawcord.load.bring import Load
from drawcord.load.holes import register
from drawcord.load.needs import merged
from drawcord.load.parts import parts
from drawcord.load.pieces import STOCK
from drawcord.load.tools import tools
from drawcord.plan.plan import Plan
from drawcord.words.figure import Figure


@dataclass(frozen=True)
class Gear:
    """Each part with what to carry and buy, each bit or saw with what serves for it, and what all of it costs."""

    parts: tuple[Line, ...]
    tools: tuple[Found, ...]
    costs: tuple[Figure, ...]


def gear(plans: Sequence[Plan], load: Load, van: Van) -> Gear | None:
    """Besides the cable of `load`; None where the shop has no rules for parts."""
    rules = next((plan.coach.shop.parts for plan in plans), None)
    if rules is None:
        return None
    named = {plan.coach.job.job: plan for plan in plans if plan.coach.job}
    lines = against(merged({job: parts(plan, rules, load.pieces) for job, plan in named.items()}), van.parts, rules)
    holes = [replace(one, id=f"{job}: {one.id}") for job, plan in named.items() for one in register(plan, rules)]
    parts_bought = sum(line.price_to_buy for line in lines)
    return Gear(
        lines,
        found(tools(holes, rules), van.tools.bits, van.tools.chucks),
        (
            *costs(lines, sum(map(work, named.values())), rules, [correction(plan) for plan in named.values()]),
            Figure("parts to buy", round(parts_bought, 2), "price", "sum of what is to buy · price", SHOP),
            Figure("cable to buy", round(load.cost, 2), "price", "sum of the reels to buy", STOCK),
        ),
    )
