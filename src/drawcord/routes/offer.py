"""Which of the measured routes are offered, in what order, and in what words."""

from collections.abc import Sequence

from drawcord.routes.cover import cover
from drawcord.routes.route import Candidate, Criteria, Route
from drawcord.routes.weighing import WORDS, compared, score
from drawcord.words.units import tape_length

Spaces = tuple[str, ...]


def unbeaten(routes: Sequence[Route]) -> list[Route]:
    """The routes that no other equals or beats in every criterion; of equals the first."""
    kept: list[Route] = []
    for route in sorted(routes, key=lambda r: (r.criteria, r.spaces, r.passages)):
        if not any(all(a <= b for a, b in zip(other.criteria, route.criteria, strict=True)) for other in kept):
            kept.append(route)
    return kept


def rank(route: Route, by: tuple[int, ...]) -> tuple[bool, int, Criteria, Spaces, Spaces]:
    """What routes are sorted by, the best first: what the owner has not agreed to comes after all else."""
    return not route.agreed, score(route.criteria, by), route.criteria, route.spaces, route.passages


def lightest_each(routes: Sequence[Route], by: tuple[int, ...]) -> list[Route]:
    """For each order of passages the lightest route, lightest first, what the owner has not agreed to last.

    The same way a hand's breadth aside is no choice worth a person's time.
    """
    best: dict[Spaces, Route] = {}
    for route in sorted(routes, key=lambda route: rank(route, by)):
        best.setdefault(route.passages, route)
    return list(best.values())


def offer(
    name: str,
    efficient: Sequence[Route],
    descents: Sequence[Route],
    by: tuple[int, ...],
    most: int,
    units: str,
) -> tuple[Candidate, ...]:
    """The candidates of a cable: the lightest route, a cover of the efficient ones, and the different descents.

    `efficient` and `descents` are measured routes, at least one in all; `by` the weights; `most` how many
    efficient ones are shown.
    """
    front = unbeaten([*efficient, *descents])
    ranked = lightest_each([*front, *descents], by)
    winner = ranked[0]
    front = [route for route in ranked if route in front]
    shown = {id(winner): "winner"}
    for index in cover([route.criteria for route in front], most):
        shown.setdefault(id(front[index]), "efficient")
    passages = {route.passages for route in descents}
    for route in ranked:
        if route.passages in passages:
            shown.setdefault(id(route), "efficient" if route in front else "another descent")
    offered = [route for route in ranked if id(route) in shown]
    return tuple(
        Candidate(
            id=f"{name}-{rank}",
            rank=rank,
            route=route,
            score=score(route.criteria, by),
            best_at=_best_at(route, offered),
            offered_as=shown[id(route)],
            reason=_reason(route, offered, by, units),
            twins=(),
        )
        for rank, route in enumerate(offered, start=1)
    )


def _best_at(route: Route, offered: Sequence[Route]) -> tuple[str, ...]:
    """The criteria in which no other offered route is better, where they are not all the same."""
    found = []
    for position, name in enumerate(Criteria._fields):
        values = [other.criteria[position] for other in offered]
        if route.criteria[position] == min(values) and min(values) < max(values):
            found.append(WORDS[name])
    return tuple(found)


def _reason(route: Route, offered: Sequence[Route], by: tuple[int, ...], units: str) -> str:
    """Why a route ranks where it does: against the winner, or for the winner against the next."""
    weight = _weight(route, by, units)
    if route is not offered[0]:
        more, less = compared(route.criteria, offered[0].criteria, units)
        gains = f"it saves {_list(less)}" if less else "it saves nothing"
        asks = "" if route.agreed or not offered[0].agreed else "; it cannot win before the owner agrees to the raceway"
        return f"Counted as cable it comes to {weight}: against the winner it takes {_list(more)}; {gains}{asks}."
    counted = f"Counted as cable, with holes, work, doubt and sight at their weights, it comes to {weight}"
    if len(offered) == 1:
        return f"{counted}; no other way is offered."
    more, less = compared(offered[1].criteria, route.criteria, units)
    against = f"it would take {_list(more)}" if more else "it takes nothing more"
    saves = f", and save {_list(less)}" if less else ""
    least = ", the least" if all(score(route.criteria, by) <= score(o.criteria, by) for o in offered) else ""
    total = _weight(offered[1], by, units)
    return f"{counted}{least}. The next comes to {total}: {against}{saves}."


def _weight(route: Route, by: tuple[int, ...], units: str) -> str:
    return tape_length(round(score(route.criteria, by), -5) // 1000, "in" if units == "in" else "m")


def _list(parts: Sequence[str]) -> str:
    return " and ".join([", ".join(parts[:-1]), parts[-1]]) if len(parts) > 1 else "".join(parts)
