"""The heights that words such as floor and ceiling stand for, at each place along the vehicle."""

from typing import NamedTuple


class Step(NamedTuple):
    """A stretch [x0, x1) along the vehicle with its own floor and ceiling [mm above the main floor]."""

    x0: int
    x1: int
    floor: int
    ceiling: int


class Levels(NamedTuple):
    """Heights [mm above the main floor]; `steps` override floor and ceiling where they reach."""

    ground: int
    bay: int
    floor_thickness: int
    ceiling: int
    roof: int
    steps: tuple[Step, ...]

    def at(self, base: str, x0: int, x1: int) -> int:
        """The height of a word over [x0, x1]: over a step in the middle of it, where its middle lies."""
        middle = (x0 + x1) / 2
        step = next((s for s in self.steps if s.x0 <= middle < s.x1), None)
        floor = step.floor if step else 0
        return {
            "main": 0,
            "ground": self.ground,
            "bay": self.bay,
            "belly": floor - self.floor_thickness,
            "floor": floor,
            "ceiling": step.ceiling if step else self.ceiling,
            "roof": self.roof,
        }[base]

    def straddled(self, x0: int, x1: int) -> int | None:
        """Where [x0, x1] crosses the edge of a step by more than a wall's thickness, or None."""
        edges = sorted({edge for step in self.steps for edge in (step.x0, step.x1)})
        return next((edge for edge in edges if x0 + 75 < edge < x1 - 75), None)
