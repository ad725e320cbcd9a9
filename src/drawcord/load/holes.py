"""The holes of a plan, each with what has to be known before anybody drills it; one that cables share is one."""

from collections.abc import Sequence
from dataclasses import dataclass

from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable
from drawcord.coach.parts import PartKind, Parts
from drawcord.plan.bundle import circle, strands
from drawcord.plan.named import Place, names, place
from drawcord.plan.plan import Plan
from drawcord.routes.judge import asks, let_through
from drawcord.routes.route import Hole
from drawcord.ways.wider import keeps_clear
from drawcord.wire.fill import across
from drawcord.wire.glands import SOURCE, TOO_LARGE, Gland, gland_for

NO_ROOM = "NO ROOM by the sketch: bore as planned and take a box entry, or plan again with a larger plug"


@dataclass(frozen=True)
class HoleEntry:
    """A hole to drill; its faces lie at `hole.near` in the first space of `hole.between` and `hole.far` in the other.

    `own` is what each cable calls it. `bore` [mm] is the hole to make, `thread` that of its gland or empty, `fitting`
    what goes into it, `part` and `size` name that part, `seal` how it is made tight, `behind` what to look at before
    drilling, `consent` who agreed or has to.
    """

    id: str  # its name in the joint plan, or "pv H1" where there is none
    own: tuple[tuple[str, str], ...]  # each cable with the hole of its route
    hole: Hole
    bore: float
    thread: str
    fitting: str
    part: PartKind
    size: str
    seal: str
    behind: tuple[str, ...]
    consent: str
    source: str

    @property
    def cables(self) -> tuple[str, ...]:
        """The cables that go through it."""
        return tuple(cable for cable, _ in self.own)


def register(plan: Plan, rules: Parts) -> tuple[HoleEntry, ...]:
    """Every bore of the chosen routes once, by the first cable through it and then along its route."""
    bored: dict[Place, list[tuple[str, Hole]]] = {}
    for cable, taken in plan.chosen.items():
        for hole in taken.route.holes:
            bored.setdefault(place(hole), []).append((cable, hole))
    called = names(plan)
    return tuple(_entry(plan, rules, uses, called.get(at, "")) for at, uses in bored.items())


def _entry(plan: Plan, rules: Parts, uses: Sequence[tuple[str, Hole]], called: str) -> HoleEntry:
    coach, (first, hole) = plan.coach, uses[0]
    cables = [coach.job.cables[cable] for cable, _ in uses] if coach.job else []
    needs_gland = bool(let_through(coach, hole))
    gland = gland_for(hole.diameter, _wide(cables), rules.gland_wall) if needs_gland else None
    return HoleEntry(
        id=called or f"{first} {hole.id}",
        own=tuple((cable, mine.id) for cable, mine in uses),
        hole=hole,
        bore=gland.hole if gland else float(hole.diameter),
        thread=gland.thread if gland else "",
        fitting=_fitting(coach, cables, hole, gland, needs_gland=needs_gland),
        part="roof entry" if hole.kind == "roof" else "gland" if needs_gland else "grommet",
        size=gland.thread if gland else str(hole.diameter),
        seal=_seal(coach, rules, hole, needs_gland=needs_gland),
        behind=_behind(plan, uses, gland),
        consent=_consent(coach, hole),
        source=SOURCE if gland else "largest plug and the shop's clearances.yaml",
    )


def _fitting(coach: Coach, cables: Sequence[Cable], hole: Hole, gland: Gland | None, *, needs_gland: bool) -> str:
    """What goes into the hole, in words."""
    if not needs_gland:
        return f"grommet for a hole of {hole.diameter} mm"
    split = " with a split insert" if any(_plugged(coach, one) for one in cables) else ""
    if gland is None:
        return f"box entry{split}: a {hole.diameter} mm hole or these cores are beyond an M40 gland"
    entry = "roof entry with an " if hole.kind == "roof" else ""
    return f"{entry}{gland.thread} gland{split}, its insert for {_clamped(cables)}"


def _clamped(cables: Sequence[Cable]) -> str:
    """What the gland's insert has to clamp: the thread does not tell."""
    return " and ".join(f"{len(strands(one))} × {one.outside_diameter} mm" for one in cables)


def _wide(cables: Sequence[Cable]) -> float:
    """How wide all cores of the cables are, laid together [mm]."""
    together = [diameter for one in cables for diameter in strands(one)]
    if len(set(together)) == 1:
        return across(len(together), together[0])
    return circle(together)


def _plugged(coach: Coach, one: Cable) -> bool:
    """Whether the cable comes with its plugs on, so that it must not be cut to pass a gland."""
    stocked = coach.types.cables.get(one.type) if one.type else None
    return one.connectors is not None or bool(stocked and stocked.connector)


def _seal(coach: Coach, rules: Parts, hole: Hole, *, needs_gland: bool) -> str:
    if hole.kind == "roof":
        return f"{coach.rig.shell.roof_skin}: {rules.seals[coach.rig.shell.roof_skin]}"
    return "sealed against water and fumes on the wet side" if needs_gland else "edge guarded by the grommet"


def _behind(plan: Plan, uses: Sequence[tuple[str, Hole]], gland: Gland | None) -> tuple[str, ...]:
    """What lies around and behind, as the routes' findings say, and what of it nobody has seen."""
    coach, (_, hole) = plan.coach, uses[0]
    found = [one for name, mine in uses for one in plan.chosen[name].route.findings if one.place == mine.id]
    said = list(dict.fromkeys(one.sentence for one in found))
    unseen = [name for name in hole.between if coach.spaces[name].standing != "proven"]
    said += [f"nobody has looked into {name}: look before drilling" for name in unseen]
    if hole.standing != "proven" and not unseen:
        said.append("nobody has looked whether a hole can be bored here: look before drilling")
    if gland and gland.hole > hole.diameter:
        clear = keeps_clear(coach, hole.between, (hole.near, hole.far), gland.hole + TOO_LARGE)
        kept = "as clear as the planned one, by the sketch" if clear else NO_ROOM
        said.append(f"bored {gland.hole:g} mm for its gland, {hole.diameter} mm were planned: {kept}")
    return tuple(said)


def _consent(coach: Coach, hole: Hole) -> str:
    in_room = any(coach.spaces[name].kind == "room" for name in hole.between)
    if why := asks(coach, hole):
        return f"owner to sign: {why}{' into a room, as the job has it' * (in_room and hole.kind == 'roof')}"
    if in_room:
        return "with raceway in sight, agreed in the job; show the place"
    return "none: neither through the shell nor in sight"
