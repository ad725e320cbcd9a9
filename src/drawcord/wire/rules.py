"""Rules that apply to an array or do not: each with the reason, so that nobody takes silence for a yes."""

from drawcord.wire.published import Rule
from drawcord.wire.rulesets import Arrayed

ARC_VOLTS = 80.0
GROUND_FAULT_VOLTS = 30.0
GROUND_FAULT_AMPERES = 8.0
GROUND_FAULT_STRINGS = 2
EXTRA_LOW_VOLTS = 60.0
FRAMES = "bonding of module frames and metal enclosures"


def us_rules(array: Arrayed) -> tuple[Rule, ...]:
    """NEC 690 on bonding, arc faults, rapid shutdown and ground faults, for an array of a vehicle."""
    return (
        Rule(FRAMES, True, "whatever the voltage", "NEC 2023 690.43 (from memory)"),
        Rule(
            "one bond from DC negative to the chassis",
            True,
            "at the battery, and no second one at controller or inverter, or fault current finds other ways",
            "common practice, no source",
        ),
        Rule(
            "battery compartment tight to the inside and open to the outside",
            True,
            "openings of at least 1100 mm² (1.7 in²) at top and bottom; told here, not checked",
            "NEC 2008 552.10(D), park trailers",
        ),
        Rule(
            "arc-fault protection",
            array.cold_voc >= ARC_VOLTS,
            f"{_against(array.cold_voc, ARC_VOLTS)}, at cold Voc, which is stricter than the voltage in service; the "
            "exception for raceways of metal off buildings is not taken",
            "NEC 2023 690.11 (80 V from memory, seen that it holds off buildings too since 2014)",
        ),
        Rule(
            "rapid shutdown",
            False,
            "it is for circuits on or in buildings, and this is a vehicle",
            "NEC 2023 690.12",
        ),
        _us_ground_fault(array),
    )


def _us_ground_fault(array: Arrayed) -> Rule:
    many = array.strings > GROUND_FAULT_STRINGS
    large = array.cold_voc > GROUND_FAULT_VOLTS or array.imax > GROUND_FAULT_AMPERES
    how = "more than" if many else "up to"
    bounds = f"{GROUND_FAULT_VOLTS:g} V or {GROUND_FAULT_AMPERES:g} A"
    return Rule(
        "ground-fault protection",
        large and many,
        f"strings: {array.strings}, {how} {GROUND_FAULT_STRINGS}, off buildings; {array.cold_voc:.1f} V and "
        f"{array.imax:.1f} A, {'above' if large else 'not above'} {bounds}",
        "NEC 2023 690.41(B) (30 V and 8 A from memory, the exception seen for arrays apart from buildings)",
    )


def europe_rules(array: Arrayed) -> tuple[Rule, ...]:
    """IEC 62548 and IEC 60364-7-712 on the same."""
    return (
        Rule(
            FRAMES,
            True,
            "whatever the voltage; a class II module's frame is bonded all the same, against what the mains bring in",
            "IEC 60364-7-712:2017; IEC 60364-7-721 for metal parts of the vehicle (from memory)",
        ),
        Rule(
            "one bond from DC negative to the chassis",
            True,
            "at the battery, and no second one, or fault current finds other ways",
            "common practice, no source",
        ),
        Rule(
            "arc-fault protection",
            False,
            "no figure of the rule set asks for it on a vehicle",
            "IEC 60364-7-712:2017 (from memory)",
        ),
        Rule("rapid shutdown", False, "the rule set has no such rule", "IEC 62548:2016 (from memory)"),
        Rule(
            "earth-fault detection",
            array.cold_voc >= EXTRA_LOW_VOLTS,
            _against(array.cold_voc, EXTRA_LOW_VOLTS),
            "IEC 62548:2016 (60 V from memory)",
        ),
    )


def _against(volts: float, bound: float) -> str:
    return f"{volts:.1f} V is {'at or above' if volts >= bound else 'below'} {bound:g} V"
