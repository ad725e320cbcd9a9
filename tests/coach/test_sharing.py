"""The table of what circuits may share: whole, the same from either side, and true to the rules it names."""

from itertools import product
from typing import get_args

import pytest

import sketch
from drawcord.coach.job import Cable
from drawcord.coach.sharing import Pair, Sharing
from drawcord.files.load import load_shop
from drawcord.words.faults import BadInput

CLASSES = get_args(Cable.model_fields["carries"].annotation)
SHIPPED = load_shop()[0].sharing


def test_every_two_classes_have_one_row_whichever_is_named_first():
    # A cable's class is one of five; data and coax are one in the table.
    for one, other in product(CLASSES, repeat=2):
        assert SHIPPED.of(one, other) == SHIPPED.of(other, one)
    assert SHIPPED.of("coax", "PV") == SHIPPED.of("PV", "data")
    assert {SHIPPED.of(*pair)[0] for pair in product(CLASSES, repeat=2)} == set(get_args(Pair))


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [
        ("PV", "mains", True),  # NEC 690.31(B), 2020: not with inverter output circuits but behind a partition
        ("PV", "battery DC", True),  # NEC 690.31(B), 2020: nor with other systems
        ("PV", "PV", False),  # the same: circuits of one PV system
        ("battery DC", "mains", True),  # NEC 552.10(C)(3), 2008: 13 mm between different power sources
        ("mains", "data", True),  # NEC 725.136(A), 2011: not in one raceway, box or similar fitting
        ("battery DC", "coax", True),  # NEC 820.133(A)(1)(b), as quoted in 2009: nor coax with power
        ("mains", "mains", False),  # NEC 300.3(C)(1), 2020: insulation for the highest voltage
    ],
)
def test_the_shipped_table_says_what_the_rules_say(one, other, apart):
    # Rules as quoted in public articles; without a partition, which nobody sketches.
    _, terms = SHIPPED.of(one, other)
    assert [terms.together, terms.box, terms.raceway] == [not apart] * 3
    assert terms.cross
    assert terms.source


def test_a_row_that_is_missing_is_asked_for(tmp_path):
    # Half a table would leave the planner guessing; the message names what is missing.
    rows = {pair: row for pair, row in sketch.SHARING["pairs"].items() if pair != "PV with mains"}
    with pytest.raises(ValueError, match="lacks PV with mains"):
        sketch.model(Sharing, {"format": 1, "pairs": rows})
    (tmp_path / "sharing.yaml").write_text("format: 1\npairs: {PV with gas: {}}\n", encoding="utf-8")
    with pytest.raises(BadInput, match=r"sharing\.yaml:2:\d+: .*PV with gas"):
        load_shop(tmp_path)
