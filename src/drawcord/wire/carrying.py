"""Whether a cable carries a circuit's current: at its terminals, along its worst leg, behind its device."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from drawcord.wire.ampacity import Carried, Leg, tabled, worst
from drawcord.wire.cable import CableType, area_mm2
from drawcord.wire.currents import continuous_current
from drawcord.wire.protection import Choice, choose, device_ceiling
from drawcord.wire.rulesets import RuleSet
from drawcord.words.figure import Figure


class Carrying(NamedTuple):
    """Both paths with their working; the cable `fits` if each carries its current and the device protects it.

    `continuous` has to be carried by `terminals`, without correction; `imax` by `governing`, after it.
    `beyond` says of each method of another trade that cannot answer why; `device` is its overcurrent device.
    """

    cable: CableType
    imax: Figure
    continuous: Figure
    terminals: Figure
    governing: Carried
    others: tuple[Carried, ...]
    beyond: tuple[str, ...]
    device: Choice
    fits: bool

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The chain as a sheet prints it."""
        leg = self.governing
        path = (leg.tabled, leg.corrected, leg.together, leg.adjusted, leg.amperes)
        return (self.imax, self.continuous, self.terminals, *path, self.device.rating, self.device.ceiling)


class Bearing(NamedTuple):
    """What a conductor bears whatever flows: at its terminals, in its worst leg, and the largest device behind it."""

    terminals: Figure
    governing: Carried
    others: tuple[Carried, ...]
    beyond: tuple[str, ...]
    ceiling: Figure


def bearing(
    rules: RuleSet, section: str, insulation: float, legs: Sequence[Leg], terminal_celsius: float | None = None
) -> Bearing:
    """What a conductor with insulation for `insulation` [°C] bears along `legs`; temperatures as in `carrying`.

    Raises:
        ValueError: no leg, or anything beyond the rule set's tables.

    """
    bears = rules.terminal_celsius.value if terminal_celsius is None else terminal_celsius
    row = tabled(rules.method, rules.method.enclosed, section, min(bears, insulation))
    terminals = Figure(
        f"ampacity of {section} at terminals of {row.insulation} °C",
        row.amperes,
        "A",
        f"{row.amperes:g} A",
        f"{row.source}; {rules.terminal_celsius.source}",
    )
    found = [worst(rules.method, section, insulation, legs, rules.sunlit)]
    beyond: list[str] = []
    for method in rules.added:
        try:
            found.append(worst(method, section, insulation, legs, rules.sunlit))
        except ValueError as error:
            beyond.append(str(error))
    governing = min(found, key=lambda one: one.amperes.value)
    ceiling = device_ceiling(rules, section, min(governing.amperes, terminals, key=lambda one: one.value))
    others = tuple(one for one in found if one is not governing)
    return Bearing(terminals, governing, others, tuple(beyond), ceiling)


def carrying(
    rules: RuleSet,
    cable: CableType,
    imax: Figure,
    legs: Sequence[Leg],
    *,
    terminal_celsius: float | None = None,
    fuse: bool = False,
) -> Carrying:
    """What `cable` carries of `imax` [A] along `legs`.

    `terminal_celsius` is what the cooler terminal bears [°C], the rule set's own if it says nothing; `fuse`
    if the device is one, since fuses have smaller ratings too.

    Raises:
        ValueError: no power cable, no leg, or anything beyond the rule set's tables.

    """
    bears = bearing(rules, power_section(cable), cable.insulation_celsius, legs, terminal_celsius)
    continuous = continuous_current(imax, rules.longer)
    device = choose(rules, continuous, bears.ceiling, fuse=fuse)
    terminals, carried = bears.terminals.value, bears.governing.amperes.value
    return Carrying(
        cable,
        imax,
        continuous,
        bears.terminals,
        bears.governing,
        bears.others,
        bears.beyond,
        device,
        terminals >= continuous.value and carried >= imax.value and device.fits,
    )


def smallest_carrying(
    rules: RuleSet,
    cables: Iterable[CableType],
    imax: Figure,
    legs: Sequence[Leg],
    *,
    terminal_celsius: float | None = None,
    fuse: bool = False,
) -> tuple[Carrying, ...]:
    """Each cable tried, from thin to the first that fits; the last does not if none does.

    Raises:
        ValueError: as `carrying`.

    """
    tried: list[Carrying] = []
    for cable in sorted(cables, key=lambda one: (area_mm2(power_section(one)), one.name)):
        tried.append(carrying(rules, cable, imax, legs, terminal_celsius=terminal_celsius, fuse=fuse))
        if tried[-1].fits:
            break
    return tuple(tried)


def power_section(cable: CableType) -> str:
    """The section of a power cable. Raises ValueError for coax and data."""
    if cable.section is None:
        raise ValueError(f"{cable.name} is no power cable: it has no section")
    return cable.section
