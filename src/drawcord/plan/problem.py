"""The joint problem in plain numbers: a net for each cable, and things that cables pay for once between them.

A *thing* is whatever several cables may use and only one has to pay for: a hole, a space to open, a doubt, a
piece of raceway. Nothing here knows coaches, so that any problem of this form can be posed, such as a Steiner
tree: one cable to each of its ends, and every edge a thing.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache, cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from drawcord.plan.meeting import Group
from drawcord.routes.least import Array
from drawcord.routes.net import Net, States

Mask = NDArray[np.bool_]
Floats = NDArray[np.float64]
Ban = tuple[int, Group]  # a thing, and cables that may not all use it


@dataclass(frozen=True, eq=False)
class Commodity:
    """One cable: its net, whose only criterion is what the cable pays by itself, and what its arcs use.

    `arc`, `thing`: pairs; an arc uses a thing. A route uses no thing twice.
    `step`: of each arc what it does, from passage to passage; a route's steps name its order of passages.
    `sight`: what of an arc's cost is for raceway, which others may share [weight].
    `origin`: of each state the mouth that it stands for.
    `always`: things that every route uses. `base`: what every route costs besides.
    `spent`: what each arc takes of what is limited, shape (arcs, limits); `most`: of which a route may take no more.
    """

    net: Net
    arc: Array
    thing: Array
    step: Array
    sight: Array
    origin: Array
    always: tuple[int, ...]
    base: int
    spent: Array
    most: tuple[int, ...]

    @property
    def own(self) -> Array:
        """The cost of each arc without the things it uses."""
        return self.net.cost[:, 0]

    def costs(self, things: Array) -> Array:
        """The cost of each arc if things cost this much [weight]."""
        return self.own + np.bincount(self.arc, things[self.thing], minlength=len(self.own)).astype(np.int64)

    @cached_property
    def used(self) -> Array:
        """The things that some route may use."""
        return np.union1d(self.thing, np.array(self.always, np.int64))

    def with_own(self, own: Array) -> "Commodity":
        """The same with other costs of its own."""
        return replace(self, net=replace(self.net, cost=own[:, None]))

    def kept(self, mask: Mask) -> "Commodity":
        """The same with some arcs only."""
        net = self.net
        number = np.cumsum(mask) - 1
        pairs = mask[self.arc]
        return replace(
            self,
            net=net.only(mask),
            arc=number[self.arc[pairs]],
            thing=self.thing[pairs],
            step=self.step[mask],
            sight=self.sight[mask],
            spent=self.spent[mask],
        )

    def arcs(self, states: States) -> list[int]:
        """The arcs of a walk, which must all be there."""
        at = np.array([tail * len(self.net.space) + head for tail, head in pairwise(states)])
        found = np.searchsorted(self._keys, at)
        if not np.array_equal(self._keys[np.minimum(found, len(self._keys) - 1)], at):
            raise KeyError(states)
        return list(found.tolist())

    def walk(self, mouths: Sequence[int]) -> States | None:
        """The states of a route that enters these mouths, one after the other; None where that is no route."""
        states = [self.net.start]
        for mouth in mouths[1:]:
            first, last = np.searchsorted(self.net.tail, (states[-1], states[-1] + 1))
            heads = self.net.head[first:last]
            there = heads[self.origin[heads] == mouth]
            if not len(there):
                return None
            states.append(int(there[0]))
        return tuple(states)

    def uses(self, arcs: Iterable[int]) -> set[int]:
        """The things that a route along these arcs uses."""
        first = self.first
        return {*self.always, *(t for arc in arcs for t in self.thing[first[arc] : first[arc + 1]].tolist())}

    @cached_property
    def _keys(self) -> Array:
        return self.net.tail * len(self.net.space) + self.net.head

    @cached_property
    def first(self) -> Array:
        """Of each arc the first of its pairs, and behind the last one their number."""
        return np.searchsorted(self.arc, np.arange(len(self.own) + 1))


@dataclass(frozen=True, eq=False)
class Problem:
    """Cables to be planned together: the `cost` of each thing, and sets of cables that may not all use one."""

    commodities: tuple[Commodity, ...]
    cost: Array
    bans: tuple[Ban, ...]

    @cached_property
    def barred_beside(self) -> tuple[dict[int, list[frozenset[int]]], ...]:
        """For each cable by thing, the sets of others beside which it may not use it (two at least, by a ban)."""
        found: tuple[dict[int, list[frozenset[int]]], ...] = tuple({} for _ in self.commodities)
        for thing, group in self.bans:
            for cable, others in _beside(group):
                found[cable].setdefault(thing, []).append(others)
        return found

    def weight(self, routes: Sequence[States]) -> int:
        """What routes weigh together, each thing paid for once."""
        total, used = 0, set[int]()
        for commodity, states in zip(self.commodities, routes, strict=True):
            arcs = commodity.arcs(states)
            total += commodity.base + int(commodity.own[arcs].sum())
            used |= commodity.uses(arcs)
        return total + int(self.cost[sorted(used)].sum())

    def legal(self, routes: Sequence[States]) -> bool:
        """Whether no thing is used by cables that may not share it."""
        pairs = list(zip(self.commodities, routes, strict=True))
        used = [commodity.uses(commodity.arcs(states)) for commodity, states in pairs]
        return not any(all(thing in used[cable] for cable in group) for thing, group in self.bans)

    def restated(self, before: "Problem", routes: Sequence[States]) -> tuple[States, ...] | None:
        """Routes of another form of this problem, in the states of this one; None where one has been refused."""
        pairs = zip(self.commodities, before.commodities, routes, strict=True)
        found = [here.walk(there.origin[list(states)].tolist()) for here, there, states in pairs]
        walks = tuple(states for states in found if states)
        return walks if len(walks) == len(found) else None

    def kept(self, masks: Sequence[Mask]) -> "Problem":
        """The same with some arcs of each cable only."""
        kept = (commodity.kept(mask) for commodity, mask in zip(self.commodities, masks, strict=True))
        return replace(self, commodities=tuple(kept))

    def only(self, routes: Sequence[States]) -> "Problem":
        """The same with nothing but these routes."""
        masks = []
        for commodity, states in zip(self.commodities, routes, strict=True):
            masks.append(np.zeros(len(commodity.own), np.bool_))
            masks[-1][commodity.arcs(states)] = True
        return self.kept(masks)


@cache
def _beside(group: Group) -> tuple[tuple[int, frozenset[int]], ...]:
    """Each cable with the others."""
    return tuple((cable, frozenset(group) - {cable}) for cable in group)
