"""Whether a partial path leads on to the goal, as far as the spaces alone can tell."""

from collections.abc import Sequence


def leads_on(exits: Sequence[int], here: int, entered: int, refused: Sequence[int]) -> bool:
    """Whether a way from the space `here` to the goal enters no space twice and completes no refused set.

    `exits`: as in `Net`. `entered`: bit set of the spaces entered so far. `refused`: bit sets of spaces of
    which no path may enter all, none of them yet complete. Flood first, and where the way found completes
    a refused set, try again without each of its spaces in turn.
    """
    return _flood(exits, here, entered, entered, refused)


def _flood(exits: Sequence[int], here: int, entered: int, closed: int, refused: Sequence[int]) -> bool:
    goal = 1 << len(exits)
    found = front = 1 << here
    trail: list[tuple[int, int]] = []  # each space with those first found from it
    while front:
        lowest = front & -front
        new = exits[lowest.bit_length() - 1] & ~closed & ~found
        trail.append((lowest, new))
        if new & goal:
            break
        found |= new
        front ^= lowest | new
    else:
        return False
    way, target = entered, goal
    for space, first in reversed(trail):
        if first & target:
            way |= space
            target = space
    for spaces in refused:
        if not spaces & ~way:
            missing = spaces & ~entered
            each = (1 << bit for bit in range(len(exits)) if missing >> bit & 1)
            return any(_flood(exits, here, entered, closed | space, refused) for space in each)
    return True
