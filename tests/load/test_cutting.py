"""Cuts from reels and off-cuts: published instances, and every way of cutting small ones."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.load.by_assignment import assign
from drawcord.load.by_flow import flow
from drawcord.load.cutting import Cutting, cutting
from drawcord.load.stock import Stock

KEEP = 30  # mm: left-overs from here up are no scrap


def aims(opened, unserved, keep=KEEP):
    """The aims that the module states, of (stock, cuts) pairs: the smaller, the better, the first counting most."""
    left = [one.length - sum(cuts) for one, cuts in opened]
    return (
        sum(unserved),
        sum(one.length for one, _ in opened if one.bought),
        sum(rest for rest in left if rest < keep),
        len(opened),
        sum(one.length for one, _ in opened),
    )


def best_by_trying_all(wanted, stock):
    """The least aims over every way to take each cut from some single piece of stock, or from none."""
    singles = [one for one in stock for _ in range(one.count)]
    found = []
    for places in product(range(-1, len(singles)), repeat=len(wanted)):
        cuts = {place: [w for w, at in zip(wanted, places, strict=True) if at == place] for place in set(places)}
        unserved = cuts.pop(-1, [])
        if all(sum(lengths) <= singles[place].length for place, lengths in cuts.items()):
            found.append(aims([(singles[place], lengths) for place, lengths in cuts.items()], unserved))
    return min(found)


def aims_of(found: Cutting, stock):
    by_id = {one.id: one for one in stock}
    return aims([(by_id[one.stock], one.cuts) for one in found.opened], found.unserved)


stocks = st.lists(
    st.builds(Stock, st.just(""), st.integers(10, 120), st.integers(1, 2), st.booleans()), min_size=1, max_size=3
).map(lambda some: [Stock(f"reel {n}", one.length, one.count, one.bought) for n, one in enumerate(some)])


@settings(deadline=None, max_examples=150)
@given(st.lists(st.integers(5, 70), min_size=1, max_size=5), stocks)
def test_both_models_are_as_good_as_trying_everything(wanted, stock):
    best = best_by_trying_all(wanted, stock)
    found = cutting(wanted, stock, KEEP)
    assert found.proved
    assert aims_of(found, stock) == best
    assert sorted((*found.unserved, *(cut for one in found.opened for cut in one.cuts))) == sorted(wanted)
    demand = tuple(sorted({w: wanted.count(w) for w in wanted}.items(), reverse=True))
    slow = assign(demand, stock, KEEP)
    served = [cut for _, cuts in slow.opened for cut in cuts]
    unserved = [w for w, count in demand for _ in range(count - served.count(w))]
    assert aims(slow.opened, unserved) == best
    for one in stock:
        assert sum(opened.stock == one.id for opened in found.opened) <= one.count


@pytest.mark.parametrize(
    ("length", "widths", "counts", "reels", "waste"),
    [
        # The 73-roll instance: optimum 73, waste 0.401 % (published; seen, ../shared/check-values.md section 7).
        (
            5600,
            (1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200),
            (22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20),
            73,
            0.401,
        ),
        # The 453-roll instance (published, the same): its material would fit 416.
        (100, (45, 36, 31, 14), (97, 610, 395, 211), 453, None),
        # Bin packing: 9 full bins, for which first fit decreasing takes 11 (Johnson 1973, with e = 1/100; from memory).
        (100, (51, 27, 26, 23), (6, 6, 6, 12), 9, 0.0),
    ],
)
def test_published_instances_of_hundreds_of_equal_reels_are_proved(length, widths, counts, reels, waste):
    wanted = [width for width, count in zip(widths, counts, strict=True) for _ in range(count)]
    found = cutting(wanted, [Stock("reel", length, 1000, bought=True)], keep=length)
    assert found.proved
    assert len(found.opened) == reels
    assert found.unserved == ()
    assert sorted(cut for one in found.opened for cut in one.cuts) == sorted(wanted)
    if waste is not None:
        left = sum(one.left for one in found.opened)
        assert round(100 * left / (reels * length), 3) == waste


def test_the_order_in_which_cuts_and_stock_are_listed_changes_nothing():
    wanted = [4100, 900, 2500, 2500, 700, 3300]
    stock = [Stock("b", 5000), Stock("a", 5000), Stock("c", 9000), Stock("d", 50_000, bought=True)]
    assert cutting(wanted, stock, 500) == cutting(wanted[::-1], stock[::-1], 500)


def test_what_nothing_is_left_for_is_named_and_the_rest_is_cut():
    found = cutting([900, 400], [Stock("off-cut", 500)], 100)
    assert found.unserved == (900,)
    assert [(one.stock, one.cuts, one.left) for one in found.opened] == [("off-cut", (400,), 100)]


def test_without_stock_nothing_is_served_and_without_cuts_nothing_opened():
    assert cutting([300], [], 100) == Cutting((), (300,))
    assert cutting([], [Stock("reel", 500)], 100) == Cutting((), ())


def test_what_is_not_proved_says_how_far_off_it_may_be():
    # An aim that was stopped short keeps its bound, and only such a one is named.
    found = Cutting((), (), ((0, 0), (50_000, 50_000), (410, 380)))
    assert not found.proved
    assert found.gaps == (("scrap [mm]", 410, 380),)


def test_a_model_that_would_be_too_large_is_not_begun():
    demand = ((90, 3), (70, 3), (50, 3), (40, 3))
    assert flow(demand, [Stock("reel", 1000)], 10, 20) is None
    assert flow(demand, [Stock("reel", 1000)], 10, 5000) is not None


@pytest.mark.parametrize(("wanted", "length"), [([0], 10), ([5], 0), ([-3], 10)])
def test_lengths_that_are_none_are_refused(wanted, length):
    with pytest.raises(ValueError, match="no millimetres"):
        cutting(wanted, [Stock("reel", length)], 1)
