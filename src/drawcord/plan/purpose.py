"""What a power cable is for: the current, voltages and limits that its circuit is built for."""

from dataclasses import dataclass
from typing import Literal

from drawcord.coach.job import Cable, Job
from drawcord.plan.fitted import Fitted
from drawcord.wire.currents import rated_current
from drawcord.wire.published import Factor
from drawcord.wire.strings import Judged
from drawcord.wire.tracked import Tracked
from drawcord.wire.voltages import hot_vmp
from drawcord.words.figure import Figure

Role = Literal["array", "controller to battery", "important load"]


@dataclass(frozen=True)
class Purpose:
    """The circuit that a cable makes.

    `flows` [A] is what the drop is worked out at, `supply` [V] what it is a share of, `most_volts` the highest
    voltage [V], `prospective` the current into a short circuit [A], None if unknown; `both_ends` if fed from both.
    `tracked` are the strings of an array circuit, on the controller's tracker `number` from 0, which
    the cable `through` leads to in the end.
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
    through: str = ""


def purpose(job: Job, name: str, fitted: Fitted, chosen: Judged) -> Purpose | str:
    """What the power cable `name` is for, or why its circuit is not worked out."""
    cable = job.cables[name]
    if cable.carries == "mains":
        return f"mains is not covered by the rule set {fitted.rules.name}: only the drop of its route is worked out"
    if cable.carries == "PV":
        return _array(job, name, fitted, chosen)
    ends = ends_of(cable)
    if fitted.battery_id not in ends:
        return f"it does not lead to {fitted.battery_id}, so nothing is known of its source"
    battery = fitted.battery
    if fitted.controller_id in ends:
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
    circuit: Role = "controller to battery" if both else "important load"
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
    pv = [(name, ends_of(cable)) for name, cable in job.cables.items() if cable.carries == "PV"]
    return sorted(name for name, ends in pv if controller_id in ends)


def _array(job: Job, name: str, fitted: Fitted, chosen: Judged) -> Purpose | str:
    inputs = inputs_of(job, fitted.controller_id)
    number = _leads_to(job, name, inputs, fitted.controller_id)
    if number is None:
        return f"it does not lead to {fitted.controller_id}, so nothing is known of what it carries"
    if number >= len(chosen.trackers):
        return "no strings are left for it: the grouping chosen has fewer trackers"
    one = chosen.trackers[number]
    module = one.strings.plane.module
    back = fitted.battery.short_circuit_amperes
    return Purpose(
        "array",
        one.imax,
        one.strings.parallel * module.imp,
        hot_vmp(module, one.strings.series, fitted.climate.hottest_cell),
        one.cold.with_margin.value,
        None if back is None else max(back, one.imax.value),
        True,
        _limit(job.cables[name], fitted, "array"),
        one,
        number,
        inputs[number],
    )


def _limit(cable: Cable, fitted: Fitted, circuit: Role) -> Factor:
    usual = fitted.rules.drop_limits[circuit]
    return usual if cable.drop_limit is None else Factor(cable.drop_limit, "the job's own drop limit")


def ends_of(cable: Cable) -> tuple[str, str]:
    """The equipment at both ends of a cable."""
    return cable.start.partition(".")[0], cable.end.partition(".")[0]


def _leads_to(job: Job, name: str, inputs: list[str], controller_id: str) -> int | None:
    """Which of the controller's inputs a PV cable leads to, through other devices, None if to none."""
    pv = {one: set(ends_of(cable)) for one, cable in job.cables.items() if cable.carries == "PV"}
    reached, grew = pv[name] - {controller_id}, True
    while grew:
        more = {end for ends in pv.values() if ends & reached for end in ends} - {controller_id}
        grew = not more <= reached
        reached |= more
    mine = [name] if name in inputs else [one for one in inputs if pv[one] & reached]
    return inputs.index(mine[0]) if mine else None
