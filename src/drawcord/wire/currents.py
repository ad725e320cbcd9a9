"""The current a circuit has to be built for."""

from collections.abc import Sequence
from dataclasses import replace

from drawcord.wire.possible import above_zero
from drawcord.wire.published import Factor
from drawcord.words.figure import Figure

DECIMALS = 9
"""Of an ampere: a current of exactly 30 A must not ask for the next rating because of its last binary digit."""


def array_current(short_circuits: Sequence[float], brighter: Factor) -> Figure:
    """Imax of an array circuit [A]: the sum of its strings' Isc [A], with more light than the ratings mean.

    Raises:
        ValueError: no string, or a current that is not above zero.

    """
    if not short_circuits:
        raise ValueError("an array has at least one string")
    for amperes in short_circuits:
        above_zero("a string's Isc", amperes, "A")
    added = " + ".join(f"{amperes:g} A" for amperes in short_circuits)
    return Figure(
        "Imax",
        round(brighter.value * sum(short_circuits), DECIMALS),
        "A",
        f"{brighter.value:g} · ({added})",
        brighter.source,
    )


def shared_current(isc: float, carried: int, parallel: int, brighter: Factor) -> Figure:
    """Imax of a cable that carries `carried` of `parallel` strings of `isc` [A].

    A fault behind it draws what the other strings feed back, so the larger of the two counts.

    Raises:
        ValueError: no string carried, or more than there are.

    """
    if not 1 <= carried <= parallel:
        raise ValueError(f"a cable carries 1 to {parallel} strings, not {carried}")
    if parallel - carried <= carried:
        return array_current([isc] * carried, brighter)
    back = array_current([isc] * (parallel - carried), brighter)
    return replace(back, formula=f"{back.formula}, which the other strings feed back into a fault")


def rated_current(amperes: float, of: str, source: str) -> Figure:
    """Imax of a circuit that a controller or load limits: its rated current [A]. Raises ValueError."""
    above_zero(f"the rated current of {of}", amperes, "A")
    return Figure("Imax", amperes, "A", f"{amperes:g} A", source)


def continuous_current(imax: Figure, longer: Factor) -> Figure:
    """What an uncorrected conductor and a device have to bear [A], since the current flows for hours."""
    return Figure(
        "continuous current",
        round(longer.value * imax.value, DECIMALS),
        "A",
        f"{longer.value:g} · {imax.value:.6g} A",
        longer.source,
    )
