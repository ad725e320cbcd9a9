"""Plans that contradict themselves nowhere, but run where no cable may: told from legal ones."""

import math
from itertools import pairwise

from mutations import put

from drawcord.verify.circuits import ordered
from drawcord.verify.figures import figures
from drawcord.verify.route import Route
from drawcord.verify.verify import faults

SHIFTS = (-900, -75, 4, 320)  # [mm]


def merged(said, right):
    """What is said, with what is right in its place."""
    if isinstance(said, dict) and isinstance(right, dict):
        return {**said, **{key: merged(said.get(key), value) for key, value in right.items()}}
    if isinstance(said, list) and isinstance(right, list) and len(said) == len(right):
        return [merged(*pair) for pair in zip(said, right, strict=True)]
    return right


def straightened(plan, vehicle, cable, leg, points):
    """The plan with other corners of a leg, and every sum of it worked out anew."""
    changed = put(plan, ("cables", 0, "candidates", 0, "legs", leg, "points_mm"), points)
    said = changed["cables"][0]["candidates"][0]
    route = Route(vehicle, cable, ordered(vehicle, plan)[cable], said)
    right = merged(said, route.right | figures(route))
    right["figures"] = [{**figure, "formula": repr(figure["value"])} for figure in right["figures"]]
    weights = {**vehicle.shop["preferences"]["weights"], **vehicle.owner.get("weights", {})}
    criteria = [right[key] for key in ("length_mm", "in_sight_mm", "roof_holes", "inner_holes")]
    criteria += [route.seconds, route.doubt]
    units = [1, 1, 1000, 1000, 1000 / 60, 0.001]
    weighed = [round(float(w) * 1000 * u) * v for w, u, v in zip(weights.values(), units, criteria, strict=True)]
    right["score_m"] = round(sum(weighed) / 1e6, 3)
    return put(changed, ("cables", 0, "candidates", 0), right)


def detours(points, first):
    """A square line, its stretch from one corner to the next led aside along each other axis.

    By little and by much in turn, towards either side.
    """
    p, q = points[first : first + 2]
    for axis in (axis for axis in range(3) if p[axis] == q[axis]):
        for by in SHIFTS[(first + axis) % 2 :: 2]:
            aside = [[at + by * (side == axis) for side, at in enumerate(point)] for point in (p, q)]
            line = [*points[: first + 1], *aside, *points[first + 1 :]]
            steps = [[b - a for a, b in zip(*pair, strict=True)] for pair in pairwise(line)]
            if all(sum(u * v for u, v in zip(*pair, strict=True)) == 0 for pair in pairwise(steps)):
                yield line


def beyond(leg):
    """The first corner of a leg that is not within what it passes through."""
    points = leg["points_mm"]
    steps = [sum(abs(u - v) for u, v in zip(*pair, strict=True)) for pair in pairwise(points)]
    return next(n for n in range(len(points)) if sum(steps[:n]) >= leg["through_mm"])


def tries(case):
    """Every winner without joints, with one stretch of one leg led aside, and that leg's corners in its space."""
    for one in case.plan["cables"]:
        if not one["candidates"] or one["candidates"][0]["joints"]:
            continue
        plan, vehicle = case.alone(one["cable"], most=1)
        for number, leg in enumerate(one["candidates"][0]["legs"]):
            begins = beyond(leg)
            for first in range(begins, len(leg["points_mm"]) - 1):
                for line in detours(leg["points_mm"], first):
                    yield one["cable"], plan, vehicle, number, leg, line, [tuple(point) for point in line[begins:]]


def test_a_stretch_may_be_led_aside_exactly_as_far_as_there_is_room(cases):
    """With all sums made right, only the place itself can be wrong.

    drawcord's own runs say whether it is: no way between two points is as short as a straight line that is clear.
    """
    legal = illegal = 0
    kinds = set()
    for case in cases:
        for cable, plan, vehicle, number, leg, line, inside in tries(case):
            runs = case.ways.runs[leg["space"]]
            free = all(runs.lengths(pair)[0][1] == math.ceil(math.dist(*pair)) for pair in pairwise(inside))
            found = faults(straightened(plan, vehicle, cable, number, line), vehicle)
            out_of_place = any("leaves its space" in fault for fault in found)  # longer, it may lose too much too
            assert out_of_place == (not free), (case.path.stem, cable, leg["space"], line, found)
            kinds.add(leg["kind"])
            legal, illegal = legal + free, illegal + (not free)
    assert min(legal, illegal) > 100
    assert kinds >= {"roof", "room", "cabinet", "chase", "bay", "underfloor"}


def test_a_plan_that_was_only_worked_out_again_passes(cases):
    """Nothing of the helper above puts a fault into a plan."""
    for case in cases:
        for one in case.plan["cables"]:
            if one["candidates"]:
                plan, vehicle = case.alone(one["cable"], most=1)
                points = plan["cables"][0]["candidates"][0]["legs"][0]["points_mm"]
                assert faults(straightened(plan, vehicle, one["cable"], 0, points), vehicle) == []
