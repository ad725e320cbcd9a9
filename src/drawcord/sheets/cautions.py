"""What has to be said whatever the figures are. The one place for it: sheets, text and JSON take it from here."""

from collections.abc import Iterable

from drawcord.routes.electric import POWER
from drawcord.routes.route import Route
from drawcord.words.finding import Finding, Severity

# What it is about, and the sentence. A cable's class stands for every cable of that class, `power` for PV, battery
# DC and mains, `roof` for every route that runs there.
SAID: tuple[tuple[str, str], ...] = (
    (
        "PV",
        "The array is LIVE whenever it is light: do not count on a cover or an open disconnect to make it dead."
        " A DC arc does not go out by itself: never part a connector under load.",
    ),
    (
        "battery DC",
        "A battery cannot be switched off, and what shorts it can melt or burn: take its cable off before work and"
        " put it on last.",
    ),
    (
        "mains",
        "Mains can kill: unplug from shore, stop generator and inverter, and prove it dead before touching anything.",
    ),
    ("power", "Overcurrent protection and ampacity were NOT checked; of the conductor only the voltage drop was."),
    ("roof", "A fall from a roof can kill: secure the ladder, keep back from the edges, stay off in wet and wind."),
    (
        "all work",
        "Drawn from a sketch, not from a survey: measure again on the vehicle. Before any hole: disconnect power and"
        " gas, look behind the face, probe for framing, tanks, ducts, water and gas lines and wiring.",
    ),
    ("all work", "Local codes, the makers' manuals and a licensed practitioner govern."),
)
SOURCE = "common practice, no source"


def cautions(classes: Iterable[str], routes: Iterable[Route]) -> tuple[Finding, ...]:
    """The cautions for cables of these classes that may take these routes."""
    about = {"all work", *classes}
    if about.intersection(POWER):
        about.add("power")
    if any(leg.kind == "roof" for route in routes for leg in route.legs):
        about.add("roof")
    return tuple(Finding(Severity.CAUTION, place, sentence, SOURCE) for place, sentence in SAID if place in about)
