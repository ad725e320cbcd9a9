"""The cables as the circuits of a plan have them: thicker types than the job orders, and figures said a second time."""

import math
from collections.abc import Mapping

from drawcord.verify.read import Data, mm, thick
from drawcord.verify.route import Route
from drawcord.verify.vehicle import Vehicle

APART = ("PV", "battery DC")  # what these carry lies in cores with a sheath each, side by side


def ordered(vehicle: Vehicle, plan: Data) -> Data:
    """The job's cables with the types that the plan's circuits came to; what the job says of a cable is the least."""
    job, stock = vehicle.job, vehicle.shop.get("cables", {})
    files = ((stock, stock.get("cables", {})), (job, job.get("types", {}).get("cables", {})))
    types = {name: {**entry, "units": file.get("units", "")} for file, part in files for name, entry in part.items()}
    cables = dict(job["cables"])
    for circuit in (plan["circuits"] or {}).get("circuits", ()):
        cable, kind = cables[circuit["cable"]], types[circuit["type"]]
        cores, wide = int(cable["cores"]), float(thick(kind["outside diameter"], kind["units"]))
        if cores > 1 and cable["class"] in APART:
            wide *= 1 + 1 / math.sin(math.pi / (cores - (cores > 6)))
        plug = max(mm(cable["largest plug"], job.get("units", "")), math.ceil(wide))
        changed = {"conductor": kind["section"], "metal": kind["metal"], "largest plug": f"{plug} mm"}
        cables[circuit["cable"]] = {**cable, **changed}
    return cables


def repeated(plan: Data, job: Data, chosen: Mapping[str, Route]) -> Data:
    """What the circuits should say once more of the routes chosen for them."""
    found = []
    for circuit in plan["circuits"]["circuits"]:
        route = chosen[circuit["cable"]]
        said, holes = route.said, route.right["holes"]
        right = {key: said[key] for key in ("cut_length_mm", "unproven", "minutes")}
        right["joints"] = [{key: joint[key] for key in ("at_mm", "space")} for joint in said["joints"]]
        right["roof_holes_mm"] = [hole["diameter_mm"] for hole in holes if hole["kind"] == "roof"]
        right["named"] = job["cables"][circuit["cable"]].get("type")
        right |= {"candidate": said["id"], "largest_plug_mm": route.plug, "section": route.cable["conductor"]}
        found.append(right)
    return {"format": 1, "job": plan["job"], "rig": plan["rig"], "inputs": plan["inputs"], "circuits": found}
