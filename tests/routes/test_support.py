"""Weights that support a route: against an independent solver of linear programs, and instances from books."""

from fractions import Fraction
from random import Random

import numpy as np
from scipy.optimize import linprog

from drawcord.routes.support import supporting


def test_against_another_solver():
    """Weights are found just where a solver of linear programs finds an advantage over every rival, as large."""
    found = {True: 0, False: 0}
    rng = Random(1)  # noqa: S311 - any rivals will do
    for _ in range(400):
        criteria, others = rng.randint(2, 6), rng.randint(1, 12)
        rows = [[Fraction(rng.randint(-9, 9)) for _ in range(criteria)] for _ in range(others)]
        weights = supporting(rows)
        best = advantage(rows)
        found[weights is not None] += 1
        if weights is None:
            assert best < 1e-9
            continue
        assert min(weights) >= 0
        assert sum(weights) == 1
        least = min(sum(w * cost for w, cost in zip(weights, row, strict=True)) for row in rows)
        assert least > 0
        assert abs(float(least) - best) < 1e-9
    assert min(found.values()) > 50


def test_unsupported_though_efficient():
    """Of (1, 9), (5, 6), (9, 1) the middle one is efficient, but no weights make it lightest.

    To be lighter than the first takes 4 w < 3 (1 - w), so w < 3/7; than the last 4 w > 5 (1 - w), so w > 5/9.
    (Unsupported efficient points: Ehrgott 2005, from memory; the numbers are ours.)
    """
    middle = (5, 6)
    assert supporting([differences((1, 9), middle), differences((9, 1), middle)]) is None


def test_supported_on_a_hair():
    """Of (1, 9), (5, 4), (9, 1) the middle one lies under the line, so that some weights support it."""
    middle = (5, 4)
    weights = supporting([differences((1, 9), middle), differences((9, 1), middle)])
    assert weights is not None
    # -4 w + 5 (1 - w) falls and 4 w - 3 (1 - w) rises with w; they meet at w = 1/2
    assert weights == (Fraction(1, 2), Fraction(1, 2))


def test_on_the_line():
    """Of (0, 8), (4, 4), (8, 0) the middle one only ever ties: it is never lighter."""
    assert supporting([differences((0, 8), (4, 4)), differences((8, 0), (4, 4))]) is None


def test_beaten_by_one():
    """Nothing supports what a single rival beats or equals."""
    assert supporting([[Fraction(-1), Fraction(0)]]) is None
    assert supporting([[Fraction(0), Fraction(0)]]) is None
    assert supporting([[Fraction(1), Fraction(0)]]) == (1, 0)


def differences(rival, route):
    return [Fraction(theirs - ours) for theirs, ours in zip(rival, route, strict=True)]


def advantage(rows):
    """The greatest least advantage that weights of sum 1 can give, by HiGHS in floating point."""
    criteria = len(rows[0])
    matrix = np.array([[-float(cost) for cost in row] + [1.0] for row in rows])
    solved = linprog(
        [0.0] * criteria + [-1.0],
        A_ub=matrix,
        b_ub=np.zeros(len(rows)),
        A_eq=[[1.0] * criteria + [0.0]],
        b_eq=[1.0],
        bounds=[(0, None)] * criteria + [(None, None)],
    )
    return -solved.fun
