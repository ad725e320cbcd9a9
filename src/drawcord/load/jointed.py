"""The plan as its pieces join it: on the chosen routes, and on every candidate that may have to take their place."""

from dataclasses import replace

from drawcord.coach.van import Van
from drawcord.load.bring import Load
from drawcord.load.pieces import Pieces, pieces_of
from drawcord.load.runs import elsewhere
from drawcord.plan.plan import Plan
from drawcord.routes.route import Candidate


def jointed(plan: Plan, load: Load, van: Van) -> Plan:
    """The plan with the joints of the load's pieces on its routes, in its answers and its circuits, for the sheet.

    A candidate that is not chosen is joined as what the van carries for this cable alone would join it.
    """
    job = plan.coach.job.job if plan.coach.job else ""
    chosen, answers = dict(plan.chosen), []
    for answer in plan.answers:
        mine = [one for one in load.pieces if (one.run.job, one.run.cable) == (job, answer.cable)]
        if mine and all(one.laid for one in mine):
            chosen[answer.cable] = _joined(plan.chosen[answer.cable], mine)
        others = answer.candidates
        if len(mine) == 1:
            others = tuple(_otherwise(plan, mine[0], one, van) for one in others)
        answers.append(replace(answer, candidates=others))
    circuits = plan.circuits and replace(
        plan.circuits,
        circuits=tuple(replace(one, candidate=chosen.get(one.cable, one.candidate)) for one in plan.circuits.circuits),
    )
    return replace(plan, chosen=chosen, answers=tuple(answers), circuits=circuits)


def _otherwise(plan: Plan, taken: Pieces, other: Candidate, van: Van) -> Candidate:
    """Another candidate of a cable with the joints of its own pieces; as it is where nothing serves it."""
    run = elsewhere(plan, taken.run, other.route.legs, other.route.cut_length[2])
    ends = tuple((replace(joint, at=joint.at and run.length), why) for joint, why in taken.run.given)
    (found,), _ = pieces_of([replace(run, given=ends)], van)
    return _joined(other, [found]) if found.laid else other


def _joined(candidate: Candidate, pieces: list[Pieces]) -> Candidate:
    joints = tuple(joint for one in pieces for joint in one.joints)
    return replace(candidate, route=replace(candidate.route, joints=joints))
