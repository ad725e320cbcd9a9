"""Where a hand gets into a space, and where in it a joint may lie."""

import math

from drawcord.verify.boxes import HOLLOW, Box, instead
from drawcord.verify.read import number
from drawcord.verify.vehicle import Vehicle

OPENED_BY = {"cabinet": "cabinet door", "bay": "bay hatch", "gas locker": "bay hatch"}


def ways_in(vehicle: Vehicle, name: str) -> list[tuple[str, Box, int]]:
    """The openings of a space: id, flat box and time to open [s]."""
    entry = vehicle.entries["spaces"].get(name, {})
    listed = {key: its for key, its in vehicle.entries["access"].items() if its["into"] == name}
    if "door" in entry:
        kind = OPENED_BY.get(entry["kind"], "removable panel")
        listed[f"{name}.door"] = {"face": entry["door"], "kind": kind, "units": ""}
    found = []
    for key, its in listed.items():
        (axis, end), box = vehicle.face(its["face"]), vehicle.spaces[name].box
        minutes = number(its["minutes"]) if "minutes" in its else vehicle.figure("labour", "access", its["kind"])
        found.append((key, vehicle.place(its, within=instead(box, axis, *[box[axis, end]] * 2)), round(minutes)))
    return found


def reached(vehicle: Vehicle, name: str, point: list[int], opening: str) -> bool:
    """Whether a hand gets again through an opening to a point in a space; never to what a hollow or a wall hides."""
    if vehicle.spaces[name].kind in ("roof", "room", *HOLLOW):
        inside = all(low <= c <= high for (low, high), c in zip(vehicle.spaces[name].box, point, strict=True))
        return vehicle.spaces[name].kind == "room" and opening == "raceway cover" and inside
    faces = [box for known, box, _ in ways_in(vehicle, name) if known == opening]
    off = [[max(low - c, 0, c - high) for (low, high), c in zip(box, point, strict=True)] for box in faces]
    return any(math.hypot(*each) <= vehicle.kept("arm") + 1 for each in off)
