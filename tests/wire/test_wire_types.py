"""What no module, controller, battery, cable or device can be is refused with the reason and the value."""

import math

import pytest
from wire_samples import battery, cable, controller, device, module

from drawcord.wire.cable import area_mm2, standard
from drawcord.wire.coefficient import TemperatureCoefficient
from drawcord.wire.conductor import awg_area_mm2, awg_number

IMPOSSIBLE = [0.0, -1.0, math.nan, math.inf]


@pytest.mark.parametrize("value", IMPOSSIBLE)
@pytest.mark.parametrize(
    "field", ["voc", "isc", "vmp", "imp", "series_fuse", "long_mm", "wide_mm", "lead_mm"]
)
def test_a_module_has_no_rating_of_nothing(field, value):
    with pytest.raises(ValueError, match=f"of module must be above 0 (V|A|mm), not {value}"):
        module(**{field: value})


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"isc": 9.0}, "Imp of 9.8 A is not below Isc of 9 A: no load draws more than a short circuit"),
        (
            {"vmp": 25.0},
            "Vmp of 25 V is not below Voc of 24.6 V: a load only lowers the open-circuit voltage",
        ),
        ({"vmp": 24.6}, "Vmp of 24.6 V is not below"),
        ({"series_fuse": 10.0}, "Isc of 10.2 A is not below series fuse of 10 A: its fuse would blow"),
        ({"of_pmp": None}, "needs a coefficient of Vmp or Pmp"),
        ({"connector": " "}, "the connector family of module must not be empty"),
        ({"name": ""}, "a module's name must not be empty"),
        ({"of_voc": TemperatureCoefficient("Isc", 0.05, "%/°C")}, "is a coefficient of Isc, not of Voc"),
        # -0.27 V/°C, meant as a percentage, is 1.1 % of 24.6 V.
        ({"of_voc": TemperatureCoefficient("Voc", -0.27, "V/°C")}, "1.1 % of its Voc a kelvin.*another unit"),
        ({"of_voc": TemperatureCoefficient("Voc", -0.01, "V/°C")}, "0.0407 % of its Voc a kelvin"),
    ],
)
def test_a_module_that_cannot_be(changed, sentence):
    with pytest.raises(ValueError, match=sentence):
        module(**changed)


@pytest.mark.parametrize("value", IMPOSSIBLE)
@pytest.mark.parametrize("field", ["highest_volts", "short_circuit_amperes", "output_amperes"])
def test_a_limit_of_zero_is_no_limit(field, value):
    with pytest.raises(ValueError, match=f"of controller must be above 0 (V|A), not {value}"):
        controller(**{field: value})


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"trackers": 0}, "the trackers of controller must be 1 or more, not 0"),
        ({"running_margin": -1.0}, "the running margin of controller must be 0 V or more, not -1.0"),
        ({"starting_margin": math.nan}, "the start-up margin of controller must be 0 V or more, not nan"),
        ({"terminal_mm2": (16.0, 2.5)}, "run backwards: 16 to 2.5 mm²"),
        ({"terminal_mm2": (0.0, 2.5)}, "the thinnest conductor of controller must be above 0 mm²"),
    ],
)
def test_a_controller_that_cannot_be(changed, sentence):
    with pytest.raises(ValueError, match=sentence):
        controller(**changed)


@pytest.mark.parametrize(
    ("grounding", "poles"),
    [("negative", 1), ("positive", 2), ("floating", 2)],
)
def test_ungrounded_poles_of_the_array(grounding, poles):
    # With the battery's negative on the chassis only a common-negative array has a grounded pole.
    assert len(controller(grounding=grounding).ungrounded) == poles


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"nominal": 0.0}, "the nominal voltage of battery must be above 0 V, not 0.0"),
        (
            {"absorption": 12.0},
            "charged at 12 V, which is not above its nominal 12.8 V: no current would flow",
        ),
        ({"equalise": 14.0}, "equalised at 14 V, below its absorption at 14.4 V"),
        ({"short_circuit_amperes": 0.0}, "the short-circuit current of battery must be above 0 A, not 0.0"),
    ],
)
def test_a_battery_that_cannot_be(changed, sentence):
    with pytest.raises(ValueError, match=sentence):
        battery(**changed)


def test_the_highest_charge_voltage_is_the_equalising_one_if_there_is_one():
    assert battery().highest == 14.4
    assert battery(equalise=15.5).highest == 15.5


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"insulation_celsius": 0.0}, "the insulation temperature of cable of 10 AWG must be above 0 °C"),
        ({"diameter_mm": 0.0}, "the outside diameter of cable of 10 AWG must be above 0 mm"),
        ({"diameter_mm": 2.5}, "10 AWG of copper does not fit into 2.5 mm outside"),
        ({"bend_mm": -4}, "the smallest bend of cable of 10 AWG must be above 0 mm, not -4"),
        ({"zones": ()}, "may run in no zone"),
        ({"metal": None}, "needs both a section and a metal, or neither"),
        ({"section": "10"}, "a section is such as 10 AWG or 6 mm2, not '10'"),
        ({"section": "six mm2"}, "a section is such as 10 AWG or 6 mm2, not 'six mm2'"),
        ({"section": "0 mm2"}, "a section must be above 0 mm², not 0.0"),
        ({"section": "5/0 AWG"}, "a wire gauge is 4/0 to 1/0 or 1 to 44, not '5/0'"),
        ({"loss_db_per_m": 0.2}, "either a power cable of 10 AWG or coax, not both"),
    ],
)
def test_a_cable_that_cannot_be(changed, sentence):
    with pytest.raises(ValueError, match=sentence):
        cable(**changed)


def test_coax_has_a_loss_and_no_section():
    coax = cable(name="coax", section=None, metal=None, loss_db_per_m=0.2)
    assert (coax.section, coax.loss_db_per_m) == (None, 0.2)
    with pytest.raises(ValueError, match="the loss of coax must be above 0 dB/m, not 0"):
        cable(name="coax", section=None, metal=None, loss_db_per_m=0.0)


def test_a_section_says_its_copper():
    assert (standard("10 AWG"), standard("6 mm2")) == ("AWG", "mm2")
    assert area_mm2("2/0 AWG") == awg_area_mm2(awg_number("2/0"))
    assert area_mm2("2.5 mm2") == 2.5


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"volts": 0.0}, "the DC voltage of breaker must be above 0 V, not 0.0"),
        ({"amperes": math.inf}, "the current of breaker must be above 0 A, not inf"),
        ({"poles": 0}, "the poles of breaker must be 1 or more, not 0"),
        ({"interrupting_amperes": 0.0}, "the interrupting rating of breaker must be above 0 A, not 0.0"),
        ({"interrupting_amperes": 10.0}, "carries 20 A but would interrupt only 10 A: is that in kA"),
        ({"kind": "fuse", "polarised": True}, "is a fuse: a wire melts whichever way"),
        ({"kind": "fuse"}, "is a fuse: its link is no switch"),
    ],
)
def test_a_device_that_cannot_be(changed, sentence):
    with pytest.raises(ValueError, match=sentence):
        device(**changed)
