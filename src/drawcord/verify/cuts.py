"""Where devices cut a cable: as the job places them, or one where a hand first gets, if the job places none."""

import math
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from drawcord.verify.boxes import HOLLOW, Box
from drawcord.verify.reach import ways_in
from drawcord.verify.read import Data, mm
from drawcord.verify.route import Route

TOLD = ("charge controller", "battery", "solar module")  # of these a job has to say the types, or it has no circuits


def measured(route: Route) -> int:
    """How far it is from end to end [mm], each straight stretch to the millimetre."""
    return sum(round(math.dist(p, q)) for line in route.lines for p, q in pairwise(line))


def stated(route: Route) -> dict[str, int]:
    """How far from its start the job's devices sit on a route [mm], by id; those past its ends left out."""
    job, whole, found = route.vehicle.job, measured(route), {}
    for name, its in (job.get("devices") or {}).items():
        if its["on"] == route.name:
            along = mm(its["along"], job.get("units", ""))
            found[name] = along if its["from"] == route.cable["from"] else whole - along
    return {name: at for name, at in found.items() if 0 <= at <= whole}


def proposed(route: Route) -> tuple[str, int] | None:
    """The terminal that a device is near which the job lacks, and how far from there a hand first gets to it [mm]."""
    terminal = _source(route)
    if not terminal:
        return None
    legs = list(zip(route.names, route.lines, strict=True))
    if terminal == route.cable["to"]:
        legs = [(name, line[::-1]) for name, line in reversed(legs)]
    runs, at = [], 0
    for name, line in legs:
        for p, q in pairwise(line):
            runs.append((at, name, np.array((p, q), float)))
            at += round(math.dist(p, q))
    ends = [*(at for at, *_ in runs[1:]), at]
    roof = [end for end, (_, name, _) in zip(ends, runs, strict=True) if name == "roof"]
    least = max(roof, default=0) * (route.cable["class"] == "PV")
    for end, (at, name, (p, q)) in zip(ends, runs, strict=True):
        along = np.arange(max(at, least), end + 1)
        points = p + (q - p) * ((along - at) / max(end - at, 1))[:, None]
        if (there := along[_in_reach(route, name, points)]).size:
            return terminal, int(there[0])
    return None


def cuts(route: Route) -> list[int]:
    """How far from its start a route is cut by devices [mm]; those at its ends cut nothing."""
    job, kinds = route.vehicle.job, route.vehicle.types("devices")
    found, whole = stated(route), measured(route)
    types = [job["devices"][name].get("type") for name in found]
    if all(type_id and kinds[type_id]["kind"] == "switch" for type_id in types) and (one := proposed(route)):
        terminal, along = one
        found[""] = along if terminal == route.cable["from"] else whole - along
    return sorted(at for at in found.values() if 0 < at < whole)


def _source(route: Route) -> str:
    """The battery's terminal, or of a cable into the controller the other one; nothing where no device is proposed."""
    equipment = route.vehicle.job["equipment"]
    told: dict[str, list[tuple[str, Data]]] = {kind: [] for kind in TOLD}
    for name, its in equipment.items():
        told.setdefault(its["kind"], []).append((name, its))
    single = all(len(told[kind]) == 1 for kind in TOLD[:2])
    if not single or not all(told[kind] and all(its.get("type") for _, its in told[kind]) for kind in TOLD):
        return ""
    wanted = {"PV": TOLD[0], "battery DC": TOLD[1]}.get(route.cable["class"])
    near = [end for end in ("from", "to") if equipment[route.cable[end].partition(".")[0]]["kind"] == wanted]
    if not near:
        return ""
    other = {"from": "to", "to": "from"}[near[0]]
    return str(route.cable[near[0] if wanted == TOLD[1] else other])


def _in_reach(route: Route, name: str, points: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Of each of some points in a space whether a hand gets to it."""
    space, arm = route.vehicle.spaces[name], route.vehicle.kept("arm")
    if space.kind in ("roof", "room", *HOLLOW):
        return np.full(len(points), space.kind == "room")

    def within(box: Box, far: int) -> NDArray[np.bool_]:
        off = np.maximum(np.maximum(box[:, 0] - points, points - box[:, 1]), 0)
        return np.asarray((off**2).sum(axis=1) <= far**2)

    found = np.zeros(len(points), bool)
    for _, box, _ in ways_in(route.vehicle, name):
        found |= within(box, arm)
    return found & within(space.box, 0)
