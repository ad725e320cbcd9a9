"""Which strings a PV cable carries: told by modules, by as many ends as strings, or by nobody."""

from drawcord.coach.job import Job
from drawcord.plan.upstream import strings_carried, way
from drawcord.wire.coefficient import TemperatureCoefficient
from drawcord.wire.grouping import Plane, Strings
from drawcord.wire.module import Module
from sketch import job_data, model

OF_POWER = TemperatureCoefficient("Pmp", -0.34, "%/°C")
MODULE = Module("module", 24.6, 10.2, 20.5, 9.8, 20.0, 1500, 700, 900, "A", of_pmp=OF_POWER)

SPOT = {"in": "roof", "from front": 100, "left": 100}


def job_of(pairs, modules=()):
    """A job of PV cables, each given by the two devices it joins."""
    names = sorted({end for pair in pairs.values() for end in pair})
    equipment = {
        name: {**SPOT, "kind": "solar module" if name in modules else "junction box", "terminals": {"pv": None}}
        for name in names
    }
    cables = {
        name: {"class": "PV", "from": f"{a}.pv", "to": f"{b}.pv", "amperes": "9 A", "volts": "40 V"}
        for name, (a, b) in pairs.items()
    }
    return model(Job, job_data(equipment, cables))


def strings(series, parallel):
    return Strings(Plane("roof", MODULE, tuple(f"m{n}" for n in range(series * parallel))), series, parallel)


def carried(job, series, parallel):
    return {name: strings_carried(job, name, "c", strings(series, parallel)) for name in job.cables}


STAR = {"a": ("ja", "j"), "b": ("jb", "j"), "trunk": ("j", "c")}


def test_each_end_is_a_string_where_there_are_as_many():
    # Counted by hand: two boxes, two strings; the trunk carries both.
    assert carried(job_of(STAR), 2, 2) == {"a": 1, "b": 1, "trunk": 2}
    assert way(job_of(STAR), "a", "c") == ("a", "trunk")


def test_what_nobody_tells_is_none():
    # Three strings behind two boxes: one of them carries two, and nothing says which.
    assert carried(job_of(STAR), 2, 3) == {"a": None, "b": None, "trunk": 3}


def test_a_chain_without_branches_carries_all():
    job = job_of({"up": ("array", "j"), "down": ("j", "c")})
    assert carried(job, 1, 3) == {"up": 3, "down": 3}


def test_modules_with_cables_of_their_own_are_counted():
    # Two strings of two: m0 and m1 in one, m2 and m3 in the other; a cable within a string carries that string.
    pairs = {"in": ("m0", "m1"), "a": ("m1", "j"), "in2": ("m2", "m3"), "b": ("m3", "j"), "trunk": ("j", "c")}
    job = job_of(pairs, modules=("m0", "m1", "m2", "m3"))
    assert carried(job, 2, 2) == {"in": 1, "a": 1, "in2": 1, "b": 1, "trunk": 2}
    # Three on one side and one on the other, as strings of one.
    pairs = {"x": ("m0", "k"), "y": ("m1", "k"), "z": ("m2", "k"), "a": ("k", "j"), "b": ("m3", "j")}
    pairs["trunk"] = ("j", "c")
    job = job_of(pairs, modules=("m0", "m1", "m2", "m3"))
    assert carried(job, 1, 4) == {"x": 1, "y": 1, "z": 1, "a": 3, "b": 1, "trunk": 4}


def test_a_cable_that_leads_nowhere_has_no_way():
    job = job_of({**STAR, "lost": ("x", "y")})
    assert way(job, "lost", "c") == ()


def test_two_trackers_keep_their_own():
    job = job_of({"a": ("ja", "c"), "b": ("jb", "c"), "up": ("k", "jb")})
    assert way(job, "up", "c") == ("up", "b")
    assert carried(job, 1, 2) == {"a": 2, "b": 2, "up": 2}
