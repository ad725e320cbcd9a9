"""The one-line diagram as data: which parts follow one another, and what is written beside each. No drawing here."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from drawcord.coach.coach import Coach
from drawcord.plan.circuit import Circuit
from drawcord.plan.circuits import Circuits
from drawcord.plan.purpose import inputs_of
from drawcord.plan.upstream import ends
from drawcord.sheets.lengths import degrees, length
from drawcord.wire.tracked import Tracked

ABREAST = 2  # trackers, and loads, on one sheet
UNSIZED = "not sized"  # of a bond, where device or battery lead are missing
DROP = "voltage drop"  # stands beside the cable, not among the readings of the strings


@dataclass(frozen=True)
class Part:
    """A symbol with what stands beside it; `copies` in parallel, `open` if nobody worked it out or nothing serves.

    `bond` says what joins it to the chassis, if anything does; `cores` are the conductors of a cable.
    """

    symbol: str
    title: str
    lines: tuple[str, ...] = ()
    copies: int = 1
    bond: str = ""
    cores: int = 0
    open: bool = False


@dataclass(frozen=True)
class Chain:
    """Parts from source to load; `apart` if it is not joined to the bars of the diagram."""

    parts: tuple[Part, ...]
    apart: bool = False


@dataclass(frozen=True)
class Diagram:
    """Chains side by side in three bands, a bar between each two: the first ends at a bar, the last starts from one."""

    arrays: tuple[Chain, ...]
    charging: tuple[Chain, ...]
    battery: tuple[Chain, ...]


def diagrams(coach: Coach, found: Circuits, units: str, abreast: int = ABREAST) -> list[Diagram]:
    """One for each sheet, with `abreast` trackers and loads; controller and battery are drawn again on each."""
    if found.strings is None:
        return []
    trackers = found.strings.judged.trackers
    arrays = [_array(coach, found, number, one, units) for number, one in enumerate(trackers)]
    charging, rest = _below(coach, found, units)
    battery = Chain((_battery(found),))
    made: list[Diagram] = []
    while arrays or rest or not made:
        charged = tuple(charging) if arrays else ()
        made.append(Diagram(tuple(arrays[:abreast]), charged, (battery, *rest[:abreast])))
        arrays, rest = arrays[abreast:], rest[abreast:]
    return made


def _array(coach: Coach, found: Circuits, number: int, one: Tracked, units: str) -> Chain:
    """The strings of a tracker, their fuses, each cable on the way, the disconnect and the controller's tracker."""
    mine = [each for each in found.circuits if each.purpose.tracked and each.purpose.number == number]
    parts = [*_strings(found, mine, one, units)]
    parts += [_cable(coach, each, units) for each in sorted(mine, key=lambda each: each.cable == each.purpose.through)]
    through = inputs_of(coach.job, found.fitted.controller_id)[number] if coach.job else ""
    last = next((each for each in mine if each.cable == through), None)
    parts.append(_device(last) if last else _left(through, found))
    return Chain((*parts, _controller(found, number, one)))


def _strings(found: Circuits, mine: list[Circuit], one: Tracked, units: str) -> Iterator[Part]:
    strings, fuse = one.strings, one.fuse
    module = strings.plane.module
    expected = mine[0].readings if mine else (one.starting, one.cold.string)
    readings = [f"to read: {degrees(f.name, units)} {f.value:.4g} {f.unit}" for f in expected if f.name != DROP]
    fed = f"{fuse.feedback.value:.3g} A can be fed back into a string that bears {fuse.bears.value:g} A"
    unfused = () if fuse.needed else (f"no string fuse: {fed}",)
    yield Part(
        "generator",
        f"{_counted(strings.parallel, 'string')} of {_counted(strings.series, 'module')}, plane {strings.plane.name}",
        (
            f"{module.name}: Voc {module.voc:g} V, Isc {module.isc:g} A, Vmp {module.vmp:g} V, Imp {module.imp:g} A",
            *readings,
            *unfused,
        ),
        strings.parallel,
        found.bonds.frames.section if found.bonds else UNSIZED,
    )
    if fuse.needed:
        rating = f"{fuse.rating.value:g} A" if fuse.rating else "NONE FITS"
        volts = f"for {one.cold.with_margin.value:.4g} V DC or more, in the ungrounded lead of each string"
        yield Part("fuse", f"string fuses: {strings.parallel} of {rating}", (volts, fed), strings.parallel)


def _cable(coach: Coach, one: Circuit, units: str) -> Part:
    route, chosen, wanted = one.candidate.route, one.chosen, one.purpose
    cores = coach.job.cables[one.cable].cores if coach.job else 2
    joints = ", ".join(f"{length(joint.at, units)} in {joint.space}" for joint in route.joints)
    way = f"likely {length(route.cut_length[1], units)} a core; joints: {joints or 'none'}"
    if chosen is None or chosen.drop is None or chosen.carrying is None:
        said = (way, f"Imax {wanted.imax.value:.4g} A")
        return Part("cable", f"{one.cable}: NO TYPE OF CABLE SERVES", said, cores=cores, open=True)
    carries, lost = chosen.carrying.governing, chosen.drop
    return Part(
        "cable",
        f"{one.cable}: {chosen.cable.section}, {chosen.type_id}",
        (
            way,
            f"Imax {wanted.imax.value:.4g} A; carries {carries.amperes.value:.4g} A in {carries.leg.name}",
            (
                f"drop {lost.volts.value:.3g} V, {lost.percent.value:.3g} % at {wanted.flows:.4g} A "
                f"(limit {100 * wanted.limit.value:g} %)"
            ),
        ),
        cores=cores,
    )


