"""The fixed point by itself: it ends, what it says stands, and it is the least where growth never helps another."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from drawcord.plan.settle import settle

CABLES = "abc"
LADDERS = {"a": ("a0", "a1", "a2"), "b": ("b0", "b1"), "c": ("c0", "c1", "c2", "c3")}
WHY = ("too thin",)
EVERY = [dict(zip(CABLES, types, strict=True)) for types in product(*LADDERS.values())]


def rung(cable, types):
    """Where on its ladder a cable is; one that is left out counts as being at its start."""
    return LADDERS[cable].index(types[cable]) if cable in types else 0


def pushed(least, by):
    """A judge by which a cable needs a rung of its own, and more with each rung of those beside it."""

    def judge(types):
        need = {c: least[c] + sum(by[c, other] * rung(other, types) for other in CABLES if other != c) for c in types}
        return {c: WHY for c in types if rung(c, types) < need[c]}

    return judge


needs = st.fixed_dictionaries({c: st.integers(0, 2) for c in CABLES})
pushes = st.fixed_dictionaries({pair: st.sampled_from((0, 0, 0, 1)) for pair in product(CABLES, CABLES)})


@given(needs, pushes)
def test_the_least_choice_that_stands_is_found(least, by):
    # The slow way: every choice of types, those that stand, and of these one that none undercuts in any cable.
    judge = pushed(least, by)
    standing = [types for types in EVERY if not judge(types)]
    found = settle(LADDERS, judge)
    if standing:
        lowest = {c: min((types[c] for types in standing), key=LADDERS[c].index) for c in CABLES}
        assert lowest in standing
        assert (found.types, found.stuck) == (lowest, ())
    else:
        assert found.stuck


@given(st.dictionaries(st.integers(0, len(EVERY) - 1), st.sets(st.sampled_from(CABLES), min_size=1)))
def test_it_ends_and_what_it_finds_stands_whatever_the_judge(verdicts):
    # A judge that contradicts itself from one choice to the next: growth may help another cable or do harm.
    def judge(types):
        whole = {c: types.get(c, LADDERS[c][0]) for c in CABLES}
        return {c: WHY for c in sorted(verdicts.get(EVERY.index(whole), ())) if c in types}

    found = settle(LADDERS, judge)
    assert judge(found.types) == {}
    assert set(found.types) | set(found.stuck) == set(CABLES)
    rungs = sum(len(ladder) - 1 for ladder in LADDERS.values())
    assert found.rounds <= (len(CABLES) + 1) * (rungs + 1)
    assert found == settle(dict(reversed(LADDERS.items())), judge)


def test_each_type_given_up_keeps_its_reason_in_the_order_tried():
    # What was wrong with a type is told even where its cable came to stand, and of a stuck one for every type.
    def judge(types):
        wrong = {"a": (f"{types['a']} is short",)} if rung("a", types) < 2 else {}
        return wrong | ({"b": (f"{types['b']} is wide",)} if "b" in types else {})

    found = settle(LADDERS, judge)
    assert found.types == {"a": "a2", "c": "c0"}
    assert found.stuck == ("b",)
    assert list(found.against["a"].items()) == [("a0", ("a0 is short",)), ("a1", ("a1 is short",))]
    assert list(found.against["b"].items()) == [("b0", ("b0 is wide",)), ("b1", ("b1 is wide",))]
    assert found.against["c"] == {}


def test_a_job_without_such_cables_stands_at_once():
    # Nothing to grow is planned once.
    found = settle({}, lambda _: {})
    assert (found.types, found.stuck, found.rounds) == ({}, (), 1)
