"""One circuit on the real length of its cable: section, device, drop, and what to read when it is switched on."""

from collections.abc import Sequence
from dataclasses import dataclass

from drawcord.coach.catalogue import DeviceType
from drawcord.coach.coach import Coach
from drawcord.plan import guard, mains
from drawcord.plan.fitted import Fitted
from drawcord.plan.placed import Placed, placed
from drawcord.plan.purpose import Purpose
from drawcord.plan.section import Tried, tried
from drawcord.routes.route import Candidate
from drawcord.wire.cable import area_mm2
from drawcord.wire.conductor import Conductor
from drawcord.wire.device import Device
from drawcord.wire.placement import terminal_findings
from drawcord.wire.published import Rule
from drawcord.wire.rulesets import RuleSet
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding, Severity

SEQUENCE = (
    "Connecting: battery to controller first, the array after it.",
    "Disconnecting: isolate the array first, then take the battery off.",
    "Before an insulation test: controller and every other electronic device off the circuit.",
    "Fine strands under a clamp take a ferrule. Torque, from the maker's sheet: ______ N·m",
)
LEAST_CORES = 3


@dataclass(frozen=True)
class Circuit:
    """A power cable on its winning route; `chosen` is None if no type of cable serves, `device` if no device does.

    `tried` are the types of cable from thin to thick. `figures` are the chain that leads to the choice, `readings`
    what to expect at commissioning, `rules` those that apply to this circuit or do not, `placed` its devices at their
    places, or a place proposed for one.
    """

    cable: str
    purpose: Purpose
    candidate: Candidate
    tried: tuple[Tried, ...]
    chosen: Tried | None
    device: Device | None
    where: str
    disconnect: str
    figures: tuple[Figure, ...]
    readings: tuple[Figure, ...]
    findings: tuple[Finding, ...]
    rules: tuple[Rule, ...] = ()
    placed: tuple[Placed, ...] = ()

    @property
    def sequence(self) -> tuple[str, ...]:
        """In which order to connect, disconnect and test."""
        return mains.SEQUENCE if self.purpose.mains else SEQUENCE


def circuit(
    coach: Coach, name: str, candidate: Candidate, wanted: Purpose, fitted: Fitted, conductors: Sequence[Conductor]
) -> Circuit:
    """Work out the circuit of one cable: the type that the job names if it serves, else the thinnest that does."""
    if coach.job is None:
        raise LookupError("a coach without a job has no cables")
    cable = coach.job.cables[name]
    every = tried(coach, name, candidate.route, wanted, wanted.rules(fitted.rules), conductors)
    serving = [one for one in every if not one.against]
    named = next((one for one in every if one.type_id == cable.type), None)
    chosen = named if named in serving else next(iter(serving), None)
    findings = [*_choice(name, cable.type, named, chosen, every), *_strings(name, wanted)]
    places, against = placed(coach, name, candidate.route, wanted, fitted)
    findings += against
    device, protective = None, list[Figure]()
    if chosen and chosen.carrying:
        device, why = guard.device_for(name, _types(coach, places), wanted, chosen.carrying, fitted)
        findings += why
        section = chosen.cable.section or ""
        if fitted.controller_id in {cable.start.partition(".")[0], cable.end.partition(".")[0]}:
            findings += terminal_findings(name, fitted.controller, section, area_mm2(section))
        if wanted.mains:
            protective, why = _protective(name, cable.cores, device, chosen, every, fitted.rules)
            findings += why
            findings += guard.slow(name, device, wanted.mains, fitted.rules.mains) if device else []
        findings += _planned(name, cable.outside_diameter, cable.smallest_bend, chosen)
    return Circuit(
        name,
        wanted,
        candidate,
        every,
        chosen,
        device,
        guard.where(wanted, fitted, name),
        guard.disconnect(wanted),
        (*_chain(wanted, chosen), *protective),
        _readings(wanted, fitted, chosen),
        tuple(findings),
        fitted.rules.mains.rules(wanted.mains.supplied) if wanted.mains else (),
        places,
    )


def _types(coach: Coach, places: Sequence[Placed]) -> dict[str, DeviceType]:
    """The types that the circuit's device may be of: that of the device that the job places, if it says which."""
    every = coach.types.devices
    stated = {one.type_id: every[one.type_id] for one in places if one.type_id}
    return {name: one for name, one in stated.items() if one.kind != "switch"} or every


