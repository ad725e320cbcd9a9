"""Small parts, tools and cost beside the cable of a load, as text and as plain data."""

from typing import Any

from drawcord.load.against_van import Line
from drawcord.load.bits import Found
from drawcord.load.gear import Gear
from drawcord.sheets.report import figure_document
from drawcord.sheets.tables import Rows, text_table


def gear_text(gear: Gear) -> list[str]:
    """The tables, each with its heading."""
    out = []
    for heading, rows in (
        ("CARRY, small parts", _carried(gear)),
        ("BUY, small parts", _bought(gear)),
        ("BITS AND SAWS", _tools(gear)),
        ("WHAT IT COSTS", _costs(gear)),
    ):
        if len(rows) > 1:
            out += [heading, text_table(rows)]
    return out


def gear_glance(gear: Gear) -> str:
    """How much of it the van has, in a sentence."""
    bought, lacking = sum(one.buy > 0 for one in gear.parts), sum(not one.bit for one in gear.tools)
    bits = f"{lacking} of {len(gear.tools)} sizes of bit or saw lacking" if lacking else "bits and saws for every hole"
    return f"small parts: {len(gear.parts)} kinds, {bought} of them to buy; {bits}"


def gear_document(gear: Gear | None) -> dict[str, Any] | None:
    """The same as plain data; null where the shop has no rules for parts."""
    if gear is None:
        return None
    return {
        "parts": [_part(one) for one in gear.parts],
        "tools": [_tool(one) for one in gear.tools],
        "costs": [figure_document(one) for one in gear.costs],
    }


def _carried(gear: Gear) -> Rows:
    rows = [["count", "unit", "part"]]
    return [*rows, *([str(one.carry), one.need.unit, one.need.id] for one in gear.parts if one.carry)]


def _bought(gear: Gear) -> Rows:
    rows = [["count", "unit", "part", "price"]]
    return [
        *rows,
        *([str(one.buy), one.need.unit, one.need.id, f"{one.price_to_buy:.2f}"] for one in gear.parts if one.buy),
    ]


def _tools(gear: Gear) -> Rows:
    rows = [["for", "bores", "holes", "take", "in chuck"]]
    for one in gear.tools:
        taken = [one.bit, one.chuck] if one.bit else [f"LACKING: {one.lacking}", ""]
        rows.append([one.need.kind, f"{one.need.diameter:g} mm", str(len(one.need.holes)), *taken])
    return rows


def _costs(gear: Gear) -> Rows:
    rows = [["", "value", "unit", "how"]]
    return [*rows, *([one.name, f"{one.value:.2f}", one.unit, one.formula] for one in gear.costs)]


def _part(one: Line) -> dict[str, Any]:
    return {
        "part": one.need.id,
        "count": one.need.count,
        "unit": one.need.unit,
        "carry": one.carry,
        "buy": one.buy,
        "price": round(one.price, 2),
        "minutes": round(one.seconds / 60, 1),
        "why": one.need.why,
        "source": one.need.source,
    }


def _tool(one: Found) -> dict[str, Any]:
    return {
        "tool": one.need.kind,
        "diameter_mm": one.need.diameter,
        "holes": list(one.need.holes),
        "bit": one.bit or None,
        "chuck": one.chuck or None,
        "lacking": one.lacking or None,
        "why": one.need.why,
    }
