"""Rules that apply to an array or do not: each with the reason, so that nobody takes silence for a yes."""

from drawcord.wire.rulesets import Rule

ARC_VOLTS = 80.0
GROUND_FAULT_VOLTS = 30.0
GROUND_FAULT_STRINGS = 2
EXTRA_LOW_VOLTS = 60.0


def us_rules(cold_voc: float, strings: int) -> tuple[Rule, ...]:
    """NEC 690 on arc faults, rapid shutdown and ground faults, for an array of a vehicle.

    `cold_voc` is the highest voltage between two conductors [V], `strings` how many there are.
    """
    many = strings > GROUND_FAULT_STRINGS
    high = cold_voc > GROUND_FAULT_VOLTS
    count = "more than" if many else "up to"
    return (
        _above("arc-fault protection", cold_voc, ARC_VOLTS, "NEC 2023 690.11 (80 V from memory)"),
        Rule(
            "rapid shutdown",
            False,
            "it is for circuits on or in buildings, and this is a vehicle",
            "NEC 2023 690.12",
        ),
        Rule(
            "ground-fault protection",
            high and many,
            (
                f"strings: {strings}, {count} {GROUND_FAULT_STRINGS}, off buildings; "
                f"{cold_voc:.1f} V, {'above' if high else 'not above'} {GROUND_FAULT_VOLTS:g} V"
            ),
            "NEC 2023 690.41(B) (30 V from memory; the exception seen for arrays apart from buildings)",
        ),
    )


def europe_rules(cold_voc: float, strings: int) -> tuple[Rule, ...]:  # noqa: ARG001 -- one form for all rule sets
    """IEC 62548 on the same, for an array whose highest voltage is `cold_voc` [V]."""
    return (
        Rule(
            "arc-fault protection",
            False,
            "no figure of the rule set asks for it on a vehicle",
            "IEC 60364-7-712:2017 (from memory)",
        ),
        Rule("rapid shutdown", False, "the rule set has no such rule", "IEC 62548:2016 (from memory)"),
        _above("earth-fault detection", cold_voc, EXTRA_LOW_VOLTS, "IEC 62548:2016 (60 V from memory)"),
    )


def _above(name: str, volts: float, bound: float, source: str) -> Rule:
    applies = volts >= bound
    how = "at or above" if applies else "below"
    return Rule(name, applies, f"{volts:.1f} V is {how} {bound:g} V", source)
