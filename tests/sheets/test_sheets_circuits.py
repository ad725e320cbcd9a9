"""Circuits as text: what is wanted at a glance comes first, in one order, and how to connect is always said."""

import pytest
from circuit_samples import circuits_of

from drawcord.plan.circuit import SEQUENCE
from drawcord.sheets.circuit_spoken import circuits_glance, circuits_text

AT_A_GLANCE = (
    "cold Voc", "section", "device:", "cut at most", "drop", "joints:", "roof holes:", "largest plug", "unproven:",
    "work",
)  # fmt: skip


@pytest.fixture(scope="module")
def made():
    return circuits_of("van/job-garage")


def test_each_circuit_says_first_what_is_wanted_at_a_glance_in_one_order(made):
    # Cold Voc stands with circuits of the array; the chain of figures comes after all of it.
    text = circuits_text(*made)
    for one in made[1].circuits:
        block = text.partition(f"\n{one.cable}, {one.purpose.circuit}")[2].partition("The chain of figures:")[0]
        wanted = [word for word in AT_A_GLANCE if word != "cold Voc" or one.purpose.tracked]
        places = [block.find(f"{word}") for word in wanted]
        assert -1 not in places, (one.cable, wanted)
        assert places == sorted(places), (one.cable, wanted)


@pytest.mark.parametrize("printed", [circuits_text, circuits_glance])
def test_in_which_order_to_connect_stands_wherever_circuits_are_printed(made, printed):
    # Long lines are broken, so the first words of each step.
    text = printed(*made)
    assert [step for step in SEQUENCE if " ".join(step.split()[:6]) not in text] == []


def test_a_circuit_by_itself_says_that_a_plan_of_all_counts_again(made):
    # Which cables lie together on their own best ways is not what lies together in one plan.
    text = " ".join(circuits_text(*made).split())
    assert "`drawcord plan` puts all in one plan, and counts again which lie together" in text
