"""The largest array that a conductor which is there already may carry: the rules of `carrying`, turned round."""

from collections.abc import Sequence
from typing import NamedTuple

from drawcord.wire.ampacity import Leg
from drawcord.wire.carrying import Bearing, bearing
from drawcord.wire.currents import DECIMALS
from drawcord.wire.possible import above_zero
from drawcord.wire.rulesets import RuleSet
from drawcord.words.figure import Figure


class Capacity(NamedTuple):
    """The largest sum of Isc that each limit allows [A]; `most` is the least of them."""

    bearing: Bearing
    terminals: Figure
    worst: Figure
    device: Figure

    @property
    def most(self) -> Figure:
        """The limit that governs, the first of equals."""
        return min(self.terminals, self.worst, self.device, key=lambda one: one.value)

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The chain as a sheet prints it."""
        leg = self.bearing.governing
        path = (leg.tabled, leg.corrected, leg.together, leg.adjusted, leg.amperes)
        return (self.bearing.terminals, *path, self.bearing.ceiling, self.terminals, self.worst, self.device)


def capacity(rules: RuleSet, section: str, insulation: float, legs: Sequence[Leg]) -> Capacity:
    """The largest sum of Isc that a conductor with insulation for `insulation` [°C] may get along `legs`.

    Raises:
        ValueError: no leg, or anything beyond the rule set's tables.

    """
    bears = bearing(rules, section, insulation, legs)
    both, once = rules.longer.value * rules.brighter.value, rules.brighter.value
    twice, sources = f"({rules.longer.value:g} · {once:g})", f"{rules.brighter.source}; {rules.longer.source}"
    at_ends, carried = bears.terminals.value, bears.governing.amperes.value
    rating = max(
        (one.amperes for one in rules.ratings if not one.fuse_only and one.amperes <= bears.ceiling.value), default=0.0
    )
    listed = rules.ratings[0].source if rules.ratings else "no ratings"
    return Capacity(
        bears,
        _largest("by its terminals", at_ends, both, twice, sources),
        _largest("in its worst leg", carried, once, f"{once:g}", rules.brighter.source),
        _largest("by the largest standard device that it allows", rating, both, twice, f"{listed}; {sources}"),
    )


def _largest(by: str, amperes: float, share: float, said: str, source: str) -> Figure:
    return Figure(f"largest Isc {by}", round(amperes / share, DECIMALS), "A", f"{amperes:.6g} A / {said}", source)


def most_by_drop(limit: float, supply: Figure, ohms: float) -> Figure:
    """The largest Imp [A] at which a loop of `ohms` [Ω] loses no more than `limit` of the supply [V].

    Raises:
        ValueError: a limit, a supply or a resistance that is not above zero.

    """
    above_zero("a drop limit", limit, "")
    above_zero("a supply", supply.value, "V")
    above_zero("the resistance of a cable", ohms, "Ω")
    return Figure(
        f"largest Imp by its drop at {supply.value:.4g} V",
        limit * supply.value / ohms,
        "A",
        f"{limit:g} · {supply.value:.6g} V / {ohms:.6g} Ω",
        "Ohm's law on the loop resistance",
    )
