"""The device that protects and opens a circuit, and where it goes."""

from collections.abc import Iterable

from drawcord.coach.catalogue import DeviceType
from drawcord.plan import mains
from drawcord.plan.fitted import Fitted
from drawcord.plan.mains import Fed
from drawcord.plan.purpose import Purpose
from drawcord.wire.carrying import Carrying
from drawcord.wire.device import Current, Device
from drawcord.wire.mains import Mains
from drawcord.wire.placement import MM_PER_INCH, disconnect_findings
from drawcord.wire.protection import Duty, device_findings
from drawcord.wire.published import Distance
from drawcord.words.finding import Finding, Severity

PRACTICE = "common practice, no source"


def duty(wanted: Purpose, carries: Carrying) -> Duty:
    """What the device of a circuit has to do."""
    ceiling = carries.device.ceiling
    current: Current = "AC" if wanted.mains else "DC"
    return Duty(wanted.most_volts, carries.continuous, ceiling, wanted.prospective, wanted.both_ends, current)


def device_for(
    name: str, types: dict[str, DeviceType], wanted: Purpose, carries: Carrying, fitted: Fitted
) -> tuple[Device | None, list[Finding]]:
    """The least device of the types that may serve, or why there is none; an array's is its disconnect as well."""
    needed = duty(wanted, carries)
    refused: list[Finding] = []
    for kind in sorted(types.values(), key=lambda one: (one.amperes, one.poles, one.name)):
        one = kind.made()
        small = one.amperes < carries.device.rating.value and len(types) > 1  # a single type is told what is wrong
        if one.kind == "switch" or one.current != needed.current or small:
            continue
        found = [*device_findings(name, one, needed), *_poles(name, one, wanted.mains, fitted.rules.mains)]
        if wanted.circuit == "array":
            found += disconnect_findings(name, one, fitted.controller)
        if not found:
            return one, []
        refused = refused or found
    asked = f"{needed.volts:.4g} V {needed.current}, {carries.device.rating.value:g} A"
    sentence = f"no device among the types may serve: it needs {asked} and an interrupting rating of {_kilo(needed)}"
    return None, [Finding(Severity.REFUSAL, name, sentence, PRACTICE), *refused]


def _poles(name: str, device: Device, between: Fed | None, rules: Mains) -> list[Finding]:
    """Whether a device opens as many mains conductors as the rule set asks."""
    if between is None:
        return []
    wanted = between.live if rules.opens_neutral else between.ungrounded
    if device.poles >= wanted:
        return []
    sentence = f"{device.name} opens {device.poles} of the {wanted} conductors that it has to"
    return [Finding(Severity.REFUSAL, name, sentence, rules.opens_neutral or "NEC 2023 240.15 (from memory)")]


def slow(name: str, device: Device, between: Fed, rules: Mains) -> list[Finding]:
    """Whether the weakest source makes a mains device open without delay."""
    if rules.at_once is None or between.weakest is None or between.weakest >= rules.at_once.value * device.amperes:
        return []
    sentence = (
        f"{device.name} opens at once from {rules.at_once.value * device.amperes:g} A, but a source gives only "
        f"{between.weakest:g} A into a short circuit: what opens it, and how fast, is for the source's maker to say"
    )
    return [Finding(Severity.CAUTION, name, sentence, rules.at_once.source)]


def where(wanted: Purpose, fitted: Fitted, name: str) -> str:
    """Where the device of the cable `name` goes."""
    if wanted.mains:
        return mains.where(wanted.mains)
    if wanted.circuit == "array" and wanted.through != name:
        return f"the device of {wanted.through}, which leads on to {fitted.controller_id}, if it is no larger than this"
    if wanted.circuit == "array":
        poles = " and ".join(fitted.controller.ungrounded)
        return f"between the roof entry and {fitted.controller_id}, within reach; it opens {poles}"
    return f"at {fitted.battery_id}, on the positive conductor of {name}: {_near(fitted.rules.distances)}"


def disconnect(wanted: Purpose) -> str:
    """What isolates a circuit."""
    if wanted.mains:
        return mains.disconnect(wanted.mains)
    if wanted.circuit == "array":
        return "the same device isolates the array; connectors are never parted under load"
    return "a switch at the battery, or the device itself where its maker allows it; never under load otherwise"


def _near(distances: Iterable[Distance]) -> str:
    """How near to its source a device has to be where its conductor is in no sheath, standard by standard."""
    bare: dict[str, Distance] = {}
    for one in sorted(distances, key=lambda one: one.most_mm):
        if not one.sheathed:
            bare[one.standard] = one
    said = [f"{one.most_mm:.0f} mm ({one.most_mm / MM_PER_INCH:.3g} in) by {one.source}" for one in bare.values()]
    return f"at most {'; '.join(said)}"


def _kilo(needed: Duty) -> str:
    return "a short circuit that nobody knows" if needed.prospective is None else f"{needed.prospective / 1000:.3g} kA"
