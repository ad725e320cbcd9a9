"""Whatever coach drawcord plans, its plan passes: the two were written apart, and have to agree."""

import json

import pytest

import sketch
from drawcord.coach.build import build
from drawcord.files.tables import conductors
from drawcord.plan.choose import choose
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.sheets.report import plan_document
from drawcord.verify.vehicle import Vehicle
from drawcord.verify.verify import faults
from drawcord.ways.ways import explore
from random_coaches import random_coach

SHOP = {
    "clearances": sketch.CLEARANCES,
    "labour": sketch.LABOUR,
    "allowances": sketch.ALLOWANCES,
    "preferences": sketch.PREFERENCES,
}


def as_text(data):
    """Plain data as the checker reads it from YAML: every scalar as text."""
    if isinstance(data, dict):
        return {key: as_text(value) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [as_text(value) for value in data]
    return "" if data is None else str(data)


@pytest.mark.parametrize(("spaces", "coaches"), [(6, 35), (12, 30), (25, 25), (50, 10)])
def test_every_plan_of_a_random_coach_passes(spaces, coaches, monkeypatch):
    """100 coaches in all; `sketch.model` is listened to for the plain data that the models are made of."""
    written = []
    model = sketch.model
    monkeypatch.setattr(sketch, "model", lambda of, data: (written.append(data), model(of, data))[1])
    routes = 0
    for seed in range(coaches):
        written.clear()
        rig, job = random_coach(spaces, seed)
        ways = explore(build(rig, job, sketch.shop()))
        orders = [Order(ways, name, conductors()) for name in sorted(job.cables)]
        plan = choose(ways.coach, [compare(order) for order in orders], [])
        document = json.loads(json.dumps(plan_document(plan, orders, []))) | {"circuits": None}
        del document["together"]
        raw_rig, raw_job = (next(data for data in written if key in data) for key in ("shell", "cables"))
        vehicle = Vehicle(as_text(raw_rig), as_text(raw_job), as_text(SHOP))
        assert faults(document, vehicle) == [], f"{spaces} spaces, seed {seed}"
        routes += sum(len(answer.candidates) for answer in plan.answers)
    assert routes > coaches
