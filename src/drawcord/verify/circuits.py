"""The circuits of a plan: thicker types than the job orders, figures, devices and bonds worked out again."""

import math
import re
from collections.abc import Mapping

from drawcord.verify.devices import device_of, places_of
from drawcord.verify.figures import misworked
from drawcord.verify.purpose import System
from drawcord.verify.read import Data, mm, thick
from drawcord.verify.room import across, cramped
from drawcord.verify.route import Route
from drawcord.verify.sizing import APART, TOGETHER, Sizing
from drawcord.verify.tables import area, first, up_to
from drawcord.verify.together import strands, stretches, terms
from drawcord.verify.vehicle import Vehicle

DROP = ("loop resistance", "voltage drop", "voltage drop of supply", "power lost")
CEILING = "largest device the conductor allows"


def _company(vehicle: Vehicle, routes: Mapping[str, Route]) -> dict[str, list[list[int]]]:
    """The diameters of what else may lie in each cable's raceway with it, stretch by stretch [mm]."""
    found: dict[str, list[list[int]]] = {}
    for names in stretches(dict(routes)).values():
        for name in names:
            mine, others = routes[name], [routes[one] for one in names if one != name]
            beside = [one for one in others if "raceway" not in terms(vehicle, mine, one)[1]]
            found.setdefault(name, []).append([wide for one in beside for wide in strands(one)])
    return found


def ordered(vehicle: Vehicle, plan: Data) -> Data:
    """The job's cables with the types that the plan's circuits came to; what the job says of a cable is the least."""
    job, types = vehicle.job, vehicle.types("cables")
    cables = dict(job["cables"])
    for circuit in (plan["circuits"] or {}).get("circuits", ()):
        if circuit["pieces"] or not circuit["type"]:
            continue  # on the route as it was written
        cable, kind = cables[circuit["cable"]], types[circuit["type"]]
        cores, bare = int(cable["cores"]) if cable["class"] in APART else 1, job.get("units", "")
        wide = thick(kind["outside diameter"], kind["units"])
        plug = max(mm(cable["largest plug"], bare), math.ceil(across(cores, wide)))
        wide = max(thick(cable["outside diameter"], bare), wide)
        changed = {"conductor": kind["section"], "metal": kind["metal"]}
        changed |= {"largest plug": f"{plug} mm", "outside diameter": f"{wide} mm"}
        cables[circuit["cable"]] = {**cable, **changed}
    return cables


def check(plan: Data, vehicle: Vehicle, chosen: Mapping[str, Route]) -> tuple[Data, list[str]]:
    """What the circuits should say of the routes chosen for them; and what is wrong besides, in sentences."""
    said, job = plan["circuits"], vehicle.job
    right: Data = {"format": 1, "job": plan["job"], "rig": plan["rig"], "inputs": plan["inputs"], "circuits": []}
    right["rules"] = job.get("rules") or "US"
    if said["grouping"] is None:
        return right, []
    system, found, lost = System(vehicle, said["grouping"]), list[str](), dict[str, float]()
    if not system.possible:
        found.append(f"the job has not as many modules as {said['grouping']} takes")
    power = [name for name, cable in job["cables"].items() if cable["class"] not in ("data", "coax")]
    wanted = sorted(name for name in power if name in chosen and system.purpose(name))
    if [one["cable"] for one in said["circuits"]] != wanted or {*said["left"]} != {*power} - {*wanted}:
        found.append(f"there is not one circuit for each of {', '.join(wanted)}, or not a reason for every other cable")
    company = _company(vehicle, chosen)
    for one in said["circuits"]:
        if purpose := system.purpose(one["cable"]):
            sizing = Sizing(system, purpose, chosen[one["cable"]], one, company.get(one["cable"], []))
            own, wrong = circuit(sizing)
            right["circuits"].append(own)
            found += [f"{one['cable']}: {fault}" for fault in (*wrong, *_neighbours(one, chosen))]
            if kind := sizing.types.get(one["type"]):
                lost[one["cable"]] = sizing.drop(kind)[1][1]
    found += misworked(said["figures"])
    right["figures"] = _figures(_trackers(system, lost))
    right["bonding"] = _bonding(system, said)
    return right, found


