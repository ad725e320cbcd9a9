"""The six directions a face can look, as people say them and as an axis with a sign."""

from typing import NamedTuple

from drawcord.coach.box import Box
from drawcord.coach.kinds import Face


class Direction(NamedTuple):
    """An axis (0 along, 1 across, 2 up) and a sign (-1 towards its start, +1 towards its end)."""

    axis: int
    sign: int

    def face(self, box: Box) -> Box:
        """The flat box that is `box`'s face in this direction."""
        at = box.span(self.axis)[self.sign > 0]
        bounds = list(box)
        bounds[2 * self.axis] = bounds[2 * self.axis + 1] = at
        return Box(*bounds)


FORWARD, AFT = Direction(0, -1), Direction(0, 1)
LEFT, RIGHT = Direction(1, -1), Direction(1, 1)
DOWN, UP = Direction(2, -1), Direction(2, 1)
EVERY = (FORWARD, AFT, LEFT, RIGHT, DOWN, UP)


def direction(face: Face, *, street_is_left: bool) -> Direction:
    """The direction of a face's name; street and curb depend on the side traffic keeps."""
    street, curb = (LEFT, RIGHT) if street_is_left else (RIGHT, LEFT)
    return {
        "forward": FORWARD,
        "aft": AFT,
        "left": LEFT,
        "right": RIGHT,
        "up": UP,
        "down": DOWN,
        "street": street,
        "curb": curb,
    }[face]
