"""What a grouping of modules means for its controller and battery, and why it is barred if it is."""

from dataclasses import dataclass
from typing import NamedTuple

from drawcord.wire.battery import Battery
from drawcord.wire.controller import Controller
from drawcord.wire.currents import array_current
from drawcord.wire.feedback import StringFuse, string_fuse
from drawcord.wire.grouping import Grouping, Strings
from drawcord.wire.rulesets import RuleSet, Touch
from drawcord.wire.voltages import ColdVoc, cold_voc, hot_vmp, hot_voc
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding, Severity

NARROW, NARROW_BELOW = 1.02, -10.0
"""How much more one module in a hundred has than Voc with margin, in colder air than this [°C]: see the tests."""


@dataclass(frozen=True)
class Climate:
    """The coldest air this vehicle will meet and its hottest cells [°C]."""

    coldest: float
    hottest_cell: float


class Tracked(NamedTuple):
    """The figures of one tracker's strings; `reaching` is hot Vmp less the drop on the way."""

    strings: Strings
    cold: ColdVoc
    reaching: Figure
    starting: Figure
    imax: Figure
    fuse: StringFuse


class Judged(NamedTuple):
    """A grouping with its figures; barred if any finding is a refusal."""

    grouping: Grouping
    trackers: tuple[Tracked, ...]
    watts: Figure
    offered: Figure
    clipped: Figure
    findings: tuple[Finding, ...]

    @property
    def barred(self) -> bool:
        """Whether a voltage or current limit bars it."""
        return any(one.severity is Severity.REFUSAL for one in self.findings)


def judge(
    rules: RuleSet,
    grouping: Grouping,
    controller: Controller,
    battery: Battery,
    climate: Climate,
    drop_share: float,
) -> Judged:
    """A grouping on `controller` and `battery`, where `drop_share` of hot Vmp is lost on the way, such as 0.02.

    Voltage and short-circuit limits bar; the controller's output current only clips.

    Raises:
        ValueError: a climate beyond what the voltages are worked out for, a share outside 0 to below 1.

    """
    if not 0 <= drop_share < 1:
        raise ValueError(f"the share lost on the way lies between 0 and 1, not {drop_share}")
    tracked = tuple(_tracked(rules, one, climate, drop_share) for one in grouping.trackers)
    watts = sum(one.modules * one.plane.module.watts for one in grouping.trackers)
    terms = " + ".join(f"{one.modules} · {one.plane.module.watts:.6g} W" for one in grouping.trackers)
    offered = watts / battery.absorption
    clipped = max(0.0, offered - controller.output_amperes)
    findings: list[Finding] = []
    for number, one in enumerate(tracked, 1):
        findings += _findings(f"{controller.name} tracker {number}", one, controller, battery, climate, rules.touch)
    findings += _left_out(grouping, controller.name)
    findings += _clipping(clipped, offered, controller)
    return Judged(
        grouping,
        tracked,
        Figure("array's power in full sun", watts, "W", terms, "maker's sheet, standard test conditions"),
        Figure(
            "charge current offered",
            offered,
            "A",
            f"{watts:.6g} W / {battery.absorption:g} V",
            "at the absorption voltage, losses left out",
        ),
        Figure(
            "charge current clipped",
            clipped,
            "A",
            f"{offered:.6g} A less the {controller.output_amperes:g} A of {controller.name}, not below 0 A",
            "maker's sheet",
        ),
        tuple(findings),
    )


def shade(strings: Strings) -> str:
    """What shade on one module does, in plain words."""
    series, parallel = strings.series, strings.parallel
    if series == 1:
        alone = "the array" if parallel == 1 else f"its own share, 1 of {parallel}"
        return f"A shaded module takes away {alone}; the others go on."
    string = "the string" if parallel == 1 else "its string, which then pulls less beside the others,"
    return (
        f"A shaded module holds back {string} of {series}: at best its bypass diodes give up a {series}. "
        "of the voltage, at worst the whole string drops to the shaded module's current."
    )


