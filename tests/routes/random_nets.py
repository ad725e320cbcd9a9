"""Random nets for the tests and the benchmark of the searches: arbitrary ones and boxes in space."""

from itertools import product
from random import Random

import numpy as np

from drawcord.routes.net import Net

Point = tuple[int, int, int]

BAY_HEIGHT, ROOM_HEIGHT = 600, 2100  # [mm]
SECONDS_PER_M = (30, 30, 30, 45)  # clipping; the slower spaces are cheaper to leave and enter again


def arbitrary_net(rng: Random, spaces: int, criteria: int, most_cost: int = 4) -> Net:
    """Costs without any geometry, so that every space is worth leaving and entering again."""
    inner = range(1, spaces)
    space = [0] + [s for s in inner for _ in range(rng.randint(1, 2))] + [-1]
    goal = len(space) - 1
    density = rng.uniform(0.3, 0.9)
    arcs = [
        (tail, head, *(rng.randint(0, most_cost) for _ in range(criteria)))
        for tail, head in product(range(goal), range(1, goal + 1))
        if space[tail] != space[head] and rng.random() < density
    ]
    table = np.array(arcs, np.int64).reshape(-1, 2 + criteria)
    return Net.of(
        space, table[:, 0], table[:, 1], table[:, 2:], start=0, goal=goal
    )


def box_net(rng: Random, columns: int, rows: int, levels: int, criteria: int = 4, closed: float = 0.2, hard: bool = False, up: bool = False) -> Net:
    """A coach of boxes under one roof: the start lies on the roof, the goal in the lowest level.

    Runs are square, so that length keeps the triangle inequality in every box. Four stations a face.
    Criteria, the first `criteria` of: length [mm], holes, seconds, doubt [µnat], roof holes, length in
    sight [mm]. Spaces in sight and spaces slower to clip than others are in `revisit`.
    """
    cuts = [
        cut_points(rng, columns, columns * 1100),
        cut_points(rng, rows, 2500),
        [0, *cut_points(rng, levels - 1, ROOM_HEIGHT, BAY_HEIGHT)] if levels > 1 else [0, BAY_HEIGHT],
    ]
    boxes = [box for box in product(range(columns), range(rows), range(levels))]
    roof = len(boxes)
    number = {box: i for i, box in enumerate(boxes)}
    goal_box = (rng.randrange(columns), rng.randrange(rows), 0)
    barred = {box for box in boxes if rng.random() < closed / 2 and box != goal_box}
    rate = [rng.choice(SECONDS_PER_M) for _ in boxes] + [30]
    doubt = [rng.choice((0, 0, 0, 105_361, 356_675)) for _ in boxes] + [0]
    seen = [rng.random() < 0.1 for _ in boxes] + [False]
    stations: list[tuple[int, int, Point, tuple[int, int, int, int]]] = []
    for box in boxes:
        for axis in range(3):
            after = (*box[:axis], box[axis] + 1, *box[axis + 1 :])
            on_roof = axis == 2 and after[2] == levels
            if not on_roof and after not in number:
                continue
            other = roof if on_roof else number[after]
            if box in barred or after in barred or rng.random() < closed:
                continue
            drilled = (1, rng.choice((600, 900, 1500)), 0, int(on_roof))
            opening = (0, rng.choice((60, 120)), rng.choice((51_293, 105_361, 356_675)), 0)
            if hard:
                passages = (drilled, opening, opening, drilled)
            else:
                proven = (0, 60, 0, 0)
                passages = (rng.choice((drilled, drilled, opening, proven)) if not on_roof else drilled,) * 4
            for (u, v), passage in zip(product((0.2, 0.8), repeat=2), passages, strict=True):
                at = [0, 0, 0]
                at[axis] = cuts[axis][box[axis] + 1]
                for a, f in zip([a for a in range(3) if a != axis], (u, v), strict=True):
                    low, high = cuts[a][box[a]], cuts[a][box[a] + 1]
                    at[a] = low + round(f * (high - low))
                stations.append((number[box], other, (at[0], at[1], at[2]), passage))
    start_at = (rng.randrange(cuts[0][-1]), rng.randrange(2500), cuts[2][-1])
    goal_at = tuple(rng.randint(cuts[a][goal_box[a]], cuts[a][goal_box[a] + 1]) for a in range(3))
    ends = [(roof, start_at), (number[goal_box], goal_at)]
    (first, start_at), (last, goal_at) = reversed(ends) if up else ends
    space, place, origin, entry = [first], [start_at], [-1], [(0, 0, 0, 0)]
    exits: list[list[int]] = [[] for _ in range(roof + 1)]
    for below, above, at, passage in stations:
        for tail, head in ((below, above), (above, below)):
            if head == first:
                continue  # the start's space cannot be entered again
            exits[tail].append(len(space))
            space.append(head)
            place.append(at)
            origin.append(tail)
            entry.append(passage)
    goal = len(space)
    space.append(-1)
    place.append(goal_at)
    entry.append((0, 0, 0, 0))
    exits[last].append(goal)
    arcs = []
    for state in range(goal):
        inside = space[state]
        for head in exits[inside]:
            if head != goal and space[head] == origin[state]:
                continue  # straight back
            run = sum(abs(a - b) for a, b in zip(place[state], place[head], strict=True))
            hole, seconds, unsure, on_roof = entry[head]
            unsure += doubt[space[head]] if head != goal else 0
            seconds += run * rate[inside] // 1000
            arcs.append((state, head, run, hole, seconds, unsure, on_roof * hole, run * seen[inside]))
    table = np.array(arcs, np.int64).reshape(-1, 8)
    return Net.of(
        space, table[:, 0], table[:, 1], table[:, 2 : 2 + criteria], start=0, goal=goal
    )


def cut_points(rng: Random, parts: int, size: int, low: int = 0) -> list[int]:
    """`parts` intervals of [low, size], the shortest about half as long as the longest."""
    widths = [rng.uniform(1, 2) for _ in range(parts)]
    ends = [low]
    for i in range(parts):
        ends.append(low + round((size - low) * sum(widths[: i + 1]) / sum(widths)))
    return ends
