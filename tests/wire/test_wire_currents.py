"""The current a circuit is built for, against examples from public texts and against exact fractions."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wire_samples import US

from drawcord.wire.currents import array_current, continuous_current, rated_current

CURRENTS = st.decimals(min_value=1, max_value=60, places=2).map(float)
GRID = Fraction(1, 10**9)  # of an ampere: what the module says it rounds to


@pytest.mark.parametrize(
    ("strings", "imax", "continuous"),
    [((8.8,), 11.0, 13.75), ((11.2,), 14.0, 17.5), ((8.8, 8.8), 22.0, 27.5)],
)
def test_published_currents(strings, imax, continuous):
    # NEC 690.8: Isc 8.8 A gives 11 and 13.75 A, 11.2 A gives 14.0 and 17.5 A (seen); two like strings carry twice that.
    found = array_current(strings, US.brighter)
    assert found.value == imax
    assert continuous_current(found, US.longer).value == continuous


def test_a_last_binary_digit_does_not_ask_for_the_next_rating():
    # Three times 6.4 A times 1.25 are 24 A and times 1.25 again 30 A, a standard rating; in binary they are
    # 24.000000000000004 and so would ask for 35 A.
    assert 1.25 * (6.4 + 6.4 + 6.4) != 24
    found = array_current([6.4, 6.4, 6.4], US.brighter)
    assert (found.value, continuous_current(found, US.longer).value) == (24.0, 30.0)


@given(st.lists(CURRENTS, min_size=1, max_size=6))
def test_rounding_hides_nothing_that_a_meter_could_show(strings):
    # Against exact fractions of the numbers as they are written: within half a millionth of a milliampere.
    exact = Fraction(5, 4) * sum(Fraction(str(one)) for one in strings)
    found = array_current(strings, US.brighter)
    assert abs(Fraction(found.value) - exact) <= GRID
    assert abs(Fraction(continuous_current(found, US.longer).value) - Fraction(5, 4) * exact) <= 2 * GRID


@given(st.lists(CURRENTS, min_size=1, max_size=6), CURRENTS)
def test_one_more_string_never_lowers_the_current(strings, more):
    assert array_current([*strings, more], US.brighter).value > array_current(strings, US.brighter).value


def test_the_working_says_what_was_added():
    # Value, formula and source lead back to each string.
    found = array_current([8.8, 9.1], US.brighter)
    assert found.formula == "1.25 · (8.8 A + 9.1 A)"
    assert found.source == US.brighter.source


def test_what_no_circuit_has_is_refused():
    # No string, and currents that are none.
    with pytest.raises(ValueError, match="at least one string"):
        array_current([], US.brighter)
    for amperes in (0, -3, float("nan"), float("inf")):
        with pytest.raises(ValueError, match="above 0 A"):
            array_current([8.8, amperes], US.brighter)
        with pytest.raises(ValueError, match="the rated current of fridge must be above 0 A"):
            rated_current(amperes, "fridge", "the job")