def circuit(sizing: Sizing) -> tuple[Data, list[str]]:
    """What the plan should say of a circuit, and what is wrong besides."""
    said, route = sizing.said, sizing.route
    right = _repeated(said, sizing.system.job, route) | _sized(sizing)
    found = [*_types(sizing), *device_of(sizing), *places_of(said, sizing.system.vehicle, route)]
    if said["type"] and not said["pieces"]:
        found += cramped(route, sizing.types[said["type"]], apart=route.cable["class"] in APART)
    legs = [leg for one in said["tried"] for leg in one["worst_legs"]]
    return right, found + misworked([*said["figures"], *said["readings"], *legs])


def _neighbours(one: Data, chosen: Mapping[str, Route]) -> list[str]:
    """What is said to lie beside a cable in a space, and does not run there, or not with so many conductors."""
    found = []
    for figure in one["figures"]:
        if figure["name"].startswith(TOGETHER):
            space = figure["name"].removeprefix(TOGETHER)
            for count, name in re.findall(r"\+ (\d+) of ([\w-]+)", figure["formula"]):
                other = chosen.get(name)
                loaded = other and int(other.cable["cores"]) - (other.cable["class"] == "mains")
                if other is None or space not in other.names or loaded != int(count):
                    found.append(f"{count} conductors of {name} do not run in {space}")
    return found


def _figures(some: list[tuple[str, float, str]]) -> list[Data]:
    return [{"name": name, "value": float(f"{number_:.6g}"), "unit": unit} for name, number_, unit in some]


def _repeated(one: Data, job: Data, route: Route) -> Data:
    """What a circuit should say once more of its route."""
    said, holes = route.said, route.right["holes"]
    right = {key: said[key] for key in ("cut_length_mm", "unproven", "minutes")}
    right["joints"] = [{key: joint[key] for key in ("at_mm", "space")} for joint in said["joints"]]
    right["roof_holes_mm"] = [hole["diameter_mm"] for hole in holes if hole["kind"] == "roof"]
    right["named"] = job["cables"][one["cable"]].get("type")
    return right | {"candidate": said["id"], "largest_plug_mm": route.plug}


def _sized(sizing: Sizing) -> Data:
    """What a circuit should say of its cable: figures, drop and readings, and the same of all types that were tried."""
    said, kind = sizing.said, sizing.types.get(sizing.said["type"])
    tried = [(one["type"], f"ampacity of {sizing.types[one['type']]['section']} in") for one in said["tried"]]
    legs = [[leg["leg"] for leg in one["worst_legs"]] for one in said["tried"]]
    against = {one["type"]: one["against"] for one in said["tried"]}
    right: Data = {
        "circuit": sizing.purpose.circuit,
        "section": kind and kind["section"],
        "figures": _figures(sizing.figures()),
        "readings": _figures(sizing.readings()),
        "drop": kind and [figure for figure in said["figures"] if figure["name"] in DROP],
        "tried": [
            {"type": name, "worst_legs": [{"name": f"{start} {leg}", "unit": "A"} for leg in some]}
            for (name, start), some in zip(tried, legs, strict=True)
        ],
        "given_up": [{"against": against[name]} for name in dict.fromkeys(one["type"] for one in said["given_up"])],
    }
    if not kind:
        return right
    if not said["pieces"]:
        own = first(one for one in right["tried"] if one["type"] == said["type"])
        own["worst_legs"] = [
            {**leg, "value": amperes} for leg, (_, amperes) in zip(own["worst_legs"], sizing.stated(), strict=True)
        ]
    texts = {figure["name"]: figure["formula"] for figure in said["figures"]}
    least = min(sizing.terminals(kind)[1], sizing.stated()[0][1])
    for figure in right["figures"]:
        if figure["name"] == "overcurrent device":
            figure["formula"] = f"next standard rating at or above {sizing.continuous:.6g} A"
        if figure["name"] == CEILING and not texts[CEILING].startswith(f"{least:.6g} A"):
            figure["formula"] = f"{least:.6g} A, and what follows from it"
    return right


