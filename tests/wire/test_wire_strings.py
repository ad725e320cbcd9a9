"""What a grouping means for controller and battery: what bars, what only clips, what is said."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wire_samples import EUROPE, RULES, US, battery, controller, module

from drawcord.wire.grouping import Grouping, Plane, Strings
from drawcord.wire.strings import judge, shade
from drawcord.wire.tracked import Climate
from drawcord.words.finding import Severity

MILD = Climate(-10.0, 70.0)


def wired(*shapes, of=None, left_out=0):
    """A grouping with a tracker for each (series, parallel)."""
    plane = Plane("roof", of or module(), tuple(f"module {number}" for number in range(24)))
    return Grouping(tuple(Strings(plane, series, parallel) for series, parallel in shapes), left_out)


def judged(grouping, *, rules=US, climate=MILD, drop=0.02, supply=None, **changed):
    return judge(rules, grouping, controller(**changed), supply or battery(), climate, drop)


def said(found, severity):
    return [one.sentence for one in found.findings if one.severity is severity]


def test_three_in_series_by_hand():
    # 24.6 V, -0.27 %/°C, -10 °C: 24.6 · 1.0945 = 26.92 V; three of them 80.77 V, 83.2 V with margin, below
    # 100 V. 20.5 V at 70 °C: 20.5 · (1 - 0.0039 · 45) = 16.90 V; three of them less 2 % 49.69 V, above 14.4 +
    # 1 V.
    found = judged(wired((3, 1)))
    (one,) = found.trackers
    assert one.cold.with_margin.value == pytest.approx(83.20, abs=0.01)
    assert one.reaching.value == pytest.approx(49.69, abs=0.01)
    assert one.imax.value == pytest.approx(12.75)
    assert not found.barred
    # 3 · 200.9 W make 602.7 W, at 14.4 V 41.85 A, of which 30 A are given.
    assert found.watts.value == pytest.approx(602.7)
    assert found.offered.value == pytest.approx(41.854, abs=0.001)
    assert found.clipped.value == pytest.approx(11.854, abs=0.001)


def test_the_charge_current_only_clips_and_says_how_much():
    found = judged(wired((3, 1)))
    (sentence,) = said(found, Severity.NOTICE)
    assert "11.9 A of 41.9 A (28 %) are clipped: controller gives 30 A" in sentence
    assert not judged(wired((3, 1)), output_amperes=60.0).clipped.value


@pytest.mark.parametrize(
    ("shape", "changed", "sentence"),
    [
        ((4, 1), {}, "110.9 V at -10 °C is above the 100 V"),
        ((1, 3), {}, "38.2 A into a short circuit is above the 35 A"),
        ((1, 1), {"running_margin": 3.0}, "16.6 V are left on a hot afternoon, 17.4 V are needed"),
    ],
)
def test_voltage_and_short_circuit_limits_bar(shape, changed, sentence):
    found = judged(wired(shape), **changed)
    assert found.barred
    assert any(sentence in one for one in said(found, Severity.REFUSAL))


def test_the_limits_hold_for_each_tracker_by_itself():
    # Two trackers of one string each bear what one tracker with two strings would not.
    narrow = {"short_circuit_amperes": 15.0, "trackers": 2}
    assert not judged(wired((2, 1), (2, 1)), **narrow).barred
    assert judged(wired((2, 2)), **narrow).barred


def test_the_worst_tracker_bars_the_grouping_and_is_named():
    found = judged(wired((2, 1), (5, 1)), trackers=2)
    refusals = [one for one in found.findings if one.severity is Severity.REFUSAL]
    assert [one.place for one in refusals] == ["controller tracker 2"]


def test_start_up_is_judged_apart_and_does_not_bar():
    # Hot Voc of one module: 24.6 · (1 - 0.0027 · 45) = 21.6 V; 14.4 + 10 V are needed to start.
    found = judged(wired((1, 1)), starting_margin=10.0)
    assert not found.barred
    assert any(
        "21.6 V open circuit" in one and "24.4 V are needed" in one for one in said(found, Severity.CAUTION)
    )


def test_the_drop_on_the_way_counts_on_a_hot_afternoon():
    # 16.90 V hot: enough for 15.4 V without drop, not with 10 % lost.
    assert not judged(wired((1, 1)), drop=0.0).barred
    assert judged(wired((1, 1)), drop=0.10).barred


def test_equalising_asks_for_more():
    assert judged(wired((1, 1)), supply=battery(equalise=16.0)).barred


@pytest.mark.parametrize(
    ("shape", "words"),
    [((1, 1), None), ((2, 1), "when wet (above 30 V)"), ((3, 1), "even when dry (above 60 V)")],
)
def test_voltages_that_are_dangerous_to_touch(shape, words):
    # 27.7, 55.5 and 83.2 V against 30 V wet and 60 V dry.
    found = [one for one in said(judged(wired(shape)), Severity.CAUTION) if "dangerous to touch" in one]
    assert [words in one for one in found] == ([True] if words else [])


def test_close_to_the_limit_in_deep_cold_is_said():
    # Three at -40 °C: 24.6 · 1.1755 · 3 · 1.03 = 89.4 V; within 2 % of 90 V, not of 100 V, and not at -10 °C.
    warned = []
    for celsius, most in ((-40.0, 90.0), (-40.0, 100.0), (-10.0, 84.0)):
        found = judged(wired((3, 1)), climate=Climate(celsius, 70.0), highest_volts=most)
        warned.append(any("one module in a hundred" in one for one in said(found, Severity.CAUTION)))
    assert warned == [True, False, False]


def test_strings_that_need_a_fuse_that_does_not_exist_are_barred():
    # Europe, three strings: 20.4 A come back, the module bears 15 A; 1.5 · 10.2 A is 15.3 A: nothing between.
    weak = module(series_fuse=15.0)
    found = judged(wired((1, 3), of=weak), rules=EUROPE, short_circuit_amperes=60.0)
    assert found.barred
    assert "no standard fuse fits between" in said(found, Severity.REFUSAL)[0]


def test_modules_left_out_are_said():
    assert "2 modules are left out" in said(judged(wired((2, 1), left_out=2)), Severity.NOTICE)
    assert "1 module is left out" in said(judged(wired((2, 1), left_out=1)), Severity.NOTICE)


@given(st.integers(1, 6), st.integers(1, 4), st.integers(1, 3), st.sampled_from(sorted(RULES)))
def test_what_bars_a_string_by_voltage_bars_a_longer_one(series, parallel, more, rules):
    def too_high(length):
        found = judged(wired((length, parallel)), rules=RULES[rules])
        return any("is above the 100 V" in one for one in said(found, Severity.REFUSAL))

    assert too_high(series + more) >= too_high(series)


@pytest.mark.parametrize("drop", [-0.01, 1.0, float("nan")])
def test_a_share_lost_is_a_share(drop):
    with pytest.raises(ValueError, match=f"the share lost on the way lies between 0 and 1, not {drop}"):
        judged(wired((1, 1)), drop=drop)


def test_shade_in_plain_words():
    plane = wired((1, 1)).trackers[0].plane
    words = {shape: shade(Strings(plane, *shape)) for shape in ((1, 1), (1, 3), (3, 1), (2, 2))}
    assert words[1, 1] == "Shade on one module takes away all there is."
    assert "1 of 3 strings; the others go on" in words[1, 3]
    assert "at best 1/3 of the string's voltage" in words[3, 1]
    assert "1 of 2 strings; the others go on" in words[2, 2]


def test_the_chain_prints_whole():
    # Each figure of a tracker has a working and a source.
    for one in judged(wired((2, 3)), short_circuit_amperes=60.0).trackers[0].figures:
        assert one.formula
        assert one.source
