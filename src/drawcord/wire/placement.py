"""Where devices sit, what a disconnect opens, and which connectors mate."""

from collections.abc import Iterable, Sequence

from drawcord.wire.controller import Controller
from drawcord.wire.device import Device
from drawcord.wire.possible import zero_or_more
from drawcord.wire.published import Distance
from drawcord.words.finding import Finding, Severity

MM_PER_INCH = 25.4  # exact, by definition
CONNECTORS = "IEC 62852, PV connectors (from memory)"


def distance_findings(
    place: str, rules: Iterable[Distance], along_mm: float, *, sheathed: bool, at_battery: bool
) -> list[Finding]:
    """Which standards want a device nearer than `along_mm` [mm] along the conductor from its source.

    Each standard allows the widest of its distances that speak of such a conductor: in a sheath or not, on
    the battery itself or not. Refused where no standard allows it.

    Raises:
        ValueError: a distance below zero.

    """
    zero_or_more("the distance from the source", along_mm, "mm")
    widest: dict[str, Distance] = {}
    for one in sorted(rules, key=lambda one: one.most_mm):
        if (sheathed or not one.sheathed) and (at_battery or not one.at_battery):
            widest[one.standard] = one
    broken = [one for one in widest.values() if along_mm > one.most_mm]
    severity = Severity.REFUSAL if len(broken) == len(widest) else Severity.CAUTION
    return [
        Finding(
            severity,
            place,
            f"the device sits {along_mm:.0f} mm from its source along the conductor, "
            f"{one.most_mm:.0f} mm ({one.most_mm / MM_PER_INCH:.3g} in) is the most",
            one.source,
        )
        for one in sorted(broken, key=lambda one: (one.most_mm, one.standard))
    ]


def disconnect_findings(place: str, device: Device, controller: Controller) -> list[Finding]:
    """Whether an array's disconnect opens every ungrounded conductor, under load."""
    found: list[Finding] = []
    poles = controller.ungrounded
    if device.poles < len(poles):
        ungrounded = " and ".join(poles)
        sentence = (
            f"{device.name} opens {device.poles} pole, {controller.name} leaves {ungrounded} ungrounded"
        )
        found.append(Finding(Severity.REFUSAL, place, sentence, "NEC 690.13 and 690.15 (from memory)"))
    if not device.switch_rated:
        sentence = f"{device.name} may not be opened under load, which a disconnect has to"
        found.append(Finding(Severity.REFUSAL, place, sentence, "common practice, no source"))
    return found


def connector_findings(place: str, families: Sequence[str]) -> list[Finding]:
    """Whether the connectors that meet are of one family; `families` are the shop's codes."""
    if len(set(families)) < 2:
        return []
    codes = " and ".join(sorted(set(families)))
    sentence = f"connectors of the families {codes} meet: PV connectors mate only within one family"
    return [Finding(Severity.REFUSAL, place, sentence, CONNECTORS)]


def terminal_findings(place: str, controller: Controller, section: str, copper_mm2: float) -> list[Finding]:
    """Whether a conductor of `section`, so many mm² of copper, fits the controller's terminals."""
    thin, thick = controller.terminal_mm2
    if thin <= copper_mm2 <= thick:
        return []
    sentence = f"{section} ({copper_mm2:.3g} mm²) is outside {thin:g} to {thick:g} mm² of {controller.name}"
    return [Finding(Severity.REFUSAL, place, sentence, "maker's terminal range")]
