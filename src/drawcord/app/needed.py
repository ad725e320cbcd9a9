"""The holes to drill, the bits and the parts of a plan, as files."""

from drawcord.load.against_van import against, correction, costs, work
from drawcord.load.holes import register
from drawcord.load.parts import parts
from drawcord.load.tools import tools
from drawcord.plan.plan import Plan
from drawcord.sheets.needed import costs_table, parts_table, register_table, tools_table
from drawcord.sheets.tables import csv_bytes


def needed(plan: Plan) -> dict[str, bytes]:
    """The tables by file name; none where the shop has no rules for parts. Nothing is taken to be in the van."""
    rules = plan.coach.shop.parts
    if rules is None or not plan.chosen:
        return {}
    holes = register(plan, rules)
    lines = against(parts(plan, rules), {}, rules)
    return {
        "holes.csv": csv_bytes(register_table(plan.coach, holes)),
        "tools.csv": csv_bytes(tools_table(tools(holes, rules))),
        "parts.csv": csv_bytes(parts_table(lines)),
        "cost.csv": csv_bytes(costs_table(costs(lines, work(plan), rules, [correction(plan)]))),
    }
