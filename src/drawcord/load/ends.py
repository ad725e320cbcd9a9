"""What the ends and joints of cables are made up with, and the devices of the circuits."""

from collections.abc import Sequence
from itertools import pairwise

from drawcord.coach.coach import Coach
from drawcord.coach.job import NO_CONNECTOR, Cable
from drawcord.coach.parts import PartKind, Parts
from drawcord.load.needs import Needs
from drawcord.load.pieces import Pieces
from drawcord.plan.plan import Plan

PRACTICE = "common practice, no source"


def section_of(coach: Coach, cable: Cable) -> str:
    """The section of one core, as its type or the job says it; empty for data, coax and what nobody knows."""
    stocked = coach.types.cables.get(cable.type) if cable.type else None
    return (stocked.section if stocked else None) or cable.conductor or ""


def made_up_with(coach: Coach, cable: Cable, number: int, rules: Parts) -> PartKind:
    """What end `number` (0: the start, 1: the end) of each core is made up with."""
    if cable.carries == "data":
        return "data plug"
    if cable.carries == "coax":
        return "coax connector"
    job = coach.job
    device = job.equipment[(cable.start, cable.end)[number].split(".")[0]] if job else None
    if cable.carries == "PV":
        if cable.connectors is not None:
            return "ferrule" if cable.connectors[number] == NO_CONNECTOR else "PV connector"
        if device and (device.connector or device.kind == "solar module"):
            return "PV connector"
    if cable.carries == "battery DC" and device and device.kind in rules.studs:
        return "lug"
    return "ferrule"


def ends(
    needs: Needs, coach: Coach, name: str, cable: Cable, rules: Parts, ready: tuple[bool, bool] = (False, False)
) -> None:
    """Both ends of a cable; data and coax have one plug an end, all others one part a core.

    `ready`: whether a fitted piece ends there. What is on it serves, but for a terminal that takes a ferrule.
    """
    for number, end in enumerate((cable.start, cable.end)):
        kind = made_up_with(coach, cable, number, rules)
        if ready[number] and kind != "ferrule":
            continue
        several = 1 if kind in ("data plug", "coax connector") else cable.cores
        terminate(needs, kind, several, f"{name} at {end}", section_of(coach, cable), rules)


def terminate(needs: Needs, kind: PartKind, count: int, where: str, section: str, rules: Parts) -> None:
    """So many ends; a lug takes a length of shrink besides."""
    sized = section if kind in ("ferrule", "lug", "splice", "PV connector") else ""
    needs.add(kind, count, where, size=sized, source=PRACTICE)
    if kind in ("lug", "splice"):
        why = f"{where}: {count} · {rules.shrink} mm"
        needs.add("shrink", count * rules.shrink / 1000, why, size=section, unit="m", source="the shop's parts.yaml")


def joined(pieces: Sequence[Pieces]) -> list[tuple[str, int]]:
    """Where the pieces of a cable meet, and how many of the two ends there come fitted; the cable's runs in order."""
    laid = [(one, piece) for one in pieces for piece in one.laid]
    found = []
    for (one, before), (other, after) in pairwise(laid):
        at = other.run.begins + after.start
        space = next(joint.space for joint in (*one.joints, *other.joints) if joint.at == at)
        found.append((space, before.piece.fitted + after.piece.fitted))
    return found


def joints(
    needs: Needs, coach: Coach, name: str, cable: Cable, made: Sequence[tuple[str, int]], rules: Parts
) -> None:
    """A pair of connectors a core at each joint of PV cable, a splice a core elsewhere, a plug a side of others.

    `made`: the space of each joint, and how many of its two sides come fitted.
    """
    section = section_of(coach, cable)
    for number, (space, ready) in enumerate(made, start=1):
        where = f"{name} joint {number} in {space}"
        if cable.carries == "PV":
            terminate(needs, "PV connector", (2 - ready) * cable.cores, where, section, rules)
        elif cable.carries in ("data", "coax"):
            terminate(needs, "data plug" if cable.carries == "data" else "coax connector", 2 - ready, where, "", rules)
        elif ready < 2:
            terminate(needs, "splice", cable.cores, where, section, rules)


def protection(needs: Needs, plan: Plan, rules: Parts) -> None:
    """Devices with holders, the ends that they cut into a cable, and what is bonded; nothing without circuits."""
    if plan.circuits is None or plan.coach.job is None:
        return
    for one in plan.circuits.circuits:
        device = one.device
        if device is None:
            continue
        cable = plan.coach.job.cables[one.cable]
        opened = min(device.poles, cable.cores)
        rating = f"{device.amperes:g} A {device.current}"
        needs.add(device.kind, 1, f"{one.cable}: {device.name}", size=rating, source="the circuit")
        if device.kind == "fuse":
            needs.add("fuse holder", 1, f"{one.cable}", size=rating, source="the circuit")
        kind: PartKind = "lug" if device.kind in ("fuse", "switch") else "ferrule"
        where = f"{one.cable}: 2 · {opened} poles of {device.name}"
        terminate(needs, kind, 2 * opened, where, section_of(plan.coach, cable), rules)
    if plan.circuits.bonds:
        for what, bond in zip(("frames", "enclosures", "battery negative"), plan.circuits.bonds, strict=True):
            source = bond.copper.source
            why = f"{what} to chassis, length to be measured on site"
            needs.add("bonding conductor", 1, why, size=bond.section, unit="runs", source=source)
            terminate(needs, "lug", 2, f"bond of {what}", bond.section, rules)