def _types(sizing: Sizing) -> list[str]:
    """What is wrong with the types of cable that were tried, and with the one that was taken."""
    said, types, names, found = sizing.said, sizing.types, sizing.route.names, []
    cable, given_up = sizing.route.cable, [one["type"] for one in said["given_up"]]
    stated = (types.get(said["named"]) or {"section": cable.get("conductor") or sizing.rules.wires})["section"]
    fitting = {name: its.get("section") or "" for name, its in types.items() if cable["class"] in its["serves"]}
    wires = stated.split()[-1]
    able = sorted((area(section), name) for name, section in fitting.items() if section.endswith(wires))
    if [one["type"] for one in said["tried"]] != [name for _, name in able]:
        found.append(f"{', '.join(name for _, name in able)} are the types that there are for it")
    serving = []
    for one in said["tried"]:
        kind, legs = types[one["type"]], [(leg["leg"], leg["value"]) for leg in one["worst_legs"]]
        if not sizing.legs(kind, legs, names):
            found.append(f"{one['type']} does not carry what is said of it: {legs}")
        elif one["type"] not in given_up:
            serves = bool(legs) and sizing.serves(kind, legs[0][1], names)
            serving += [one["type"]] * serves
            if serves != (not one["against"]):
                found.append(f"{one['type']} {'serves' if serves else 'does not serve'}, against what is said of it")
    if said["pieces"]:
        parts = [name for piece in said["pieces"] for name in piece["spaces"]]
        fit = said["type"] in [piece["type"] for piece in said["pieces"]] and parts == names
        serving = serving or [said["type"]] * fit
    if said["type"]:
        kind, legs = types[said["type"]], sizing.stated()
        if not sizing.legs(kind, legs, sizing.names) or not sizing.serves(kind, legs[0][1], sizing.names):
            found.append(f"{said['type']} does not serve, or does not carry what is said")
    taken = said["type"] or None
    if taken not in (serving or [None]):
        found.append(f"{taken} is taken, of {serving} that serve")
    return found


def _trackers(system: System, lost: Mapping[str, float]) -> list[tuple[str, float, str]]:
    """What is left of each tracker's hot voltage behind the cables that lose most, and what is lost."""
    found = []
    purposes = [purpose for name in sorted(lost) if (purpose := system.purpose(name)) and purpose.way]
    for tracker in sorted({purpose.tracker for purpose in purposes}):
        here = [purpose for purpose in purposes if purpose.tracker == tracker]
        most, hot = max(sum(lost.get(name, 0.0) for name in one.way) for one in here), here[0].supply[1]
        found.append((f"hot Vmp at tracker {tracker + 1}", hot - most, "V"))
        found.append((f"drop from the array to tracker {tracker + 1}", 100 * most / hot, "%"))
    return found


def _bonding(system: System, said: Data) -> Data:
    """The bonds behind the largest device of the array, and as thick as the thickest lead of the battery."""
    devices = [one["device"]["amperes"] for one in said["circuits"] if one["device"] and one["circuit"] == "array"]
    leads = [one["section"] for one in said["circuits"] if one["section"] and one["circuit"] not in ("array", "mains")]
    if not devices or not leads:
        return {}
    bond = system.rules.bond
    frames = bond if system.rules.wires == "mm2" else f"{up_to('grounding_nec_250_122', max(devices))[1]} AWG"
    names = {
        "frames": ("least section to bond module frames", frames),
        "enclosures": ("least section to bond enclosures", bond),
        "chassis": ("least section from battery negative to chassis", max([bond, *leads], key=area)),
    }
    return {
        what: {"section": section, "name": name, "value": float(f"{round(area(section), 3):.6g}"), "unit": "mm²"}
        for what, (name, section) in names.items()
    }
