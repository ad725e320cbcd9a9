"""Every grouping, once: against wiring each module by itself in every possible way."""

from collections import Counter
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wire_samples import module

from drawcord.wire.grouping import Plane, groupings

ROOF, AWNING = module(), module(name="small module", voc=22.0, vmp=18.0)


def plane(name, count, of=ROOF):
    return Plane(name, of, tuple(f"{name} {number}" for number in range(count)))


def shape(grouping):
    """What makes a grouping: its trackers' strings, in no order."""
    return tuple(sorted((one.plane.name, one.series, one.parallel) for one in grouping.trackers))


def by_wiring_each_module(planes, trackers):
    """The oracle: every module goes into some string of some tracker or nowhere; keep what is allowed."""
    places = [(one.name, place) for one in planes for place in one.places]
    slots = [None, *product(range(trackers), range(len(places)))]
    found = set()
    for wiring in product(slots, repeat=len(places)):
        strings = {}
        for (name, _), slot in zip(places, wiring, strict=True):
            if slot is not None:
                strings.setdefault(slot, []).append(name)
        fed = {}
        for (tracker, _), names in strings.items():
            fed.setdefault(tracker, []).append(names)
        made = []
        for of_tracker in fed.values():
            alike = {(len(names), *set(names)) for names in of_tracker}
            if len(alike) > 1 or len(min(alike)) != 2:
                break  # unlike counts, or two planes in one string
            (length, name) = alike.pop()
            made.append((name, length, len(of_tracker)))
        else:
            if made:
                found.add(tuple(sorted(made)))
    return found


@pytest.mark.parametrize(
    ("counts", "trackers"),
    [
        ((1,), 1),
        ((2,), 2),
        ((3,), 2),
        ((4,), 1),
        ((4,), 2),
        ((2, 1), 2),
        ((1, 2), 1),
        ((2, 2), 1),
        ((1, 1, 1), 2),
    ],
)
def test_every_grouping_is_found_and_no_other(counts, trackers):
    planes = [plane(f"plane {number}", count) for number, count in enumerate(counts)]
    found = [shape(one) for one in groupings(planes, trackers)]
    assert set(found) == by_wiring_each_module(planes, trackers)
    assert len(found) == len(set(found))


def test_four_like_modules_on_one_tracker():
    # 4 in series; 2 x 2; 4 in parallel; and what leaves some out, said so.
    found = groupings([plane("roof", 4)], 1)
    wired = [(one.trackers[0].series, one.trackers[0].parallel, one.left_out) for one in found]
    assert wired == [(4, 1, 0), (2, 2, 0), (1, 4, 0), (3, 1, 1), (1, 3, 1), (2, 1, 2), (1, 2, 2), (1, 1, 3)]


@settings(max_examples=40)
@given(st.lists(st.integers(1, 6), min_size=1, max_size=3), st.integers(1, 3))
def test_no_module_is_used_twice_and_none_is_forgotten(counts, trackers):
    planes = [plane(f"plane {number}", count) for number, count in enumerate(counts)]
    for one in groupings(planes, trackers):
        used = Counter()
        for strings in one.trackers:
            used[strings.plane.name] += strings.modules
        assert all(used[each.name] <= len(each.places) for each in planes)
        assert sum(used.values()) + one.left_out == sum(counts)
        assert 1 <= len(one.trackers) <= trackers


@given(st.integers(1, 8), st.integers(1, 3))
def test_another_tracker_only_adds_groupings(count, trackers):
    fewer = [shape(one) for one in groupings([plane("roof", count)], trackers)]
    more = [shape(one) for one in groupings([plane("roof", count)], trackers + 1)]
    assert set(fewer) <= set(more)


def test_two_planes_never_share_a_tracker():
    # A tracker finds one maximum power point; two planes have two.
    for one in groupings([plane("roof", 2), plane("awning", 2, AWNING)], 2):
        assert all(len({strings.plane.module}) == 1 for strings in one.trackers)


@pytest.mark.parametrize(
    ("planes", "trackers", "sentence"),
    [
        ([plane("roof", 2)], 0, "the trackers must be 1 or more, not 0"),
        ([], 1, "the planes must be 1 or more, not 0"),
        ([plane("roof", 2), plane("roof", 2)], 1, "a module lies in two planes"),
        ([plane("roof", 30)], 5, "30 modules on 5 trackers make more than 20000 groupings"),
    ],
)
def test_what_cannot_be_grouped(planes, trackers, sentence):
    with pytest.raises(ValueError, match=sentence):
        groupings(planes, trackers)


@pytest.mark.parametrize(
    ("places", "sentence"), [((), "must be 1 or more"), (("a", "b", "a"), "names a module twice: a, b, a")]
)
def test_a_plane_that_cannot_be(places, sentence):
    with pytest.raises(ValueError, match=sentence):
        Plane("roof", ROOF, places)
