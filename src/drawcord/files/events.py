"""What a YAML text says, step by step; `at` is the line and column, from 1, where it begins."""

from typing import NamedTuple

from drawcord.words.faults import Problem

Position = tuple[int, int]


class Scalar(NamedTuple):
    """A text, number or nothing; `plain` if it stands without quotes."""

    at: Position
    value: str
    plain: bool
    anchor: str | None = None
    tag: str | None = None


class Begin(NamedTuple):
    """A mapping or list begins."""

    at: Position
    mapping: bool
    anchor: str | None = None
    tag: str | None = None


class End(NamedTuple):
    """The innermost open mapping or list ends."""


class Alias(NamedTuple):
    """What the anchor named, once more."""

    at: Position
    anchor: str


class Another(NamedTuple):
    """A second document begins, or a later one."""

    at: Position


Event = Scalar | Begin | End | Alias | Another


def problem(at: Position, sentence: str) -> Problem:
    """A problem at a position, not yet in a named file."""
    return Problem((), sentence, line=at[0], column=at[1])
