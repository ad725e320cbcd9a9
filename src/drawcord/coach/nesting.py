"""When one space may lie in another, or run through it."""

from drawcord.coach.box import Box

RUNS_THROUGH = ("chase", "vent stack", "appliance vent", "panel wall", "void")


def nested(kind: str, inner: Box, outer: Box) -> bool:
    """Whether a space of this kind is nested in another.

    It is if it lies wholly inside, or runs through as a stack does: inside on two axes, overlapping on the third.
    """
    if inner == outer or not inner.overlap(outer):
        return False
    spans = [(inner.span(axis), outer.span(axis)) for axis in (0, 1, 2)]
    within = sum(o[0] <= i[0] and i[1] <= o[1] for i, o in spans)
    return within == 3 or (within == 2 and kind in RUNS_THROUGH)
