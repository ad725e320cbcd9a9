"""How thick the conductors that bond frames, enclosures and the battery to the chassis have to be."""

from collections.abc import Iterable
from typing import NamedTuple

from drawcord.wire.cable import area_mm2
from drawcord.wire.possible import above_zero
from drawcord.wire.published import GroundingConductor
from drawcord.wire.rulesets import LeastSection, RuleSet
from drawcord.words.figure import Figure


class Bond(NamedTuple):
    """The least section of a bond: as a job says it, and in mm² with its working."""

    section: str
    copper: Figure


class Bonds(NamedTuple):
    """What is bonded to the chassis."""

    frames: Bond
    enclosures: Bond
    chassis: Bond


def bonds(rules: RuleSet, device_amperes: float, battery_lead: str) -> Bonds:
    """The bonds of an array behind a device of `device_amperes` [A], and of a battery with `battery_lead`.

    A section grown for voltage drop alone does not make the frames' conductor grow. The chassis bond is the
    only one between battery negative and chassis, and as thick as the battery's unbonded lead.

    Raises:
        ValueError: a device beyond the rule set's table, a section that is none.

    """
    least = rules.chassis_bond
    chassis = max((least.section, battery_lead), key=area_mm2)
    return Bonds(
        _bond(
            "least section to bond module frames",
            _behind(rules.grounding, device_amperes),
            f"behind a device of {device_amperes:g} A",
        ),
        _bond("least section to bond enclosures", rules.enclosure_bond, "whatever the device"),
        _bond(
            "least section from battery negative to chassis",
            LeastSection(chassis, least.source),
            f"the thicker of {least.section} and the unbonded lead of {battery_lead}",
        ),
    )


def _behind(table: Iterable[GroundingConductor], amperes: float) -> LeastSection:
    above_zero("the device's rating", amperes, "A")
    rows = sorted(table, key=lambda row: row.up_to)
    for row in rows:
        if amperes <= row.up_to:
            return LeastSection(row.section, row.source)
    most = f"{rows[-1].up_to:g} A" if rows else "nothing"
    raise ValueError(f"the table of grounding conductors ends at {most}, not at {amperes:g} A")


def _bond(name: str, least: LeastSection, why: str) -> Bond:
    working = f"{least.section}, {why}"
    return Bond(least.section, Figure(name, round(area_mm2(least.section), 3), "mm²", working, least.source))
