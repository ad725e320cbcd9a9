"""Whether strings in parallel need fuses, since the others feed a faulty one, and of what rating."""

from typing import NamedTuple

from drawcord.wire.module import Module
from drawcord.wire.possible import one_or_more
from drawcord.wire.rulesets import RuleSet
from drawcord.words.figure import Figure


class StringFuse(NamedTuple):
    """What the others feed back, what one string bears, and the fuse: None if none is needed or none fits."""

    feedback: Figure
    bears: Figure
    needed: bool
    rating: Figure | None


def string_fuse(rules: RuleSet, module: Module, parallel: int) -> StringFuse:
    """The fuse of each of `parallel` strings of `module`; a string bears its module's series fuse rating.

    Its conductor asks for none: a cable is sized for what the other strings feed back (`currents.shared_current`).
    Raises ValueError for no string.
    """
    one_or_more("the strings in parallel", parallel)
    bearing, fusing = module.series_fuse, rules.fusing
    back = Figure(
        "current fed back into one string",
        (parallel - 1) * fusing.feedback.value * module.isc,
        "A",
        f"({parallel} - 1) · {fusing.feedback.value:g} · {module.isc:g} A",
        fusing.feedback.source,
    )
    bears = Figure("current one string bears", bearing, "A", f"{bearing:g} A", f"largest series fuse of {module.name}")
    needed = back.value > bearing
    return StringFuse(back, bears, needed, _rating(rules, module.isc, bearing) if needed else None)


def _rating(rules: RuleSet, isc: float, bearing: float) -> Figure | None:
    fusing = rules.fusing
    least = fusing.least.value * isc
    most = fusing.most.value * isc if fusing.most else float("inf")
    band = f"{fusing.least.value:g} · {isc:g} A" + (
        f" to {fusing.most.value:g} · {isc:g} A" if fusing.most else ""
    )
    for one in sorted(rules.ratings, key=lambda one: one.amperes):
        enough = one.amperes > least if fusing.strictly else one.amperes >= least
        if enough and one.amperes < most and one.amperes <= bearing:
            return Figure(
                "string fuse",
                one.amperes,
                "A",
                f"the least rating within {band} and at most {bearing:g} A",
                f"{fusing.least.source}; {one.source}",
            )
    return None
