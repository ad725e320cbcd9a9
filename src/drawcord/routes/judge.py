"""What an installer would want to be told about a route."""

import math

from drawcord.coach.box import Point
from drawcord.coach.coach import Coach
from drawcord.pieces.reach import no_hand
from drawcord.routes.legs import Crossing
from drawcord.routes.order import Order
from drawcord.routes.route import Bore, Criteria, Hole, Joint, Leg
from drawcord.words.finding import Finding, Severity
from drawcord.words.units import tape_length

BEHIND = 150  # mm: what lies within this of a hole is named before anybody drills
PRACTICE = "common practice, no source"


def findings(
    order: Order,
    way: tuple[Crossing, ...],
    legs: tuple[Leg, ...],
    holes: tuple[Hole, ...],
    joints: tuple[Joint, ...],
) -> list[Finding]:
    """Every finding about a route but the electrical ones."""
    return [
        *_doubts(order.coach, way, legs),
        *(finding for hole in holes for finding in _before_drilling(order.coach, hole)),
        *out_of_reach(order, joints),
        *_surroundings(order, legs),
    ]


def _doubts(coach: Coach, way: tuple[Crossing, ...], legs: tuple[Leg, ...]) -> list[Finding]:
    found = []
    for leg in legs:
        space = coach.spaces[leg.space]
        if space.standing == "unproven":
            sentence = f"nobody has looked whether {space.id} is clear: taken as {space.chance:.0%} likely"
            found.append(Finding(Severity.CAUTION, space.id, sentence, space.source))
    for crossing in way:
        passage = crossing.passage
        if passage.standing == "unproven":
            likely = f"taken as {passage.chance:.0%} likely"
            sentence = f"nobody has looked whether a cable gets through {passage.id}: {likely}"
            found.append(Finding(Severity.CAUTION, passage.id, sentence, passage.source))
    return found


def _before_drilling(coach: Coach, hole: Hole) -> list[Finding]:
    found = []
    for thing in (*coach.obstructions.values(), *coach.hazards.values()):
        if not (thing.box.nearly_holds(hole.near, BEHIND) or thing.box.nearly_holds(hole.far, BEHIND)):
            continue  # as of most, and much sooner known
        apart = min(_apart(thing.box, hole.near), _apart(thing.box, hole.far))
        if apart <= BEHIND:
            away = tape_length(apart, coach.units)
            sentence = f"{thing.id} ({thing.kind}) lies {away} from this hole: look before drilling"
            found.append(Finding(Severity.CAUTION, hole.id, sentence, "geometry"))
    for name in hole.between:
        space = coach.spaces[name]
        if space.kind == "roof" or hole.kind != "roof":
            continue
        depth = min(space.box.x1 - space.box.x0, space.box.y1 - space.box.y0)
        if depth < 3 * (hole.diameter + 2 * coach.shop.clearances.measuring_error):
            deep = f"only {tape_length(depth, coach.units)} deep"
            sentence = f"blind hit into {space.id}, {deep}: measure twice, drill a pilot hole first"
            found.append(Finding(Severity.CAUTION, hole.id, sentence, PRACTICE))
    return found


def _apart(box: tuple[int, ...], point: Point) -> int:
    """How far a point is from a box [mm], rounded down."""
    x0, x1, y0, y1, z0, z1 = box
    x, y, z = point
    return math.floor(math.hypot(max(x0 - x, 0, x - x1), max(y0 - y, 0, y - y1), max(z0 - z, 0, z - z1)))


def out_of_reach(order: Order, joints: tuple[Joint, ...]) -> list[Finding]:
    """What is said of the joints that no hand reaches again."""
    units = order.coach.units
    return [
        Finding(
            Severity.REFUSAL,
            joint.space,
            f"with pieces of {tape_length(order.cable.longest_piece, units)} a joint would fall in {joint.space}, "
            f"{tape_length(joint.at, units)} along, {no_hand(order.coach.spaces[joint.space], 'one')}",
            "geometry and the shop's clearances.yaml",
        )
        for joint in joints
        if not joint.reachable
    ]


def _surroundings(order: Order, legs: tuple[Leg, ...]) -> list[Finding]:
    found = []
    for leg in legs:
        if leg.kind == "appliance vent":
            sentence = f"keep clear of the flue in {leg.space}, and seal holes to the cabin against vapour and fumes"
            found.append(Finding(Severity.CAUTION, leg.space, sentence, PRACTICE))
        if leg.zone == "wet and stony":
            sentence = f"{leg.space} gets spray and gravel: the cable needs loom, clipped all along"
            found.append(Finding(Severity.NOTICE, leg.space, sentence, PRACTICE))
        if leg.kind == "roof" and order.cable.carries not in ("PV", "coax"):
            sentence = f"{order.name} lies in the sun on the roof: its sheath must be made for that"
            found.append(Finding(Severity.NOTICE, leg.space, sentence, PRACTICE))
    return found


def agreed(coach: Coach, criteria: Criteria) -> bool:
    """Whether the owner has agreed to what a route shows of itself in the living area."""
    return not criteria.in_sight or _raceway_agreed(coach)


def _raceway_agreed(coach: Coach) -> bool:
    return coach.job is not None and "raceway in sight" in coach.job.owner.consents


def let_through(coach: Coach, hole: Bore) -> str:
    """What keeps weather and fumes out that a hole goes through: "roof", "shell", or nothing inside either."""
    if hole.kind == "roof":
        return "roof"
    return "shell" if len({coach.spaces[name].zone for name in hole.between}) > 1 else ""


def asks(coach: Coach, hole: Bore) -> str:
    """What makes a hole the owner's business, in words: all that goes through roof or shell, and all that shows.

    Through the shell is from what stays dry to what does not. What shows goes with raceway in sight: once the job says
    that the owner agreed to that, it asks nothing more. Empty where nobody will ever see the hole.
    """
    if what := let_through(coach, hole):
        return f"through the {what}"
    shows = any(coach.spaces[name].kind == "room" for name in hole.between)
    return "in sight" if shows and not _raceway_agreed(coach) else ""


def consents(coach: Coach, criteria: Criteria, holes: tuple[Hole, ...]) -> tuple[str, ...]:
    """What the owner has to agree to before work starts; what the job says is agreed is left out."""
    needed = []
    asked: dict[str, list[str]] = {"through the roof": [], "through the shell": [], "in sight": []}
    for hole in holes:
        if why := asks(coach, hole):
            asked[why].append(hole.id)
    for why, places in asked.items():
        if places:
            needed.append(f"{len(places)} new hole{'s' * (len(places) > 1)} {why}: {', '.join(places)}")
    if not agreed(coach, criteria):
        needed.append(f"{tape_length(criteria.in_sight, coach.units)} of surface raceway in sight")
    return tuple(needed)
