"""A plan held against the raw files that it was made from."""

import hashlib
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from drawcord.verify import circuits, limits, room, together, told
from drawcord.verify.figures import figures
from drawcord.verify.joints import joints
from drawcord.verify.read import Data, Unreadable, number, read
from drawcord.verify.route import Route
from drawcord.verify.vehicle import Vehicle

CRITERIA = {"length": 1.0, "in sight": 1.0, "roof holes": 1e3, "inner holes": 1e3, "minutes": 1e3 / 60, "doubt": 1e-3}
NOT_A_PLAN = (LookupError, TypeError, ValueError, ArithmeticError, AttributeError)  # what comes of reading another form
SHOP = ("clearances", "labour", "allowances", "preferences")
MORE = ("modules", "controllers", "batteries", "cables", "devices", "parts", "sharing")  # where the shop has them


def verify(path: Path) -> list[str]:
    """What is wrong with a plan, in sentences; none if nothing is. Raises Unreadable."""
    plan = read(path)
    try:
        job_file, folder = path.parent / plan["job_file"], path.parent / plan["shop_folder"]
        job = read(job_file)
        rig = job_file.parent / job["rig"]
        log = rig.with_name(f"{rig.stem}.log.yaml")
        files = {"rig": rig, "job": job_file, "log": log} | {name: folder / f"{name}.yaml" for name in (*SHOP, *MORE)}
        files = {name: file for name, file in files.items() if name not in ("log", *MORE) or file.is_file()}
        hashes = {file.name: hashlib.sha256(file.read_bytes()).hexdigest() for file in files.values()}
        inputs = [{"file": name, "sha256": digest} for name, digest in hashes.items()]
        changed = [now["file"] for now in inputs if now not in plan["inputs"]]
        if changed or len(inputs) != len(plan["inputs"]):
            named = ", ".join(changed) or "the list of its inputs"
            raise Unreadable(f"{path}: {named} is not what this plan was made from: plan again, then verify")
        texts = {name: read(file) for name, file in files.items()}
        return faults(plan, Vehicle(texts["rig"], job, texts))
    except KeyError as error:
        raise Unreadable(f"{path} is no plan that can be checked: the key {error} is missing") from error
    except (*NOT_A_PLAN, OSError) as error:
        raise Unreadable(f"{path} is no plan that can be checked: {type(error).__name__}, {error}") from error


def faults(plan: Data, vehicle: Vehicle) -> list[str]:
    """What is wrong with a plan of a vehicle, in sentences."""
    job = vehicle.job
    found: list[str] = []
    right: Data = {"format": 1, "job": job["job"], "rig": vehicle.rig["rig"], "cables": []}
    chosen: dict[str, Route] = {}
    alone: dict[str, Route] = {}
    for (name, ordered), said in zip(sorted(circuits.ordered(vehicle, plan).items()), plan["cables"], strict=True):
        one, routes, wrong = cable(vehicle, name, ordered, said)
        right["cables"].append(one)
        found += wrong
        alone |= dict(zip([name], routes, strict=False))
        taken = [route for route in routes if route.said["id"] == plan["chosen"].get(name)]
        chosen |= dict(zip([name], taken, strict=False))
        left_out = name in (plan.get("together") or {}).get("left_out", ())
        if bool(routes) == bool(said["unroutable"]) or bool(taken) == (left_out or not routes):
            found.append(f"{name} needs one of its candidates to be chosen, or a reason why it has no route")
    if plan["circuits"]:
        right["circuits"], wrong = circuits.check(plan, vehicle, chosen)
        found += wrong
    if plan.get("together"):
        right["together"], wrong = together.check(plan["together"], vehicle, chosen, alone)
        found += wrong
    elif "together" in plan and len(alone) > 1:
        found.append("several cables have a way, but nothing is said of them together")
    beside = [chosen] if plan.get("together") else [{name: route} for name, route in chosen.items()]
    found += [fault for routes in beside for fault in room.overlapping(routes)]
    if (logged := vehicle.shop.get("log", right)["rig"]) != right["rig"]:
        found.append(f"the log beside the rig is that of {logged}")
    if not {*plan["chosen"]} <= {*job["cables"]}:
        found.append("a route is chosen for a cable that the job does not have")
    return [*differences("the plan", plan, right), *found]


def cable(vehicle: Vehicle, name: str, ordered: Data, said: Data) -> tuple[Data, list[Route], list[str]]:
    """What the plan should say of a cable, its routes, and what is wrong with them."""
    found: list[str] = []
    routes = [Route(vehicle, name, ordered, candidate) for candidate in said["candidates"]]
    right = {"cable": name, "from": ordered["from"], "to": ordered["to"]}
    rights = candidates(vehicle, name, routes, found)
    found += [fault for route in routes for fault in (*route.faults, *joints(route))]
    found += limits.broken(vehicle, ordered, routes)
    found += limits.misquoted(vehicle, ordered, (said["unroutable"] or {"too_tight": []})["too_tight"])
    return right | {"candidates": rights}, routes, found


def candidates(vehicle: Vehicle, name: str, routes: list[Route], found: list[str]) -> list[Data]:
    """What the plan should say of the candidates of a cable, each for itself and beside the others."""
    said = {**vehicle.shop["preferences"]["weights"], **vehicle.owner.get("weights", {})}
    weights = [round(1000 * float(number(said[key])) * unit) for key, unit in CRITERIA.items()]
    rights = [route.right | figures(route) for route in routes]
    rows = [
        (route.length, route.in_sight, right["roof_holes"], right["inner_holes"], route.seconds, route.doubt)
        for route, right in zip(routes, rights, strict=True)
    ]
    scores = [sum(weight * value for weight, value in zip(weights, row, strict=True)) for row in rows]
    count = len(routes) - (len(routes) > 1 and routes[-1].said["offered_as"] == "together")
    for n, (route, right) in enumerate(zip(routes, rights, strict=True)):
        columns = zip(CRITERIA, rows[n], zip(*rows[:count], strict=True), strict=True)
        right["best_at"] = [word for word, value, column in columns if value == min(column) < max(column)]
        right |= {"id": f"{name}-{n + 1}", "rank": n + 1, "score_m": round(scores[n] / 1e6, 3)}
        told.check(route, right)
        if n == count:  # made for the joint plan, beside what is offered
            right |= {"id": f"{name}-together", "best_at": []}
            break
        beaten = any(other != rows[n] and (np.array(other) <= rows[n]).all() for other in rows[:count])
        if route.said["offered_as"] not in (("another descent", "efficient")[: 2 - beaten] if n else ("winner",)):
            found.append(f"{name}-{n + 1} is offered as {route.said['offered_as']}")
    order = [(route.in_sight > 0 and not route.agreed, score) for route, score in zip(routes, scores, strict=True)]
    if order[:count] != sorted(order[:count]):
        found.append(f"the candidates of {name} are not in the order of what they weigh")
    return rights


def differences(what: str, said: object, right: object) -> Iterator[str]:
    """A sentence for everything that is said otherwise than is right; keys that `right` leaves out may say anything."""
    if isinstance(right, dict) and isinstance(said, dict):
        for key, value in right.items():
            yield from differences(f"{what}, {key}", said.get(key, "nothing"), value)
    elif isinstance(right, list) and isinstance(said, list) and len(right) == len(said):
        for number_, (one, other) in enumerate(zip(said, right, strict=True), start=1):
            yield from differences(f"{what} {number_}", one, other)
    elif type(said) is not type(right) or said != right:
        yield f"{what}: {right} is right, not {said}"
