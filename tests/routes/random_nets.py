"""Random nets for the tests and the benchmark of the searches, and the slow obvious answer to them."""

from itertools import accumulate, product
from operator import add
from random import Random

import numpy as np

from drawcord.routes.net import Net, Path, States

BAY_HEIGHT, ROOM_HEIGHT = 600, 2100  # [mm]
WIDTH, COLUMN = 2500, 1100  # of the coach, of a column of boxes along it [mm]

Place = tuple[int, ...]


def seeded(seed: int) -> Random:
    """Chance that repeats itself; nothing here is secret."""
    return Random(seed)  # noqa: S311


def all_paths(net: Net) -> list[Path]:
    """Every path, in order of vectors, then states, by walking them all."""
    of = [1 << 1 + space for space in net.space]  # a bit for each space: the goal is in none of them
    arcs: dict[int, list[tuple[int, list[int]]]] = {}
    for tail, head, cost in zip(net.tail.tolist(), net.head.tolist(), net.cost.tolist(), strict=True):
        arcs.setdefault(tail, []).append((head, cost))
    found: list[Path] = []
    stack: list[tuple[States, int, tuple[int, ...]]] = [((net.start,), of[net.start], (0,) * net.cost.shape[1])]
    while stack:
        states, entered, cost = stack.pop()
        if states[-1] == net.goal:
            found.append(Path(cost, states))
            continue
        for head, more in arcs.get(states[-1], ()):
            if not of[head] & entered:
                stack.append(((*states, head), entered | of[head], tuple(map(add, cost, more))))
    return sorted(found)


def arbitrary_net(rng: Random, spaces: int, criteria: int, most_cost: int = 4) -> Net:
    """Small costs without any geometry: many ties, arcs for nothing, and detours that pay."""
    space = [0] + [s for s in range(1, spaces) for _ in range(rng.randint(1, 2))] + [-1]
    goal = len(space) - 1
    density = rng.uniform(0.2, 0.8)
    arcs = [
        (tail, head, *(rng.randint(0, most_cost) for _ in range(criteria)))
        for tail, head in product(range(goal), range(1, goal + 1))
        if space[tail] != space[head] and rng.random() < density
    ]
    table = np.array(arcs, np.int64).reshape(-1, 2 + criteria)
    return Net.of(space, table[:, 0], table[:, 1], table[:, 2:], start=0, goal=goal)


def box_net(rng: Random, columns: int, rows: int, levels: int, *, criteria: int, hard: bool, up: bool) -> Net:
    """A coach of boxes under one roof, from the roof down to a bay or `up` from there; four stations a face.

    Criteria, the first `criteria` of: length [mm], holes, seconds, doubt [µnat], roof holes, length in
    sight [mm]. Where `hard`, each face can be drilled or passed by an unproven opening, so that holes and
    minutes fight doubt. At least two `levels`. Boxes are numbered column by column, upwards within each; the
    roof comes last.
    """
    cuts = [
        cut_points(rng, columns, 0, columns * COLUMN),
        cut_points(rng, rows, 0, WIDTH),
        [0, *cut_points(rng, levels - 1, BAY_HEIGHT, ROOM_HEIGHT)],
    ]
    boxes = list(product(range(columns), range(rows), range(levels)))
    number = {box: i for i, box in enumerate(boxes)}
    roof = len(boxes)
    bay = (rng.randrange(columns), rng.randrange(rows), 0)
    barred = {box for box in boxes if rng.random() < 0.1 and box != bay}
    seconds_a_metre = [rng.choice((30, 30, 30, 45)) for _ in boxes] + [30]
    doubt = [rng.choice((0, 0, 0, 105_361, 356_675)) for _ in boxes] + [0]
    in_sight = [rng.random() < 0.1 for _ in boxes] + [False]

    stations: list[tuple[int, int, Place, Place]] = []
    for box, axis in product(boxes, range(3)):
        after = (*box[:axis], box[axis] + 1, *box[axis + 1 :])
        onto_roof = after[2] == levels
        if {box, after} & barred or not (onto_roof or after in number) or rng.random() < 0.2:
            continue
        other = roof if onto_roof else number[after]
        drilled = (1, rng.choice((600, 900, 1500)), 0, int(onto_roof))
        opening = (0, rng.choice((60, 120)), rng.choice((51_293, 105_361, 356_675)), 0)
        proven = (0, 60, 0, 0)
        kinds = [drilled] if onto_roof else [drilled, drilled, opening, proven]
        passages = [drilled, opening, opening, drilled] if hard else [rng.choice(kinds)] * 4
        spots = [
            [cuts[a][box[a] + 1]] if a == axis else quarters(cuts[a][box[a]], cuts[a][box[a] + 1]) for a in range(3)
        ]
        stations += [(number[box], other, at, kind) for at, kind in zip(product(*spots), passages, strict=True)]

    on_roof = (rng.randrange(columns * COLUMN), rng.randrange(WIDTH), cuts[2][-1])
    in_bay = tuple(rng.randint(cuts[a][bay[a]], cuts[a][bay[a] + 1]) for a in range(3))
    ends = [(roof, on_roof), (number[bay], in_bay)]
    (first, start_at), (last, goal_at) = reversed(ends) if up else ends

    states: list[tuple[int, int, Place, Place]] = [(-1, first, start_at, ())]  # from, into, at, passage
    states += [(tail, head, at, kind) for a, b, at, kind in stations for tail, head in ((a, b), (b, a))]
    states.append((last, -1, goal_at, (0, 0, 0, 0)))
    exits: list[list[int]] = [[] for _ in range(roof + 1)]
    for state, (tail, *_) in enumerate(states[1:], start=1):
        exits[tail].append(state)
    arcs = []
    for state, (origin, inside, at, _) in enumerate(states[:-1]):
        for head in exits[inside]:
            _, into, to, (hole, seconds, unsure, roof_hole) = states[head]
            if into == origin:
                continue  # straight back
            run = sum(abs(a - b) for a, b in zip(at, to, strict=True))
            seconds += run * seconds_a_metre[inside] // 1000
            unsure += doubt[into] if into >= 0 else 0
            arcs.append((state, head, run, hole, seconds, unsure, roof_hole, run * in_sight[inside]))
    table = np.array(arcs, np.int64).reshape(-1, 8)
    return Net.of(
        [into for _, into, _, _ in states],
        table[:, 0], table[:, 1], table[:, 2 : 2 + criteria], start=0, goal=len(states) - 1,
    )  # fmt: skip


def cut_points(rng: Random, parts: int, low: int, high: int) -> list[int]:
    """The ends of `parts` intervals that fill [low, high], none twice as long as another."""
    ends = list(accumulate((rng.uniform(1, 2) for _ in range(parts)), initial=0.0))
    return [low + round((high - low) * end / ends[-1]) for end in ends]


def quarters(low: int, high: int) -> list[int]:
    """Two places well inside an interval."""
    return [low + (high - low) // 4, high - (high - low) // 4]
