"""In which order to look behind things, so that the job takes the least time, and when to stop looking.

What counts is the expected time of looking and of the work that follows (going.py), on what is then the plan. Work on
a route that turns out blocked is lost, and what the next one could take over of it is not credited. That no way
is left at all is as likely whatever the order; the work that is not done then counts nothing. Places are taken
to be clear or blocked independently of each other.

Dynamic programming over what is left to each cable. Up to `MOST` places it is exact; past that, the first of these
that saves the most is looked at: stopping, or any place and then by a rule of thumb (the least time to look for the
likelihood of finding it blocked, among the places on the best routes, until looking does not pay).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from heapq import heappop, heappush
from math import inf

from drawcord.plan.alternatives import Unproven
from drawcord.plan.best_choice import Lefts
from drawcord.plan.going import Going
from drawcord.plan.knowing import Knowing

MOST = 12
LIKELY = 0.01  # what is reached less likely is not looked ahead into, past `MOST` places: a new card says what follows


@dataclass(frozen=True)
class Step:
    """What to do now: look at a place, or, without one, go to work with what is `left`."""

    left: Lefts
    look: Unproven | None = None
    bit: int = 0
    clear: "Step | None" = None
    blocked: "Step | None" = None

    def steps(self) -> list["Step"]:
        """Itself and all that may follow, each once, what is clear before what is blocked."""
        found: dict[Lefts, Step] = {}
        waiting = [self]
        while waiting:
            step = waiting.pop()
            if step.left not in found:
                found[step.left] = step
                waiting += [after for after in (step.blocked, step.clear) if after]
        return list(found.values())


def size(left: Lefts) -> int:
    """How much is left: every look makes it less."""
    return sum(1 + unknown.bit_count() for each in left for _, unknown in each)


class Looking:
    """The order of looking for cables that share unproven places.

    `seconds`: expected time of looking and work [s]; `without`: if nobody looks; `above_least`: by how much the
    order may miss the least there is [s], nothing where it is exact.
    """

    def __init__(self, knowing: Knowing, most: int = MOST) -> None:
        """Up to `most` places the order is exact."""
        self.knowing, self.going = knowing, Going(knowing)
        self.start = knowing.first()
        self.exact = len(knowing.places) <= most
        self._value: dict[Lefts, tuple[float, int]] = {}
        self._thumb: dict[Lefts, float] = {}
        self._followed: dict[Lefts, float] = {}
        self._steps: dict[Lefts, Step] = {}

    @cached_property
    def card(self) -> Step:
        """What to do first, and after each outcome."""
        return self._step(self.start)

    @cached_property
    def seconds(self) -> float:
        """Expected time [s] of looking and work by the card."""
        return self._follow(self.start)

    @property
    def without(self) -> float:
        """Expected time [s] of the work if nobody looks first."""
        return self.going.seconds(self.start)

    @property
    def above_least(self) -> float:
        """By how much the card may miss the least expected time [s] that any order has."""
        return 0.0 if self.exact else self.seconds - self.going.least(self.start)

    def _step(self, left: Lefts) -> Step:
        if left not in self._steps:
            bit = self._choose(left)
            if not bit:
                self._steps[left] = Step(left)
            else:
                clear, blocked = (self._step(self.knowing.learn_all(left, bit, clear=what)) for what in (True, False))
                self._steps[left] = Step(left, self._place(bit), bit, clear, blocked)
        return self._steps[left]

    def _choose(self, left: Lefts) -> int:
        """The place to look at, or 0 to stop."""
        return self._best(left)[1] if self.exact else self._rolled_out.get(left, 0)

    @cached_property
    def _rolled_out(self) -> dict[Lefts, int]:
        """The place to look at, for all that is reached likely enough; what is left gets less with every look."""
        found: dict[Lefts, int] = {}
        reached = {self.start: 1.0}
        waiting = [(-size(self.start), self.start)]
        while waiting:
            _, left = heappop(waiting)
            found[left] = bit = self._rollout(left) if reached[left] >= LIKELY else 0
            clear = self._place(bit).chance if bit else 0.0
            for is_clear, chance in ((True, clear), (False, 1 - clear)) if bit else ():
                after = self.knowing.learn_all(left, bit, clear=is_clear)
                if after not in reached:
                    heappush(waiting, (-size(after), after))
                reached[after] = reached.get(after, 0.0) + reached[left] * chance
        return found

    def _follow(self, left: Lefts) -> float:
        """The expected time by the card."""
        if self.exact:
            return self._best(left)[0]
        if left not in self._followed:
            bit = self._choose(left)
            self._followed[left] = self._after(left, bit, self._follow) if bit else self.going.seconds(left)
        return self._followed[left]

    def _best(self, left: Lefts) -> tuple[float, int]:
        """The least expected time, and the place to look at; ties to stopping, then to the first id."""
        if left not in self._value:
            best, choice = self.going.seconds(left), 0
            least = self.going.least(left)
            for bit in self._unknown(left):
                place = self._place(bit)
                if best - least <= place.seconds:
                    continue  # to know everything would save less than this look costs
                blocked = self.knowing.learn_all(left, bit, clear=False)
                known = place.seconds + (1 - place.chance) * self.going.least(blocked)
                clear = self._best(self.knowing.learn_all(left, bit, clear=True))[0]
                if known + place.chance * clear >= best:
                    continue
                value = place.seconds + place.chance * clear + (1 - place.chance) * self._best(blocked)[0]
                if value < best:
                    best, choice = value, bit
            self._value[left] = best, choice
        return self._value[left]

    def _rollout(self, left: Lefts) -> int:
        best, choice = self.going.seconds(left), 0
        least = self.going.least(left)
        for _, bit in self._on_the_best(left):
            if best - least > self._place(bit).seconds and (value := self._after(left, bit, self._by_thumb)) < best:
                best, choice = value, bit
        return choice

    def _by_thumb(self, left: Lefts) -> float:
        """The expected time by the rule of thumb."""
        if left not in self._thumb:
            value, ahead = self.going.seconds(left), self._on_the_best(left)
            if ahead:
                value = min(value, self._after(left, min(ahead)[1], self._by_thumb))
            self._thumb[left] = value
        return self._thumb[left]

    def _on_the_best(self, left: Lefts) -> list[tuple[float, int]]:
        found = []
        for cable, best in enumerate(self.knowing.best(left)):
            for bit, _ in self.knowing.ahead(cable, *best) if best else ():
                place = self._place(bit)
                found.append((place.seconds / (1 - place.chance) if place.chance < 1 else inf, bit))
        return found

    def _after(self, left: Lefts, bit: int, then: Callable[[Lefts], float]) -> float:
        place = self._place(bit)
        clear, blocked = (self.knowing.learn_all(left, bit, clear=what) for what in (True, False))
        return place.seconds + place.chance * then(clear) + (1 - place.chance) * then(blocked)

    def _unknown(self, left: Lefts) -> Sequence[int]:
        """The bits of all that is unknown on what is left, in order of ids."""
        together = 0
        for each in left:
            for _, unknown in each:
                together |= unknown
        return [1 << number for number in range(together.bit_length()) if together >> number & 1]

    def _place(self, bit: int) -> Unproven:
        return self.knowing.places[bit.bit_length() - 1]
