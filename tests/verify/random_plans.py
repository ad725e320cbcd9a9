"""Plans of random coaches, with the raw data they come from as the checker reads it."""

import json
from unittest import mock

import sketch
from drawcord.coach.history import history
from drawcord.coach.log import Log
from drawcord.files.tables import conductors
from drawcord.plan.choose import choose
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.sheets.report import plan_document
from drawcord.verify.vehicle import Vehicle
from drawcord.ways.ways import Ways, explore
from random_coaches import random_coach

SHOP = {
    "clearances": sketch.CLEARANCES,
    "labour": sketch.LABOUR,
    "allowances": sketch.ALLOWANCES,
    "preferences": sketch.PREFERENCES,
}


def drawn(spaces, seed):
    """A random rig and job as plain data: `sketch.model` is listened to for what the models are made of."""
    with mock.patch.object(sketch, "model", side_effect=lambda _, data: data):
        return random_coach(spaces, seed)


def ways_of(rig, job, log=None) -> Ways:
    """The ways of a coach, with a log beside its rig or none."""
    shop = sketch.shop()
    if log:
        shop = shop.__class__(**{**vars(shop), "history": history(sketch.model(Log, log), job["job"])})
    return explore(sketch.coach_of(rig, job, shop))


def planned(ways):
    """What plan.json would say of these ways, each cable for itself, and without circuits."""
    job = ways.coach.job
    orders = [Order(ways, name, conductors()) for name in sorted(job.cables)]
    plan = choose(ways.coach, [compare(order) for order in orders], [])
    document = json.loads(json.dumps(plan_document(plan, orders, []))) | {"circuits": None}
    del document["together"]
    return document


def vehicle(rig, job, log=None) -> Vehicle:
    """The vehicle as the checker has it, from the same data."""
    return Vehicle(as_text(rig), as_text(job), as_text({**SHOP, **({"log": log} if log else {})}))


def as_text(data):
    """Plain data as the checker reads it from YAML: every scalar as text."""
    if isinstance(data, dict):
        return {key: as_text(value) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [as_text(value) for value in data]
    return "" if data is None else str(data)
