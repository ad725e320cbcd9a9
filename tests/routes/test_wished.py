"""A net narrowed to a form of route: against every path of the whole net, and what may not be asked."""

import pytest
from wishes import MOST_PATHS, all_paths, asked, order_of

from drawcord.routes.different import lightest
from drawcord.routes.netting import Netted
from drawcord.routes.weighing import weights
from drawcord.routes.wished import Wish, narrowed, wish_of
from drawcord.words.faults import BadInput
from random_coaches import random_coach


@pytest.mark.parametrize("spaces", [4, 6, 8])
def test_best_of_a_form_against_every_path(spaces):
    """The lightest path of the narrowed net is the lightest of all paths of that form; where none is, none is found."""
    open_forms = closed_forms = 0
    for seed in range(16):
        for _, _, order, wishes in asked(spaces, seed):
            netted = Netted(order)
            paths = all_paths(netted)
            if len(paths) >= MOST_PATHS:
                continue
            by = weights(order.coach)
            for wish in wishes:
                of_form = [path for path in paths if has_form(wish, names(netted, path))]
                best = lightest(narrowed(netted, wish).net, by)
                if best is None:
                    assert not of_form
                    closed_forms += 1
                    continue
                least = min(weighed(netted.net.vector(path), by) for path in of_form)
                assert weighed(best.vector, by) == least
                assert has_form(wish, names(netted, [state % len(netted.net.space) for state in best.states]))
                open_forms += 1
    assert min(open_forms, closed_forms) > 5


def test_stages_follow_a_route():
    """A route holds the form it was asked in, and no other."""
    whole = Wish(spaces=("a", "b", "c"))
    assert whole.holds(("a", "b", "c"))
    assert not whole.holds(("a", "b"))
    assert not whole.holds(("a", "c", "b"))
    some = Wish(through=("b", "c"), avoid=("d",))
    assert some.holds(("a", "c", "e", "b"))
    assert not some.holds(("a", "c", "e"))
    assert not some.holds(("a", "c", "d", "b"))


def test_ends_may_be_left_out():
    """The spaces of the terminals are filled in where an order of spaces leaves them out."""
    order = an_order()
    first, last = (order.coach.terminals[end].space for end in (order.cable.start, order.cable.end))
    between = next(name for name in order.coach.spaces if name not in (first, last))
    whole = (first, between, last)
    for given in (whole, whole[1:], whole[:-1], whole[1:-1]):
        assert wish_of(order, given, (), ()).spaces == whole


def test_what_may_not_be_asked():
    """Unknown spaces come with the nearest, contradictions are named, and all of it at once."""
    order = an_order()
    first, last = (order.coach.terminals[end].space for end in (order.cable.start, order.cable.end))
    other = next(name for name in order.coach.spaces if name not in (first, last))
    assert f"did you mean `{other}`?" in refused(order, [other[:-1] + "x"], [], [])
    assert "say which route is meant" in refused(order, [], [], [])
    assert "--through and --avoid have nothing left to say" in refused(order, [other], [], [first])
    assert f"cannot go through {other} and avoid it too" in refused(order, [], [other], [other])
    assert f"no route of it can avoid {last}" in refused(order, [], [], [last])
    assert "an id" not in refused(order, [other, ""], [], [])
    assert "the id of a space is missing" in refused(order, [other, ""], [], [])
    assert "at most 6" in refused(order, [], sorted(order.coach.spaces)[:8], [])
    assert refused(order, ["x1", "x2"], [], []).count("there is no space") == 2


def an_order():
    rig, job = random_coach(8, 1)
    return order_of(rig, job, "pv")


def refused(order, spaces, through, avoid):
    with pytest.raises(BadInput) as error:
        wish_of(order, spaces, through, avoid)
    return str(error.value)


def names(netted, path):
    return [netted.spaces[place] for place in netted.net.order(path)]


def has_form(wish, spaces):
    """Said once more, without stages."""
    if wish.spaces:
        return tuple(spaces) == wish.spaces
    return set(wish.through) <= set(spaces) and not set(wish.avoid) & set(spaces)


def weighed(vector, by):
    return sum(weight * cost for weight, cost in zip(by, vector, strict=True))
