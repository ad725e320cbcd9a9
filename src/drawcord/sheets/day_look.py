"""The card on the sheet for the day: where to look first, what each outcome means, and where its routes are drawn."""

from drawcord.plan.alternatives import Alternative
from drawcord.plan.card import Card
from drawcord.plan.plan import Plan
from drawcord.sheets.day_parts import Block, Grid, Section, Words
from drawcord.sheets.day_pictures import drawn
from drawcord.sheets.look_spoken import ASSUMED, ON_SITE, ROUTES, groups, nothing, routes

NUMBERS = "Route numbers are those of this card; pictures go by the names under `shown as`."


def look(plan: Plan, card: Card) -> Section:
    """The card in its own words: a table for each group of cables, then the routes that it names."""
    blocks: list[Block] = []
    for group in groups(card):
        if group.steps:
            header = ["where", "if it is clear", "if it is blocked", "found"]
            rows = [[*step, "☐\u00a0clear ☐\u00a0blocked"] for step in group.steps]
            blocks += [Grid(group.heading, [header, *rows]), Words((group.tail,))]
        else:
            blocks.append(Words((group.heading, group.tail)))
    said = list(routes(card, plan.coach.units))
    beside = [nothing(card), *(sentence for route, sentence in said if route is None)]
    blocks.append(Words(tuple(one for one in beside if one)))
    named = [[sentence, _shown(plan, card, route)] for route, sentence in said if route]
    if named:
        blocks += [Grid(ROUTES, [["route", "shown as"], *named]), Words((NUMBERS,))]
    return Section("Where to look first", (*blocks, Words((ASSUMED, ON_SITE))) if card.cables else ())


def _shown(plan: Plan, card: Card, named: Alternative) -> str:
    """The candidate on this sheet that goes the same way; else it stands in words behind its cable's pictures."""
    return next((one.id for one in drawn(plan, card, named.cable) if one.route.spaces == named.spaces), "words alone")
