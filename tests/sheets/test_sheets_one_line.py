"""The one-line diagram: every demo job and odd arrays are legible, nothing is left out, and symbols differ."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from circuit_samples import CIRCUITS, circuits_of, coach_with
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from test_sheets_layout import check_all, said

from drawcord.sheets.one_line import diagrams
from drawcord.sheets.one_line_sheet import one_line_sheets
from drawcord.sheets.render import to_png, to_svg
from drawcord.sheets.symbols import SYMBOLS, draw_symbol

MID = "class-a-three-slides/job-mid-roof"
BIG = {"short_circuit_amperes": 200.0, "highest_volts": 300.0}


def controller(**changed):
    """The controller of the class A coach, changed."""
    return replace(circuits_of(MID)[1].fitted.controller, **changed)


def twins():
    """Four pairs of conductors to a controller of four trackers that bears one module of the roof in a string."""
    coach = coach_with(MID, pv_b="pv", pv_c="pv", pv_d="pv")
    routed = {"charge": "charge"} | dict.fromkeys(("pv", "pv_b", "pv_c", "pv_d"), "pv")
    changed = {"controller": controller(trackers=4, highest_volts=90.0, short_circuit_amperes=20.0)}
    return circuits_of(MID, coach, grouping=" + ".join(["1s1p"] * 4), routed=routed, **changed)


ODD = {
    "one module": lambda: circuits_of(MID, modules=1, controller=controller(**BIG)),
    "four strings on cables that none carries": lambda: circuits_of(
        MID, modules=4, grouping="1s4p", controller=controller(output_amperes=200.0, **BIG)
    ),
    "nine strings": lambda: circuits_of(MID, modules=9, grouping="1s9p", controller=controller(**BIG)),
    "four trackers": twins,
    "a cable without a route": lambda: circuits_of(MID, routed={"charge": "charge"}),
    "no route at all": lambda: circuits_of(MID, routed={}),
    "a cable between controller and battery without a route": lambda: circuits_of(MID, routed={"pv": "pv"}),
    "no cable to the battery": lambda: circuits_of(MID, coach_with(MID, charge=None)),
    "many loads": lambda: circuits_of(
        "van/job-garage",
        coach_with("van/job-garage", a="supply", b="supply", c="mains"),
        routed={one: one for one in ("pv", "charge", "supply")} | {"a": "supply", "b": "supply"},
    ),
}


@pytest.mark.parametrize("job", CIRCUITS)
def test_every_demo_job_is_legible_and_says_what_was_worked_out(job):
    # Section, device, drop and places of every circuit, the bonds, the reason for what is not worked out, cautions.
    coach, found = circuits_of(job)
    sheets = one_line_sheets(coach, found, coach.units)
    check_all(sheets)
    text = said(sheets).replace(" ", "")
    wanted = [sentence for one in found.circuits for sentence in (one.where, one.disconnect)]
    for one in found.circuits:
        device, drop = one.device, one.chosen.drop
        wanted += [
            f"{one.chosen.cable.section}, {one.chosen.type_id}",
            f"{device.volts:g} V {device.current}, {device.amperes:g} A, {device.interrupting_amperes / 1000:g} kA",
            f"drop {drop.volts.value:.3g} V, {drop.percent.value:.3g} %",
            f"carries {one.chosen.carrying.governing.amperes.value:.4g} A",
        ]
    wanted += [bond.section for bond in found.bonds]
    wanted += found.left.values()
    for tracker in found.strings.judged.trackers:
        module = tracker.strings.plane.module
        wanted += [f"string's cold Voc {tracker.cold.string.value:.4g} V", f"Isc {module.isc:g} A"]
        wanted += [f"{tracker.fuse.rating.value:g} A"] if tracker.fuse.needed else ["no string fuse"]
    assert [sentence for sentence in wanted if sentence.replace(" ", "") not in text] == []
    assert ("25°C(77°F)" in text) == (coach.units == "in")  # a reader in inches has a thermometer in °F
    assert "compliant" not in text.lower()


@pytest.mark.parametrize("case", ODD)
def test_an_odd_array_is_legible(case):
    coach, found = ODD[case]()
    sheets = one_line_sheets(coach, found, coach.units)
    assert sheets
    check_all(sheets)


def test_what_nothing_serves_or_nobody_worked_out_is_dashed_and_said():
    # A picture that shows a plain line where no cable carries the current would be believed.
    for case, sentence in {
        "four strings on cables that none carries": "pv: NO TYPE OF CABLE SERVES",
        "a cable without a route": "pv: NOT WORKED OUT",
        "no cable to the battery": "controller to battery: NOT WORKED OUT",
    }.items():
        coach, found = ODD[case]()
        (made,) = diagrams(coach, found, "mm")
        parts = [part for chain in (*made.arrays, *made.charging) for part in chain.parts]
        assert [part.open for part in parts if part.title.startswith(sentence)] == [True], case
    coach, found = circuits_of(MID)
    (made,) = diagrams(coach, found, "mm")
    assert not any(part.open for chain in (*made.arrays, *made.charging) for part in chain.parts)


def test_each_tracker_has_a_chain_of_its_own_and_none_is_lost():
    # Four trackers take two sheets; the controller's limits stand beside each.
    coach, found = twins()
    made = diagrams(coach, found, "mm")
    assert [len(one.arrays) for one in made] == [2, 2]
    text = said(one_line_sheets(coach, found))
    assert all(f"tracker {number} of 4" in text for number in (1, 2, 3, 4))
    assert "sheet 2 of" in text


def test_an_array_that_fits_no_controller_has_no_picture():
    coach, found = circuits_of(MID, controller=controller(highest_volts=30.0))
    assert found.strings is None
    assert one_line_sheets(coach, found) == []


def test_the_chain_runs_from_the_strings_to_the_battery():
    # The order in which the parts are met, with a fuse for each of three strings (the truck camper).
    coach, found = circuits_of("truck-camper/job-rear-junction")
    made, _ = diagrams(coach, found, "in")  # the second sheet holds the cable from the shore
    (array,) = made.arrays
    assert [part.symbol for part in array.parts] == ["generator", "fuse", "cable", "cable", "breaker", "converter"]
    assert [part.copies for part in array.parts] == [3, 3, 1, 1, 1, 1]
    assert [part.title.partition(":")[0] for part in array.parts if part.symbol == "cable"] == ["string", "pv"]
    battery, load, branch = made.battery
    assert [part.symbol for part in battery.parts] == ["battery"]
    assert [part.symbol for part in load.parts] == ["fuse", "cable", "inverter"]
    assert branch.apart


def picture(kind):
    """A symbol as a grey copier sees it."""
    figure = Figure(figsize=(0.6, 0.6), dpi=100)
    ax = figure.add_axes((0, 0, 1, 1))
    ax.set(xlim=(-6, 6), ylim=(-6, 6))
    ax.set_axis_off()
    draw_symbol(ax, kind, (0, 0))
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    return np.asarray(canvas.buffer_rgba())[..., :3].mean(axis=2) < 140


def test_symbols_are_told_apart_without_colour():
    # Between any two, a share of the ink is in one and not in the other; least between converter and inverter.
    drawn = {kind: picture(kind) for kind in SYMBOLS}
    for one, other in combinations(drawn, 2):
        differ = (drawn[one] ^ drawn[other]).sum()
        assert differ > 0.1 * min(drawn[one].sum(), drawn[other].sum()), (one, other)
    assert all(one.sum() > 20 for one in drawn.values())


def test_the_same_circuits_give_the_same_bytes():
    coach, found = circuits_of(MID)
    for make in (to_svg, to_png):
        assert make(one_line_sheets(coach, found)[0]) == make(one_line_sheets(coach, found)[0])
