"""Every power circuit of a job on the routes that were chosen, with bonding and the rules that apply."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from drawcord.coach.coach import Coach
from drawcord.plan.array import Array, Offered
from drawcord.plan.beside import CROSSING, NEAR, PRACTICE, beside
from drawcord.plan.circuit import Circuit, Planned, circuit
from drawcord.plan.connectors import connectors
from drawcord.plan.fitted import Fitted
from drawcord.plan.purpose import inputs_of, purpose
from drawcord.plan.raceways import company
from drawcord.routes.electric import POWER
from drawcord.routes.route import Candidate
from drawcord.wire.bonding import Bonds, bonds
from drawcord.wire.cable import area_mm2
from drawcord.wire.conductor import Conductor
from drawcord.wire.published import Rule
from drawcord.wire.rulesets import Arrayed
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding, Severity
from drawcord.words.units import tape_length

COUNTED = (
    "counted as lying together: on these routes, cables that may, {} or nearer to each other for more than {}, or in "
    "one chase or stack; wiring that was in the vehicle before is not counted"
)
ALONE = "only a cable's own conductors count as lying together; more circuits beside it lower what it carries"


@dataclass(frozen=True)
class Circuits:
    """The circuits of a job; `left` says of each power cable without one why.

    `strings` is the grouping they are worked out for, None if none fits on the job's cables.
    """

    fitted: Fitted
    strings: Offered | None
    circuits: tuple[Circuit, ...]
    left: dict[str, str]
    bonds: Bonds | None
    rules: tuple[Rule, ...]
    figures: tuple[Figure, ...]
    findings: tuple[Finding, ...]

    @property
    def whole(self) -> bool:
        """Whether a cable and a device serve every circuit, and nothing refuses it."""
        said = [*self.findings, *(finding for one in self.circuits for finding in one.findings)]
        return bool(self.circuits) and not any(one.severity is Severity.REFUSAL for one in said)


def circuits(
    coach: Coach,
    array: Array,
    chosen: Mapping[str, Candidate],
    conductors: Sequence[Conductor],
    planned: Mapping[str, Planned] = MappingProxyType({}),
    *,
    apart: bool = False,
) -> Circuits:
    """Work out every power cable of the job that has a route.

    `planned` says how each came to it, where it is known. `apart`: each as if no other lay beside it.
    """
    job, fitted = coach.job, array.fitted
    if job is None:
        raise LookupError("a coach without a job has no circuits")
    inputs = len(inputs_of(job, fitted.controller_id))
    strings = next((one for one in array.offered if len(one.judged.trackers) <= inputs), None)
    if strings is None:
        pairs = f"{inputs} pair{'s' * (inputs != 1)} of PV conductors"
        sentence = f"no grouping of the modules fits {fitted.controller.name} on {pairs}"
        refusal = Finding(Severity.REFUSAL, fitted.controller_id, sentence, "figures of the array")
        return Circuits(fitted, None, (), {}, None, (), (), (refusal,))
    near = {} if apart else beside(coach, chosen)
    within = {} if apart else company(coach, {name: one.route for name, one in chosen.items()})
    found: list[Circuit] = []
    left: dict[str, str] = {}
    for name, cable in sorted(job.cables.items()):
        if cable.carries not in POWER:
            continue
        wanted = purpose(job, name, fitted, strings.judged)
        if isinstance(wanted, str):
            left[name] = wanted
        elif name not in chosen:
            left[name] = "it has no route"
        else:
            how = planned.get(name, Planned(cable, {}, ""))
            around = near.get(name, ()), within.get(name, ())
            found.append(circuit(coach, name, chosen[name], how, wanted, fitted, conductors, *around))
    figures, findings = _arrived(found, fitted)
    each = strings.judged.trackers
    arrayed = Arrayed(
        max(one.cold.with_margin.value for one in each),
        sum(one.imax.value for one in each),
        sum(one.strings.parallel for one in each),
    )
    own = [one for one in strings.judged.findings if one.severity is not Severity.NOTICE]
    bounds = (tape_length(one, coach.units) for one in (NEAR, CROSSING))
    counted = Finding(Severity.NOTICE, job.job, ALONE if apart else COUNTED.format(*bounds), PRACTICE)
    return Circuits(
        fitted,
        strings,
        tuple(found),
        left,
        _bonds(found, fitted),
        fitted.rules.rules(arrayed),
        figures,
        (*array.findings, *own, *findings, *connectors(coach, fitted.controller_id), counted),
    )


def _arrived(found: Sequence[Circuit], fitted: Fitted) -> tuple[tuple[Figure, ...], list[Finding]]:
    """What is left of each tracker's hot Vmp behind the cables that lose most, and whether it still charges."""
    figures: list[Figure] = []
    findings: list[Finding] = []
    needed = fitted.battery.highest + fitted.controller.running_margin
    usual = fitted.rules.drop_limits["array"]
    mine = [one for one in found if one.purpose.circuit == "array" and one.chosen and one.chosen.drop]
    lost_in = {one.cable: one.chosen.drop.volts.value for one in mine if one.chosen and one.chosen.drop}
    for number in sorted({one.purpose.number for one in mine}):
        here = [one.purpose for one in mine if one.purpose.number == number]
        hot = here[0].supply
        way = max((one.way for one in here), key=lambda way: sum(lost_in.get(name, 0.0) for name in way))
        losses = [lost_in[name] for name in way if name in lost_in]
        lost = sum(losses)
        terms = " - ".join(f"{volts:.4g} V" for volts in losses)
        left = Figure(
            f"hot Vmp at tracker {number + 1}",
            hot.value - lost,
            "V",
            f"{hot.value:.4g} V - {terms}",
            f"less the drop of {', '.join(way)}",
        )
        share = Figure(
            f"drop from the array to tracker {number + 1}", 100 * lost / hot.value, "%",
            f"100 · {lost:.4g} V / {hot.value:.4g} V", "Ohm's law, the cables one after the other",
        )  # fmt: skip
        figures += [left, share]
        place = way[-1]
        if left.value < needed:
            sentence = f"{left.value:.1f} V are left on a hot afternoon, {needed:g} V are needed to charge"
            findings.append(Finding(Severity.REFUSAL, place, sentence, left.source))
        if len(way) > 1 and share.value > 100 * usual.value:
            sentence = f"{share.value:.2f} % are lost from array to controller, over {100 * usual.value:g} %"
            findings.append(Finding(Severity.CAUTION, place, sentence, usual.source))
    return tuple(figures), findings


def _bonds(found: Sequence[Circuit], fitted: Fitted) -> Bonds | None:
    """The bonds, behind the largest device of the array; None where there is no device or no battery lead."""
    devices = [one.device.amperes for one in found if one.device and one.purpose.circuit == "array"]
    leads = [
        one.chosen.cable.section
        for one in found
        if one.chosen and one.chosen.cable.section and one.purpose.circuit not in {"array", "mains"}
    ]
    if not devices or not leads:
        return None
    return bonds(fitted.rules, max(devices), max(leads, key=area_mm2))
