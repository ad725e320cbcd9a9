"""What a grouping of modules means for its controller and battery, and why it is barred if it is."""

from typing import NamedTuple

from drawcord.wire.battery import Battery
from drawcord.wire.controller import Controller
from drawcord.wire.grouping import Grouping, Strings
from drawcord.wire.limits import limits
from drawcord.wire.rulesets import RuleSet
from drawcord.wire.tracked import Climate, Tracked, tracked
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding, Severity


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
    """A grouping on `controller` and `battery`, with `drop_share` of hot Vmp lost on the way, such as 0.02.

    Voltage and short-circuit limits bar; the controller's output current only clips.

    Raises:
        ValueError: a climate beyond what the voltages are worked out for, a share outside 0 to below 1.

    """
    if not 0 <= drop_share < 1:
        raise ValueError(f"the share lost on the way lies between 0 and 1, not {drop_share}")
    each = tuple(tracked(rules, one, climate, drop_share) for one in grouping.trackers)
    watts = sum(one.modules * one.plane.module.watts for one in grouping.trackers)
    terms = " + ".join(f"{one.modules} · {one.plane.module.watts:.6g} W" for one in grouping.trackers)
    offered = watts / battery.absorption
    clipped = max(0.0, offered - controller.output_amperes)
    findings: list[Finding] = []
    for number, one in enumerate(each, 1):
        findings += limits(
            f"{controller.name} tracker {number}", one, controller, battery, climate, rules.touch
        )
    findings += _left_out(grouping, controller.name)
    findings += _clipping(clipped, offered, controller)
    return Judged(
        grouping,
        each,
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
    whole = "all there is" if parallel == 1 else f"1 of {parallel} strings; the others go on"
    if series == 1:
        return f"Shade on one module takes away {whole}."
    return (
        f"Shade on one module of a string takes away at best 1/{series} of the string's voltage, by its "
        f"bypass diodes, at worst the string's current: {whole}."
    )


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