def _tracked(rules: RuleSet, strings: Strings, climate: Climate, drop_share: float) -> Tracked:
    module, series = strings.plane.module, strings.series
    hot = hot_vmp(module, series, climate.hottest_cell)
    reaching = Figure(
        "hot Vmp at the controller",
        hot.value * (1 - drop_share),
        "V",
        f"{hot.formula} · (1 - {drop_share:g})",
        f"{hot.source}; less the drop on the way",
    )
    return Tracked(
        strings,
        cold_voc(module, series, climate.coldest, rules.cold_factors, rules.cold_margin),
        reaching,
        hot_voc(module, series, climate.hottest_cell),
        array_current([module.isc] * strings.parallel, rules.brighter),
        string_fuse(rules, module, strings.parallel),
    )


def _findings(
    place: str, one: Tracked, controller: Controller, battery: Battery, climate: Climate, touch: Touch
) -> list[Finding]:
    found: list[Finding] = []

    def say(severity: Severity, wrong: bool, sentence: str, source: str) -> None:
        if wrong:
            found.append(Finding(severity, place, sentence, source))

    cold, most, sheet = one.cold.with_margin, controller.highest_volts, "maker's sheet of the controller"
    refuse, caution = Severity.REFUSAL, Severity.CAUTION
    say(
        refuse,
        cold.value > most,
        f"{cold.value:.1f} V at {climate.coldest:g} °C is above the {most:g} V that the controller bears",
        cold.source,
    )
    say(
        caution,
        climate.coldest < NARROW_BELOW and most / NARROW < cold.value <= most,
        f"{cold.value:.1f} V at {climate.coldest:g} °C leaves less than 2 % to {most:g} V; in such cold one module "
        "in a hundred has that much more",
        "single-diode model over pvlib's open module table",
    )
    runs = battery.highest + controller.running_margin
    say(
        refuse,
        one.reaching.value < runs,
        f"{one.reaching.value:.1f} V reach the controller on a hot afternoon, {runs:g} V are needed to charge",
        sheet,
    )
    starts = battery.highest + controller.starting_margin
    say(
        caution,
        one.starting.value < starts,
        f"{one.starting.value:.1f} V open circuit on a hot afternoon do not start the controller again while the "
        f"battery is at its highest: {starts:g} V are needed",
        sheet,
    )
    bears = controller.short_circuit_amperes
    say(
        refuse,
        one.imax.value > bears,
        f"{one.imax.value:.1f} A into a short circuit is above the {bears:g} A that the controller bears",
        one.imax.source,
    )
    fuse = one.fuse
    if fuse.needed and fuse.rating is None:
        sentence = (
            f"{one.strings.parallel} strings feed {fuse.feedback.value:.1f} A back into one that bears "
            f"{fuse.bears.value:g} A, and no standard fuse fits between"
        )
        say(refuse, True, sentence, fuse.feedback.source)
    if cold.value > touch.wet:
        where = "even when dry" if cold.value > touch.dry else "when wet"
        bound = touch.dry if cold.value > touch.dry else touch.wet
        say(caution, True, f"{cold.value:.1f} V: dangerous to touch {where} (above {bound:g} V)", touch.source)
    return found


def _left_out(grouping: Grouping, place: str) -> list[Finding]:
    count = grouping.left_out
    if not count:
        return []
    sentence = f"{count} module{'s are' if count > 1 else ' is'} left out"
    return [Finding(Severity.NOTICE, place, sentence, "geometry")]


def _clipping(clipped: float, offered: float, controller: Controller) -> list[Finding]:
    if not clipped:
        return []
    sentence = (
        f"in full sun {clipped:.1f} A of {offered:.1f} A ({100 * clipped / offered:.0f} %) are clipped: "
        f"{controller.name} gives {controller.output_amperes:g} A"
    )
    return [Finding(Severity.NOTICE, controller.name, sentence, "maker's sheet of the controller")]
