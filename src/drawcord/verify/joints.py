"""What lies along a cable: its joints and devices, each where it says and in reach of a hand."""

import math
from collections.abc import Sequence
from itertools import pairwise

from drawcord.verify.cuts import cuts
from drawcord.verify.reach import reached
from drawcord.verify.read import Data
from drawcord.verify.route import Route


def joints(route: Route) -> list[str]:
    """What is wrong with the joints: further apart than the longest piece, not where they say, or out of reach."""
    vehicle, said = route.vehicle, route.said["joints"]
    keys = ("make up", "drip loop", "service loop")
    make_up, loop, service = (round(vehicle.figure("allowances", key, 2)) for key in keys)
    at, length, devices, runs, found = make_up, 0, cuts(route), [], []
    for n, (name, line) in enumerate(zip(route.names, route.lines, strict=True)):
        at += loop * (n > 0 and "roof" in route.names[n - 1 : n + 1]) + vehicle.kept("measuring error")
        unproven = vehicle.spaces[name].standing == "unproven"
        scale = 1 + float(vehicle.figure("allowances", "unproven", 2)) * unproven
        for p, q in pairwise(line):
            begins, length = length, length + round(math.dist(p, q))
            inner = [on(device - begins, 1, p, q) or p for device in devices if begins <= device < length]
            for part, (one, other) in enumerate(pairwise([p, *inner, q])):
                at += 2 * make_up * (part > 0)
                runs.append((at, scale, name, one, other))
                at += round(math.dist(one, other) * scale)
    ends = [0, *(joint["at_mm"] for joint in said), round((at + service + make_up) * vehicle.log.grown)]
    if not all(0 < two - one <= route.longest for one, two in pairwise(ends)):
        found.append(f"pieces of {route.longest} mm do not reach the joints at {ends[1:-1]} of {ends[-1]} mm")

    def there(joint: Data) -> bool:
        where = round(joint["at_mm"] / vehicle.log.grown)
        some = (on(where - at, scale, p, q) for at, scale, name, p, q in runs if name == joint["space"])
        inside = reached(vehicle, joint["space"], joint["point_mm"], joint["through"])
        return joint["reachable"] is True and joint["point_mm"] in some and inside

    wrong = [joint["at_mm"] for joint in said if not there(joint)]
    found += [f"the joint at {where} mm is not where it says, or no hand reaches it" for where in wrong]
    return [f"{route.said['id']}: {fault}" for fault in found]


def on(along: float, scale: float, p: Sequence[int], q: Sequence[int]) -> list[int] | None:
    """The point so much cable along a straight piece that takes `scale` times its length; None beyond its ends."""
    long = math.dist(p, q) or 1
    share = min(max(0, along / scale / long), 1)
    here = [round(u + (v - u) * share) for u, v in zip(p, q, strict=True)]
    return here if -1 < along / scale < long + 1 else None


def sits(route: Route, place: Data) -> bool:
    """Whether a device is so far along the cable from a terminal where it says, and in reach where it says so."""
    legs, at = list(zip(route.names, route.lines, strict=True)), 0
    if place["from"] == route.cable["to"]:
        legs = [(name, line[::-1]) for name, line in reversed(legs)]
    spots = []
    for name, line in legs:
        for p, q in pairwise(line):
            spots += [on(place["along_mm"] - at, 1, p, q)] if name == place["space"] else []
            at += round(math.dist(p, q))
    opening = place["opening"]
    inside = opening is None or reached(route.vehicle, place["space"], place["point_mm"], opening)
    return place["from"] in (route.cable["from"], route.cable["to"]) and place["point_mm"] in spots and inside
