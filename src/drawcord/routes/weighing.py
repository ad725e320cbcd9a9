"""The weighting that ranks candidates, in whole numbers so that ties are ties."""

import math

from drawcord.coach.coach import Coach
from drawcord.routes.route import Criteria
from drawcord.words.units import tape_length

WORDS: dict[str, str] = {  # how people call a criterion, by its field
    "length": "length",
    "in_sight": "in sight",
    "roof_holes": "roof holes",
    "inner_holes": "inner holes",
    "seconds": "minutes",
    "doubt": "doubt",
}
PER_UNIT = {  # thousandths of a millimetre of cable that one metre's worth of a criterion's unit makes
    "length": 1_000,  # a metre is 1000 mm
    "in_sight": 1_000,
    "roof_holes": 1_000_000,
    "inner_holes": 1_000_000,
    "seconds": 1_000_000 / 60,
    "doubt": 1,  # a neper is 1e6 micro-nats
}


def weights(coach: Coach) -> tuple[int, ...]:
    """What one unit of each criterion weighs, in thousandths of a millimetre of cable; the owner's word first."""
    stated = {**coach.shop.preferences.weights, **(coach.job.owner.weights if coach.job else {})}
    return tuple(round(stated.get(WORDS[name], 0.0) * PER_UNIT[name]) for name in Criteria._fields)  # type: ignore[call-overload]


def score(criteria: Criteria, by: tuple[int, ...]) -> int:
    """The weighted sum, in thousandths of a millimetre of cable."""
    return sum(weight * value for weight, value in zip(by, criteria, strict=True))


def spoken(name: str, amount: int, units: str) -> str:
    """An amount of a criterion in words: `1.2 m of cable`, `2 roof holes`, `15 min of work`."""
    if name == "length":
        return f"{tape_length(amount, units)} of cable"
    if name == "in_sight":
        return f"{tape_length(amount, units)} in sight"
    if name == "seconds":
        return f"{amount / 60:.0f} min of work"
    word = WORDS[name]
    return f"{amount} {word[:-1] if amount == 1 else word}"


def clear(doubt: int) -> str:
    """How likely it is that all is clear, from doubt [micro-nats]."""
    return f"{math.exp(-doubt / 1e6):.0%}"


def compared(one: Criteria, other: Criteria, units: str) -> tuple[list[str], list[str]]:
    """Where the first route asks more than the other, and where less, each in words."""
    more: list[str] = []
    less: list[str] = []
    for name, mine, theirs in zip(Criteria._fields, one, other, strict=True):
        if name == "doubt" and mine != theirs:
            chances = f"doubt ({clear(mine)} likely to be clear instead of {clear(theirs)})"
            (more if mine > theirs else less).append(chances)
        elif mine > theirs:
            more.append(spoken(name, mine - theirs, units))
        elif mine < theirs:
            less.append(spoken(name, theirs - mine, units))
    return more, less
