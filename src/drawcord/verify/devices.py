"""The device of a circuit, and where devices sit on its cable."""

import math

from drawcord.verify.cuts import measured, proposed, stated
from drawcord.verify.joints import sits
from drawcord.verify.purpose import value
from drawcord.verify.read import Data
from drawcord.verify.route import Route
from drawcord.verify.sizing import Sizing
from drawcord.verify.vehicle import Vehicle


def device_of(sizing: Sizing) -> list[str]:
    """What is wrong with the device; a circuit without one has a refusal instead."""
    said, purpose, device = sizing.said, sizing.purpose, sizing.said["device"]
    refused = any(finding["severity"] == "refusal" for finding in said["findings"])
    if not device:
        return [] if refused else ["it has no device, and no refusal says why"]
    placed = [one.get("type") for one in sizing.system.job.get("devices", {}).values() if one["on"] == said["cable"]]
    every = sizing.system.vehicle.types("devices")
    types = {name: its for name, its in every.items() if its["kind"] != "switch"}
    types = {name: types[name] for name in placed if name in types} or types
    made = [
        {
            "name": its["name"],
            "kind": its["kind"],
            "current": its.get("current") or "DC",
            "volts": value(its, "volts"),
            "amperes": value(its, "amperes"),
            "interrupting_amperes": value(its, "interrupting"),
            "polarised": its.get("polarised") == "true",
            "poles": int(its.get("poles") or 1),
        }
        for its in types.values()
    ]
    ceiling = sizing.ceiling(sizing.types[said["type"]], sizing.stated()[0][1])
    rules = {
        "is none of the types that it may be of": device in made,
        "is for another current": device["current"] == ("AC" if purpose.circuit == "mains" else "DC"),
        f"bears less than {purpose.volts:.4g} V": device["volts"] >= purpose.volts,
        f"opens on {sizing.continuous:g} A": device["amperes"] >= sizing.continuous,
        f"is more than the {ceiling:g} A that the cable allows": device["amperes"] <= ceiling,
        "is less than what a short circuit draws": device["interrupting_amperes"] >= (purpose.prospective or math.inf),
        "is polarised, and fed from both ends": not (device["polarised"] and purpose.both_ends),
        f"opens fewer than {purpose.poles} conductors": device["poles"] >= purpose.poles,
    }
    return [f"{device['name']} {fault}" for fault, kept in rules.items() if not kept]


def places_of(one: Data, vehicle: Vehicle, route: Route) -> list[str]:
    """Devices that do not sit where the job has them, or one is proposed where there is none or out of reach."""
    devices, along = vehicle.job.get("devices") or {}, stated(route)
    names = [place["name"] for place in one["places"]]
    found = []
    if sorted(name for name in names if name) != sorted(along) or names.count(None) > 1:
        found.append(f"the job has {[*along]} on it, not {names}")
    for place in one["places"]:
        its, at, name = devices.get(place["name"], {}), place["along_mm"], place["name"]
        there = sits(route, place) and place["type"] == its.get("type")
        if name in along:
            there &= along[name] == (at if place["from"] == route.cable["from"] else measured(route) - at)
        elif name is None:
            there &= proposed(route) == (place["from"], at) and bool(place["opening"])
        if not there:
            found.append(f"the device at {at} mm is not where it says, or no hand reaches it")
    return found
