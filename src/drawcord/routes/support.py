"""Weights under which one route is lighter than all its rivals, in exact arithmetic; or proof that there are none."""

from collections.abc import Sequence
from fractions import Fraction

Row = list[Fraction]


def supporting(rivals: Sequence[Sequence[Fraction]]) -> tuple[Fraction, ...] | None:
    """Weights, none negative, their sum 1, with which the least advantage over the rivals is greatest.

    `rivals`: one row a rival, what it costs more than the route in each criterion. None if under any weights
    some rival is no heavier. A matrix game: the weights are one player's best mixture of criteria against the
    other's of rivals; solved by the simplex method with Bland's rule, which ends (Dantzig's reduction of a
    game to a linear program, from memory).
    """
    if not rivals:
        return None
    least = min(min(row) for row in rivals)
    # With every payoff made positive: most y with (A + lift) y <= 1, y >= 0; its prices are the weights.
    lift = 1 - least
    criteria, others = len(rivals[0]), len(rivals)
    table: list[Row] = []
    for place in range(criteria):
        payoffs = [row[place] + lift for row in rivals]
        table.append([*payoffs, *(Fraction(place == slack) for slack in range(criteria)), Fraction(1)])
    goal: Row = [*[Fraction(-1)] * others, *[Fraction(0)] * (criteria + 1)]
    basis = list(range(others, others + criteria))
    while (enters := next((column for column in range(others + criteria) if goal[column] < 0), None)) is not None:
        ratios = [(row[-1] / row[enters], basis[at], at) for at, row in enumerate(table) if row[enters] > 0]
        pivot = min(ratios)[2]
        basis[pivot] = enters
        table[pivot] = [value / table[pivot][enters] for value in table[pivot]]
        for at, row in enumerate(table):
            if at != pivot:
                table[at] = _less(row, table[pivot], row[enters])
        goal = _less(goal, table[pivot], goal[enters])
    prices, total = goal[others:-1], goal[-1]
    if 1 / total <= lift:  # the value of the game, lifted
        return None
    return tuple(price / total for price in prices)


def _less(row: Row, other: Row, times: Fraction) -> Row:
    return [value - times * less for value, less in zip(row, other, strict=True)] if times else row
