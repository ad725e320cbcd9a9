"""One circuit on the real length of its cable: section, device, drop, and what to read when it is switched on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from drawcord.coach.catalogue import DeviceType
from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable
from drawcord.plan import guard, mains
from drawcord.plan.beside import Crowd, alone
from drawcord.plan.figures import Company, chain, inside, readings
from drawcord.plan.fitted import Fitted
from drawcord.plan.grown import lie_apart, of_type
from drawcord.plan.pieced import Piece, joined, pieced
from drawcord.plan.placed import Placed, placed
from drawcord.plan.purpose import Purpose
from drawcord.plan.section import Case, Tried
from drawcord.routes.route import Candidate
from drawcord.wire.cable import area_mm2
from drawcord.wire.conductor import Conductor
from drawcord.wire.device import Device
from drawcord.wire.placement import terminal_findings
from drawcord.wire.published import Rule
from drawcord.wire.rulesets import RuleSet
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding, Severity
from drawcord.words.units import format_width

SEQUENCE = (
    "Connecting: battery to controller first, the array after it.",
    "Disconnecting: isolate the array first, then take the battery off.",
    "Before an insulation test: controller and every other electronic device off the circuit.",
    "Fine strands under a clamp take a ferrule. Torque, from the maker's sheet: ______ N·m",
)
LEAST_CORES = 3


@dataclass(frozen=True)
class Planned:
    """How a cable came to its type and route: as it was `written`, the types `given_up` and why, and what is proven."""

    written: Cable
    given_up: Mapping[str, tuple[str, ...]]
    proof: str


@dataclass(frozen=True)
class Circuit:
    """A power cable on its route; `chosen` is None if no type of cable serves, `device` if no device does.

    `tried` are the types of cable from thin to thick. Where only several serve, joined, they are the `pieces`, and
    `chosen` is the one that loses most. `figures` are the chain that leads to the choice, `readings` what to expect at
    commissioning, `rules` those that apply to this circuit or do not, `placed` its devices at their places, or a place
    proposed for one.
    """

    cable: str
    purpose: Purpose
    candidate: Candidate
    planned: Planned
    tried: tuple[Tried, ...]
    chosen: Tried | None
    pieces: tuple[Piece, ...]
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
    coach: Coach,
    name: str,
    candidate: Candidate,
    planned: Planned,
    wanted: Purpose,
    fitted: Fitted,
    conductors: Sequence[Conductor],
    crowds: Sequence[tuple[Crowd, ...]] = (),
    company: Company = (),
) -> Circuit:
    """Work out the circuit of one cable: the type that the job names if it serves, else the thinnest that does.

    `crowds` are the conductors that lie together, leg by leg, `company` the diameters [mm] of what lies in its
    raceway, stretch by stretch; nothing else than its own if left out.
    """
    if coach.job is None:
        raise LookupError("a coach without a job has no cables")
    cable = coach.job.cables[name]
    crowds = crowds or alone(cable, candidate.route)
    case = Case(coach, name, candidate.route, crowds, wanted, wanted.rules(fitted.rules), conductors)
    every = tuple(replace(one, against=planned.given_up.get(one.type_id, one.against)) for one in case.tried())
    serving = [one for one in every if not one.against]
    named = next((one for one in every if one.type_id == cable.type), None)
    chosen = named if named in serving else next(iter(serving), None)
    pieces: tuple[Piece, ...] = ()
    if chosen is None:
        pieces = pieced(case)
        chosen = max((one.tried for one in pieces), key=_lost, default=None)
    if pieces:
        findings = [joined(coach, name, pieces), *_wide(coach, name, cable, pieces)]
    else:
        findings = _choice(name, planned.written.type, chosen, every)
    places, against = placed(coach, name, candidate.route, wanted, fitted)
    findings += [*_strings(name, wanted), *against]
    device, protective = None, list[Figure]()
    if chosen and chosen.carrying:
        device, why = guard.device_for(name, device_types(coach, places), wanted, chosen.carrying, fitted)
        findings += why
        section = chosen.cable.section or ""
        if fitted.controller_id in {cable.start.partition(".")[0], cable.end.partition(".")[0]}:
            findings += terminal_findings(name, fitted.controller, section, area_mm2(section))
        if wanted.mains:
            protective, why = _protective(name, cable.cores, device, chosen, every, fitted.rules)
            findings += why
            findings += guard.slow(name, device, wanted.mains, fitted.rules.mains) if device else []
        findings += _holes(coach, name, planned.written, cable)
    raceway = inside(candidate.route, cable.cores if lie_apart(cable) else 1, chosen, company, fitted.rules)
    return Circuit(
        name,
        wanted,
        candidate,
        planned,
        every,
        chosen,
        pieces,
        device,
        guard.where(wanted, fitted, name),
        guard.disconnect(wanted),
        (*chain(wanted, chosen), *protective, *raceway),
        readings(wanted, fitted, chosen),
        tuple(findings),
        fitted.rules.mains.rules(wanted.mains.supplied) if wanted.mains else (),
        places,
    )


def device_types(coach: Coach, places: Sequence[Placed]) -> dict[str, DeviceType]:
    """The types that the circuit's device may be of: that of the device that the job places, if it says which."""
    every = coach.types.devices
    stated = {one.type_id: every[one.type_id] for one in places if one.type_id}
    return {name: one for name, one in stated.items() if one.kind != "switch"} or every


def _choice(
    name: str, type_id: str | None, chosen: Tried | None, every: Sequence[Tried]
) -> list[Finding]:
    source = "figures of this circuit"
    if chosen is None:
        most = every[-1] if every else None
        why = (
            f"the thickest, {most.type_id}: {'; '.join(most.against)}" if most else "there is none for what it carries"
        )
        return [Finding(Severity.REFUSAL, name, f"no type of cable serves, {why}", source)]
    named = next((one for one in every if one.type_id == type_id), None)
    if named is not None and named.against:
        short = f"{type_id}, which the job names, does not serve: {'; '.join(named.against)}"
        sentence = f"{short}; {chosen.type_id} does, and the route is planned for it"
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


def _holes(coach: Coach, name: str, written: Cable, cable: Cable) -> list[Finding]:
    """Whether the holes are larger than the job asks, since the cores that run together are wider than its plug."""
    if cable.largest_plug <= written.largest_plug:
        return []
    wide, plug = (format_width(one.largest_plug, coach.units) for one in (cable, written))
    together = f"its {cable.cores} cores are {wide} wide together"
    sentence = f"{together}, more than the plug of {plug}: holes are sized for them"
    return [Finding(Severity.NOTICE, name, sentence, "geometry of a round bundle")]


def _lost(one: Tried) -> float:
    return one.drop.volts.value if one.drop else 0.0


def _wide(coach: Coach, name: str, cable: Cable, pieces: Sequence[Piece]) -> list[Finding]:
    """Pieces are joined on the route as it was written: whether the holes planned there are wide enough."""
    found = []
    for type_id in sorted({piece.tried.type_id for piece in pieces}):
        fit = of_type(cable, type_id, coach.types.cables[type_id])
        if fit.largest_plug > cable.largest_plug:
            wide, plug = (format_width(one.largest_plug, coach.units) for one in (fit, cable))
            sentence = f"the cores of {type_id} are {wide} wide together, the holes are planned for {plug}"
            remedy = f"write `largest plug: {fit.largest_plug} mm`"
            found.append(Finding(Severity.REFUSAL, name, f"{sentence}: {remedy}", "geometry of a round bundle"))
    return found
