"""Which rules a form of route breaks: at which space or passage, and by how much."""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from drawcord.coach.coach import Space
from drawcord.routes import judge
from drawcord.routes.apart import ALONG, apart
from drawcord.routes.bars import Bar, Chart, chart
from drawcord.routes.closed import fewest
from drawcord.routes.in_the_way import in_the_way
from drawcord.routes.order import Order
from drawcord.routes.route import Route
from drawcord.routes.said import said
from drawcord.routes.wished import Wish, narrowed_chart


class Breach(NamedTuple):
    """A rule broken: the space or passage where, and a sentence that says by how much."""

    place: str
    sentence: str


def breaches(order: Order, wish: Wish) -> tuple[Breach, ...]:
    """What bars every route of this form: the fewest things that would have to go, or where the spaces do not meet."""
    every = chart(order)
    if unmet := [*_twice(wish), *_apart(order, every, wish)]:
        barred = [name for name in dict.fromkeys(wish.spaces) if order.coach.spaces[name].barred]
        return (*unmet, *(Breach(name, _barred(order, order.coach.spaces[name])) for name in barred))
    bars = fewest(narrowed_chart(every, wish), frozenset())
    if bars is None:
        return (_astray(every, wish),)
    if not bars:
        hole = said(order.coach, order.hole)
        return (Breach("", f"wherever two spaces of such a route meet, no hole of {hole} leads on to the next"),)
    return tuple(Breach(bar.place, _by_how_much(order, bar)) for bar in bars)


def out_of_reach(order: Order, route: Route) -> tuple[Breach, ...]:
    """The joints of a route that no hand reaches."""
    return tuple(Breach(one.place, one.sentence) for one in judge.out_of_reach(order, route.joints))


def _twice(wish: Wish) -> Iterator[Breach]:
    for name in dict.fromkeys(wish.spaces):
        times = [place for place, other in enumerate(wish.spaces, start=1) if other == name]
        if len(times) > 1:
            listed = " and ".join(str(place) for place in times)
            yield Breach(name, f"{name} is entered more than once, as space {listed}: a route enters no space again")


def _apart(order: Order, every: Chart, wish: Wish) -> Iterator[Breach]:
    touching = {frozenset((here[0], step.there[0])) for here, steps in every.steps.items() for step in steps}
    for here, there in pairwise(wish.spaces):
        if here != there and frozenset((here, there)) not in touching:
            yield Breach(here, apart(order.coach, here, there))


def _astray(every: Chart, wish: Wish) -> Breach:
    """Why no chain of touching spaces is of a form, even with nothing in the way."""
    for name in wish.through:
        beside = {step.there[0] for (space, _), steps in every.steps.items() for step in steps if space == name}
        if not beside - {name}:
            return Breach(name, f"{name} touches no other space that a cable can go through")
        if fewest(narrowed_chart(every, Wish(through=(name,))), frozenset()) is None:
            return Breach(name, f"{name} is a dead end: to come out again a route would enter a space twice")
    listed = " and ".join(wish.through)
    through = f" goes through {listed} and enters no space twice" if listed else ""
    around = f"{' and' * bool(through)} keeps out of {' and '.join(wish.avoid)}" if wish.avoid else ""
    return Breach("", f"no chain of touching spaces{through}{around}, even with nothing in the way")


def _by_how_much(order: Order, bar: Bar) -> str:
    coach = order.coach
    if bar.place in coach.spaces:
        space = coach.spaces[bar.place]
        return _barred(order, space) if space.barred else _joined(bar.sentence, in_the_way(order, bar))
    passage = order.ways.passages.get(bar.place)
    if passage is None and coach.found.get(bar.place, ("",))[0] != "blocked":
        return _joined(f"{bar.place}: no place for a hole is left", in_the_way(order, bar))
    if passage is None or passage.barred:
        return bar.sentence
    plug, largest = order.cable.largest_plug, max(gate.largest for gate in passage.gates)
    if passage.opening == "exists":
        return (
            f"{bar.place}: an opening of {said(coach, passage.size)} where the plug needs {said(coach, plug)}, "
            f"{said(coach, plug - passage.size)} too small"
        )
    return (
        f"{bar.place}: no hole larger than {said(coach, largest)} fits where the plug needs "
        f"{said(coach, order.hole)}, {said(coach, order.hole - largest)} more"
    )


def _joined(sentence: str, cause: str) -> str:
    return f"{sentence}: {cause}" if cause else sentence


def _barred(order: Order, space: Space) -> str:
    """Why no cable may run in a space; of what moves, how much of it."""
    if not space.moving:
        return f"{space.id}: {space.barred}"
    part = order.coach.moving_parts[space.moving]
    axis = next(i for i in (0, 1, 2) if part.drawn.span(i) != part.moved.span(i))
    common = part.sweep.overlap(space.box) or space.box
    taken, whole = (box.span(axis)[1] - box.span(axis)[0] for box in (common, space.box))
    share = "all" if taken == whole else said(order.coach, taken)
    size = f"{said(order.coach, whole)} {ALONG[axis]}"
    return f"{space.id} moves with {part.id}, or lies in its way: it sweeps {share} of its {size}"
