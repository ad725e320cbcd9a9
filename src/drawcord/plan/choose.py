"""Choosing one candidate for each cable."""

from collections.abc import Sequence

from drawcord.coach.coach import Coach
from drawcord.plan.plan import Plan
from drawcord.routes.route import Answer
from drawcord.words.faults import BadInput, Problem


def choose(coach: Coach, answers: Sequence[Answer], take: Sequence[str]) -> Plan:
    """The winner of each cable, or the candidate that `take` names. Raises BadInput for ids nobody offered."""
    offered = {candidate.id: candidate for answer in answers for candidate in answer.candidates}
    chosen = {answer.cable: answer.candidates[0] for answer in answers if answer.candidates}
    problems = []
    for wanted in take:
        if wanted in offered:
            chosen[offered[wanted].route.cable] = offered[wanted]
        else:
            known = ", ".join(offered) or "none"
            problems.append(Problem((), f"there is no candidate {wanted} to take: the candidates are {known}"))
    if problems:
        raise BadInput(problems)
    return Plan(coach, tuple(answers), dict(sorted(chosen.items())))
