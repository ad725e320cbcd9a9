"""The job's array, controller and battery with their makers' figures, and the temperatures they meet."""

from collections.abc import Mapping
from dataclasses import dataclass

from drawcord.coach.coach import Coach
from drawcord.coach.job import Equipment, Job
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


def lacking(job: Job) -> list[Problem]:
    """What a job does not say of array, controller and battery; it has circuits if this is nothing."""
    problems: list[Problem] = []
    _of(job, "solar module", problems)
    _only(job, "charge controller", problems)
    _only(job, "battery", problems)
    return problems


def fitted(coach: Coach, rule_sets: Mapping[str, RuleSet]) -> Fitted:
    """The job's solar modules, its one controller and its one battery.

    Raises BadInput with every type that is missing and every temperature out of bounds.
    """
    job = coach.job
    if job is None:
        raise LookupError("a coach without a job has no equipment")
    problems = _temperatures(job)
    planes = _planes(coach, job, problems)
    charger = _only(job, "charge controller", problems)
    bank = _only(job, "battery", problems)
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
    for name, one in sorted(_of(job, "solar module", problems).items()):
        if one.type is not None:
            places.setdefault((one.plane or "roof", one.type), []).append(name)
    mixed = {plane for plane, _ in places if sum(plane == other for other, _ in places) > 1}
    return tuple(
        Plane(f"{plane} {kind}" if plane in mixed else plane, coach.types.modules[kind].made(), tuple(names))
        for (plane, kind), names in sorted(places.items())
    )


def _only(job: Job, kind: str, problems: list[Problem]) -> tuple[str, str] | None:
    """The id and type of the one device of a kind."""
    found = _of(job, kind, problems)
    for name in sorted(found)[1:]:
        sentence = f"{name} is a second {kind}: circuits are worked out for one, so plan the other as a job of its own"
        problems.append(Problem(("equipment", name), sentence, file="job"))
    return next(((name, one.type) for name, one in sorted(found.items()) if one.type is not None), None)


def _of(job: Job, kind: str, problems: list[Problem]) -> dict[str, Equipment]:
    found = {name: one for name, one in job.equipment.items() if one.kind == kind}
    if not found:
        sentence = f"the job has no {kind}: add one with its `type`, or there are no circuits to work out"
        problems.append(Problem(("equipment",), sentence, file="job"))
    for name, one in sorted(found.items()):
        if one.type is None:
            sentence = f"{name} does not say what {kind} it is: add its `type`, one of the job's or the shop's types"
            problems.append(Problem(("equipment", name), sentence, file="job"))
    return found
