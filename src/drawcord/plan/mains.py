"""What feeds a mains cable and what it feeds, by the equipment at its ends, and where its device goes."""

from dataclasses import dataclass

from drawcord.coach.job import Job
from drawcord.plan.upstream import ends
from drawcord.wire.mains import Supplied
from drawcord.wire.supply import GENERATOR, INVERTER, OWN_SOURCES, PANEL, SHORE

FEEDS = (SHORE, GENERATOR, INVERTER, PANEL)
"""Kinds of equipment that feed a mains cable, each before those behind it."""
SEQUENCE = (
    "Before any work: unplug from shore, stop generator and inverter, and prove every conductor dead.",
    "Connecting: protective conductor first, neutral and line after it; disconnecting in reverse.",
    "Before first use: continuity of the protective conductor, insulation, polarity, each device's test button.",
    "Torque, from the maker's sheet: ______ N·m",
)


@dataclass(frozen=True)
class Fed:
    """The equipment a cable comes from and leads to; `live` conductors are all but the protective one.

    `short_circuit` is the most that any source of the vehicle gives into a short circuit, `weakest` the least [A]; None
    if one is unknown.
    """

    source: str
    load: str
    supplied: Supplied
    live: int
    short_circuit: float | None
    weakest: float | None

    @property
    def guarded(self) -> str:
        """The equipment at which the cable's device sits: its source, but behind an inlet the panel."""
        return self.load if self.supplied.source == SHORE else self.source

    @property
    def ungrounded(self) -> int:
        """All live conductors but the neutral."""
        return max(1, self.live - 1)


def fed(job: Job, name: str) -> Fed | None:
    """What feeds the mains cable `name`; None if neither end is known to."""
    cable = job.cables[name]
    kinds = {end: job.equipment[end].kind for end in ends(cable)}
    feeding = [end for end in ends(cable) if kinds[end] in FEEDS]
    if not feeding:
        return None
    source = min(feeding, key=lambda end: FEEDS.index(kinds[end]))
    load = next(end for end in reversed(ends(cable)) if end != source)
    sources = [one for one in job.equipment.values() if one.kind in (SHORE, *OWN_SOURCES)]
    known = [one.short_circuit for one in sources if one.short_circuit is not None]
    told = bool(known) and len(known) == len(sources)
    return Fed(
        source,
        load,
        Supplied(kinds[source], kinds[load], len(sources) > 1),
        cable.cores - 1,
        max(known) if told else None,
        min(known) if told else None,
    )


def where(one: Fed) -> str:
    """Where the device of a mains cable goes."""
    if one.supplied.source == SHORE:
        return f"at {one.load}, as its main; up to there the site's own device protects the cable, if it is no larger"
    if one.supplied.source in OWN_SOURCES:
        return f"at {one.source}, or within it where its maker says so"
    return f"in {one.source}"


def disconnect(one: Fed) -> str:
    """What isolates a mains cable."""
    if one.supplied.source == SHORE:
        return "the plug at the site; the main at the panel leaves this cable live"
    if one.supplied.source in OWN_SOURCES:
        return f"the device at {one.source}, and {one.source} switched off"
    return f"the device in {one.source}"
