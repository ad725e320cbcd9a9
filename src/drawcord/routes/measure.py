"""The one function that measures a route: whatever is known of a route is worked out here."""

from collections.abc import Container, Mapping, Sequence
from typing import NamedTuple

from drawcord.routes import allowance, electric
from drawcord.routes import judge as judging
from drawcord.routes.devices import cut_places
from drawcord.routes.legs import Crossing, crossings
from drawcord.routes.legs import legs as legs_of
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria, Hole, Joint, Leg, Route
from drawcord.ways.links import crossing_seconds, micronats, opening_seconds, run_seconds
from drawcord.words.figure import Figure

NOTHING: Mapping[str, int] = {}


def measure(order: Order, stations: tuple[str, ...], held: Mapping[str, int] = NOTHING) -> Route:
    """The route of a cable through these stations, in order, with everything that follows from it.

    It is pulled tight; where that alone takes a joint out of a hand's reach, it is left at its stations.
    `held`: stations of passages that other cables cross as well, where this one crosses exactly; with the hole
    that all of them need there together [mm].
    """
    coach = order.coach
    laid = _laid(order, stations, held)
    if not laid.reachable and (loose := _laid(order, stations, stations)).reachable:
        laid = loose
    way, legs, devices, joints, _ = laid
    criteria = _criteria(order, way, legs)
    holes = _holes(order, way, [held.get(station, order.hole) for station in stations])
    lengths = allowance.cut(coach, legs, devices)
    fallen = electric.fall(order, lengths.length[1])
    return Route(
        cable=order.name,
        spaces=tuple(leg.space for leg in legs),
        passages=tuple(crossing.passage.id for crossing in way),
        stations=stations,
        legs=legs,
        holes=holes,
        joints=joints,
        criteria=criteria,
        cut_length=lengths.length,
        figures=(*_sums(criteria), *lengths.figures, *electric.figures(order, fallen)),
        findings=tuple(
            sorted(
                {*judging.findings(order, way, legs, holes, joints), *electric.judge(order, fallen)},
                reverse=True,
            )
        ),
        consents=judging.consents(coach, criteria, holes),
        agreed=judging.agreed(coach, criteria),
        unproven=(
            *(leg.space for leg in legs if leg.standing == "unproven"),
            *(crossing.passage.id for crossing in way if crossing.passage.standing == "unproven"),
        ),
    )


class _Laid(NamedTuple):
    way: tuple[Crossing, ...]
    legs: tuple[Leg, ...]
    devices: list[int]
    joints: tuple[Joint, ...]
    reachable: bool


def _laid(order: Order, stations: tuple[str, ...], held: Container[str]) -> _Laid:
    """A cable through these stations, exactly at those `held`."""
    coach, cable = order.coach, order.cable
    way = crossings(order.ways, cable.start, cable.end, stations, held)
    legs = legs_of(order.ways, cable.start, cable.end, way)
    devices = cut_places(coach, order.name, legs)
    joints = allowance.place_joints(coach, legs, devices, cable.longest_piece)
    return _Laid(way, legs, devices, joints, all(joint.reachable for joint in joints))


def _criteria(order: Order, way: tuple[Crossing, ...], legs: tuple[Leg, ...]) -> Criteria:
    coach, labour = order.coach, order.coach.shop.labour
    seconds = 2 * labour.terminal
    doubt = 0
    for leg in legs:
        space = coach.spaces[leg.space]
        seconds += run_seconds(leg.length - leg.through_length, labour.metre[space.kind]) + opening_seconds(
            space, coach
        )
        doubt += micronats(space.chance)
    for crossing in way:
        seconds += crossing_seconds(crossing.passage, coach)
        doubt += micronats(crossing.passage.chance)
    return Criteria(
        length=sum(leg.length for leg in legs),
        in_sight=sum(leg.length - leg.through_length for leg in legs if leg.in_sight),
        roof_holes=sum(crossing.passage.hole == "roof" for crossing in way),
        inner_holes=sum(crossing.passage.hole == "inner" for crossing in way),
        seconds=seconds,
        doubt=doubt,
    )


def _holes(order: Order, way: tuple[Crossing, ...], diameters: Sequence[int]) -> tuple[Hole, ...]:
    holes: list[Hole] = []
    for crossing, diameter in zip(way, diameters, strict=True):
        if crossing.passage.hole:
            near, far = crossing.bore(order.ways)
            holes.append(
                Hole(
                    id=f"H{len(holes) + 1}",
                    kind=crossing.passage.hole,
                    between=(crossing.left, crossing.entered),
                    near=near,
                    far=far,
                    diameter=diameter,
                    standing=crossing.passage.standing,
                )
            )
    return tuple(holes)


def _sums(criteria: Criteria) -> tuple[Figure, ...]:
    legs = "sum over the legs"
    return (
        Figure("length", criteria.length, "mm", legs, "geometry"),
        Figure("length in sight", criteria.in_sight, "mm", "sum over the legs in rooms", "geometry"),
        Figure("holes through the roof", criteria.roof_holes, "1", "counted", "geometry"),
        Figure("inner holes", criteria.inner_holes, "1", "counted", "geometry"),
        Figure("work", criteria.seconds / 60, "min", "runs, holes, openings and ends", "shop's labour.yaml"),
        Figure(
            "doubt",
            criteria.doubt / 1e6,
            "nat",
            "- ln of the chance that all is clear",
            "sketch, job and shop's preferences.yaml",
        ),
    )
