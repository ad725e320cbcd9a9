"""What has to be said whatever the figures are. The one place for it: sheets, text and JSON take it from here."""

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from drawcord.routes.electric import POWER
from drawcord.routes.route import Route
from drawcord.words.finding import Finding, Severity

if TYPE_CHECKING:  # a comparison has none, and need not load them
    from drawcord.plan.circuit import Circuit
    from drawcord.plan.circuits import Circuits

# What it is about, and the sentence. A cable's class stands for every cable of that class, `power` for PV, battery
# DC and mains, `roof` for every route that runs there.
SAID: tuple[tuple[str, str], ...] = (
    ("PV", "The array is LIVE whenever it is light: count on no cover and no open disconnect to make it dead."),
    ("PV", "A DC arc does not go out by itself: never part a connector under load."),
    ("battery DC", "A battery cannot be switched off, and what shorts it melts or burns: take its cable off first."),
    ("mains", "Mains can kill: unplug from shore, stop generator and inverter, prove it dead before touching it."),
    ("power", "Overcurrent protection and ampacity were NOT checked; of the conductor only the voltage drop was."),
    ("roof", "A fall from a roof can kill: secure the ladder, keep back from the edges, stay off in wet and wind."),
    ("all work", "Drawn from a sketch, not from a survey: measure again on the vehicle."),
    ("all work", "Before any hole disconnect power and gas, and look and probe behind the face."),
    ("all work", "Framing, tanks, ducts, water and gas lines and wiring may lie where no sketch shows them."),
    ("all work", "Local codes, the makers' manuals and a licensed practitioner govern."),
)
SOURCE = "common practice, no source"


class Power(NamedTuple):
    """What is said of conductors and their protection: of which cables nothing was checked, and what of the others.

    Where `but` names none though something is `unchecked`, it is all of them.
    """

    unchecked: bool
    but: tuple[str, ...] = ()
    checked: str = ""


UNCHECKED = Power(unchecked=True)
ELSEWHERE = Power(unchecked=False)  # the document itself says it of each


def powered(circuits: "Circuits | None", cables: Iterable[str]) -> Power:
    """What the circuits of a job, if they were worked out, say of some of its power cables."""
    known = {one.cable: one for one in circuits.circuits} if circuits else {}
    names = list(cables)
    said = [_checked(known[name]) for name in names if name in known]
    if not circuits or not said:
        return UNCHECKED
    but = tuple(name for name in names if name not in known)
    against = "; ".join(circuits.fitted.rules.editions)
    return Power(bool(but), but, f"Worked out, not inspected: {'; '.join(said)}. Against: {against}.")


def _checked(one: "Circuit") -> str:
    """What ampacity and protection came to for one cable, on the route that they stand for."""
    if one.chosen is None:
        return f"{one.cable} on {one.candidate.id}, of which NO TYPE OF CABLE SERVES"
    device = f"overcurrent device {one.device.amperes:g} A" if one.device else "NO OVERCURRENT DEVICE THAT SERVES"
    return f"ampacity of {one.chosen.cable.section} for {one.cable} on {one.candidate.id}, {device}"


def cautions(
    classes: Iterable[str], routes: Iterable[Route], power: Power = UNCHECKED
) -> tuple[Finding, ...]:
    """The cautions for cables of these classes that may take these routes."""
    about = {"all work", *classes}
    carries = about.intersection(POWER)
    if carries and power.unchecked:
        about.add("power")
    if any(leg.kind == "roof" for route in routes for leg in route.legs):
        about.add("roof")
    found = [Finding(Severity.CAUTION, place, sentence, SOURCE) for place, sentence in SAID if place in about]
    if power.but:
        found = [
            replace(one, sentence=f"For {', '.join(power.but)}: {one.sentence}") if one.place == "power" else one
            for one in found
        ]
    if carries and power.checked:
        found.append(Finding(Severity.CAUTION, "power", power.checked, "drawcord circuit"))
    return tuple(found)
