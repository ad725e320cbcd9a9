"""What array a cable that was in the vehicle before could carry, or why it must go and what would have to change."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drawcord.coach.coach import Coach
from drawcord.coach.inherited import Inherited
from drawcord.coach.job import Job
from drawcord.plan.array import Array, name_of
from drawcord.plan.upstream import ends
from drawcord.wire.ampacity import Leg
from drawcord.wire.cable import area_mm2, standard
from drawcord.wire.capacity import Capacity, capacity, most_by_drop
from drawcord.wire.conductor import Conductor
from drawcord.wire.drop import Drop, drop
from drawcord.wire.placement import terminal_findings
from drawcord.wire.published import Factor
from drawcord.wire.strings import Judged
from drawcord.wire.voltages import hot_vmp
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding, Severity

PRACTICE = "common practice, no source"
BETTER_INSULATION = 90.0  # °C, of the cable that could replace it


@dataclass(frozen=True)
class Carried:
    """A grouping on one pair of conductors, held against a cable; it is carried if nothing speaks `against` it.

    `most` is the largest Imp that the drop allows at the voltage of its strings.
    """

    name: str
    judged: Judged
    drop: Drop
    most: Figure
    against: tuple[str, ...]


@dataclass(frozen=True)
class Reuse:
    """The answer for one cable: groupings that take one pair of conductors, the one that charges most first.

    It `stays` if it carries any of them and nothing refuses it. `verdict` says in sentences what it carries or why it
    must go, and what would have to change for the first grouping.
    """

    name: str
    run: Inherited
    capacity: Capacity | None
    groupings: tuple[Carried, ...]
    stays: bool
    verdict: tuple[str, ...]
    findings: tuple[Finding, ...]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The chain as a sheet prints it."""
        own = self.capacity.figures if self.capacity else ()
        lost = (figure for one in self.groupings for figure in (one.drop.ohms, one.most))
        return tuple(dict.fromkeys((*own, *lost)))


@dataclass(frozen=True)
class _Case:
    """A cable with all that it is held against."""

    name: str
    run: Inherited
    job: Job
    array: Array
    conductors: tuple[Conductor, ...]

    @property
    def ends(self) -> set[str]:
        """The equipment at its ends."""
        return {self.run.start.partition(".")[0], self.run.end.partition(".")[0]}

    @property
    def limit(self) -> Factor:
        """The drop limit of the PV cable that it would stand in for, else the rule set's."""
        for name, cable in sorted(self.job.cables.items()):
            if cable.carries == "PV" and set(ends(cable)) == self.ends and cable.drop_limit is not None:
                return Factor(cable.drop_limit, f"the job's own drop limit of {name}")
        return self.array.fitted.rules.drop_limits["array"]

    def bears(self, section: str, insulation: float) -> Capacity:
        """What a section would bear in its place: in a wall, and close above the roof where it lies in the sun."""
        air, together, length = self.job.temperatures.hottest, self.run.together, self.run.length
        legs = [Leg(self.name, air, together, length)]
        if self.run.sunlit:
            legs.append(Leg(f"{self.name} on the roof", air, together, length, roof_gap_mm=0.0, free_air=True))
        return capacity(self.array.fitted.rules, section, insulation, legs)

    def held(self, one: Judged, bears: Capacity, row: Conductor) -> Carried:
        """A grouping against a conductor in its place."""
        strings = one.trackers[0].strings
        module, limit = strings.plane.module, self.limit.value
        flows, short, most = strings.parallel * module.imp, strings.parallel * module.isc, bears.most
        supply = hot_vmp(module, strings.series, self.array.fitted.climate.hottest_cell)
        lost = drop(flows, supply.value, self.run.length, row, self.job.temperatures.conductor)
        against = []
        if short > most.value:
            against.append(f"its Isc of {short:.4g} A is above {most.value:.4g} A, the {most.name}")
        if lost.percent.value > 100 * limit:
            against.append(f"it loses {lost.percent.value:.2f} %, over {100 * limit:g} %")
        name = name_of(one.grouping, several=len(self.array.fitted.planes) > 1)
        return Carried(name, one, lost, most_by_drop(limit, supply, lost.ohms.value), tuple(against))


def reuses(coach: Coach, array: Array, conductors: Sequence[Conductor]) -> tuple[Reuse, ...]:
    """The answer for each inherited cable of the job, in order of their ids."""
    if coach.job is None:
        raise LookupError("a coach without a job has no inherited cables")
    inherited = sorted(coach.job.inherited.items())
    return tuple(_reuse(_Case(name, run, coach.job, array, tuple(conductors))) for name, run in inherited)


