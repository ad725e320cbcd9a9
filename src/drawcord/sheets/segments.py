"""Straight stretches on the page: whether they enter a rectangle, whether they cross."""

Flat = tuple[float, float]


def passes(box: tuple[float, float, float, float], start: Flat, end: Flat) -> bool:
    """Whether a stretch passes through the inside of the rectangle (x0, x1, y0, y1)."""
    x0, x1, y0, y1 = box
    (ax, ay), (bx, by) = start, end
    if (ax <= x0 and bx <= x0) or (ax >= x1 and bx >= x1) or (ay <= y0 and by <= y0) or (ay >= y1 and by >= y1):
        return False  # so it is for nearly all that is asked about
    enter, leave = 0.0, 1.0
    for axis in (0, 1):
        low, high = box[2 * axis], box[2 * axis + 1]
        way = end[axis] - start[axis]
        if way == 0:
            if not low < start[axis] < high:
                return False
            continue
        first, last = sorted(((low - start[axis]) / way, (high - start[axis]) / way))
        enter, leave = max(enter, first), min(leave, last)
    return enter < leave


def cross(one: tuple[Flat, Flat], other: tuple[Flat, Flat]) -> bool:
    """Whether two stretches cross; those that only touch do not."""
    (a, b), (c, d) = one, other
    return _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0


def _side(a: Flat, b: Flat, point: Flat) -> float:
    """Above zero where the point lies to the left of the way from a to b, below zero to the right."""
    return (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])