def _choice(
    name: str, type_id: str | None, named: Tried | None, chosen: Tried | None, every: Sequence[Tried]
) -> list[Finding]:
    source = "figures of this circuit"
    if chosen is None:
        most = every[-1] if every else None
        why = (
            f"the thickest, {most.type_id}: {'; '.join(most.against)}" if most else "there is none for what it carries"
        )
        return [Finding(Severity.REFUSAL, name, f"no type of cable serves, {why}", source)]
    if named is not None and named is not chosen:
        sentence = f"{type_id}, which the job names, does not serve: {'; '.join(named.against)}; {chosen.type_id} does"
        return [Finding(Severity.CAUTION, name, sentence, source)]
    thinner = next((one for one in every if not one.against), chosen)
    if thinner is not chosen:
        return [Finding(Severity.NOTICE, name, f"{thinner.type_id} would serve as well, and is thinner", source)]
    return []


def _protective(
    name: str, cores: int, device: Device | None, chosen: Tried, every: Sequence[Tried], rules: RuleSet
) -> tuple[list[Figure], list[Finding]]:
    """The protective conductor of a mains cable, one of its cores and so of the same section as the others."""
    if cores < LEAST_CORES:
        sentence = f"{name} has {cores} cores, but line, neutral and protective conductor are {LEAST_CORES}"
        return [], [Finding(Severity.REFUSAL, name, sentence, "NEC 2023 250.134, IEC 60364-4-41 (both from memory)")]
    if device is None:
        return [], []
    section = area_mm2(chosen.cable.section or "")
    needed = min(area_mm2(one.cable.section or "") for one in every if one.carrying and one.carrying.fits)
    least = rules.mains.protective(device.amperes, section, needed)
    label = chosen.cable.section or ""
    core = Figure("protective conductor, as a core of the cable", section, "mm²", label, chosen.type_id)
    return [least, core], []


def _strings(name: str, wanted: Purpose) -> list[Finding]:
    """Where strings join is told by the cables that lead to them; what nobody told is counted on the safe side."""
    if wanted.strings_known:
        return []
    sentence = f"the job does not tell which of the {wanted.strings} strings it carries, so it is counted for all"
    return [Finding(Severity.NOTICE, name, f"{sentence}: draw a cable to each string's end", "the job")]


def _planned(name: str, diameter: int, bend: int, chosen: Tried) -> list[Finding]:
    """Whether the route was planned for a cable as thick as the one chosen."""
    thick, wide = chosen.cable.diameter_mm, chosen.cable.bend_mm
    if thick <= diameter and wide <= bend:
        return []
    sentence = (
        f"{chosen.type_id} is {thick:g} mm thick and bends to {wide} mm, the route was planned for {diameter} mm and "
        f"{bend} mm: put the larger ones into the job and plan again"
    )
    return [Finding(Severity.CAUTION, name, sentence, "the job and the type of cable")]


def _chain(wanted: Purpose, chosen: Tried | None) -> tuple[Figure, ...]:
    limit = Figure(
        "largest drop wanted", 100 * wanted.limit.value, "%", f"{100 * wanted.limit.value:g} %", wanted.limit.source
    )
    carries = chosen.carrying if chosen else None
    lost = chosen.drop if chosen else None
    others = (one.amperes for one in carries.others) if carries else ()
    return (
        *(carries.figures if carries else (wanted.imax,)),
        *others,
        wanted.supply,
        *(lost or ()),
        limit,
    )


def _readings(wanted: Purpose, fitted: Fitted, chosen: Tried | None) -> tuple[Figure, ...]:
    sheet = "maker's sheet, standard test conditions"
    found: list[Figure] = []
    if one := wanted.tracked:
        module, series, parallel = one.strings.plane.module, one.strings.series, wanted.strings
        at_rating = Figure(
            "open circuit, cells at 25 °C", series * module.voc, "V", f"{series} · {module.voc:g} V", sheet
        )
        full_sun = Figure(
            "short circuit in full sun", parallel * module.isc, "A", f"{parallel} · {module.isc:g} A", sheet
        )
        found += [one.starting, at_rating, one.cold.string, full_sun]
    elif wanted.mains:
        found.append(wanted.supply)
    else:
        battery = fitted.battery
        found.append(
            Figure("battery at absorption", battery.absorption, "V", f"{battery.absorption:g} V", battery.name)
        )
    if chosen and chosen.drop:
        found.append(chosen.drop.volts)
    return tuple(found)
