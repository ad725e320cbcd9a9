"""The job with a type for each cable: what the route is planned with, and the types that a cable may grow through."""

import math
from collections.abc import Mapping
from dataclasses import replace

from drawcord.coach.catalogue import CableType, Types
from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable
from drawcord.wire.cable import area_mm2, standard
from drawcord.wire.fill import across

STANDARD = {"US": "AWG", "Europe": "mm2"}


def thin_to_thick(types: Types, cable: Cable, rules: str) -> dict[str, float]:
    """The types a power cable may have and their sections [mm²], from thin to thick.

    Only types for what it carries, sized as the type or conductor that it names, else as the rule set sizes them.
    """
    stated = types.cables[cable.type].section if cable.type else cable.conductor
    wires = standard(stated) if stated else STANDARD[rules]
    found = sorted(
        (area_mm2(kind.section), name)
        for name, kind in types.cables.items()
        if kind.section and cable.carries in kind.serves and standard(kind.section) == wires
    )
    return {name: area for area, name in found}


def ladder(types: Types, cable: Cable, rules: str) -> tuple[str, ...]:
    """The types that a power cable may grow through: from the type or conductor it names on, never thinner."""
    found = thin_to_thick(types, cable, rules)
    if cable.type in found:
        least = found[cable.type]
        return (cable.type, *(name for name, area in found.items() if area >= least and name != cable.type))
    least = area_mm2(cable.conductor) if cable.conductor else 0.0
    return tuple(name for name, area in found.items() if area >= least)


def grown(coach: Coach, types: Mapping[str, str]) -> Coach:
    """The coach with these types for the job's cables. What the job writes of a cable stays the least of it."""
    if coach.job is None:
        raise LookupError("a coach without a job has no cables")
    known = coach.types.cables
    cables = {
        name: of_type(cable, types[name], known[types[name]]) if name in types else cable
        for name, cable in coach.job.cables.items()
    }
    return replace(coach, job=coach.job.model_copy(update={"cables": cables}))


def of_type(cable: Cable, name: str, kind: CableType) -> Cable:
    """The cable as this type: as thick and stiff as it or as the job says, holes for the plug or all its cores."""
    wide = across(cable.cores, kind.outside_diameter) if lie_apart(cable) else kind.outside_diameter
    diameter = max(cable.outside_diameter, math.ceil(kind.outside_diameter))
    return cable.model_copy(
        update={
            "type": name,
            "conductor": kind.section,
            "metal": kind.metal,
            "outside_diameter": diameter,
            "smallest_bend": max(cable.smallest_bend, kind.smallest_bend),
            "largest_plug": max(cable.largest_plug, math.ceil(wide)),
        }
    )


def lie_apart(cable: Cable) -> bool:
    """Whether its cores lie beside each other, each in its own sheath: those of mains, data and coax share one."""
    return cable.carries in ("PV", "battery DC") and cable.cores > 1
