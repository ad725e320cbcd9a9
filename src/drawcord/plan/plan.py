"""A job with one candidate chosen for each cable."""

from dataclasses import dataclass

from drawcord.coach.coach import Coach
from drawcord.routes.route import Answer, Candidate


@dataclass(frozen=True)
class Plan:
    """The choice: `chosen` holds one candidate a cable that has a route, by cable id."""

    coach: Coach
    answers: tuple[Answer, ...]
    chosen: dict[str, Candidate]
