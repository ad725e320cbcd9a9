"""How a measured figure stands against its goal: printed at once, and kept for the table at the end."""

# ruff: noqa: T201 - a benchmark prints

from dataclasses import dataclass


@dataclass(frozen=True)
class Line:
    """`at_least`: the goal is a floor, not a ceiling."""

    what: str
    measured: float
    goal: float
    at_least: bool = False

    @property
    def met(self) -> bool:
        """Whether the goal is met."""
        return self.measured >= self.goal if self.at_least else self.measured <= self.goal

    def __str__(self) -> str:
        """As it stands in the table."""
        goal = f"{'at least' if self.at_least else 'at most'} {self.goal:g}"
        return f"{'met' if self.met else 'MISSED':<6} {self.measured:>8.3f}  goal {goal:<13} {self.what}"


def standing(what: str, measured: float, goal: float, *, at_least: bool = False) -> Line:
    """A line, which is printed too."""
    line = Line(what, measured, goal, at_least)
    print(line, flush=True)
    return line
