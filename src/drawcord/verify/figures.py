"""What follows from a route's sums: cut length, voltage drop, and each figure with its working."""

import math
import re
from collections.abc import Iterable
from functools import cache
from itertools import pairwise

from drawcord.verify.cuts import cuts
from drawcord.verify.read import Data, number
from drawcord.verify.route import Route
from drawcord.verify.tables import conductors

POWER = ("PV", "battery DC", "mains")
ENDS = ("low", "likely", "high")
# Figures, by how their names begin, whose formula may be words.
COUNTED = ("cut length", "measured", "correction from", "doubt", "holes", "inner holes", "length", "smallest", "work")
WORDS = (*COUNTED, "Imax", "largest device", "overcurrent", "protective")


def figures(route: Route) -> Data:
    """What the plan should say that follows from a route's sums."""
    allowed = {
        key: [route.vehicle.figure("allowances", key, end) for end in range(3)]
        for key in ("make up", "drip loop", "service loop", "unproven")
    }
    loops = sum("roof" in pair for pair in pairwise(route.names))
    parts = {
        "measured length": [route.length] * 3,
        "measuring error": [sign * len(route.names) * route.vehicle.kept("measuring error") for sign in (-1, 0, 1)],
        "make-up at both ends": [2 * round(value) for value in allowed["make up"]],
        "make-up at devices": [2 * len(cuts(route)) * round(value) for value in allowed["make up"]],
        "drip loop at the roof": [loops * round(value) for value in allowed["drip loop"]],
        "service loop": [round(value) for value in allowed["service loop"]],
        "slack on unproven legs": [round(route.doubtful * float(share)) for share in allowed["unproven"]],
    }
    log = route.vehicle.log
    if log.ratio != 1:
        shares = min(0.0, log.ratio - 1), log.ratio - 1, max(0.0, log.ratio - 1)  # the ends move outwards only
        sums = [sum(column) for column in zip(*parts.values(), strict=True)]
        parts[f"correction from {log.jobs} jobs"] = [round(a * b) for a, b in zip(sums, shares, strict=True)]
    parts["cut length per core"] = [sum(column) for column in zip(*parts.values(), strict=True)]
    kinds = [hole["kind"] for hole in route.right["holes"]]
    values: dict[str, tuple[float, str]] = {
        "length": (route.length, "mm"),
        "length in sight": (route.in_sight, "mm"),
        "holes through the roof": (kinds.count("roof"), "1"),
        "inner holes": (kinds.count("inner"), "1"),
        "work": (route.seconds / 60, "min"),
        "doubt": (route.doubt / 1e6, "nat"),
        **{f"{name}, {end}": (row[n], "mm") for name, row in parts.items() for n, end in enumerate(ENDS)},
    }
    right: Data = {
        "length_mm": route.length,
        "in_sight_mm": route.in_sight,
        "roof_holes": kinds.count("roof"),
        "inner_holes": kinds.count("inner"),
        "minutes": round(route.seconds / 60, 1),
        "chance_clear": round(math.exp(-route.doubt / 1e6), 4),
        "cut_length_mm": dict(zip(ENDS, parts["cut length per core"], strict=True)),
        **dict.fromkeys(("conductor", "drop_volts", "drop_percent")),
    }
    if route.cable["class"] in POWER:
        right |= _drop(route, parts["cut length per core"][1], values)
    right["figures"] = [
        {"name": name, "value": float(f"{value:.6g}"), "unit": unit} for name, (value, unit) in values.items()
    ]
    route.faults += [f"{route.said['id']}: {fault}" for fault in misworked(route.said["figures"])]
    return right


def _drop(route: Route, one_way: int, values: dict[str, tuple[float, str]]) -> Data:
    """What the plan should say of the conductor and its drop over a length [mm]; adds to the values of the figures."""
    cable, temperatures = route.cable, route.vehicle.job["temperatures"]
    limit, amperes, volts = (float(number(cable.get(key, "0"))) for key in ("drop limit", "amperes", "volts"))
    metal, written = cable.get("metal", "plain"), cable.get("conductor", "").replace("²", "2")
    table = conductors(metal, float(number(temperatures.get("conductor", "75 °C"))))
    named = re.sub(r"(?i)\s*(awg|mm2)\s*$", lambda m: " AWG" if m[1].upper() == "AWG" else " mm2", written.strip())
    percent = {label: 200 * amperes * one_way / 1e6 * ohm / volts for rows in table.values() for _, label, ohm in rows}
    rows = table["mm2" if named.endswith("mm2") else "AWG"]
    area, least, _ = next((row for row in rows if 0 < percent[row[1]] <= 100 * limit), (0.0, None, 0.0))
    used = named or least
    if not used:
        return {}
    lost = percent[used] * volts / 100
    values |= {"loop resistance": (lost / amperes, "Ω"), "voltage drop": (lost, "V")}
    values |= {"voltage drop of supply": (percent[used], "%"), "power lost": (amperes * lost, "W")}
    if least:
        values[f"smallest conductor within {100 * limit:g} % of the supply"] = round(area, 3), "mm²"
    conductor = {"label": named or None, "metal": metal, "cores": int(cable["cores"]), "smallest_within_limit": least}
    stands_on = {"amperes": amperes, "volts": volts}
    return {
        "conductor": conductor | {"drop_limit_percent": round(100 * limit, 4) if limit else None},
        "drop_volts": {"value": short(lost), **stands_on},
        "drop_percent": {"value": short(percent[used]), **stands_on},
    }


def short(value: float) -> float:
    """Four decimals, in two steps: on which side of a half a value falls must not hang on its last binary digit."""
    return round(round(value, 9), 4)


def misworked(some: Iterable[Data]) -> list[str]:
    """Figures whose formula gives another value than they say, or is no plain arithmetic where it should be."""
    found = []
    for one in some:
        worked = worked_out(one["formula"].replace("%", "") if one["unit"] == "%" else one["formula"])
        if worked is None and not one["name"].startswith(WORDS):
            found.append(f"{one['name']}: {one['formula']} is no working")
        elif worked is not None and abs(worked - one["value"]) > 2e-4 * abs(worked) + 0.5 * (one["unit"] == "mm"):
            found.append(f"{one['name']}: {one['formula']} gives {worked:g}, not {one['value']:g}")
    return found


@cache
def worked_out(formula: str) -> float | None:
    """What plain arithmetic with units gives; None for words. Raises ValueError."""
    plain = re.sub(r"\(([\d.]+) mm\)²", r"(\1 * \1)", formula.replace("π", f"{math.pi}").replace("/K", ""))
    plain = re.sub(r"(?<=\d) of (its own|[\w-]+)", "", plain)  # conductors, counted cable by cable
    plain = plain.replace("·", "*").replace("×", "*").replace("%", "*0.01")
    plain = re.sub(r" ?(?<![A-Za-z])(mm|m|A|V|Ω|K|W)(/km)?(?![A-Za-z\d²])", "", plain)
    if re.search(r"[^\d.e+*/() -]|\*\*", plain):
        return None
    try:
        return float(eval(plain, {"__builtins__": {}}))  # noqa: S307 - nothing but digits and signs is left
    except SyntaxError as error:
        raise ValueError(f"{formula} is no arithmetic") from error
