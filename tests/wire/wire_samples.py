"""Invented but believable equipment that the checks of circuits share."""

from drawcord.files.rule_tables import rule_sets
from drawcord.wire.battery import Battery
from drawcord.wire.cable import CableType
from drawcord.wire.coefficient import TemperatureCoefficient
from drawcord.wire.controller import Controller
from drawcord.wire.device import Device
from drawcord.wire.module import Module

RULES = rule_sets()
US, EUROPE = RULES["US"], RULES["Europe"]
AWG = [
    "14 AWG",
    "12 AWG",
    "10 AWG",
    "8 AWG",
    "6 AWG",
    "4 AWG",
    "3 AWG",
    "2 AWG",
    "1 AWG",
    "1/0 AWG",
    "2/0 AWG",
    "3/0 AWG",
    "4/0 AWG",
]
MM2 = ["1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2", "10 mm2", "16 mm2", "25 mm2", "35 mm2", "50 mm2"]
MM2 += ["70 mm2", "95 mm2", "120 mm2"]


def module(**changed):
    given = {
        "name": "module",
        "voc": 24.6,
        "isc": 10.2,
        "vmp": 20.5,
        "imp": 9.8,
        "series_fuse": 20.0,
        "long_mm": 1500,
        "wide_mm": 700,
        "lead_mm": 900,
        "connector": "family A",
        "of_voc": TemperatureCoefficient("Voc", -0.27, "%/°C"),
        "of_pmp": TemperatureCoefficient("Pmp", -0.34, "%/°C"),
        "of_isc": TemperatureCoefficient("Isc", 0.05, "%/°C"),
    }
    return Module(**given | changed)


def controller(**changed):
    given = {
        "name": "controller",
        "highest_volts": 100.0,
        "short_circuit_amperes": 35.0,
        "running_margin": 1.0,
        "starting_margin": 5.0,
        "output_amperes": 30.0,
        "trackers": 1,
        "terminal_mm2": (2.5, 16.0),
        "grounding": "negative",
    }
    return Controller(**given | changed)


def battery(**changed):
    given = {"name": "battery", "nominal": 12.8, "absorption": 14.4, "short_circuit_amperes": 4000.0}
    return Battery(**given | changed)


def cable(section="10 AWG", **changed):
    given = {
        "name": f"cable of {section}",
        "section": section,
        "metal": "tinned",
        "insulation_celsius": 90.0,
        "diameter_mm": 20.0,
        "sunlight_resistant": True,
        "zones": ("roof", "indoors"),
        "bend_mm": 100,
    }
    return CableType(**given | changed)


def device(**changed):
    given = {
        "name": "breaker",
        "kind": "breaker",
        "volts": 150.0,
        "amperes": 20.0,
        "interrupting_amperes": 5000.0,
        "polarised": False,
        "switch_rated": True,
        "poles": 2,
    }
    return Device(**given | changed)
