"""Pulling a route tight: the least square length for a given order of passages.

In the square metric the three axes separate. Along one axis the least length to every place beyond a number
of mouths is flat over an interval and rises at 1 mm a millimetre outside it; passing the next mouth clips
the interval or moves it to the mouth's nearer end. So one sweep forward and one back find the optimum.
"""

from collections.abc import Sequence

Interval = tuple[int, int]


def pull(intervals: Sequence[Interval]) -> list[int]:
    """Places within each interval, in order, whose sum of distances from each to the next is least [mm].

    A fixed place is an interval of no width. Of several optima it is the one found by going back from the
    last interval and staying as near as can be to the place after.
    """
    flat: list[Interval] = []
    lo, hi = intervals[0]
    for low, high in intervals:
        if hi < low:
            lo = hi = low
        elif lo > high:
            lo = hi = high
        else:
            lo, hi = max(lo, low), min(hi, high)
        flat.append((lo, hi))
    places = [flat[-1][0]]
    for low, high in reversed(flat[:-1]):
        places.append(min(max(places[-1], low), high))
    return places[::-1]
