"""What is known of whether a cable gets through, and on whose word."""

from typing import NamedTuple

from drawcord.coach.history import SOURCE, History
from drawcord.coach.job import Job
from drawcord.coach.kinds import Standing
from drawcord.coach.rig import Space
from drawcord.coach.shop import Preferences

PRIOR = 2  # findings that the chance of the rig counts for; with an even chance this is Laplace's rule of succession


class Known(NamedTuple):
    """Standing, how likely it is to be clear, and who says so."""

    standing: Standing
    chance: float
    source: str


def of_space(space: Space, preferences: Preferences) -> Known:
    """What the sketch says of a space; what it leaves out is proven, unless it states a chance."""
    standing = space.standing or ("proven" if space.chance is None else "unproven")
    return Known(standing, chance(standing, space.chance, preferences), space.source or "sketch")


def found(job: Job | None, preferences: Preferences) -> dict[str, Known]:
    """What was found out about this vehicle's spaces and passages, by id; the last finding about one counts."""
    known: dict[str, Known] = {}
    for fact in job.differences.found if job else ():
        standing = fact.standing or ("proven" if fact.chance is None else "unproven")
        source = ", ".join(part for part in (fact.source, fact.date) if part) or "job"
        known[fact.what] = Known(standing, chance(standing, fact.chance, preferences), source)
    return known


def chance(standing: Standing, stated: float | None, preferences: Preferences) -> float:
    """How likely something is to be clear: certain if proven, impossible if blocked, else as stated or usual."""
    usual = preferences.chance_clear if stated is None else stated
    return {"proven": 1.0, "blocked": 0.0}.get(standing, usual)


def logged(what: str, known: Known, history: History) -> Known:
    """What is known of a space or passage once other vehicles of its model are counted: (clear + 2 p) / (n + 2).

    p is the chance so far. What was clear in another vehicle proves nothing in this one, so what is unproven stays so;
    what is proven becomes unproven where others found it blocked, and the other way round.
    """
    if (seen := history.found.get(what)) is None:
        return known
    likely = (seen.clear + PRIOR * known.chance) / (seen.clear + seen.blocked + PRIOR)
    if likely in (0, 1):
        return known
    return Known("unproven", likely, f"{known.source}; {SOURCE}: {seen}")
