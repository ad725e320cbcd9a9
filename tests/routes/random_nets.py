"""Random nets for the tests and the benchmark of the searches: arbitrary ones and boxes in space."""

from itertools import product
from random import Random

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
    out: list[list[tuple[int, tuple[int, ...]]]] = [[] for _ in space]
    for tail, head in product(range(goal), range(1, goal + 1)):
        if space[tail] != space[head] and rng.random() < density:
            out[tail].append((head, tuple(rng.randint(0, most_cost) for _ in range(criteria))))
    return Net.of(space, out, start=0, goal=goal, criteria=criteria, revisit=(1 << spaces) - 1)


def box_net(rng: Random, columns: int, rows: int, levels: int, criteria: int = 4, closed: float = 0.2) -> Net:
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
            opening = not on_roof and rng.random() < 0.25
            passage = (
                0 if opening else 1,
                rng.choice((60, 120)) if opening else rng.choice((600, 900, 1500)),
                rng.choice((0, 0, 51_293)),
                int(on_roof),
            )
            for u, v in product((0.2, 0.8), repeat=2):
                at = [0, 0, 0]
                at[axis] = cuts[axis][box[axis] + 1]
                for a, f in zip([a for a in range(3) if a != axis], (u, v), strict=True):
                    low, high = cuts[a][box[a]], cuts[a][box[a] + 1]
                    at[a] = low + round(f * (high - low))
                stations.append((number[box], other, (at[0], at[1], at[2]), passage))
    start_at = (rng.randrange(cuts[0][-1]), rng.randrange(2500), cuts[2][-1])
    goal_at = tuple(rng.randint(cuts[a][goal_box[a]], cuts[a][goal_box[a] + 1]) for a in range(3))
    space, place, origin, entry = [roof], [start_at], [-1], [(0, 0, 0, 0)]
    exits: list[list[int]] = [[] for _ in range(roof + 1)]
    for below, above, at, passage in stations:
        for tail, head in ((below, above), (above, below)):
            if head == roof:
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
    exits[number[goal_box]].append(goal)
    out: list[list[tuple[int, tuple[int, ...]]]] = []
    for state in range(goal):
        inside = space[state]
        arcs = []
        for head in exits[inside]:
            if head != goal and space[head] == origin[state]:
                continue  # straight back
            run = sum(abs(a - b) for a, b in zip(place[state], place[head], strict=True))
            hole, seconds, unsure, on_roof = entry[head]
            unsure += doubt[space[head]] if head != goal else 0
            seconds += run * rate[inside] // 1000
            arcs.append((head, (run, hole, seconds, unsure, on_roof * hole, run * seen[inside])[:criteria]))
        out.append(arcs)
    out.append([])
    revisit = sum(1 << s for s in range(roof + 1) if seen[s] and criteria == 6 or rate[s] > 30)
    return Net.of(space, out, start=0, goal=goal, criteria=criteria, revisit=revisit)


def cut_points(rng: Random, parts: int, size: int, low: int = 0) -> list[int]:
    """`parts` intervals of [low, size], the shortest about half as long as the longest."""
    widths = [rng.uniform(1, 2) for _ in range(parts)]
    ends = [low]
    for i in range(parts):
        ends.append(low + round((size - low) * sum(widths[: i + 1]) / sum(widths)))
    return ends
