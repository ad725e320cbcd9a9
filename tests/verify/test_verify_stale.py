"""A plan that was right until something was found on the vehicle, ordered otherwise or edited in the shop."""

import math
from copy import deepcopy
from itertools import pairwise
from types import SimpleNamespace

import pytest

from drawcord.verify.vehicle import Vehicle
from drawcord.verify.verify import SHOP, faults


def winners(cases):
    """Every cable of every demo job with its winner, as a plan of its own."""
    for case in cases:
        for one in case.plan["cables"]:
            if one["candidates"]:
                plan, vehicle = case.alone(one["cable"], most=1)
                yield case, one["cable"], plan, vehicle, plan["cables"][0]["candidates"][0]


def changed(vehicle, change) -> Vehicle:
    """The vehicle after a change of its rig, job or shop's files."""
    edited = {name: deepcopy(vehicle.shop[name]) for name in SHOP}
    files = SimpleNamespace(**deepcopy({"rig": vehicle.rig, "job": vehicle.job}), shop={**vehicle.shop, **edited})
    change(files)
    return Vehicle(files.rig, files.job, files.shop)


def found(what, standing):
    """Something was looked at."""

    def change(files):
        facts = files.job.setdefault("differences", {}).setdefault("found", [])
        names = {what, "~".join(reversed(what.split("~")))}
        others = [one for one in facts if one["what"] not in names]
        files.job["differences"]["found"] = [*others, {"what": what, "standing": standing}]

    return change


def added(section, name, entry):
    """Something was found on the vehicle that no sketch shows."""

    def change(files):
        files.job.setdefault("differences", {}).setdefault(section, {})[name] = entry

    return change


def place(vehicle, point, half, *, on_roof=False):
    """A box around a point, as a tape measures it."""
    (front, _), (left, _) = vehicle.frame
    inset = 0 if on_roof else vehicle.wall
    x, y, z = point[0] - front, point[1] - left - inset, point[2]
    return {
        "from front": f"{x - half}..{x + half} mm",
        "left": f"{y - half}..{y + half} mm",
        "up": f"{z - half}..{z + half} mm",
    }


