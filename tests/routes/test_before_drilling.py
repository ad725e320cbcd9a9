"""What lies near a hole is named with its kind, whatever article the kind would take, or none."""

from typing import get_args

import pytest

from drawcord.coach.rig import Hazard, Obstruction
from drawcord.routes.judge import BEHIND, findings
from drawcord.routes.order import Order
from drawcord.routes.route import Hole
from drawcord.ways.ways import explore
from sketch import coach_of, job_data, rig_data

SPACES = {
    "a": {"kind": "cabinet", "from front": "1000..2000", "left": 600, "up": "floor..ceiling"},
    "b": {"kind": "cabinet", "from front": "2000..3000", "left": 600, "up": "floor..ceiling"},
}
DEVICES = {
    name: {"kind": "router", "in": name, "from front": along, "left": 50, "up": 300, "terminals": {"t": None}}
    for name, along in (("a", 1500), ("b", 2500))
}
HOLE = Hole("H1", "inner", ("a", "b"), (2000, 300, 1000), (2000, 300, 1000), 22, "proven")
KINDS = [
    *(("obstructions", kind) for kind in get_args(Obstruction.model_fields["kind"].annotation)),
    *(("hazards", kind) for kind in get_args(Hazard.model_fields["kind"].annotation)),
]


@pytest.mark.parametrize(("section", "kind"), KINDS)
@pytest.mark.parametrize("apart", [0, 99, BEHIND, BEHIND + 1])
def test_what_lies_behind_a_hole_is_named(section, kind, apart):
    thing = {"kind": kind, "from front": "1990..2010", "left": [250 + apart, 600], "up": "900..1100"}
    rig = rig_data(SPACES, **{section: {"it": thing}})
    coach = coach_of(rig, job_data(DEVICES, {"c": ("a.t", "b.t")}))
    told = [finding.sentence for finding in findings(Order(explore(coach), "c", ()), (), (), (HOLE,), ())]
    sentence = f"it ({kind}) lies {apart} mm from this hole: look before drilling"
    assert told == ([sentence] if apart <= BEHIND else [])
