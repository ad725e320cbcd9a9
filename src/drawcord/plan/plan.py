"""A job with one candidate chosen for each cable, and the circuits that they make."""

from dataclasses import dataclass

from drawcord.coach.coach import Coach
from drawcord.plan.circuits import Circuits
from drawcord.plan.together import Together
from drawcord.routes.route import Answer, Candidate


@dataclass(frozen=True)
class Plan:
    """The choice: `chosen` holds one candidate a cable that has a route, by cable id.

    The types of the cables in `coach` are those that the `circuits` came to, if the job tells enough to have any.
    `together`: what the cables share; None with fewer than two that have a route.
    """

    coach: Coach
    answers: tuple[Answer, ...]
    chosen: dict[str, Candidate]
    circuits: Circuits | None = None
    together: Together | None = None
