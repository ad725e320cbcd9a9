"""Circuits of the demo jobs, and of the same jobs with another array, controller or cable, on their winning routes."""

from dataclasses import replace

from answered import answers, coach_of
from drawcord.files.rule_tables import rule_sets
from drawcord.files.tables import conductors
from drawcord.plan.array import array
from drawcord.plan.circuits import circuits
from drawcord.plan.fitted import fitted
from drawcord.wire.grouping import Plane

CIRCUITS = (
    "van/job-garage",
    "class-a-three-slides/job-mid-roof",
    "class-a-three-slides/job-galley-side",
    "fifth-wheel/job-front-bay",
    "truck-camper/job-rear-junction",
)


def coach_with(job, **cables):
    """The coach of a demo job with further cables, each like the one that is named; None takes one out."""
    coach = coach_of(job)
    known = dict(coach.job.cables)
    for name, like in cables.items():
        if like is None:
            del known[name]
        else:
            known[name] = coach.job.cables[like]
    return replace(coach, job=coach.job.model_copy(update={"cables": known}))


def circuits_of(job, coach=None, *, modules=None, grouping=None, routed=None, **changed):
    """The coach and its circuits; with so many modules, in the grouping named, on the routes of `routed` cables.

    Further names change what the job puts together, such as its controller.
    """
    coach = coach or coach_of(job)
    together = fitted(coach, rule_sets())
    if modules is not None:
        plane = together.planes[0]
        changed["planes"] = (Plane(plane.name, plane.module, tuple(f"module_{n}" for n in range(modules))),)
    found = array(replace(together, **changed))
    if grouping is not None:
        found = replace(found, offered=tuple(one for one in found.offered if one.name == grouping))
        assert found.offered, grouping
    routes = {answer.cable: answer.candidates[0] for _, answer in answers(job) if answer.candidates}
    chosen = {name: routes[like] for name, like in ({one: one for one in routes} if routed is None else routed).items()}
    return coach, circuits(coach, found, chosen, conductors())
