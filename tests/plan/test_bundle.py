"""The narrowest cut of a space against every cut counted square by square."""

from types import SimpleNamespace

from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.coach.box import Box
from drawcord.plan.bundle import free, narrowest

SIZES = (7, 5, 6)


@st.composite
def boxes(draw):
    sides = []
    for size in SIZES:
        low = draw(st.integers(0, size - 1))
        sides += [low, draw(st.integers(low + 1, size))]
    return Box(*sides)


def counted(taken, at):
    """The free squares of the cut from `at` to `at` + 1 along x."""
    squares = [(y, z) for y in range(SIZES[1]) for z in range(SIZES[2])]
    return sum(
        not any(b.x0 <= at < b.x1 and b.y0 <= y < b.y1 and b.z0 <= z < b.z1 for b in taken) for y, z in squares
    )


@settings(deadline=None)
@given(st.lists(boxes(), max_size=4))
def test_no_cut_leaves_less_but_nothing(taken):
    # x is the longest side; cuts that are filled altogether do not count.
    space = SimpleNamespace(box=Box(0, SIZES[0], 0, SIZES[1], 0, SIZES[2]), taken=tuple(taken))
    areas = [counted(taken, at) for at in range(SIZES[0])]
    least = min((area for area in areas if area), default=0)
    cut = narrowest(space)
    assert free(space) == least
    assert (cut is None) == (least == 0)
    if cut:
        assert (cut.along, cut.spans, cut.area) == (0, ((0, SIZES[1]), (0, SIZES[2])), areas[cut.at])
        here = [box for box in taken if box.x0 <= cut.at < box.x1]
        assert sorted(cut.taken) == sorted(((b.y0, b.y1), (b.z0, b.z1)) for b in here)
