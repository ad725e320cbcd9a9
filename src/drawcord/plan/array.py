"""The comparison of an array's groupings: an efficient set, what each is best at, why the others fell out."""

from dataclasses import dataclass
from typing import NamedTuple

from drawcord.plan.fitted import Fitted
from drawcord.wire.grouping import Grouping, Strings, groupings
from drawcord.wire.placement import connector_findings
from drawcord.wire.strings import Judged, judge
from drawcord.words.faults import BadInput, Problem
from drawcord.words.finding import Finding, Severity


class Merits(NamedTuple):
    """What groupings are compared by, the smaller the better; integers, so that ties are ties."""

    short: int  # charge current below the most that any gives [mA]
    fuses: int  # string fuses needed
    pairs: int  # pairs of conductors from array to controller
    current: int  # the largest of their currents in full sun [mA]
    voltage: int  # highest cold Voc with margin [mV]
    shade: int  # of the array's power, what shade on one module takes at worst [1/1000]


SPOKEN = (
    "charge current",
    "string fuses",
    "pairs of conductors",
    "current in the cable",
    "voltage to touch",
    "shade",
)
ORDER = (
    "The winner gives the most charge current; of equals the one with the fewest string fuses, then the fewest pairs "
    "of conductors, then the least current in the cable, the lowest cold voltage, the least loss by shade."
)


@dataclass(frozen=True)
class Offered:
    """A grouping that fits and that none equals or beats in everything."""

    name: str
    judged: Judged
    merits: Merits
    best_at: tuple[str, ...]


@dataclass(frozen=True)
class FellOut:
    """A grouping that is barred or beaten, with the reason in a sentence."""

    name: str
    judged: Judged
    reason: str


@dataclass(frozen=True)
class Array:
    """Every grouping of a job's modules; the winner is offered first. `drop_share` is lost on the way [1]."""

    fitted: Fitted
    drop_share: float
    offered: tuple[Offered, ...]
    fell_out: tuple[FellOut, ...]
    findings: tuple[Finding, ...]


def array(fitted: Fitted) -> Array:
    """Compare every grouping of the job's modules. Raises BadInput beyond what the voltages are known for."""
    share = fitted.rules.drop_limits["array"].value
    try:
        judged = [
            judge(fitted.rules, one, fitted.controller, fitted.battery, fitted.climate, share)
            for one in groupings(fitted.planes, fitted.controller.trackers)
        ]
    except ValueError as error:
        raise BadInput([Problem(("equipment",), str(error), file="job")]) from None
    fitting = [one for one in judged if not one.barred]
    merits = _merits(fitting, fitted)
    best = {one for one in merits.values() if not any(_beats(other, one) for other in merits.values())}
    least = Merits(*(min(column) for column in zip(*best, strict=True))) if best else None
    offered, fell_out = [], []
    for one in judged:
        name = name_of(one.grouping, several=len(fitted.planes) > 1)
        if one.barred:
            fell_out.append(FellOut(name, one, _why(one)))
        elif (mine := merits[one.grouping]) in best and least:
            firsts = (word for word, a, b in zip(SPOKEN, mine, least, strict=True) if a == b and len(best) > 1)
            offered.append(Offered(name, one, mine, tuple(firsts)))
        else:
            fell_out.append(FellOut(name, one, ""))
    offered.sort(key=lambda one: one.merits)
    return Array(
        fitted,
        share,
        tuple(offered),
        tuple(one if one.reason else _beaten(one, merits[one.judged.grouping], offered) for one in fell_out),
        tuple(connector_findings("the array", [plane.module.connector for plane in fitted.planes])),
    )


def name_of(grouping: Grouping, *, several: bool) -> str:
    """A grouping in the trade's short form: `2s2p` is two strings of two, trackers joined by a plus."""

    def part(one: Strings) -> str:
        return f"{one.series}s{one.parallel}p" + (f" of {one.plane.name}" if several else "")

    return " + ".join(part(one) for one in grouping.trackers)


def _merits(fitting: list[Judged], fitted: Fitted) -> dict[Grouping, Merits]:
    given = {one.grouping: min(one.offered.value, fitted.controller.output_amperes) for one in fitting}
    most = max(given.values(), default=0.0)
    return {one.grouping: _merit(one, most - given[one.grouping]) for one in fitting}


def _merit(one: Judged, short: float) -> Merits:
    fused = [each.strings.parallel for each in one.trackers if each.fuse.needed]
    shaded = [each.strings.series * each.strings.plane.module.watts for each in one.trackers]
    return Merits(
        round(1000 * short),
        sum(fused),
        len(one.trackers),
        max(round(1000 * each.strings.parallel * each.strings.plane.module.imp) for each in one.trackers),
        max(round(1000 * each.cold.with_margin.value) for each in one.trackers),
        round(1000 * max(shaded) / one.watts.value),
    )


def _beats(other: Merits, one: Merits) -> bool:
    return other != one and all(a <= b for a, b in zip(other, one, strict=True))


def _why(one: Judged) -> str:
    refusals = [finding for finding in one.findings if finding.severity is Severity.REFUSAL]
    return "; ".join(dict.fromkeys(finding.sentence for finding in refusals))


def _beaten(one: FellOut, mine: Merits, offered: list[Offered]) -> FellOut:
    by = next(other for other in offered if _beats(other.merits, mine))
    better = [word for word, a, b in zip(SPOKEN, by.merits, mine, strict=True) if a < b]
    reason = f"{by.name} is better at {', '.join(better)} and worse at nothing"
    return FellOut(one.name, one.judged, reason)
