"""The joint plan of a job's cables, measured: a candidate for each, and what they share."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import cache

from drawcord.coach.coach import Coach
from drawcord.plan.abreast import Abreast, held
from drawcord.plan.joint import Joint, jointly
from drawcord.plan.plan import Plan
from drawcord.plan.together import Together
from drawcord.routes.measure import measure
from drawcord.routes.order import Order
from drawcord.routes.route import Answer, Candidate, Leg, Route
from drawcord.routes.weighing import score, weights
from drawcord.words.units import format_length

Found = Sequence[tuple[Order, Answer]]
Tight = Callable[[Route, Leg], bool]


NO_MORE: Mapping[str, Tight] = {}


def all_together(
    coach: Coach, found: Found, taken: Mapping[str, Candidate], tight: Mapping[str, Tight] = NO_MORE
) -> Plan:
    """The lightest plan of all cables that have a way, around what is `taken`.

    `tight` tells of a cable's leg whether it has no room for it; such a leg is refused.
    """
    answers = tuple(answer for _, answer in found)
    routed = [(order, answer) for order, answer in found if answer.candidates]
    if len(routed) < 2:
        chosen = {answer.cable: taken.get(answer.cable, answer.candidates[0]) for _, answer in routed}
        return Plan(coach, answers, chosen)
    orders = {order.name: order for order, _ in routed}

    @cache
    def measured(name: str, stations: tuple[str, ...], stays: tuple[tuple[str, int], ...]) -> Route:
        return measure(orders[name], stations, dict(stays))

    def all_measured(stations: Mapping[str, tuple[str, ...]]) -> dict[str, Route]:
        stays = held(orders, stations)
        return {name: measured(name, some, tuple(stays[name].items())) for name, some in sorted(stations.items())}

    def refused(stations: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[int, int]]:
        out = {}
        for name, route in all_measured(stations).items():
            small = [n for n, leg in enumerate(route.legs) if name in tight and tight[name](route, leg)]
            if small:
                out[name] = small[0], small[0]
            elif not route.reachable:
                out[name] = route.out_of_reach
        return out

    joint = jointly(routed, {name: candidate.route for name, candidate in taken.items()}, refused)
    if not joint.stations:
        return Plan(coach, answers, {})
    routes = all_measured(joint.stations)
    by, stays = weights(coach), held(orders, joint.stations)
    chosen, offered = {}, []
    for answer in answers:
        if answer.cable in routes:
            shows = any(leg.in_sight for leg in routes[answer.cable].legs)
            free = not stays[answer.cable] and not shows
            candidate = _candidate(answer, routes[answer.cable], by, coach.units, taken.get(answer.cable), free=free)
            chosen[answer.cable] = candidate
            if candidate not in answer.candidates:
                answer = replace(answer, candidates=(*answer.candidates, candidate))  # noqa: PLW2901
        offered.append(answer)
    together = _together(joint, routed, {name: candidate.route for name, candidate in chosen.items()})
    return Plan(coach, tuple(offered), dict(sorted(chosen.items())), together=together)


def _candidate(
    answer: Answer, route: Route, by: tuple[int, ...], units: str, taken: Candidate | None, *, free: bool
) -> Candidate:
    """The candidate that has this route, or a new one."""
    # Where no other cable crosses them, the same passages are the same route: the one that the comparison measured.
    same = [c for c in answer.candidates if c.route == route or (free and c.route.passages == route.passages)]
    if same:
        return same[0]
    winner, weight = answer.candidates[0], score(route.criteria, by)
    if taken:
        reason = f"This is {taken.id} as it was taken, through holes where the other cables cross as well."
    else:
        unit = "in" if units == "in" else "m"
        mine, alone = (format_length(round(w, -5) // 1000, unit) for w in (weight, winner.score))
        reason = (
            f"By itself, counted as cable, it would come to {mine}, and {winner.id} to {alone}; with the other cables "
            "of the job it makes the lightest plan found."
        )
    return Candidate(f"{answer.cable}-together", len(answer.candidates) + 1, route, weight, (), "together", reason, ())


def _together(joint: Joint, routed: Found, routes: Mapping[str, Route]) -> Together:
    kept = sorted((order for order, _ in routed if order.name in routes), key=lambda order: order.name)
    winners = {answer.cable: answer.candidates[0].route for _, answer in routed}
    plan = Abreast(kept, [routes[order.name] for order in kept])
    return Together(
        proved=joint.proved,
        weight=joint.weight,
        least_possible=joint.bound,
        holes=plan.holes(),
        raceway=plan.raceway(),
        bundles=plan.bundles(),
        apart=plan.apart(),
        saved=plan.saved([winners[order.name] for order in kept]),
        alone_faults=tuple(Abreast([order for order, _ in routed], [winners[o.name] for o, _ in routed]).faults()),
        left_out=joint.left_out,
    )
