"""Fixtures for the sheets: a demo coach with its order, a route in it, and an answer."""

import pytest
from sheet_samples import candidate_of, demo, leg

from drawcord.routes.route import Answer, Criteria, Hole, Joint, Route
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding, Severity


@pytest.fixture(scope="session")
def coach():
    """The class A coach with its order."""
    return demo("class-a-three-slides", "job-mid-roof")


@pytest.fixture(scope="session")
def route():
    """Square over the roof, down the linen closet, under the floor and up and down beside itself in the bay."""
    legs = (
        leg("roof", "roof", [(5700, 1350, 2200), (6200, 1350, 2200), (6200, 2200, 2200)], cover="roof clips"),
        leg("linen", "cabinet", [(6200, 2200, 2200), (6200, 2200, 2100), (6200, 2450, 2100), (6200, 2450, 0)]),
        leg(
            "bay_c3",
            "bay",
            [
                (6200, 2450, 0),
                (6200, 2450, -100),
                (6600, 2450, -100),
                (6600, 2450, -400),
                (6300, 2450, -400),
                (6300, 2450, -100),
                (6300, 2155, -100),
                (6300, 2155, -300),
            ],
            standing="unproven",
        ),
    )
    length = sum(leg.length for leg in legs)
    return Route(
        cable="pv",
        spaces=("roof", "linen", "bay_c3"),
        passages=("linen~roof", "bay_c3~linen"),
        stations=("linen~roof#0", "bay_c3~linen#0"),
        legs=legs,
        holes=(
            Hole("H1", "roof", ("roof", "linen"), (6200, 2200, 2200), (6200, 2200, 2100), 24, "proven"),
            Hole("H2", "inner", ("linen", "bay_c3"), (6200, 2450, 0), (6200, 2450, -60), 24, "unproven"),
        ),
        joints=(Joint(3000, (6200, 2450, 1200), "linen", "linen.door", reachable=True),),
        criteria=Criteria(length, 0, 1, 1, 5400, 510_826),  # ln(0.6) = -0.510826
        cut_length=(length + 500, length + 800, length + 1200),
        figures=(
            Figure("voltage drop", 0.84, "V", "22 A · 0.038 Ω", "Ohm's law"),
            Figure("voltage drop of supply", 1.1, "%", "100 · 0.84 V / 76 V", "Ohm's law"),
        ),
        findings=(Finding(Severity.CAUTION, "H1", "the rafter lies 30 mm from this hole", "geometry"),),
        consents=("1 new hole through the roof",),
        unproven=("bay_c3", "bay_c3~linen"),
    )


@pytest.fixture(scope="session")
def candidate(route):
    return candidate_of(route)


@pytest.fixture(scope="session")
def answer(route):
    offers = ["winner", *["efficient"] * 6, *["another descent"] * 2]
    candidates = tuple(candidate_of(route, rank, offer) for rank, offer in enumerate(offers, start=1))
    guarantee = "Every route within 1.5 times the shortest was weighed."
    left_out = ("roof > shower: the owner excludes it",)
    return Answer("pv", "junction.pv", "controller.pv", candidates, None, True, guarantee, left_out)
