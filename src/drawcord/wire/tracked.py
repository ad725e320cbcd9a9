"""The figures of one tracker's strings."""

from dataclasses import dataclass
from typing import NamedTuple

from drawcord.wire.currents import array_current
from drawcord.wire.feedback import StringFuse, string_fuse
from drawcord.wire.grouping import Strings
from drawcord.wire.rulesets import RuleSet
from drawcord.wire.voltages import ColdVoc, cold_voc, hot_vmp, hot_voc
from drawcord.words.figure import Figure


@dataclass(frozen=True)
class Climate:
    """The coldest air this vehicle will meet and its hottest cells [°C]."""

    coldest: float
    hottest_cell: float


class Tracked(NamedTuple):
    """The figures of one tracker's strings: `reaching` is hot Vmp less the drop, `starting` hot Voc."""

    strings: Strings
    cold: ColdVoc
    reaching: Figure
    starting: Figure
    imax: Figure
    fuse: StringFuse

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The chain as a sheet prints it."""
        fuse = (self.fuse.rating,) if self.fuse.rating else ()
        return (
            *self.cold,
            self.reaching,
            self.starting,
            self.imax,
            self.fuse.feedback,
            self.fuse.bears,
            *fuse,
        )


def tracked(rules: RuleSet, strings: Strings, climate: Climate, drop_share: float) -> Tracked:
    """What `strings` read in `climate`, where `drop_share` of hot Vmp is lost on the way.

    Raises:
        ValueError: a climate beyond what the voltages are worked out for.

    """
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
