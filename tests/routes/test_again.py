"""Planning again after a fact: the same as planning from nothing, to the byte, on many coaches and facts."""

import json
from collections.abc import Callable
from dataclasses import fields, replace
from functools import partial
from typing import Any

import numpy as np
import pytest
from random_nets import seeded

import sketch
from drawcord.coach.build import build
from drawcord.coach.job import Found, Job
from drawcord.files.tables import conductors
from drawcord.routes.again import Planned, again, plan
from drawcord.routes.leaning import ideal, ideal_walk
from drawcord.routes.net import Net, Path
from drawcord.routes.order import Order
from drawcord.sheets.report import compare_document
from drawcord.words.faults import BadInput, Problem
from random_coaches import random_coach

CONDUCTORS = conductors()
FACTS = 6  # found out about each coach, one after the other


def knowing(job: Job, found: list[Found]) -> Job:
    return job.model_copy(update={"differences": job.differences.model_copy(update={"found": found})})


def written(planned: Planned) -> str:
    """What the comparison would print for machines."""
    answers = [(Order(planned.ways, name, CONDUCTORS), answer) for name, answer in planned.answers.items()]
    return json.dumps(compare_document(planned.ways.coach, answers, []))


def some_fact(rng, planned, found):
    """About a passage or a space; often one on the way of the winner, so that it matters."""
    winners = [answer.candidates[0].route for answer in planned.answers.values() if answer.candidates]
    ways = planned.ways
    names = sorted({name for route in winners for name in (*route.passages, *route.spaces[1:-1])})
    if rng.random() < 0.5 or not names:
        names = [*ways.passages, *(name for name in ways.coach.spaces if name != "roof"), *found]
    what = rng.choice(names)
    standing = rng.choice(("blocked", "blocked", "blocked", "proven", "unproven"))
    chance = f"{rng.randrange(20, 95, 5)} %" if standing == "unproven" else None
    return sketch.model(Found, {"what": what, "standing": standing, "chance": chance, "source": "looked"})


def answered(run: Callable[[Any], Planned]) -> Planned | tuple[Problem, ...]:
    """A plan, or what is wrong with the findings."""
    try:
        return run(CONDUCTORS)
    except BadInput as error:
        return error.problems


def told(spaces, seed, shop):
    """One fact after the other: the plan before, from nothing and again; or what is wrong with the finding."""
    rng = seeded(seed)
    rig, job = random_coach(spaces, seed)
    before, found = plan(build(rig, job, shop), CONDUCTORS), {}
    for _ in range(FACTS):
        fact = some_fact(rng, before, found)
        trial = {**found, fact.what: fact}
        coach = build(rig, knowing(job, list(trial.values())), shop)
        oracle, after = (answered(run) for run in (partial(plan, coach), partial(again, before, coach)))
        yield before, oracle, after
        if isinstance(oracle, Planned):
            before, found = after, trial


@pytest.mark.parametrize("spaces", [6, 9, 14, 22])
def test_planning_again_is_planning_from_nothing(spaces):
    reused = searched = 0
    for seed in range(144 // spaces):
        for before, oracle, after in told(spaces, seed, sketch.shop()):
            if not isinstance(oracle, Planned):
                assert after == oracle
                continue
            assert after.ways.passages == oracle.ways.passages
            assert list(after.ways.passages) == list(oracle.ways.passages)
            assert after.ways.stations == oracle.ways.stations
            for field in fields(after.ways.links):
                one, other = getattr(after.ways.links, field.name), getattr(oracle.ways.links, field.name)
                assert np.array_equal(one, other) if isinstance(one, np.ndarray) else one == other, field.name
            assert after.answers == oracle.answers, seed
            assert written(after) == written(oracle)
            for name, done in after.works.items():
                reused += done.answer is before.works[name].answer
                searched += done.answer is not before.works[name].answer
    assert reused > 20, "hardly anything was reused"
    assert searched > 20, "hardly any fact mattered"


def test_where_a_search_is_cut_short_all_is_searched_from_nothing():
    # By the bounds of before more labels are made, and sooner too many: then those are not what is answered.
    shop = sketch.shop()
    shop = replace(shop, preferences=shop.preferences.model_copy(update={"most_labels": 100}))
    cut_short = 0
    for seed in range(5):
        for _, oracle, after in told(14, seed, shop):
            answers = oracle.answers if isinstance(oracle, Planned) else oracle
            assert (after.answers if isinstance(after, Planned) else after) == answers, seed
            cut_short += isinstance(oracle, Planned) and sum(not answer.exact for answer in answers.values())
    assert cut_short > 10


def test_whatever_else_differs_is_planned_from_nothing():
    rig, job = random_coach(9, 1)
    before = plan(build(rig, job, sketch.shop()), CONDUCTORS)
    coach = build(rig, job, sketch.shop(contact=60))
    after = again(before, coach, CONDUCTORS)
    assert after.answers == plan(coach, CONDUCTORS).answers
    assert after.ways.coach.shop.clearances.contact == 60
    assert not any(done.answer is before.works[name].answer for name, done in after.works.items())


def test_a_walk_of_least_cost_is_found_where_no_path_has_it():
    # In by 1, out by 2 and back in to 1 costs 3, any path 9; and in the second criterion all is free, in circles.
    net = Net.of(
        [0, 1, 2, 1, -1],
        [0, 1, 2, 2, 3, 3],
        [1, 2, 3, 4, 4, 2],
        [[1, 0], [1, 0], [1, 0], [7, 0], [0, 0], [5, 0]],
        start=0,
        goal=4,
    )
    path = Path((9, 0), (0, 1, 2, 4))
    assert [ideal(net, criterion, [path]) for criterion in (0, 1)] == [3, 0]
    assert [ideal_walk(net, criterion, [path]) for criterion in (0, 1)] == [(0, 1, 2, 3, 4), path.states]
    assert [ideal_walk(net, criterion, []) for criterion in (0, 1)] == [(0, 1, 2, 3, 4), path.states]
