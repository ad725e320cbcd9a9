"""Lengths in the sentences of an answer, in the units that the coach's files show."""

from drawcord.coach.coach import Coach
from drawcord.words.units import tape_length


def said(coach: Coach, mm: int) -> str:
    """A length [mm] as the readers of a coach's files say it."""
    return tape_length(mm, coach.units)
