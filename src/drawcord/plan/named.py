"""One bore, one name: the holes of each cable called as the joint plan calls them."""

from collections.abc import Mapping
from dataclasses import replace

from drawcord.coach.box import Point
from drawcord.plan.plan import Plan
from drawcord.routes.judge import consents
from drawcord.routes.route import Bore, Candidate, Route

Place = frozenset[tuple[str, Point]]  # of a bore: each face with the space that it opens into


def place(hole: Bore) -> Place:
    """Where a bore is, whichever way a cable goes through it."""
    return frozenset(zip(hole.between, (hole.near, hole.far), strict=True))


def names(plan: Plan) -> Mapping[Place, str]:
    """What the joint plan calls each of its bores; nothing where there is none."""
    return {place(hole): hole.id for hole in plan.together.holes} if plan.together else {}


def named(plan: Plan) -> Plan:
    """The same plan, with each of these bores called so on every candidate, for a sheet that shows all of them."""

    def again(one: Candidate) -> Candidate:
        return replace(one, route=renamed(plan, one.route))

    return replace(
        plan,
        chosen={cable: again(one) for cable, one in plan.chosen.items()},
        answers=tuple(replace(one, candidates=tuple(map(again, one.candidates))) for one in plan.answers),
    )


def renamed(plan: Plan, route: Route) -> Route:
    """A route of a cable of the plan with these names in all that is said of its holes; others keep their own."""
    called = names(plan)
    holes = tuple(replace(hole, id=called.get(place(hole), hole.id)) for hole in route.holes)
    now = {old.id: new.id for old, new in zip(route.holes, holes, strict=True)}
    findings = tuple(replace(found, place=now.get(found.place, found.place)) for found in route.findings)
    return replace(route, holes=holes, findings=findings, consents=consents(plan.coach, route.criteria, holes))
