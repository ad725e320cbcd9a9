"""What a power cable is for: the current, voltages and limits that its circuit is built for."""

from dataclasses import dataclass, replace
from typing import Literal

from drawcord.coach.job import Cable, Job
from drawcord.plan.fitted import Fitted
from drawcord.plan.mains import FEEDS, Fed, fed
from drawcord.plan.upstream import ends, strings_carried, way
from drawcord.wire.currents import rated_current, shared_current
from drawcord.wire.published import Factor
from drawcord.wire.rulesets import RuleSet
from drawcord.wire.strings import Judged
from drawcord.wire.supply import OWN_SOURCES
from drawcord.wire.tracked import Tracked
from drawcord.wire.voltages import hot_vmp
from drawcord.words.figure import Figure

Role = Literal["array", "controller to battery", "important load", "other load", "mains"]
LOADS: dict[str, Role] = {"important": "important load", "other": "other load"}
AS_RATED = Factor(1.0, "a circuit's rating is its device's: NEC 2023 210.18, IEC 60364-4-43, 433.1 (both from memory)")


@dataclass(frozen=True)
class Purpose:
    """The circuit that a cable makes.

    `flows` [A] is what the drop is worked out at, `supply` [V] what it is a share of, `most_volts` the highest
    voltage [V], `prospective` the current into a short circuit [A], None if unknown; `both_ends` if fed from both.
    `tracked` are the strings of an array circuit, on the controller's tracker `number` from 0; the cables of `way`,
    itself first, lead there. It carries `strings` of them: all, if the job does not tell (not `strings_known`).
    `mains` is what feeds a mains circuit and what it feeds.
    """

    circuit: Role
    imax: Figure
    flows: float
    supply: Figure
    most_volts: float
    prospective: float | None
    both_ends: bool
    limit: Factor
    tracked: Tracked | None = None
    number: int = 0
    way: tuple[str, ...] = ()
    strings: int = 0
    strings_known: bool = True
    mains: Fed | None = None

    def rules(self, rules: RuleSet) -> RuleSet:
        """The rule set as it holds for this circuit: mains have devices, and hours, of their own."""
        if self.mains is None:
            return rules
        own = self.mains.supplied.source in OWN_SOURCES
        longer = rules.mains.own_source if own else AS_RATED
        # NEC 240.4(B)(1) (from memory): no next size up for a circuit of several receptacles; none here for any mains.
        return replace(rules, longer=longer, ratings=rules.mains.ratings, next_size_up=None)

    @property
    def through(self) -> str:
        """The cable by which the current reaches the controller."""
        return self.way[-1] if self.way else ""


def purpose(job: Job, name: str, fitted: Fitted, chosen: Judged) -> Purpose | str:
    """What the power cable `name` is for, or why its circuit is not worked out."""
    cable = job.cables[name]
    if cable.carries == "mains":
        return _mains(job, name, fitted)
    if cable.carries == "PV":
        return _array(job, name, fitted, chosen)
    between = ends(cable)
    if fitted.battery_id not in between:
        return f"it does not lead to {fitted.battery_id}, so nothing is known of its source"
    battery = fitted.battery
    if fitted.controller_id in between:
        amperes = fitted.controller.output_amperes
        supply = Figure(
            "absorption voltage", battery.absorption, "V", f"{battery.absorption:g} V", f"maker's sheet: {battery.name}"
        )
        imax = rated_current(amperes, fitted.controller.name, f"rated output of {fitted.controller.name}")
        both = True
    else:
        amperes = cable.amperes or 0.0
        volts = cable.volts or battery.nominal
        supply = Figure("supply", volts, "V", f"{volts:g} V", f"the job, {name}")
        imax = rated_current(amperes, name, f"the job, {name}")
        both = False
    circuit: Role = "controller to battery" if both else LOADS[cable.importance]
    return Purpose(
        circuit,
        imax,
        amperes,
        supply,
        battery.highest,
        battery.short_circuit_amperes,
        both,
        _limit(cable, fitted, circuit),
    )


def inputs_of(job: Job, controller_id: str) -> list[str]:
    """The PV cables that end at the controller, in order: the first is for its first tracker."""
    return sorted(name for name, cable in job.cables.items() if cable.carries == "PV" and controller_id in ends(cable))


def _array(job: Job, name: str, fitted: Fitted, chosen: Judged) -> Purpose | str:
    inputs = inputs_of(job, fitted.controller_id)
    path = way(job, name, fitted.controller_id)
    if not path:
        return f"it does not lead to {fitted.controller_id}, so nothing is known of what it carries"
    number = inputs.index(path[-1])
    if number >= len(chosen.trackers):
        return "no strings are left for it: the grouping chosen has fewer trackers"
    one = chosen.trackers[number]
    module, parallel = one.strings.plane.module, one.strings.parallel
    carried = strings_carried(job, name, fitted.controller_id, one.strings)
    strings = parallel if carried is None else carried
    # A fault to one side of a device draws from the other: from the strings, or, through a controller that fails, from
    # the battery. Never from both at once, so the larger governs.
    back = fitted.battery.short_circuit_amperes
    return Purpose(
        "array",
        shared_current(module.isc, strings, parallel, fitted.rules.brighter),
        strings * module.imp,
        hot_vmp(module, one.strings.series, fitted.climate.hottest_cell),
        one.cold.with_margin.value,
        None if back is None else max(back, one.imax.value),
        True,
        _limit(job.cables[name], fitted, "array"),
        one,
        number,
        path,
        strings,
        carried is not None,
    )


def _mains(job: Job, name: str, fitted: Fitted) -> Purpose | str:
    cable, between = job.cables[name], fed(job, name)
    if between is None:
        return f"it comes from none of {', '.join(FEEDS)}, so nothing is known of its source"
    amperes, volts = cable.amperes or 0.0, cable.volts or 0.0
    return Purpose(
        "mains",
        rated_current(amperes, name, f"the rating that the job states, {name}"),
        amperes,
        Figure("supply", volts, "V", f"{volts:g} V", f"the job, {name}"),
        volts,
        between.short_circuit,
        False,
        _limit(cable, fitted, "mains"),
        mains=between,
    )


def _limit(cable: Cable, fitted: Fitted, circuit: Role) -> Factor:
    usual = fitted.rules.drop_limits[circuit]
    return usual if cable.drop_limit is None else Factor(cable.drop_limit, "the job's own drop limit")
