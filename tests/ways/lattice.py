"""The slow obvious oracle for square runs: unit steps on the whole-millimetre lattice."""

from heapq import heappop, heappush


def best(start, steps):
    """Least (length, bends, -walled) from start to every point that can be reached.

    `steps(point)` gives (next point, axis, walls) for each allowed unit step. Plain Dijkstra over
    (point, axis of arrival).
    """
    done, least = {}, {}
    queue = [((0, 0, 0), start, -1)]
    while queue:
        cost, point, came = heappop(queue)
        if (point, came) in done:
            continue
        done[point, came] = cost
        least.setdefault(point, cost)
        length, bends, walled = cost
        for there, axis, walls in steps(point):
            turned = came not in (-1, axis)
            heappush(queue, ((length + 1, bends + turned, walled - walls), there, axis))
    return least


def unit_steps(run):
    """The points of an axis-parallel run, one unit step after the other."""
    points = [run[0]]
    for corner in run[1:]:
        differing = [axis for axis in range(len(corner)) if corner[axis] != points[-1][axis]]
        assert len(differing) == 1, f"{points[-1]} to {corner} is no step along one axis"
        axis = differing[0]
        while points[-1] != corner:
            step = 1 if corner[axis] > points[-1][axis] else -1
            points.append(tuple(at + step * (axis == other) for other, at in enumerate(points[-1])))
    return points
