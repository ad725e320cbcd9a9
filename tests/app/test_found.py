"""`drawcord found` and `drawcord look` from the command line."""

import json
import os
import shutil
from datetime import date

import pytest
from typer.testing import CliRunner

from drawcord.app.cli import cli
from drawcord.files.document import read_document
from drawcord.files.home import layouts

JOB = "job-galley-side.yaml"


@pytest.fixture
def job(tmp_path):
    for file in (layouts() / "class-a-three-slides").glob("*.yaml"):
        shutil.copy(file, tmp_path)
    return tmp_path / JOB


def run(*words):
    return CliRunner().invoke(cli, [str(word) for word in words])


def entries(job):
    return read_document(job).data["differences"]["found"]


def test_a_place_found_blocked_is_noted_and_the_job_planned_again(job):
    # The winner went through it; the other cable did not.
    result = run("found", job, "Fridge vent", "blocked", "--by", "tape stuck", "--on", "2026-05-04")
    assert result.exit_code == 0, result.output
    assert entries(job)[-1] == {
        "what": "fridge_vent", "standing": "blocked", "source": "tape stuck", "date": "2026-05-04",
    }  # fmt: skip
    said = " ".join(result.output.split())
    assert "pv: now roof > linen > fridge > bay_mid instead of roof > fridge_vent > bay_mid" in said
    assert "As before: charge." in said
    compared = json.loads(run("compare", job, "--json").output)
    winner = next(cable for cable in compared["cables"] if cable["cable"] == "pv")["candidates"][0]
    assert winner["spaces"] == ["roof", "linen", "fridge", "bay_mid"]


def test_the_date_is_that_of_the_day_unless_told(job):
    # The clock is read where a person is, and nowhere below.
    earliest = date.today().isoformat()  # noqa: DTZ011 - as people write it
    assert run("found", job, "bay_mid ~ bay_c2", "clear").exit_code == 0
    noted = entries(job)[-1]
    assert earliest <= noted.pop("date") <= date.today().isoformat()  # noqa: DTZ011
    assert noted == {"what": "bay_c2~bay_mid", "standing": "proven", "source": "looked"}


def test_no_way_left_is_an_answer(job):
    # It is noted all the same, with the exit status of an answer that is no.
    result = run("found", job, "bay_mid", "blocked")
    assert result.exit_code == 1
    assert "NO ROUTE any more" in result.output
    assert entries(job)[-1]["what"] == "bay_mid"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("fridge vnet", "clear"), "did you mean `fridge_vent`?"),
        (("", "clear"), "there is no space or passage"),
        (("linen~nowhere", "clear"), "there is no space or passage linen~nowhere"),
        (("linen", "clear", "--on", "4.5.2026"), "is no date"),
        (("linen", "perhaps"), "perhaps"),
    ],
)
def test_what_cannot_be_noted_changes_nothing(job, words, said):
    # Status 2, a sentence, and not a byte of the file.
    before = job.read_bytes()
    result = run("found", job, *words)
    assert result.exit_code == 2
    assert said in " ".join(result.output.split())
    assert job.read_bytes() == before


def test_a_rig_file_takes_no_findings(job):
    # They belong to one vehicle.
    result = run("found", job.with_name("rig.yaml"), "linen", "clear")
    assert result.exit_code == 2
    assert "rig file" in result.output


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_takes_no_file_leaves_the_job_as_it_was(job):
    # Surroundings, not bad input.
    before = job.read_bytes()
    job.parent.chmod(0o500)
    try:
        result = run("found", job, "linen", "clear")
    finally:
        job.parent.chmod(0o700)
    assert result.exit_code == 3
    assert job.read_bytes() == before


def test_the_card_leads_from_every_outcome_to_a_route(job):
    # From step 1 on, each look leads to steps further on, and each end to routes that the document lists.
    document = json.loads(run("look", job, "--json").output)
    routes = {cable["cable"]: len(cable["routes"]) for cable in document["cables"]}
    looked = 0
    for group in document["groups"]:
        steps = {step["step"]: step for step in group["steps"]}
        assert list(steps) == list(range(1, len(steps) + 1))
        reached = [1]
        for number in reached:
            step = steps[number]
            if "look" in step:
                looked += 1
                assert step["look"] in [place["id"] for place in group["unproven"]]
                reached += [step["clear"], step["blocked"]]
            else:
                assert all(1 <= route <= routes[cable] for cable, route in step["routes"].items() if route)
        assert set(reached) == set(steps)
        assert group["expected_minutes"] <= group["without_looking_minutes"] + 1e-9
    assert looked > 2


def test_the_card_in_words_speaks_of_places_and_not_of_chances(job):
    # Without a shop's own history a percentage would only be the shop's guess.
    said = run("look", job).output
    assert "Five places unproven for pv." in said
    assert "Look at the way from bay_mid to fridge_vent (6 min)." in said
    assert "clear: pv takes route 1." in said
    assert "whatever the others are" in said
    assert "%" not in said


def test_what_has_been_looked_at_is_not_asked_for_again(job):
    # Looking ends: once the first place is known, the card goes on without it.
    before = json.loads(run("look", job, "--json").output)
    place = next(group for group in before["groups"] if "pv" in group["cables"])["steps"][0]["look"]
    assert run("found", job, place, "blocked").exit_code == 0
    after = json.loads(run("look", job, "--json").output)
    assert all(place != one["id"] for group in after["groups"] for one in group["unproven"])
