"""Small jobs with circuits: two bays that a short way and a long way join, and cables from thin to thick."""

from typing import Any

import sketch
from drawcord.files.rule_tables import rule_sets
from drawcord.files.tables import conductors
from drawcord.plan.array import array
from drawcord.plan.comparing import Comparing
from drawcord.plan.fitted import fitted
from drawcord.plan.sized import sized
from drawcord.ways.ways import explore

Data = dict[str, Any]
TABLES = conductors()
RULES = rule_sets()
SUN, INDOORS, BELOW = "sun", "indoors", "wet and stony"
DC = (("10 mm2", 8, 38), ("16 mm2", 9, 45), ("25 mm2", 11, 54))
DC += (("35 mm2", 13, 62), ("50 mm2", 15, 72), ("70 mm2", 17, 82))


def cable_type(serves: str, section: str, diameter: int, bend: int, *, zones: tuple[str, ...]) -> Data:
    return {
        "name": f"{serves} {section}",
        "serves": [serves],
        "section": section,
        "metal": "tinned",
        "insulation": "90 °C",
        "outside diameter": diameter,
        "smallest bend": bend,
        "sunlight resistant": SUN in zones,
        "zones": list(zones),
    }


TYPES: Data = {
    "modules": {
        "panel": {
            "name": "Panel", "voc": "24.6 V", "isc": "10.2 A", "vmp": "20.5 V", "imp": "9.8 A",
            "voc coefficient": "-0.27 %/°C", "pmp coefficient": "-0.34 %/°C", "series fuse": "20 A",
            "long": 1480, "wide": 670, "lead": 900, "connector": "family-a",
        }
    },
    "controllers": {
        "charger": {
            "name": "Charger", "highest volts": "100 V", "short circuit": "35 A", "running margin": "1 V",
            "starting margin": "5 V", "output": "30 A", "terminals": ["2.5 mm2", "70 mm2"], "grounding": "negative",
        }
    },
    "batteries": {"bank": {"name": "Bank", "nominal": "12.8 V", "absorption": "14.2 V", "short circuit": "4 kA"}},
    "cables": {
        **{f"dc-{at}": cable_type("battery DC", *one, zones=(INDOORS, BELOW)) for at, one in enumerate(DC)},
        "pv-0": cable_type("PV", "4 mm2", 6, 30, zones=(SUN, INDOORS, BELOW)),
        "pv-1": cable_type("PV", "6 mm2", 7, 33, zones=(SUN, INDOORS, BELOW)),
    },
    "devices": {
        f"fuse-{amperes}": {
            "name": f"Fuse {amperes} A", "kind": "breaker", "volts": "150 V", "amperes": f"{amperes} A",
            "interrupting": "10 kA", "poles": 2, "switch rated": True,
        }
        for amperes in (20, 40, 63, 100, 125, 160)
    },
}  # fmt: skip


def job(supply: Data, *, pv: Data | None = None, types: Data | None = None, **sections: Any) -> Data:
    """A job: the array down to a controller, and `supply` from the battery to an inverter in another bay."""
    dc = {"class": "battery DC", "cores": 2, "outside diameter": 8, "smallest bend": 38, "largest plug": 14}
    equipment = {
        "junction": {
            "kind": "junction box", "in": "roof", "from front": 1000, "street": 300, "terminals": {"pv": None},
        },
        "controller": {
            "kind": "charge controller", "type": "charger", "in": "bay_a", "from front": 1000, "street": 300,
            "up": "bay+300", "terminals": {"pv": None},
        },
        "bank": {
            "kind": "battery", "type": "bank", "in": "bay_a", "from front": 1400, "street": 400, "up": "bay+100",
            "terminals": {"dc": None},
        },
        "inverter": {
            "kind": "inverter", "in": "bay_b", "from front": 2400, "street": 400, "up": "bay+200",
            "terminals": {"dc": None},
        },
        "panel_1": {
            "kind": "solar module", "type": "panel", "in": "roof", "from front": 2500, "street": 600, "terminals": {},
        },
        "panel_2": {
            "kind": "solar module", "type": "panel", "in": "roof", "from front": 4200, "street": 600, "terminals": {},
        },
    }  # fmt: skip
    cables = {
        "pv": {
            "class": "PV", "from": "junction.pv", "to": "controller.pv", "cores": 2, "outside diameter": 6,
            "smallest bend": 30, "largest plug": 20, "amperes": "10 A", "volts": "40 V", **(pv or {}),
        },
        "supply": {**dc, "from": "bank.dc", "to": "inverter.dc", "amperes": "60 A", "volts": "12.8 V", **supply},
    }  # fmt: skip
    given = {**TYPES, "cables": types} if types else TYPES
    return sketch.job_data(equipment, cables, rules="Europe", types=given, **sections)


def rig(opening: int, chance: str = "") -> Data:
    """Two bays with an opening of so many mm between them, and a tunnel beside both that is drilled into."""
    spaces = {
        "linen": {"kind": "cabinet", "from front": [800, 1500], "street": 500, "up": "floor..ceiling", "door": "curb"},
        "bay_a": {"kind": "bay", "from front": [500, 1900], "street": 700, "door": "street"},
        "bay_b": {"kind": "bay", "from front": [1900, 3000], "street": 700, "door": "street"},
        "tunnel": {
            "kind": "underfloor", "from front": [500, 3000], "street": [700, 1600], "up": "bay..belly",
        },
    }  # fmt: skip
    looked = {"standing": "unproven", "chance": chance} if chance else {"standing": "proven"}
    divider = {"between": ["bay_a", "bay_b"], "opening": "exists", "size": opening, **looked}
    return sketch.rig_data(spaces, passages={"divider": divider})


def ways_of(rigged: Data, jobbed: Data):
    return explore(sketch.coach_of(rigged, jobbed))


def array_of(coach):
    return array(fitted(coach, RULES))


def sized_of(rigged: Data, jobbed: Data, take=()):
    ways = ways_of(rigged, jobbed)
    return sized(Comparing(ways, TABLES), array_of(ways.coach), take)