def _device(one: Circuit) -> Part:
    fed = one.purpose.mains
    at = f"at {fed.guarded}" if fed else "at the battery"
    opens = "opens the array under load" if one.purpose.circuit == "array" else at
    short = "unknown" if one.purpose.prospective is None else f"{one.purpose.prospective / 1000:.3g} kA"
    there = f"{opens}; short circuit there: {short}"
    if one.device is None:
        return Part("breaker", f"{one.cable}: NO DEVICE SERVES", (there,), open=True)
    device = one.device
    breaks = f"{device.interrupting_amperes / 1000:g} kA" if device.interrupting_amperes else "kA unknown"
    poles = _counted(device.poles, "pole")
    rated = f"{device.volts:g} V {device.current}, {device.amperes:g} A, {breaks}, {poles}"
    return Part(device.kind, device.name, (rated, there))


def _controller(found: Circuits, number: int, one: Tracked) -> Part:
    controller, cold = found.fitted.controller, one.cold.with_margin.value
    bears = f"input up to {controller.highest_volts:g} V, {controller.short_circuit_amperes:g} A"
    arrives = next((f for f in found.figures if f.name == f"hot Vmp at tracker {number + 1}"), None)
    return Part(
        "converter",
        f"{found.fitted.controller_id}, tracker {number + 1} of {controller.trackers}: {controller.name}",
        (
            f"{bears}; output {controller.output_amperes:g} A",
            f"cold Voc with margin {cold:.4g} V: {controller.highest_volts - cold:.3g} V to spare",
            *((f"{arrives.name}: {arrives.value:.4g} V",) if arrives else ()),
        ),
        bond=found.bonds.enclosures.section if found.bonds else UNSIZED,
    )


def _battery(found: Circuits) -> Part:
    battery = found.fitted.battery
    short = battery.short_circuit_amperes
    equalise = f", equalising {battery.equalise:g} V" if battery.equalise else ""
    return Part(
        "battery",
        f"{found.fitted.battery_id}: {battery.name}",
        (
            f"nominal {battery.nominal:g} V, absorption {battery.absorption:g} V{equalise}",
            f"short circuit: {'unknown' if short is None else f'{short / 1000:.3g} kA'}",
        ),
        bond=f"{found.bonds.chassis.section}, once" if found.bonds else UNSIZED,
    )


def _below(coach: Coach, found: Circuits, units: str) -> tuple[list[Chain], list[Chain]]:
    """Between controller and battery; and what hangs on the battery, or on nothing of this diagram."""
    charging, rest = [], []
    battery, controller = found.fitted.battery_id, found.fitted.controller_id
    by_name = {one.cable: one for one in found.circuits}
    for name in sorted({*by_name, *found.left}):
        if coach.job is None or coach.job.cables[name].carries == "PV":
            continue
        between = ends(coach.job.cables[name])
        one = by_name.get(name)
        cable = _cable(coach, one, units) if one else _left(name, found)
        device = (_device(one),) if one else ()
        if set(between) == {battery, controller}:
            charging.append(Chain((cable, *device)))
        elif battery in between:
            rest.append(Chain((*device, cable, *(_equipment(coach, end) for end in between if end != battery))))
        else:
            start, end = (_equipment(coach, end) for end in between)
            at_start = bool(one and one.purpose.mains and one.purpose.mains.guarded == between[0])
            parts = (start, *device, cable, end) if at_start else (start, cable, *device, end)
            rest.append(Chain(parts, apart=True))
    if not charging:
        sentence = "the job has no such cable, so neither section nor device is worked out"
        charging.append(Chain((Part("cable", f"{controller} to {battery}: NOT WORKED OUT", (sentence,), open=True),)))
    return charging, sorted(rest, key=lambda chain: chain.apart)


def _left(name: str, found: Circuits) -> Part:
    return Part("cable", f"{name}: NOT WORKED OUT", (found.left.get(name, "it has no route"),), open=True)


def _equipment(coach: Coach, name: str) -> Part:
    kind = coach.job.equipment[name].kind if coach.job else ""
    return Part("inverter" if kind == "inverter" else "equipment", name if name == kind else f"{name}, {kind}")


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def used(made: Iterable[Diagram]) -> list[str]:
    """The symbols that some diagrams use, in order of their first use."""
    chains = [chain for one in made for chain in (*one.arrays, *one.charging, *one.battery)]
    parts = [part for chain in chains for part in chain.parts]
    bonded = ["chassis"] if any(part.bond for part in parts) else []
    return list(dict.fromkeys([*(part.symbol for part in parts), *bonded]))
