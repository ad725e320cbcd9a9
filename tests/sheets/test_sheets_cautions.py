from typing import get_args

import pytest

from drawcord.coach.job import Cable
from drawcord.routes.electric import POWER
from drawcord.sheets.cautions import SAID, cautions
from drawcord.sheets.spoken import cautions_text

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
