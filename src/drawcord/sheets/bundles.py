"""The narrow places that cables of a job pass, and what lies in them in place and while the largest plug passes."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

from drawcord.coach.coach import Space
from drawcord.coach.job import Cable
from drawcord.plan.bundle import NARROW, bore, narrowest, room, strands
from drawcord.plan.plan import Plan
from drawcord.plan.room import DRAWN
from drawcord.plan.together import Names, SharedHole
from drawcord.sheets import lengths
from drawcord.sheets.packing import Bore, Cut, Round, pack
from drawcord.sheets.traces import Trace
from drawcord.wire.fill import across

Cables = Mapping[str, Cable]
FROM = ("front", "left side", "foot")  # where a cut along an axis is measured from


class Item(NamedTuple):
    """A round thing in a bundle: whose it is, whether it is the plug, and its diameter [mm]."""

    cable: str
    plug: bool
    diameter: int


class Moment(NamedTuple):
    """A bundle as it lies at a time; `laid` is None where no packing was found."""

    title: str
    items: tuple[Item, ...]
    laid: tuple[Round, ...] | None


@dataclass(frozen=True)
class Place:
    """A narrow place, or several that are alike: `names`, what it is, the room that it is and how much is free [mm²].

    `checked` says what the plan held the bundle against, `note` what its rule leaves out. The first of the `moments`
    has everything in place, the second the largest plug on its way.
    """

    names: Names
    what: str
    room: Bore | Cut
    area: float
    cables: Names
    moments: tuple[Moment, Moment]
    checked: str
    note: str

    @property
    def fill(self) -> float:
        """How much of what is free the bundle fills once it is in place, from 0 to 1."""
        return sum(math.pi / 4 * item.diameter**2 for item in self.moments[0].items) / self.area


def places(plan: Plan, looks: Mapping[str, Trace], units: str) -> list[Place]:
    """Shared places first, then those that the plug fills most; places alike are one."""
    alike: dict[Place, list[str]] = {}
    for place in _places(plan, looks, units):
        alike.setdefault(replace(place, names=()), []).extend(place.names)
    found = [replace(place, names=tuple(names)) for place, names in alike.items()]
    return sorted(found, key=lambda place: (len(place.cables) < 2, -_tightness(place), place.names))


def kept_apart(plan: Plan) -> Names:
    """The walls and voids that several cables enter but have to keep apart in, so that they are no bundle there."""
    apart = {one.where for one in plan.together.apart} if plan.together else set()
    return tuple(name for name in _entered(plan) if name in apart and plan.coach.spaces[name].kind not in NARROW)


def percent(share: float) -> str:
    """A share of 1 as people say it, little of it with one place more."""
    return f"{share:.0%}" if share >= 0.01 else f"{share:.1%}"


def _tightness(place: Place) -> float:
    return sum(item.diameter**2 for item in place.moments[1].items) / place.area


def _places(plan: Plan, looks: Mapping[str, Trace], units: str) -> Iterator[Place]:
    if plan.together is None or plan.coach.job is None:
        return
    cables = {name: plan.coach.job.cables[name] for name in plan.chosen}
    for hole in plan.together.holes:
        yield _hole(hole, {name: cables[name] for name in hole.cables}, looks, units)
    for name, names in _passed(plan).items():
        size = plan.coach.declared[name].passage.size or 0
        yield _opening(name, size, {one: cables[one] for one in names}, looks, units)
    for name, names in _entered(plan).items():
        if name not in kept_apart(plan):
            yield from _space(plan.coach.spaces[name], {one: cables[one] for one in names}, looks, units)


def _passed(plan: Plan) -> dict[str, Names]:
    """The openings of stated size that cables pass, with these."""
    found: dict[str, list[str]] = {}
    for name, one in plan.chosen.items():
        for passage in one.route.passages:
            declared = plan.coach.declared.get(passage)
            if declared and declared.passage.opening == "exists" and declared.passage.size:
                found.setdefault(passage, []).append(name)
    return {passage: tuple(names) for passage, names in sorted(found.items())}


def _entered(plan: Plan) -> dict[str, Names]:
    """The narrow spaces, walls and voids that cables run in, with these."""
    found: dict[str, list[str]] = {}
    for name, one in plan.chosen.items():
        for leg in one.route.legs:
            if leg.kind in NARROW or leg.kind in DRAWN:
                found.setdefault(leg.space, []).append(name)
    return {space: tuple(names) for space, names in sorted(found.items())}


def _hole(hole: SharedHole, cables: Cables, looks: Mapping[str, Trace], units: str) -> Place:
    needed = lengths.bore(bore([*cables.values()]), units)
    checked = f"The plan counts {needed} for what passes at once, and bores {lengths.bore(hole.diameter, units)}."
    return _place(hole.id, "hole", *_round(hole.diameter), cables, looks, checked)


def _opening(name: str, size: int, cables: Cables, looks: Mapping[str, Trace], units: str) -> Place:
    needed = lengths.bore(bore([*cables.values()]), units)
    checked = f"The plan counts {needed} for what passes at once; {lengths.bore(size, units)} are there."
    return _place(name, "opening that exists", *_round(size), cables, looks, checked)


def _space(space: Space, cables: Cables, looks: Mapping[str, Trace], units: str) -> Iterator[Place]:
    cut = narrowest(space)
    if cut is None:
        return
    (u0, u1), (v0, v1) = cut.spans
    taken = tuple((a0 - u0, a1 - u0, b0 - v0, b1 - v0) for (a0, a1), (b0, b1) in cut.taken)
    needed = room([*cables.values()])
    share = f"{needed} of {cut.area} mm², {percent(needed / cut.area)}"
    held = "The plan holds" if len(cables) > 1 and space.kind in NARROW else "Counted as the plan counts shared chases,"
    checked = f"{held} a square around each of what passes at once: {share}."
    far = lengths.length(cut.at - space.box.span(cut.along)[0], units)
    least = f", least free {far} from its {FROM[cut.along]}" if space.taken else ""
    what = f"{space.kind}, cut square to its longest side{least}"
    yield _place(space.id, what, Cut(u1 - u0, v1 - v0, taken), cut.area, cables, looks, checked)


def _round(diameter: int) -> tuple[Bore, float]:
    return Bore(diameter), math.pi / 4 * diameter**2


def _place(
    name: str,
    what: str,
    space: Bore | Cut,
    area: float,
    cables: Cables,
    looks: Mapping[str, Trace],
    checked: str,
) -> Place:
    there = [Item(one, False, diameter) for one, cable in cables.items() for diameter in strands(cable)]
    passing, note = _passing(cables, space, looks)
    moments = _moment("in place", there, space), passing
    return Place((name,), what, space, area, tuple(cables), moments, checked, note)


def _passing(cables: Cables, space: Bore | Cut, looks: Mapping[str, Trace]) -> tuple[Moment, str]:
    """The largest plug on its way beside the others, beside its own other cores if that goes, and a note if not."""

    def passing(last: str) -> list[Item]:
        others = [Item(one, False, wide) for one in cables if one != last for wide in strands(cables[one])]
        return [Item(last, True, cables[last].largest_plug), *others]

    last = max(cables, key=lambda name: (sum(item.diameter**2 for item in passing(name)), name))
    plug, *others = passing(last)
    letter = looks[last].tag
    title = f"the largest of {letter} passes"
    own = [Item(last, False, diameter) for diameter in strands(cables[last])[1:]]
    if not own or plug.diameter <= math.ceil(across(len(own) + 1, own[0].diameter)):
        return _moment(title, [plug, *others], space), ""  # it is as wide as all cores together, or has one only
    whole = _moment(title, [plug, *others, *own], space)
    if whole.laid is not None:
        return whole, ""
    note = f"No room was found for a plug of {letter} beside its own other cores: fit the last plugs after drawing in."
    return _moment(title, [plug, *others], space), note


def _moment(title: str, items: list[Item], space: Bore | Cut) -> Moment:
    laid = pack([item.diameter for item in items], space)
    return Moment(title, tuple(items), tuple(laid) if laid is not None else None)
