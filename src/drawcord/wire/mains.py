"""Mains circuits: what a rule set asks of them beyond what it asks of direct current."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from drawcord.wire.cable import area_mm2
from drawcord.wire.possible import above_zero
from drawcord.wire.published import Factor, GroundingConductor, Rating, Rule
from drawcord.wire.supply import OUTLET, OWN_SOURCES, SHORE
from drawcord.words.figure import Figure


class Supplied(NamedTuple):
    """What feeds a mains circuit and what it feeds, by kind; `several` if another source feeds the vehicle too."""

    source: str
    load: str
    several: bool


@dataclass(frozen=True)
class Mains:
    """How a rule set goes about mains.

    `own_source` is the continuous current over the rated output of a source on board, `ratings` are its devices',
    `opens_neutral` names what has a device open the neutral as well, if anything does; `at_once` is from how many times
    its rating a breaker opens without delay, None if no figure is to hand. `protective` is the least
    protective conductor [mm²] behind a device [A], in a circuit of so many mm² that would carry its current with the
    second; `rules` says which rules apply to a circuit.
    """

    own_source: Factor
    ratings: tuple[Rating, ...]
    opens_neutral: str | None
    at_once: Factor | None
    protective: Callable[[float, float, float], Figure]
    rules: Callable[[Supplied], tuple[Rule, ...]]


@dataclass(frozen=True)
class ByDevice:
    """A protective conductor by the device, and in proportion where the circuit is thicker than its current asks."""

    table: tuple[GroundingConductor, ...]

    def __call__(self, device: float, section: float, needed: float) -> Figure:
        """Source: NEC table 250.122; 250.122(A) and (B) (from memory). Raises ValueError beyond the table."""
        above_zero("the device's rating", device, "A")
        row = next((row for row in sorted(self.table, key=lambda row: row.up_to) if device <= row.up_to), None)
        if row is None:
            raise ValueError(f"the table of grounding conductors does not reach {device:g} A")
        copper = area_mm2(row.section)
        return Figure(
            "protective conductor, at least",
            min(section, copper * max(1.0, section / needed)),
            "mm²",
            f"{row.section} behind {device:g} A, {copper:.4g} mm² · {section:.4g} / {needed:.4g}, up to {section:.4g}",
            f"{row.source}; NEC 2023 250.122(B) for the proportion and 250.122(A) for its end (from memory)",
        )


def iec_protective(device: float, section: float, needed: float) -> Figure:  # noqa: ARG001 -- one form for all rule sets
    """By the circuit's section: the same up to 16 mm², 16 mm² up to 35 mm², then half. Source: IEC 60364-5-54."""
    above_zero("the circuit's section", section, "mm²")
    if section <= 16:
        value, working = section, f"{section:g} mm² up to 16 mm²"
    elif section <= 35:
        value, working = 16.0, "16 mm² from 16 to 35 mm²"
    else:
        value, working = section / 2, f"{section:g} mm² / 2 above 35 mm²"
    source = "IEC 60364-5-54, least sections of protective conductors (edition not named by the text seen)"
    return Figure("protective conductor, at least", value, "mm²", working, source)


def us_mains_rules(one: Supplied) -> tuple[Rule, ...]:
    """NEC 551 and 210 for one circuit of a recreational vehicle."""
    outlet, shore = one.load == OUTLET, one.source == SHORE
    return (
        Rule(
            "ground-fault circuit interrupter",
            outlet,
            "a receptacle: the sketch does not tell how near a sink, a shower or the outside, so it counts as near"
            if outlet
            else "no receptacle is on it: those behind the panel carry their own",
            "NEC 2020 551.40 (seen) and 551.41(C) (from memory)",
        ),
        Rule("residual-current device", False, "the rule set asks for the interrupter instead", "NEC 2020 551.40"),
        Rule(
            "arc-fault circuit interrupter",
            False,
            "it is for rooms of dwelling units, and the article for vehicles does not ask for it",
            "NEC 2023 210.12 and 551 (from memory)",
        ),
        Rule(
            "main disconnect",
            shore,
            "one main device, where the cable from the inlet ends" if shore else "it is the shore circuit's",
            "NEC 2023 551.45 (from memory)",
        ),
        _neutral(one, "NEC 2023 551.54(C) and 250.34 (from memory)"),
        _transfer(one, "NEC 2023 551.30 and 551.33 (from memory)"),
    )


def iec_mains_rules(one: Supplied) -> tuple[Rule, ...]:
    """IEC 60364-7-721 for one circuit of a caravan."""
    shore = one.source == SHORE
    own = one.source in OWN_SOURCES
    return (
        Rule(
            "residual-current device of 30 mA",
            True,
            f"it opens all live conductors{'; it is blind unless the source bonds its neutral' if own else ''}",
            "IEC 60364-7-721, as BS 7671 721.411.1 (seen)",
        ),
        Rule(
            "overcurrent device that opens all live conductors",
            True,
            "neutral and line may be swapped at a foreign site",
            "IEC 60364-7-721 (double-pole devices seen in a text on BS 7671, of an earlier edition)",
        ),
        Rule(
            "main isolating switch",
            shore,
            "one for the installation, within reach, and it opens all live conductors"
            if shore
            else "it is the shore circuit's",
            "IEC 60364-7-721:2017",
        ),
        Rule(
            "arc-fault detection device",
            False,
            "it is recommended, not asked for",
            "IEC 60364-4-42:2010, amendment 1 (from memory)",
        ),
        _neutral(one, "IEC 60364-5-55, 551 (from memory)"),
        _transfer(one, "IEC 60364-5-55, 551.6 (from memory)"),
    )


def _neutral(one: Supplied, source: str) -> Rule:
    own = one.source in OWN_SOURCES
    reason = (
        f"at the {one.source}, and only while it feeds"
        if own
        else "not in the vehicle: on shore the site bonds it, and a second bond puts current on the chassis"
    )
    return Rule("bond of the neutral to the protective conductor", own, reason, source)


def _transfer(one: Supplied, source: str) -> Rule:
    reason = "more than one source feeds it, and never two at once" if one.several else "the job has one source only"
    return Rule("transfer between sources", one.several, reason, source)