def middles(leg):
    """The middle of the longest straight piece of a leg."""
    points = leg["points_mm"]
    p, q = max(pairwise(points), key=lambda pair: math.dist(*pair))
    return [(u + v) // 2 for u, v in zip(p, q, strict=True)]


def test_what_is_found_blocked_or_is_excluded_makes_the_plan_wrong(cases):
    """Every space and every passage of every winner: a cable that runs there, runs there no more."""
    for case, cable, plan, vehicle, route in winners(cases):
        for name in [*route["spaces"], *route["passages"]]:
            if name != "roof":
                assert faults(plan, changed(vehicle, found(name, "blocked"))), (case.path.stem, cable, name)
        for name in route["spaces"]:
            excluded = {**vehicle.owner, "excludes": [*vehicle.owner.get("excludes", ()), name]}
            assert faults(plan, changed(vehicle, lambda files, its=excluded: files.job.update(owner=its))), name
        for a, b, name in zip(route["spaces"], route["spaces"][1:], route["passages"], strict=False):
            shut = {"between": [a, b], "opening": "closed"}
            its = name if name in vehicle.entries["passages"] else "shut"
            assert faults(plan, changed(vehicle, added("passages", its, shut))), (case.path.stem, cable, name)


def test_what_was_in_doubt_and_is_proven_changes_the_figures(cases):
    """Doubt, chance and slack are no more what the plan says."""
    proven = 0
    for case, cable, plan, vehicle, route in winners(cases):
        for name in route["unproven"]:
            assert faults(plan, changed(vehicle, found(name, "proven"))), (case.path.stem, cable, name)
            proven += 1
    assert proven > 5


def test_what_moves_burns_or_stands_where_a_cable_runs_makes_the_plan_wrong(cases):
    """A sweep, a flame, a tank, a fan on the roof, in the middle of every leg of every winner."""
    for case, cable, plan, vehicle, route in winners(cases):
        for leg in route["legs"]:
            if len(leg["points_mm"]) < 2 or leg["length_mm"] - leg["through_mm"] < 100:
                continue
            x, y, z = middles(leg)
            things = {"hazards": {"kind": "burner"}, "moving parts": {"kind": "slide-out", "drawn": "in"}}
            where = place(vehicle, (x, y, z), 8)
            if leg["kind"] == "roof":
                where = place(vehicle, (x, y, z), 8, on_roof=True) | {"up": "roof..roof+200 mm"}
                things = {"roof obstacles": {"kind": "vent"}}
            elif leg["kind"] != "room":
                things["obstructions"] = {"kind": "tank"}
            for section, thing in things.items():
                entry = {**thing, **where}
                if section == "moving parts":  # drawn in it lies aside; its travel brings it here
                    entry |= place(vehicle, (x - 300, y, z), 8) | {"travel": "290 mm", "towards": "aft"}
                new = changed(vehicle, added(section, "newcomer", entry))
                assert faults(plan, new), (case.path.stem, cable, leg["space"], section)


def test_a_slide_with_more_travel_makes_the_plan_wrong(cases):
    """The new part of the test above with less travel stays clear: it is the travel that tells."""
    for case, cable, plan, vehicle, route in winners(cases):
        leg = max(route["legs"], key=lambda leg: leg["length_mm"] * (leg["kind"] not in ("roof", "room")))
        if leg["kind"] in ("roof", "room"):
            continue
        x, y, z = middles(leg)
        new = [place(vehicle, (x, y, z - 3000), 2), place(vehicle, (x, y, z - 3000), 2)]
        for entry, travel in zip(new, ("500 mm", "3000 mm"), strict=True):
            entry |= {"kind": "slide-out", "travel": travel, "towards": "up", "drawn": "in"}
        short, long = (changed(vehicle, added("moving parts", "newcomer", entry)) for entry in new)
        assert faults(plan, short) == [], (case.path.stem, cable)
        assert faults(plan, long), (case.path.stem, cable)


def test_what_no_bore_may_meet_at_a_hole_makes_the_plan_wrong(cases):
    """A stud, a line, a wire or a window where a winner has its hole."""
    holes = 0
    for case, cable, plan, vehicle, route in winners(cases):
        for hole in route["holes"]:
            holes += 1
            middle = [(u + v) // 2 for u, v in zip(hole["near_mm"], hole["far_mm"], strict=True)]
            for kind in ("framing", "gas line", "wiring"):
                new = changed(vehicle, added("obstructions", "newcomer", {"kind": kind, **place(vehicle, middle, 6)}))
                assert faults(plan, new), (case.path.stem, cable, hole["id"], kind)
            windows = {**vehicle.rig.get("windows", {}), "newcomer": place(vehicle, middle, 6)}
            new = changed(vehicle, lambda files, its=windows: files.rig.update(windows=its))
            assert faults(plan, new), (case.path.stem, cable, hole["id"])
    assert holes > 30


def test_another_order_makes_the_plan_wrong(cases):
    """Every fact of a cable that the plan stands on, and the place of either terminal."""
    always = {"largest plug": "99 mm", "longest piece": "450 mm"}
    power = {"cores": "7", "amperes": "3 A", "volts": "55 V"}
    power["drop limit"] = "0.1 %"
    for case, cable, plan, vehicle, route in winners(cases):
        for key, value in {**always, **(power if route["conductor"] else {})}.items():
            ordered = vehicle.job["cables"][cable]
            if ordered.get(key) == value or (key == "largest plug" and not route["holes"]):
                continue
            cables = {cable: {**ordered, key: value}}
            new = changed(vehicle, lambda files, its=cables: files.job.update(cables=its))
            assert faults(plan, new), (case.path.stem, cable, key)
        for end in ("from", "to"):
            device, _, terminal = vehicle.job["cables"][cable][end].partition(".")
            space, point = vehicle.terminal(f"{device}.{terminal}")
            spot = place(vehicle, point, 0, on_roof=space == "roof")
            moved = {key: value.split("..")[1] for key, value in spot.items()} | {"from front": f"{point[0] + 40} mm"}
            its = vehicle.job["equipment"][device]
            its = {**its, "terminals": {**its["terminals"], terminal: moved}}
            equipment = {**vehicle.job["equipment"], device: its}
            new = changed(vehicle, lambda files, its=equipment: files.job.update(equipment=its))
            assert faults(plan, new), (case.path.stem, cable, end)


LOOKED = ("looking", "probing")  # what `look` alone goes by
SEARCHED = ("format", "units", "length times", "holes more", "minutes times", "most labels", "shown", "descents")
UNUSED = {  # what may change and leave every demo plan as it is
    "labour": {("metre", "gas locker"), ("metre", "vent stack")},  # no cable runs there
    "allowances": set(),
    "preferences": set(),
    # More reach, more tolerance and less room to work in forbid nothing; no cable comes near the filler.
    "clearances": {("contact",), ("stack cap",), ("working room",), ("arm",), ("hazards", "fuel filler")},
}


def leaves(value, path=()):
    if isinstance(value, dict | list):
        for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from leaves(inner, (*path, key))
    else:
        yield path


@pytest.mark.parametrize("file", ["labour", "allowances", "preferences", "clearances"])
def test_what_a_shop_edits_makes_some_plan_wrong(cases, file):
    """Every figure of the shop that a plan stands on: with another one, some demo plan is no more what it says."""
    missed = []
    # One cable after the other, what told of the change before first; only then whole plans, which take longer.
    groups = [(plan, vehicle) for _, _, plan, vehicle, _ in winners(cases)], [(c.plan, c.vehicle()) for c in cases]
    for path in leaves(cases[0].shop[file]):
        if path[0] in (*SEARCHED, *LOOKED):
            continue

        def other(files, path=path):
            *way, last = (file, *path)
            shop = files.shop
            for key in way:
                shop = shop[key]
            shop[last] = {"%": "33 %", "n": "37 min", "m": "999 mm"}.get(shop[last][-1], "3.21")

        for plans in groups:
            told = (n for n, (plan, vehicle) in enumerate(plans) if faults(plan, changed(vehicle, other)))
            if (first := next(told, None)) is not None:
                plans.insert(0, plans.pop(first))
                break
        else:
            missed.append(path)
    assert set(missed) <= UNUSED[file]
