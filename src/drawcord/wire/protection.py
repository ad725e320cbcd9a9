"""Which overcurrent device a circuit takes, and whether the one at hand may serve."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from drawcord.wire.device import Current, Device
from drawcord.wire.published import Rating
from drawcord.wire.rulesets import RuleSet
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding, Severity

INTERRUPTING = "NEC 110.9; IEC 60364-4-43, 434.5.1 (both from memory)"


class Choice(NamedTuple):
    """The standard rating for a circuit, and whether the conductor allows it."""

    rating: Figure
    ceiling: Figure
    fits: bool


@dataclass(frozen=True)
class Duty:
    """What a device has to do where it sits.

    `volts` the highest voltage [V], `least` the continuous current and `most` what the conductor allows [A],
    `prospective` the current into a short circuit there [A], None if unknown; `both_ends` if it is fed from
    both, as an array's and a controller's circuits are; `current` is the kind of current.
    """

    volts: float
    least: Figure
    most: Figure
    prospective: float | None
    both_ends: bool
    current: Current = "DC"


def next_rating(ratings: Iterable[Rating], amperes: float, *, fuse: bool) -> Rating:
    """The first standard rating at or above `amperes` [A]. Raises ValueError past the end of the list."""
    listed = sorted((one for one in ratings if fuse or not one.fuse_only), key=lambda one: one.amperes)
    for one in listed:
        if amperes <= one.amperes:
            return one
    most = f"{listed[-1].amperes:g} A" if listed else "nothing"
    raise ValueError(f"the list of standard ratings ends at {most}, and {amperes:.6g} A are asked for")


def device_ceiling(rules: RuleSet, section: str, ampacity: Figure) -> Figure:
    """The largest device that a conductor of `section` allows where it carries `ampacity` [A]."""
    most, working, source = ampacity.value, f"{ampacity.value:.6g} A", ampacity.source
    above = [one.amperes for one in rules.ratings if one.amperes >= most]
    if rules.next_size_up and above:
        most = min(above)
        working, source = f"{working}, next standard rating {most:g} A", f"{source}; {rules.next_size_up}"
    for one in rules.small:
        if one.section == section and one.amperes < most:
            most = one.amperes
            working, source = f"{working}, at most {most:g} A for {section}", f"{source}; {one.source}"
    return Figure("largest device the conductor allows", most, "A", working, source)


def choose(rules: RuleSet, continuous: Figure, ceiling: Figure, *, fuse: bool = False) -> Choice:
    """The next standard rating at or above the continuous current.

    Raises:
        ValueError: a current past the end of the rule set's list.

    """
    one = next_rating(rules.ratings, continuous.value, fuse=fuse)
    rating = Figure(
        "overcurrent device",
        one.amperes,
        "A",
        f"next standard rating at or above {continuous.value:.6g} A",
        f"{one.source}; {continuous.source}",
    )
    return Choice(rating, ceiling, one.amperes <= ceiling.value)


def device_findings(place: str, device: Device, duty: Duty) -> list[Finding]:
    """Everything that speaks against a device for a duty; nothing if it may serve."""
    found: list[Finding] = []

    def refuse(wrong: bool, sentence: str, source: str) -> None:
        if wrong:
            found.append(Finding(Severity.REFUSAL, place, f"{device.name} {sentence}", source))

    practice = "common practice, no source"
    refuse(device.current != duty.current, f"is for {device.current}, the circuit is {duty.current}", practice)
    refuse(
        device.volts < duty.volts,
        f"is rated {device.volts:g} V {device.current}, the circuit reaches {duty.volts:.4g} V",
        practice,
    )
    refuse(
        duty.both_ends and device.polarised, "is polarised, but current can come from either end", practice
    )
    flow, allowed = duty.least.value, duty.most.value
    hours = f"the {flow:.4g} A that may flow for hours"
    if device.kind == "switch":
        refuse(device.amperes < flow, f"of {device.amperes:g} A does not carry {hours}", duty.least.source)
        return found
    refuse(device.amperes < flow, f"of {device.amperes:g} A opens on {hours}", duty.least.source)
    refuse(
        device.amperes > allowed,
        f"of {device.amperes:g} A does not protect a conductor that allows {allowed:.4g} A",
        duty.most.source,
    )
    breaks, prospective = device.interrupting_amperes, duty.prospective
    if breaks is None:
        refuse(True, f"has no known interrupting rating at {duty.volts:.4g} V {duty.current}", INTERRUPTING)
    elif prospective is None:
        refuse(True, "may have to interrupt a short-circuit current that nobody knows", INTERRUPTING)
    else:
        refuse(
            breaks < prospective,
            f"interrupts {breaks:g} A, a short circuit draws {prospective:.4g} A",
            INTERRUPTING,
        )
    return found
