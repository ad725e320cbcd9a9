"""What a plan has to tell the installer to look out for, and the owner to agree to."""

import math
import re

import numpy as np

from drawcord.verify.figures import POWER
from drawcord.verify.read import Data
from drawcord.verify.route import Route

BEHIND = 150  # [mm] what lies so near a hole is named before anybody drills


def check(route: Route, right: Data) -> None:
    """Record where the findings or consents of a candidate are not those that its route gives reason for."""
    said = route.said
    warnings = sorted(_warnings(route, right))
    if sorted((one["severity"], one["place"]) for one in said["findings"]) != warnings:
        route.faults.append(f"{said['id']}: there is reason to warn of {warnings}, no more and no less")
    asked = _asked(route, right)
    holes = [hole for some in asked for hole in some]
    needed = sum(bool(some) for some in asked) + (route.in_sight > 0 and not route.agreed)
    if len(said["consents"]) != needed or re.findall(r"\bH\d+", " ".join(said["consents"])) != holes:
        route.faults.append(f"{said['id']}: the owner has to agree to the holes {holes} and what is in sight")


def _asked(route: Route, right: Data) -> tuple[list[str], list[str], list[str]]:
    """The holes through the roof, those from dry to wet, and those that open into a room where that is not agreed."""
    roof, shell, seen = list[str](), list[str](), list[str]()
    for hole in right["holes"]:
        one, two = (route.vehicle.spaces[name] for name in hole["between"])
        if hole["kind"] == "roof":
            roof.append(hole["id"])
        elif one.zone != two.zone:
            shell.append(hole["id"])
        elif "room" in (one.kind, two.kind) and not route.agreed:
            seen.append(hole["id"])
    return roof, shell, seen


def _warnings(route: Route, right: Data) -> list[tuple[str, str]]:
    """Severity and place of each reason to warn."""
    vehicle = route.vehicle
    found = [("caution", place) for place in right["unproven"]]
    for hole in right["holes"]:
        near, far = np.array(hole["near_mm"]), np.array(hole["far_mm"])
        for box in vehicle.things:
            off = [np.linalg.norm(np.maximum(0, np.maximum(box[:, 0] - at, at - box[:, 1]))) for at in (near, far)]
            found += [("caution", hole["id"])] * (math.floor(min(off)) <= BEHIND)
        least = 3 * (hole["diameter_mm"] + 2 * vehicle.kept("measuring error"))
        deep = min(np.diff(vehicle.spaces[name].box[:2]).min() for name in hole["between"] if name != "roof")
        found += [("caution", hole["id"])] * bool(hole["kind"] == "roof" and deep < least)
    for name in route.names:
        space = vehicle.spaces[name]
        found += [("caution", name)] * (space.kind == "appliance vent")
        found += [("notice", name)] * (space.zone == "wet and stony")
        found += [("notice", name)] * (space.kind == "roof" and route.cable["class"] not in ("PV", "coax"))
    percent, conductor = right["drop_percent"], right["conductor"]
    if percent is None and route.cable["class"] in POWER:
        found.append(("caution" if "drop limit" in route.cable else "notice", route.name))
    over = percent and conductor["drop_limit_percent"] and percent["value"] > conductor["drop_limit_percent"]
    return found + [("caution", route.name)] * bool(over)
