"""What the person will not have exceeded: the job's limits, and instead of any of them those of a cable."""

import math

from drawcord.verify.read import Data, mm, number
from drawcord.verify.route import Route, doubt
from drawcord.verify.vehicle import Vehicle

CHANCE, LONGER, TIMES = "chance clear", "longer than shortest", "times shortest"
UNITS = {"length": "mm", "in sight": "mm", "minutes": "s", "roof holes": "1", "inner holes": "1", CHANCE: "1"}
ROUNDED = 100  # [micro-nats] beyond a limit, as doubts are added up of rounded ones
Limits = dict[str, float]


def stated(vehicle: Vehicle, cable: Data) -> Limits:
    """The limits on a cable, by name: in mm, s, counts, and as shares."""
    said = {key: text for part in (vehicle.job, cable) for key, text in (part.get("limits") or {}).items() if text}
    unit = vehicle.job.get("units", "")
    lengths = [key for key in said if UNITS.get(key) == "mm" or key == LONGER]
    return {key: mm(text, unit) if key in lengths else float(number(text)) for key, text in said.items()}


def broken(vehicle: Vehicle, cable: Data, routes: list[Route]) -> list[str]:
    """Which of its limits the routes of a cable exceed, in sentences.

    The shortest way there is need not be among them; but it is no longer than the shortest of them.
    """
    limits = stated(vehicle, cable)
    shortest = min((route.length for route in routes), default=0)
    measures = {LONGER: shortest + limits.get(LONGER, 0), TIMES: shortest * limits.get(TIMES, 0)}
    measures[CHANCE] = doubt(limits.get(CHANCE, 1.0)) + ROUNDED
    found = []
    for route in routes:
        kinds = [hole["kind"] for hole in route.right["holes"]]
        values = dict.fromkeys(("length", LONGER, TIMES), route.length)
        values |= {"in sight": route.in_sight, "minutes": route.seconds, CHANCE: route.doubt}
        values |= {"roof holes": kinds.count("roof"), "inner holes": kinds.count("inner")}
        over = [key for key, limit in limits.items() if values[key] > measures.get(key, limit)]
        found += [f"{route.said['id']} exceeds the limit on {key}, which is {limits[key]:g}" for key in over]
    return found


def misquoted(vehicle: Vehicle, cable: Data, tight: list[Data]) -> list[str]:
    """Which limits a plan quotes otherwise than the job has them, or would loosen the wrong way."""
    limits = stated(vehicle, cable)
    return [
        f"{one['limit']} of {one['stated']} {one['unit']}, opened by {one['opens_at']}, is no limit that the job states"
        for one in tight
        if not _quoted(one, limits) or type(one["alone"]) is not bool or (not one["alone"] and len(tight) == 1)
    ]


def _quoted(one: Data, limits: Limits) -> bool:
    key, value = one["limit"], float(one["stated"])
    looser = float(one["opens_at"]) - value
    if one["unit"] != UNITS[key]:
        return False
    if key == CHANCE:  # in steps of 0.0001
        return looser <= 0 and key in limits and abs(limits[key] - value) < 1e-4
    if key == "length" and {LONGER, TIMES} & {*limits}:  # the strictest; the shortest way is not known here
        return bool(looser > 0 and limits.get(LONGER, 0) <= value <= limits.get(key, math.inf))
    return bool(looser > 0 and key in limits and value == limits[key])
