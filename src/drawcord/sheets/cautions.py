"""What has to be said whatever the figures are. The one place for it: sheets, text and JSON take it from here."""

from collections.abc import Iterable

from drawcord.routes.electric import POWER
from drawcord.routes.route import Route
from drawcord.words.finding import Finding, Severity

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


def cautions(classes: Iterable[str], routes: Iterable[Route], *, sized: bool = False) -> tuple[Finding, ...]:
    """The cautions for cables of these classes that may take these routes; `sized` if circuits were worked out."""
    about = {"all work", *classes}
    if about.intersection(POWER) and not sized:
        about.add("power")
    if any(leg.kind == "roof" for route in routes for leg in route.legs):
        about.add("roof")
    return tuple(Finding(Severity.CAUTION, place, sentence, SOURCE) for place, sentence in SAID if place in about)
