"""Why the route that a person has in mind is not the one chosen: what beats it, what bars it, or what would sway."""

from dataclasses import dataclass
from typing import Literal

from drawcord.routes.breaches import Breach, breaches, out_of_reach
from drawcord.routes.change import Change, does, smallest
from drawcord.routes.compare import compare
from drawcord.routes.different import lightest
from drawcord.routes.facts import facts
from drawcord.routes.measure import measure
from drawcord.routes.netting import Netted
from drawcord.routes.offer import rank
from drawcord.routes.order import Order
from drawcord.routes.rivals import beats, limits, within
from drawcord.routes.route import Answer, Route
from drawcord.routes.swaying import Sway, stated, swaying, weighted
from drawcord.routes.weighing import weights
from drawcord.routes.wished import Wish, narrowed

Verdict = Literal["wins", "equal", "beaten", "efficient", "broken"]


@dataclass(frozen=True)
class Why:
    """The answer about one form of route.

    `best` is the best route of the form, None where it is "broken"; then `breaches` say which rules it breaks.
    `rival` is what it is held against: what beats it, or else the winner; `called` is its candidate's id, or
    its spaces. A route that "wins" has no rival where the comparison's limits leave nothing at all. Of an
    "efficient" one: `sway`, the weights with which it wins, or else `limits`, the criteria (their fields) of
    which no more may be asked than it does. `consent`: all of that once the owner has agreed to raceway in
    sight. `certain`: whether the search for what beats it was exact. `change` makes it win, or `opens` it at
    least where none of the facts tried makes it win.
    """

    wish: Wish
    answer: Answer
    verdict: Verdict
    best: Route | None = None
    rival: Route | None = None
    called: str = ""
    breaches: tuple[Breach, ...] = ()
    sway: Sway | None = None
    limits: tuple[str, ...] = ()
    consent: bool = False
    certain: bool = True
    change: Change | None = None
    opens: Change | None = None


def why(order: Order, wish: Wish) -> Why:
    """Why a form of route is not chosen, or that it is."""
    answer = compare(order)
    best, broken = best_of(order, wish, answer)
    if best is None:
        return _broken(order, wish, answer, broken)
    if not answer.candidates:  # its limits leave out what is reached by a long way round alone
        return Why(wish, answer, "wins", best)
    winner = answer.candidates[0].route
    if wish.holds(winner.spaces):
        return Why(wish, answer, "wins", best, winner, answer.candidates[0].id)
    change = smallest(order, facts(order, [*best.spaces, *best.passages]), lambda other: _wins(other, wish))
    if winner.criteria == best.criteria:
        return Why(wish, answer, "equal", best, winner, answer.candidates[0].id, change=change)
    netted = Netted(order)
    known = [candidate.route for candidate in answer.candidates]
    others, exact = within(order, netted, best, range(len(best.criteria)))
    if rival := next((route for route in (*known, *others) if beats(route.criteria, best.criteria)), None):
        return Why(wish, answer, "beaten", best, rival, called(answer, rival), change=change)
    sway = swaying(order, wish, best, known)
    consent = not best.agreed
    kept: tuple[str, ...] = ()
    if not sway.weights:
        willing = weighted(order, stated(order), consent=consent)
        agreed, *rivals = (measure(willing, route.stations) for route in (best, *known))
        kept = limits(willing, netted, wish, agreed, rivals)
    return Why(
        wish, answer, "efficient", best, winner, answer.candidates[0].id,
        sway=sway, limits=kept, consent=consent, certain=exact, change=change,
    )  # fmt: skip


def best_of(order: Order, wish: Wish, answer: Answer) -> tuple[Route | None, tuple[Breach, ...]]:
    """The best route of a form, the winner of a comparison among these alone; or the rules that bar all of them."""
    if _closed_end(order):
        return None, breaches(order, wish)
    form, by = narrowed(Netted(order), wish), weights(order.coach)
    path = lightest(form.net, by)
    if path is None:
        return None, breaches(order, wish)
    of_form = compare(order, form)
    if of_form.unroutable and of_form.unroutable.too_tight:
        return None, (Breach("", of_form.unroutable.sentence),)
    found = [*of_form.candidates, *answer.candidates]
    routes = [candidate.route for candidate in found if wish.holds(candidate.route.spaces)]
    if not routes:
        return None, out_of_reach(order, measure(order, form.stations(path.states)))
    return min(routes, key=lambda route: rank(route, by)), ()


def _broken(order: Order, wish: Wish, answer: Answer, broken: tuple[Breach, ...]) -> Why:
    passages = [
        name
        for name, declared in order.coach.declared.items()
        if any(set(declared.passage.between) == {*pair} for pair in zip(wish.spaces, wish.spaces[1:], strict=False))
    ]
    places = [*wish.spaces, *wish.through, *passages, *(breach.place for breach in broken)]
    opening = [fact for fact in facts(order, places) if does(order, fact, fact.most, lambda other: _open(other, wish))]
    change = smallest(order, opening, lambda other: _wins(other, wish))
    opens = None if change else smallest(order, opening, lambda other: _open(other, wish))
    return Why(wish, answer, "broken", breaches=broken, change=change, opens=opens)


def _wins(order: Order, wish: Wish) -> bool:
    candidates = compare(order).candidates
    return bool(candidates) and wish.holds(candidates[0].route.spaces)


def _open(order: Order, wish: Wish) -> bool:
    if _closed_end(order):
        return False
    form = narrowed(Netted(order), wish)
    path = lightest(form.net, weights(order.coach))
    if path is None:
        return False
    quick = not order.limits.said and measure(order, form.stations(path.states)).reachable
    return quick or bool(compare(order, form).candidates)


def _closed_end(order: Order) -> bool:
    spaces, terminals = order.coach.spaces, order.coach.terminals
    return any(spaces[terminals[end].space].barred for end in (order.cable.start, order.cable.end))


def called(answer: Answer, route: Route) -> str:
    """The id of the candidate that a route is, or else its spaces."""
    same = (c.id for c in answer.candidates if (c.route.passages, c.route.criteria) == (route.passages, route.criteria))
    return next(same, " > ".join(route.spaces))
