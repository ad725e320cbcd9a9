"""Any change of one place in a plan that says something is noticed; those that are not are listed with the reason."""

from collections import Counter
from functools import cache

import pytest
from mutations import changes, form, noticed, places, put

from drawcord.verify.verify import faults

EACH = 4  # how often each kind of change is made at each kind of place, over all cables of all demo jobs
CANDIDATE = "cables.#.candidates.#"

# What a change goes unnoticed at, and why: words for people, and what only the search itself could say.
HARMLESS = {
    "notices": "sentences about the sketch, not about a route",
    "cautions": "sentences that hold for any route",
    "inputs": "held against the files by `verify`, which is tested with the command",
    "job_file": "the same",
    "shop_folder": "the same",
    "cables.#.exact": "what the search proved; only another search could say",
    "cables.#.guarantee": "a sentence about the same",
    "cables.#.left_out": "sentences about routes that are not offered",
    f"{CANDIDATE}.reason": "a sentence; the figures that it weighs are checked where they stand",
    f"{CANDIDATE}.twins": "orders of spaces on the graph, without coordinates",
    f"{CANDIDATE}.findings.#.sentence": "words; severity and place are checked",
    f"{CANDIDATE}.findings.#.source": "on whose word",
    f"{CANDIDATE}.findings two swapped": "their order says nothing",
    f"{CANDIDATE}.consents.#": "words; the holes they name are checked",
    f"{CANDIDATE}.consents two swapped": "their order says nothing",
    f"{CANDIDATE}.legs.#.cover": "words for the kind of space, which is checked",
    f"{CANDIDATE}.figures.#.source": "on whose word",
    f"{CANDIDATE}.figures.#.formula other text": "no arithmetic any more, but words; the value is checked",
    f"{CANDIDATE}.figures.#.formula no text": "the same",
}
CIRCUIT = "circuits.circuits.#"
HARMLESS |= {f"circuits.{key}": "sentences, and on whose word" for key in (
    "rules_applied", "findings", "sequence", "cautions", "checked_against", "added_practice", "not_covered",
    "from_memory", "note",
)}  # fmt: skip
HARMLESS |= {f"circuits.bonding.{what}.{key}": "words; the section and its size are checked"
    for what in ("frames", "enclosures", "chassis") for key in ("formula", "source")}  # fmt: skip
HARMLESS |= {f"{place}.source": "on whose word" for place in (
    "circuits.figures.#", f"{CIRCUIT}.figures.#", f"{CIRCUIT}.readings.#", f"{CIRCUIT}.drop.#",
    f"{CIRCUIT}.tried.#.worst_legs.#",
)}  # fmt: skip
HARMLESS |= {
    f"{CIRCUIT}.where": "a sentence",
    f"{CIRCUIT}.disconnect": "a sentence",
    f"{CIRCUIT}.sequence": "sentences",
    f"{CIRCUIT}.rules_applied": "sentences",
    f"{CIRCUIT}.proof": "what the search proved; only another search could say",
    f"{CIRCUIT}.findings": "sentences; that one refuses where there is no device is checked",
    f"{CIRCUIT}.given_up one less": "types on other routes, which only the search knows",
    f"{CIRCUIT}.given_up two swapped": "their order says nothing",
    f"{CIRCUIT}.places one less": "a place that is only proposed",
    f"{CIRCUIT}.tried.#.against.#": "words; that there are some where a type does not serve is checked",
    f"{CIRCUIT}.tried.#.against one less": "the same",
    f"{CIRCUIT}.tried.#.against one more": "the same",
    f"{CIRCUIT}.tried.#.against one twice": "the same",
    f"{CIRCUIT}.tried.#.against two swapped": "the same",
    f"{CIRCUIT}.tried.#.beyond": "sentences about tables that end before",
    f"{CIRCUIT}.figures.#.formula other text": "of those that are words",
    f"{CIRCUIT}.figures.#.formula no text": "the same",
}


@cache
def harmless(place: str, change: str) -> bool:
    """Whether a change is listed above, by itself or with the place that it changes or all that lies there."""
    inner = f"{place}.{change.removeprefix('without ')}".lstrip(".")
    listed = any(f"{name}.".startswith(f"{one}.") for name in (place, inner) for one in HARMLESS)
    return listed or f"{place} {change}" in HARMLESS


@pytest.mark.usefixtures("quick")
def test_every_change_that_says_something_is_noticed(cases):
    """Each kind of change, at each kind of place, in several jobs: two figures disagree, or a rule is broken."""
    made, missed = Counter(), []
    for case in cases:
        plan, vehicle = case.few(), case.vehicle()
        assert faults(plan, vehicle) == []
        here = Counter()
        for path, value in places(plan):
            for change, new in changes(value):
                kind = form(path), change
                if harmless(*kind) or here[kind] or made[kind] >= EACH:
                    continue
                here[kind] += 1
                made[kind] += 1
                if not noticed(put(plan, path, new), vehicle):
                    missed.append((case.path.stem, *kind, path[2:], str(value)[:40], str(new)[:40]))
    assert sum(made.values()) > 1500
    assert not missed, chr(10).join(map(str, missed))


@pytest.mark.usefixtures("quick")
def test_every_value_of_every_figure_of_the_circuits_counts(cases):
    """Not some of each kind but all: a figure a little off is noticed, wherever it stands."""
    missed, made = [], 0
    for case in cases:
        plan, vehicle = case.few(1), case.vehicle()
        for path, value in places(plan["circuits"], ("circuits",)):
            if path[-1] == "value":
                made += 1
                if not noticed(put(plan, path, float(f"{value * 1.003 + 0.0003:.6g}")), vehicle):
                    missed.append((case.path.stem, path, value))
    assert made > 400
    assert not missed, chr(10).join(map(str, missed))


@pytest.fixture(scope="module")
def forms(cases):
    return {form(path) for case in cases for path, _ in places(case.plan)}


@pytest.mark.parametrize("listed", HARMLESS)
def test_what_is_listed_as_harmless_is_there(forms, listed):
    """A place that no plan has any more has to leave the list."""
    assert listed.split(" ")[0] in forms


@pytest.mark.usefixtures("quick")
def test_every_point_of_every_leg_counts(cases):
    """A corner moved by a little or by much, along any axis, is noticed at each point of each winner.

    A straight run over the roof may bend a millimetre beside where it did and be as good, so it is moved further.
    """
    missed = []
    for case in cases:
        for one in case.plan["cables"]:
            if not one["candidates"]:
                continue
            plan, vehicle = case.alone(one["cable"], most=1)
            straight = vehicle.owner.get("roof run") == "straight"
            for path, value in places(plan):
                if form(path) == f"{CANDIDATE}.legs.#.points_mm.#.#":
                    by = (1, -1, 35, -700)[(path[-2] + path[-1]) % 4]
                    if straight and plan["cables"][0]["candidates"][path[3]]["legs"][path[5]]["kind"] == "roof":
                        by *= 60
                    if not noticed(put(plan, path, value + by), vehicle):
                        missed.append((case.path.stem, path, value, by))
    assert not missed, chr(10).join(map(str, missed))
