from dataclasses import replace
from typing import get_args

import pytest

from drawcord.coach.job import Cable
from drawcord.routes.electric import POWER
from drawcord.sheets.cautions import SAID, UNCHECKED, cautions, powered
from drawcord.sheets.spoken import cautions_text
from planned import sized

CLASSES = get_args(Cable.model_fields["carries"].annotation)


def said(classes, routes=()):
    return " ".join(caution.sentence for caution in cautions(classes, routes))


@pytest.mark.parametrize("carries", CLASSES)
def test_every_class_of_cable_hears_what_governs_and_what_was_not_checked(carries):
    # Nobody may take a picture for a permission.
    words = said([carries])
    assert "Local codes, the makers' manuals and a licensed practitioner govern" in words
    assert "Drawn from a sketch" in words
    assert ("ampacity were NOT checked" in words) == (carries in POWER)


def test_what_can_kill_is_named_where_it_can():
    assert "LIVE whenever it is light" in said(["PV"])
    assert "DC arc does not go out by itself" in said(["PV"])
    assert "battery cannot be switched off" in said(["battery DC"])
    assert "Mains can kill" in said(["mains"])
    assert "LIVE" not in said(["data"])


def worked_out():
    return sized("van/job-garage")[1].circuits


def test_what_the_circuits_judged_is_said_with_its_editions_and_what_not_with_its_name():
    # A cable of which the circuits say nothing was not checked, and is named; the other was, by every edition.
    found = worked_out()
    words = " ".join(one.sentence for one in cautions(["PV", "mains"], (), powered(found, ["spare", "pv"])))
    assert "For spare: Overcurrent protection and ampacity were NOT checked" in words
    (pv,) = (one for one in found.circuits if one.cable == "pv")
    assert f"ampacity of {pv.chosen.cable.section} for pv on pv-1, overcurrent device {pv.device.amperes:g} A" in words
    assert "Worked out, not inspected" in words
    assert [edition for edition in found.fitted.rules.editions if edition not in words] == []
    alone = " ".join(one.sentence for one in cautions(["PV"], (), powered(found, ["pv"])))
    assert "NOT checked" not in alone


def test_a_circuit_that_nothing_serves_is_no_permission():
    # A cable or device that was not found is said in capitals, not left out.
    found = worked_out()
    (pv,) = (one for one in found.circuits if one.cable == "pv")
    for less, said in ((replace(pv, device=None), "NO OVERCURRENT DEVICE"), (replace(pv, chosen=None), "NO TYPE OF")):
        assert said in powered(replace(found, circuits=(less,)), ["pv"]).checked


def test_without_circuits_nothing_was_checked():
    assert powered(None, ["pv"]) == UNCHECKED
    assert powered(worked_out(), ["spare"]) == UNCHECKED


def test_falls_are_named_on_a_roof_only(route):
    below = [leg for leg in route.legs if leg.kind != "roof"]
    assert "fall from a roof" in said(["data"], [route])
    assert "fall" not in said(["data"], [type("Route", (), {"legs": below})])


def test_each_is_said_once_and_every_row_can_be_reached(route):
    whole = cautions(CLASSES, [route])
    assert [(caution.place, caution.sentence) for caution in whole] == list(SAID)
    assert len({sentence for _, sentence in SAID}) == len(SAID)


def test_nothing_is_called_compliant():
    assert "complian" not in said(CLASSES).lower()


def test_the_text_says_them_all_in_lines(route):
    text = cautions_text(cautions(["PV"], [route]))
    assert text.startswith("CAUTION\n")
    assert max(map(len, text.splitlines())) <= 100
    assert all(caution.sentence in " ".join(text.split()) for caution in cautions(["PV"], [route]))
