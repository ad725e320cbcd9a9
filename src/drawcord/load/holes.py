"""The holes of a plan, each with what has to be known before anybody drills it."""

from dataclasses import dataclass
from math import ceil

from drawcord.coach.coach import Coach
from drawcord.coach.parts import PartKind, Parts
from drawcord.plan.grown import lie_apart
from drawcord.plan.plan import Plan
from drawcord.routes.route import Hole
from drawcord.wire.fill import across
from drawcord.wire.glands import SOURCE, Gland, gland_for


@dataclass(frozen=True)
class HoleEntry:
    """A hole to drill; its faces lie at `hole.near` in the first space of `hole.between` and `hole.far` in the other.

    `bore` [mm] is the hole to make, `thread` that of its gland or empty, `fitting` what goes into it, `part` and
    `size` name that part, `seal` how it is made tight, `behind` what to look at before drilling, `consent` who agreed
    or has to.
    """

    id: str  # the cable and the hole of its route: "pv H1"
    cable: str
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


def register(plan: Plan, rules: Parts) -> tuple[HoleEntry, ...]:
    """The holes of the chosen routes, by cable and then along its route."""
    return tuple(
        _entry(plan, rules, cable, hole) for cable, taken in plan.chosen.items() for hole in taken.route.holes
    )


def _entry(plan: Plan, rules: Parts, cable: str, hole: Hole) -> HoleEntry:
    coach = plan.coach
    needs_gland = hole.kind == "roof" or len({coach.spaces[name].zone for name in hole.between}) > 1
    gland = gland_for(hole.diameter, _wide(coach, cable), rules.gland_wall) if needs_gland else None
    return HoleEntry(
        id=f"{cable} {hole.id}",
        cable=cable,
        hole=hole,
        bore=gland.hole if gland else float(hole.diameter),
        thread=gland.thread if gland else "",
        fitting=_fitting(coach, cable, hole, gland, needs_gland=needs_gland),
        part="roof entry" if hole.kind == "roof" else "gland" if needs_gland else "grommet",
        size=gland.thread if gland else str(hole.diameter),
        seal=_seal(coach, rules, hole, needs_gland=needs_gland),
        behind=_behind(plan, cable, hole, gland),
        consent=_consent(coach, hole),
        source=SOURCE if gland else "largest plug and the shop's clearances.yaml",
    )


def _fitting(coach: Coach, cable: str, hole: Hole, gland: Gland | None, *, needs_gland: bool) -> str:
    """What goes into the hole, in words."""
    if not needs_gland:
        return f"grommet for a hole of {hole.diameter} mm"
    split = " with a split insert" if _plugged(coach, cable) else ""
    if gland is None:
        return f"box entry{split}: a {hole.diameter} mm hole or these cores are beyond an M40 gland"
    entry = "roof entry with an " if hole.kind == "roof" else ""
    return f"{entry}{gland.thread} gland{split}{_clamped(coach, cable)}"


def _clamped(coach: Coach, cable: str) -> str:
    """What the gland's insert has to clamp: the thread does not tell."""
    if coach.job is None:
        return ""
    one = coach.job.cables[cable]
    return f", its insert for {one.cores if lie_apart(one) else 1} × {one.outside_diameter} mm"


def _wide(coach: Coach, cable: str) -> float:
    """How wide all cores of a cable are, laid together [mm]."""
    if coach.job is None:
        return 0.0
    one = coach.job.cables[cable]
    return across(one.cores if lie_apart(one) else 1, one.outside_diameter)


def _plugged(coach: Coach, cable: str) -> bool:
    """Whether the cable comes with its plugs on, so that it must not be cut to pass a gland."""
    if coach.job is None:
        return False
    one = coach.job.cables[cable]
    stocked = coach.types.cables.get(one.type) if one.type else None
    return one.connectors is not None or bool(stocked and stocked.connector)


def _seal(coach: Coach, rules: Parts, hole: Hole, *, needs_gland: bool) -> str:
    if hole.kind == "roof":
        return f"{coach.rig.shell.roof_skin}: {rules.seals[coach.rig.shell.roof_skin]}"
    return "sealed against water and fumes on the wet side" if needs_gland else "edge guarded by the grommet"


def _behind(plan: Plan, cable: str, hole: Hole, gland: Gland | None) -> tuple[str, ...]:
    """What lies around and behind, as the route's findings say, and what of it nobody has seen."""
    coach = plan.coach
    said = [finding.sentence for finding in plan.chosen[cable].route.findings if finding.place == hole.id]
    unseen = [name for name in hole.between if coach.spaces[name].standing != "proven"]
    said += [f"nobody has looked into {name}: look before drilling" for name in unseen]
    if hole.standing != "proven" and not unseen:
        said.append("nobody has looked whether a hole can be bored here: look before drilling")
    if gland and gland.hole > hole.diameter:
        wider = ceil(gland.hole - hole.diameter)
        said.append(f"up to {wider} mm wider than the {hole.diameter} mm planned: look whether there is room")
    return tuple(said)


def _consent(coach: Coach, hole: Hole) -> str:
    agreed = coach.job.owner.consents if coach.job else []
    in_room = any(coach.spaces[name].kind == "room" for name in hole.between)
    if hole.kind == "roof":
        into = "; a roof hole into a room is agreed in the job" if in_room and "roof into room" in agreed else ""
        return f"owner to sign for a new hole through the roof{into}"
    if in_room and "raceway in sight" in agreed:
        return "owner has agreed to raceway in sight; show the place"
    if in_room:
        return "owner to agree"
    return "none: out of sight"
