"""The fixed point of types and routes: every cable starts at its first type and only grows, until all of them stand."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

Types = Mapping[str, str]  # the type of each cable
GivenUp = Mapping[str, Mapping[str, tuple[str, ...]]]  # of each cable, the types given up and why, in the order tried


@dataclass(frozen=True)
class Settled:
    """The types that stand together, by cable; `against` says of each one given up why, in the order they were tried.

    `stuck` are the cables of which no type stands: their routes are those of the cable as it was written. `rounds`
    counts how often the job was planned.
    """

    types: dict[str, str]
    against: dict[str, dict[str, tuple[str, ...]]]
    stuck: tuple[str, ...]
    rounds: int


def settle(
    ladders: Mapping[str, Sequence[str]], judge: Callable[[Types], Mapping[str, tuple[str, ...]]]
) -> Settled:
    """Plan, take the next type for every cable that does not stand, and plan again until all stand.

    `ladders` are the types of each cable, first the one to start with; `judge` plans the job with one type for each
    cable it is given and says of those that do not stand why. A cable that comes to the end of its ladder is left
    out, and the others start again beside it as it was written. Each round climbs a rung, leaves out a cable or is the
    last, so there are at most (cables + 1) · (rungs + 1) of them.

    Where no cable's growth makes another one stand, no cable of any choice that stands has a type before its own.
    """
    against: dict[str, dict[str, tuple[str, ...]]] = {cable: {} for cable in ladders}
    stuck: list[str] = []
    rounds = 0
    while True:
        at = {cable: 0 for cable in sorted(ladders) if cable not in stuck}
        for cable in at:
            against[cable].clear()
        while True:
            types = {cable: ladders[cable][rung] for cable, rung in at.items()}
            rounds += 1
            wrong = judge(types)
            for cable, why in wrong.items():
                against[cable][types[cable]] = why
            ended = [cable for cable in wrong if at[cable] + 1 == len(ladders[cable])]
            if ended:
                stuck += ended
                break
            if not wrong:
                return Settled(types, against, tuple(sorted(stuck)), rounds)
            for cable in wrong:
                at[cable] += 1
