"""What was found out about a cable's routes, so that planning again need not find out what still holds.

Where spaces and passages only get worse, what a search found stays what it would find, as long as none of it leads
through one of them: each of its paths costs what it cost, and every other no less.
"""

from collections.abc import Callable, Hashable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field, replace
from typing import TypeVar

from drawcord.routes.efficient import EfficientSet
from drawcord.routes.leaning import ideal, leaned_on
from drawcord.routes.net import Found, Path
from drawcord.routes.netting import Netted
from drawcord.routes.route import Route
from drawcord.ways.links import Mouth

Some = TypeVar("Some", Found, EfficientSet)


@dataclass(frozen=True)
class _Searched:
    """What a search found, in the numbers of a net with these mouths, and the spaces and passages of its paths."""

    found: Found | EfficientSet
    mouths: tuple[Mouth, ...]
    through: frozenset[str]


@dataclass(frozen=True)
class Memory:
    """What is remembered of a cable.

    `measured`: routes by their stations. `searched`: by what was looked for what was found, if not cut short.
    `ideals`: of criteria the least that a way costs, and the spaces and passages of a way that does.
    `netted`: a net, and all bounds that searches worked out of it; None where it is to be made anew.
    `shut`: the passages that nothing goes through any more since it was made.
    """

    measured: dict[tuple[str, ...], Route] = field(default_factory=dict)
    searched: dict[Hashable, _Searched] = field(default_factory=dict)
    ideals: dict[int, tuple[int, frozenset[str]]] = field(default_factory=dict)
    netted: Netted | None = None
    shut: frozenset[str] = frozenset()

    def search(self, wanted: Hashable, netted: Netted, run: Callable[[], Some]) -> Some:
        """What `run` finds in this net, unless it is remembered."""
        known = self.searched.get(wanted)
        if known is None:
            found = run()
            if found.complete:
                through = leaned_on(netted, (path.states for path in found.paths))
                self.searched[wanted] = _Searched(found, netted.mouths, through)
            return found
        again: Some = known.found  # type: ignore[assignment]
        if known.mouths is netted.mouths:
            return again
        numbers = {mouth.name: number for number, mouth in enumerate(netted.mouths)}
        paths = (
            Path(path.vector, tuple(numbers[known.mouths[state].name] for state in path.states)) for path in again.paths
        )
        return replace(again, paths=tuple(paths))

    def ideal(self, criterion: int, netted: Netted, paths: Sequence[Path]) -> int:
        """The least that a way costs in a criterion."""
        known = self.ideals.get(criterion)
        return known[0] if known else ideal(netted.net, criterion, paths)

    def still(self, changed: AbstractSet[str], *, worse: bool, shut: bool) -> "Memory":
        """What holds after these spaces and passages have changed.

        `worse` if none of them got better, `shut` if all are passages that nothing goes through any more.
        """
        routes = {
            stations: route
            for stations, route in self.measured.items()
            if changed.isdisjoint(route.spaces) and changed.isdisjoint(route.passages)
        }
        if not worse:
            return Memory(routes)
        paths = {key: one for key, one in self.searched.items() if changed.isdisjoint(one.through)}
        ideals = {key: one for key, one in self.ideals.items() if changed.isdisjoint(one[1])}
        return Memory(routes, paths, ideals, self.netted if shut else None, self.shut | changed)
