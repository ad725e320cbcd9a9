"""Lengths in the sentences of an answer: in the coach's units, no finer than a tape in a vehicle."""

from drawcord.coach.coach import Coach
from drawcord.words.units import format_length

PARTS = 8  # of an inch


def said(coach: Coach, mm: int) -> str:
    """A length [mm] in the units that the coach's files show."""
    return format_length(mm, coach.units, PARTS)
