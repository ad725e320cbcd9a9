"""The job's array, controller and battery with their makers' figures, and the temperatures they meet."""

from collections.abc import Mapping
from dataclasses import dataclass

from drawcord.coach.coach import Coach
from drawcord.coach.job import Job
from drawcord.coach.lacking import of_kind, only
from drawcord.wire.battery import Battery
from drawcord.wire.coefficient import STANDARD_CELSIUS
from drawcord.wire.controller import Controller
from drawcord.wire.grouping import Plane
from drawcord.wire.rulesets import RuleSet
from drawcord.wire.tracked import Climate
from drawcord.wire.voltages import COLDEST, HOTTEST_CELL
from drawcord.words.faults import BadInput, Problem

CELL_ABOVE_AIR = 35.0
"""How much hotter than the air a module's cells get [K]; common practice for modules close to a roof, no source."""


@dataclass(frozen=True)
class Fitted:
    """What a job puts together; `controller_id` and `battery_id` are those of its equipment."""

    planes: tuple[Plane, ...]
    controller_id: str
    controller: Controller
    battery_id: str
    battery: Battery
    climate: Climate
    rules: RuleSet


def fitted(coach: Coach, rule_sets: Mapping[str, RuleSet]) -> Fitted:
    """The job's solar modules, its one controller and its one battery.

    Raises BadInput with every type that is missing and every temperature out of bounds.
    """
    job = coach.job
    if job is None:
        raise LookupError("a coach without a job has no equipment")
    problems = _temperatures(job)
    planes = _planes(coach, job, problems)
    charger = only(job, "charge controller", problems)
    bank = only(job, "battery", problems)
    if problems or charger is None or bank is None:
        raise BadInput(problems)
    (controller_id, controller_type), (battery_id, battery_type) = charger, bank
    return Fitted(
        planes,
        controller_id,
        coach.types.controllers[controller_type].made(),
        battery_id,
        coach.types.batteries[battery_type].made(),
        Climate(job.temperatures.coldest, _cell(job)),
        rule_sets[job.rules],
    )


def _cell(job: Job) -> float:
    stated = job.temperatures.cell
    return job.temperatures.hottest + CELL_ABOVE_AIR if stated is None else stated


def _temperatures(job: Job) -> list[Problem]:
    found = []
    coldest, cell = job.temperatures.coldest, _cell(job)
    if not COLDEST <= coldest < STANDARD_CELSIUS:
        sentence = f"cold Voc is known from {COLDEST:g} to {STANDARD_CELSIUS:g} °C, not at {coldest:g} °C"
        found.append(Problem(("temperatures", "coldest"), sentence, file="job"))
    if not STANDARD_CELSIUS <= cell <= HOTTEST_CELL:
        key = "hottest" if job.temperatures.cell is None else "cell"
        sentence = f"hot cells have {STANDARD_CELSIUS:g} to {HOTTEST_CELL:g} °C, not {cell:g} °C"
        found.append(Problem(("temperatures", key), sentence, file="job"))
    return found


def _planes(coach: Coach, job: Job, problems: list[Problem]) -> tuple[Plane, ...]:
    """Like modules of one plane each; where a job names no plane, all lie in one."""
    places: dict[tuple[str, str], list[str]] = {}
    for name, one in sorted(of_kind(job, "solar module", problems).items()):
        if one.type is not None:
            places.setdefault((one.plane or "roof", one.type), []).append(name)
    mixed = {plane for plane, _ in places if sum(plane == other for other, _ in places) > 1}
    return tuple(
        Plane(f"{plane} {kind}" if plane in mixed else plane, coach.types.modules[kind].made(), tuple(names))
        for (plane, kind), names in sorted(places.items())
    )