def _reuse(case: _Case) -> Reuse:
    run, name, rules = case.run, case.name, case.array.fitted.rules
    findings = [*_seen(name, run)]
    if case.array.fitted.controller_id in case.ends:
        findings += terminal_findings(name, case.array.fitted.controller, run.section, area_mm2(run.section))
    bears, groupings = None, list[Carried]()
    row = next((one for one in case.conductors if (one.label, one.metal) == (run.section, run.metal)), None)
    if row is None:
        sentence = f"no table holds the resistance of {run.section}, {run.metal}"
        findings.append(Finding(Severity.REFUSAL, name, sentence, "the tables of conductors"))
    try:
        bears = case.bears(run.section, run.insulation)
    except ValueError as error:
        findings.append(Finding(Severity.REFUSAL, name, str(error), rules.name))
    if bears and row:
        groupings = [case.held(one, bears, row) for one in _on_one_pair(case.array)]
    refused = [one.sentence for one in findings if one.severity is Severity.REFUSAL]
    carried = next((one for one in groupings if not one.against), None)
    verdict = [_verdict(name, refused, groupings, carried)]
    if groupings and groupings[0].against:
        verdict.append(_change(case, groupings[0]))
    stays = carried is not None and not refused
    return Reuse(name, run, bears, tuple(groupings), stays, tuple(verdict), tuple(findings))


def _on_one_pair(array: Array) -> list[Judged]:
    """The groupings that the controller takes on one tracker, by charge current, then by modules left out."""
    judged = [one.judged for one in array.offered] + [one.judged for one in array.fell_out]
    single = [one for one in judged if not one.barred and len(one.trackers) == 1]
    most = array.fitted.controller.output_amperes
    return sorted(single, key=lambda one: (-round(1000 * min(one.offered.value, most)), one.grouping.left_out))


def _seen(name: str, run: Inherited) -> Iterator[Finding]:
    """What was seen of it, or nobody looked at."""
    refusal, caution = Severity.REFUSAL, Severity.CAUTION
    untested = "nobody has tested its insulation: test it before use, parted from every device"
    unknown = "nobody knows its joints, and a joint before the first breaker is the commonest fault"
    said = [
        (run.condition == "damaged", refusal, "it is damaged"),
        (run.hidden_joints > 0, refusal, f"{run.hidden_joints} of its joints lie where no hand reaches"),
        (run.sunlit and not run.sunlight_resistant, refusal, "it lies in the sun and is not resistant to sunlight"),
        (run.condition == "unknown", caution, untested),
        (run.joints is None, caution, unknown),
        (bool(run.joints), caution, f"open and remake its joints ({run.joints}): they are the commonest fault"),
    ]
    return (Finding(severity, name, sentence, PRACTICE) for true, severity, sentence in said if true)


def _verdict(name: str, refused: list[str], groupings: list[Carried], carried: Carried | None) -> str:
    if refused:
        return f"{name} must go: {'; '.join(refused)}"
    if not groupings:
        return f"{name} must go: no grouping of the modules takes one pair of conductors"
    if carried is None:
        return f"{name} must go: even with {groupings[-1].name}, {'; '.join(groupings[-1].against)}"
    tracked, left = carried.judged.trackers[0], carried.judged.grouping.left_out
    modules = tracked.strings.modules
    volts = f"cold Voc {tracked.cold.with_margin.value:.1f} V with margin"
    return f"{name} can stay: it carries {modules} of {modules + left} modules as {carried.name}, {volts}"


def _change(case: _Case, wanted: Carried) -> str:
    """What would carry the grouping that charges most: a thicker cable in its place."""
    run, rules = case.run, standard(case.run.section)
    same = [one for one in case.conductors if (one.standard, one.metal) == (rules, run.metal)]
    rows = sorted((one for one in same if one.area_mm2 >= area_mm2(run.section)), key=lambda one: one.area_mm2)
    cannot = f"it does not carry {wanted.name}, which charges most: {'; '.join(wanted.against)}"
    for insulation in sorted({run.insulation, max(run.insulation, BETTER_INSULATION)}):
        for row in rows:
            try:
                bears = case.bears(row.label, insulation)
            except ValueError:
                continue
            if not case.held(wanted.judged, bears, row).against:
                return f"{cannot}; in its place that takes {row.label} with insulation for {insulation:g} °C"
    return f"{cannot}; no section of the tables would do in its place"
