"""A route as a person has it in mind: its whole order of spaces, or spaces to go through and to avoid."""

from collections.abc import Iterator, Sequence
from copy import copy
from dataclasses import dataclass

import numpy as np

from drawcord.routes.bars import Chart, Part, Step
from drawcord.routes.net import Net
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.words.faults import BadInput, Problem
from drawcord.words.nearest import nearest

MOST_THROUGH = 6  # spaces to go through: each doubles what has to be searched


@dataclass(frozen=True)
class Wish:
    """A form of route: `spaces` from terminal to terminal, or else any that goes `through` these, and not into those.

    Following a route from its start, a wish is at some stage, 0 at first: how far along `spaces`, or a bit set
    of the spaces it has been `through`.
    """

    spaces: tuple[str, ...] = ()
    through: tuple[str, ...] = ()
    avoid: tuple[str, ...] = ()

    def after(self, stage: int, space: str) -> int | None:
        """The stage after a space has been entered; None where no route of this form enters it now."""
        if self.spaces:
            return stage + 1 if self.spaces[stage + 1 : stage + 2] == (space,) else None
        if space in self.avoid:
            return None
        return stage | 1 << self.through.index(space) if space in self.through else stage

    @property
    def last(self) -> int:
        """The stage at which a route may end."""
        return len(self.spaces) - 1 if self.spaces else (1 << len(self.through)) - 1

    def holds(self, spaces: Sequence[str]) -> bool:
        """Whether a route through these spaces is of this form."""
        stage = 0
        for space in spaces[1:]:
            onward = self.after(stage, space)
            if onward is None:
                return False
            stage = onward
        return stage == self.last


def wish_of(order: Order, spaces: Sequence[str], through: Sequence[str], avoid: Sequence[str]) -> Wish:
    """The wish as asked for; an order of spaces may leave out those of the terminals. Raises BadInput."""
    first, last = (order.coach.terminals[end].space for end in (order.cable.start, order.cable.end))
    if problems := [Problem((), sentence) for sentence in _wrong(order, spaces, through, avoid, (first, last))]:
        raise BadInput(problems)
    if spaces:
        whole = (*(() if spaces[0] == first else (first,)), *spaces)
        return Wish((*whole, *(() if whole[-1] == last else (last,))))
    return Wish(through=tuple(sorted(set(through) - {first, last})), avoid=tuple(sorted(set(avoid))))


def _wrong(
    order: Order, spaces: Sequence[str], through: Sequence[str], avoid: Sequence[str], ends: Sequence[str]
) -> Iterator[str]:
    known = order.coach.spaces
    for name in dict.fromkeys((*spaces, *through, *avoid)):
        if not name:
            yield "between two commas the id of a space is missing"
        elif name not in known:
            yield f"there is no space {name} here{nearest(name, known)}"
    if not (spaces or through or avoid):
        yield "say which route is meant: --spaces with its spaces in order, --through or --avoid"
    if spaces and (through or avoid):
        yield "--spaces says the whole route, so that --through and --avoid have nothing left to say: leave them out"
    for name in sorted({*through} & {*avoid}):
        yield f"a route cannot go through {name} and avoid it too: leave out one of the two"
    for name in sorted({*avoid} & {*ends}):
        yield f"{order.name} begins or ends in {name}, so that no route of it can avoid {name}"
    if len(set(through)) > MOST_THROUGH:
        yield f"--through takes at most {MOST_THROUGH} spaces: give the whole order with --spaces"


def narrowed(netted: Netted, wish: Wish) -> Netted:
    """A net of the routes of this form alone: a copy of every state for each stage of the wish."""
    net, stages = netted.net, wish.last + 1
    count, into = len(net.space), np.array(net.space)[net.head]  # the goal's -1 is the last column below
    tails, heads, costs = [], [], []
    for stage in range(stages):
        after = [wish.after(stage, name) for name in netted.spaces] + [stage if stage == wish.last else None]
        onward = np.array([-1 if to is None else to for to in after])[into]
        kept = onward >= 0
        tails.append(net.tail[kept] + stage * count)
        heads.append(net.head[kept] + onward[kept] * count)
        costs.append(net.cost[kept])
    goal = wish.last * count + net.goal
    space = [max(name, 0) for name in net.space] * stages  # no arc leads to the goal before the last stage
    space[goal] = -1
    form = copy(netted)
    form.mouths = netted.mouths * stages
    form.net = Net.of(
        space, np.concatenate(tails), np.concatenate(heads), np.concatenate(costs), start=net.start, goal=goal
    )
    return form


def narrowed_chart(every: Chart, wish: Wish) -> Chart:
    """The same of a chart of all ways, open or not: a copy of every part for each stage of the wish."""
    count = 1 + max(part for _, part in every.steps)
    steps: dict[Part, tuple[Step, ...]] = {}
    for stage in range(wish.last + 1):
        for (space, part), onward in every.steps.items():
            found = []
            for (there, other), bars in onward:
                after = stage if there == space else wish.after(stage, there)
                if after is not None:
                    found.append(Step((there, after * count + other), bars))
            steps[space, stage * count + part] = tuple(found)
    last, part = every.goal
    return Chart(every.start, (last, wish.last * count + part), every.before, steps)
